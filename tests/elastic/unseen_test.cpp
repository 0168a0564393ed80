// What gives inside the elements beside a short load: the same on every mesh. Along and across: a force on
// the edge of a half plane moves it by 2 P/(pi E t) ln(1/r) (Flamant; Timoshenko and Goodier, Theory of
// Elasticity, "Concentrated force at a point of a straight boundary", from memory); about the edge: a couple
// turns it by 2 M/(pi D (1 - nu) (3 + nu)) ln(1/r) (derived, docs/theory.md, "Beside a tack").
#include "base/units.h"
#include "elastic/made_box.h"
#include "physics/shell/plate.h"
#include "support/catch.h"
#include "support/repeat.h"

#include <array>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr shell::PlateProperties kSheet{210000.0, 0.3, 2.0};
constexpr double kEdge_mm = 300.0, kTall_mm = 600.0;

struct Ways {
  std::array<double, 3> along, across, turn, slope; // each: as elements see it, with what they do not, c
};

// A load over from..to of a plate's edge against one spread over the whole edge, and what that part moves.
Ways answer(const std::vector<Vec2>& outline, double mesh_mm, double from, double to) {
  const Vec2 a{0, 0}, b{kEdge_mm, 0};
  const shell::Plate plate({outline, {}, {}}, kSheet, mesh_mm, {{a, b}});
  const shell::Chain edge = plate.chain(a, b);
  std::vector<shell::Reading> readings;
  for (const Vec3 d : {Vec3{1, 0, 0}, Vec3{0, 1, 0}}) {
    readings.push_back(plate.displacement(edge, from, to, d, {}));
    readings.back().add(plate.displacement(edge, 0.0, kEdge_mm, d, {}), -1.0);
  }
  readings[1].add(plate.displacement(edge, 0.0, kEdge_mm, {0, 1, 0}, {}, shell::Weight::slope),
                  0.5 * (kEdge_mm - from - to)); // balances the moment
  readings.push_back(plate.rotation(edge, from, to));
  readings.back().add(plate.rotation(edge, 0.0, kEdge_mm), -1.0);
  readings.push_back(plate.displacement(edge, from, to, {0, 1, 0}, {}, shell::Weight::slope));
  readings.back().add(plate.displacement(edge, 0.0, kEdge_mm, {0, 1, 0}, {}, shell::Weight::slope), -1.0);
  const Eigen::MatrixXd c = plate.compliance(readings);
  const shell::Unseen more = plate.unseen(edge, from, to);
  const double plane = 2.0 / (kPi * kSheet.E_mpa * kSheet.t_mm);
  const double D = kSheet.E_mpa * std::pow(kSheet.t_mm, 3) / (12.0 * (1.0 - kSheet.nu * kSheet.nu));
  const double turn = 2.0 / (kPi * D * (1.0 - kSheet.nu) * (3.0 + kSheet.nu));
  return {{c(0, 0), c(0, 0) + more.along, plane},
          {c(1, 1), c(1, 1) + more.across, plane},
          {c(2, 2), c(2, 2) + more.turn, turn},
          {c(3, 3), c(3, 3) + more.slope, plane * 9.0 / ((to - from) * (to - from))}};
}

const std::vector<Vec2> kQuads{{0, 0}, {kEdge_mm, 0}, {kEdge_mm, kTall_mm}, {0, kTall_mm}};
const std::vector<Vec2> kTriangles{
    {0, 0}, {kEdge_mm, 0}, {kEdge_mm, kTall_mm}, {170, kTall_mm + 60}, {0, kTall_mm}};

constexpr std::array<std::array<double, 3> Ways::*, 3> kWays{&Ways::along, &Ways::across, &Ways::turn};

} // namespace

TEST_CASE("what elements see of ever shorter loads is what is published, while they are small") {
  const Ways wide = answer(kQuads, 5.0, 110.0, 190.0), narrow = answer(kQuads, 5.0, 130.0, 170.0);
  for (const auto way : kWays) // the wider one is not small beside the plate: 0.02
    CHECK(std::abs(((narrow.*way)[0] - (wide.*way)[0]) / (narrow.*way)[2] - std::log(2.0)) < 0.03);
}

