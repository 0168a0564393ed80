// Elements that grow away from where they are small.
#include "physics/shell/grading.h"
#include "shell/mesh_checks.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::shell;
using namespace tacksquare::test;

namespace {

constexpr double kUsual_mm = 50.0, kSmall_mm = 5.0;

SizeAlong growing() {
  return {[](double at) { return grown_mm(kSmall_mm, at); }, kSmall_mm};
}

Vec2 middle_of(const PlateMesh& mesh, const Cell& cell) {
  Vec2 middle;
  for (std::size_t i = 0; i < cell.corners; ++i)
    middle = middle + mesh.nodes[cell.node[i]] * (1.0 / static_cast<double>(cell.corners));
  return middle;
}

double longest_edge(const PlateMesh& mesh, const Cell& cell) {
  double longest = 0.0;
  for (std::size_t i = 0; i < cell.corners; ++i)
    longest =
        std::max(longest, norm(mesh.nodes[cell.node[(i + 1) % cell.corners]] - mesh.nodes[cell.node[i]]));
  return longest;
}

// The longest edge of the cell that holds a place, or is nearest to it.
double longest_at(const PlateMesh& mesh, Vec2 place) {
  const auto nearest =
      std::min_element(mesh.cells.begin(), mesh.cells.end(), [&](const Cell& a, const Cell& b) {
        return norm(middle_of(mesh, a) - place) < norm(middle_of(mesh, b) - place);
      });
  return longest_edge(mesh, *nearest);
}

} // namespace

TEST_CASE("pieces of one size are equal, and as many as the length has room for") {
  const SizeAlong even{[](double) { return 20.0; }, 20.0};
  CHECK(pieces_along(even, 10.0, 110.0) == Approx(5.0).epsilon(1e-12));
  const std::vector<double> cuts = cuts_along(even, 10.0, 110.0, 4);
  REQUIRE(cuts.size() == 5);
  for (std::size_t i = 0; i < cuts.size(); ++i)
    CHECK(cuts[i] == Approx(10.0 + 25.0 * static_cast<double>(i)).epsilon(1e-12));
}

TEST_CASE("where the size grows with the way the pieces grow by one factor") {
  // The integral of dx/(s + g x) from 0 to x is ln(1 + g x/s)/g.
  const double length = 90.0, pieces = std::log(1.0 + kGrowth * length / kSmall_mm) / kGrowth;
  CHECK(pieces_along(growing(), 0.0, length) == Approx(pieces).epsilon(0.002));
  const std::vector<double> cuts = cuts_along(growing(), 0.0, length, 5);
  REQUIRE(cuts.size() == 6);
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const double wanted =
        (std::exp(kGrowth * pieces * static_cast<double>(i) / 5.0) - 1.0) * kSmall_mm / kGrowth;
    CHECK(cuts[i] == Approx(wanted).margin(0.1));
  }
}

TEST_CASE("cuts from the other end are the same cuts") {
  const double length = 270.0;
  const SizeAlong back{[&](double at) { return grown_mm(kSmall_mm, length - at); }, kSmall_mm};
  const std::vector<double> there = cuts_along(growing(), 0.0, length, 9),
                            other = cuts_along(back, 0.0, length, 9);
  REQUIRE(there.size() == other.size());
  for (std::size_t i = 0; i < there.size(); ++i)
    CHECK(std::abs(there[i] + other[other.size() - 1 - i] - length) < 1e-9);
}

TEST_CASE("elements are small where a plate asks for it, and grow to the usual size away from there") {
  const Vec2 corner{600, 0};
  for (const bool with_hole : {false, true}) { // quadrilaterals, triangles
    PlateShape plate{rectangle(0, 0, 600, 400), {}, {}, {{corner, kSmall_mm}}};
    if (with_hole) plate.cutouts.push_back(rectangle(200, 150, 120, 80));
    INFO((with_hole ? "triangles" : "quadrilaterals"));
    const PlateMesh mesh = mesh_plate(plate, kUsual_mm);
    check_mesh(plate, mesh);
    CHECK(longest_at(mesh, corner) < 2.0 * kSmall_mm);
    CHECK(longest_at(mesh, {100, 300}) > 0.7 * kUsual_mm);
    if (with_hole) // of a net of quadrilaterals whole rows are small
      for (const Cell& cell : mesh.cells) {
        const double wanted = std::min(kUsual_mm, grown_mm(kSmall_mm, norm(middle_of(mesh, cell) - corner)));
        CHECK(longest_edge(mesh, cell) < 1.6 * wanted);
      }
    const PlateShape plain{plate.outline, plate.cutouts, {}};
    CHECK(mesh.cells.size() > mesh_plate(plain, kUsual_mm).cells.size());
    CHECK(mesh.cells.size() < 10 * mesh_plate(plain, kUsual_mm).cells.size());
    CHECK(same_bytes(mesh, mesh_plate(plate, kUsual_mm)));
  }
}

TEST_CASE("small elements stand where a skew plate asks for them") {
  const std::vector<Vec2> lip{{0, 0}, {33, 0}, {314, 281}, {314, 314}};
  PlateShape plate{lip, {}, {}};
  for (const Vec2 p : lip)
    plate.fine.push_back({p, 4.0});
  const PlateMesh mesh = mesh_plate(plate, kUsual_mm);
  check_mesh(plate, mesh);
  CHECK(figures(mesh).triangles == 0);
  for (const Vec2 p : lip)
    CHECK(longest_at(mesh, p) < 8.0);
  CHECK(figures(mesh).longest_mm > 0.7 * kUsual_mm);
}