TEST_CASE("a short load on an edge gives the same on coarse meshes as on a fine one") {
  // In parts of c; without what is unseen they are up to 2.5 apart. A corner is a mirror for turning only,
  // and forces in the plane of triangles or beside a corner need elements that are not 50 mm on 300.
  for (const auto& outline : {kQuads, kTriangles})
    for (const double at : {150.0, 87.0, 20.0}) {
      const double from = at - 10.0, to = at + 10.0;
      const Ways fine = answer(outline, 6.25, from, to);
      for (const double mesh_mm : {50.0, 25.0, 12.5}) {
        const Ways coarse = answer(outline, mesh_mm, from, to);
        const auto off = [&](std::array<double, 3> Ways::*way) {
          return std::abs((coarse.*way)[1] - (fine.*way)[1]) / (fine.*way)[2];
        };
        INFO("mesh " << mesh_mm << ", at " << at << ", " << outline.size() << " sides");
        CHECK(off(&Ways::turn) < (at > 50.0 ? 0.1 : 0.2));
        CHECK(off(&Ways::slope) < (at > 50.0 ? 0.1 : 0.3)); // without it 0.9 at 50 mm
        if (mesh_mm > 30.0) continue;
        CHECK(off(&Ways::along) < (at > 50.0 ? 0.1 : 0.3));
        CHECK(off(&Ways::across) < (at > 50.0 ? 0.1 : 0.3));
      }
    }
}

TEST_CASE("a couple spread over a length of a half plane's edge turns it by 9 c/length^2") {
  // 144/length^6 times the double integral of -x y ln |x - y| over the length (Flamant): (length/2)^4.
  const Ways coarse = answer(kQuads, 5.0, 130.0, 170.0);
  CHECK(coarse.slope[1] / coarse.slope[2] == Approx(1.0).epsilon(0.04)); // the plate is 300 mm wide
  if (kSanitized) return; // then the same with four times as many elements
  const Ways fine = answer(kQuads, 2.5, 130.0, 170.0);
  INFO(coarse.slope[0] / coarse.slope[2] << " " << fine.slope[0] / fine.slope[2]);
  CHECK(fine.slope[0] / fine.slope[2] == Approx(1.0).epsilon(0.04));
}

TEST_CASE("a tack between other tacks gives the same on every mesh") {
  // The turn that a tack of 6 mm takes for 1 N mm while the box's other tacks hold.
  StatedBox stated = stated_box("open");
  const auto give = [&](double mesh_mm) {
    std::vector<elastic::TackPlace> tacks;
    for (std::size_t s = 0; s < stated.box.seams.size(); ++s)
      for (const double part : {0.06, 0.35, 0.65, 0.94})
        tacks.push_back({s, part * stated.geometry.seams[s].length_mm, 6.0});
    elastic::ModelOptions options;
    options.mesh_mm = mesh_mm;
    const elastic::BoxModel model = made_box(stated, tacks, {}, options);
    const elastic::Joint& one = model.tacks[1];
    const elastic::Index turn = 3;
    std::vector<elastic::Joint> others = model.tacks;
    others.erase(others.begin() + 1);
    const elastic::Structure held = elastic::closed(model.parts, elastic::closing_of(others, 0));
    return held.compliance(one.readings[turn], one.readings[turn]) + 1.0 / one.stiffness(turn);
  };
  const double coarse = give(50.0), middle = give(25.0), fine = give(12.5);
  INFO(coarse << " " << middle << " " << fine);
  // Elements beside a seam are longer than they are deep where its ends have small ones; what is unseen is
  // that of square ones.
  CHECK(std::abs(coarse / fine - 1.0) < 0.05);
  CHECK(std::abs(middle / fine - 1.0) < 0.04);
}
