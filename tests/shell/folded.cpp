// Plates that share nodes along their folds.
#include "shell/assembly.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <string>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// NAFEMS LE5 [from memory]: a Z of flanges 1 m and web 2 m, 10 m long, 0.1 m thick, held at x = 0; at x = 10
// m shears of 0.6 MN along the flanges make a torque of 1.2 MN m. The stress along x at the mid-surface of
// the flange's free edge, 2.5 m from the root. The edge is free, so the stress is E times its strain there.
double z_section_stress(Kind kind, int nx) {
  const double E = 210000.0;
  const int across = nx / 8;
  const auto strip = [&](int n, Vec3 from, Vec3 to) {
    return grid(kind, nx, n, [=](double x, double s) {
      return from + (to - from) * s + Vec3{10000.0 * x, 0, 0};
    });
  };
  Model model(
      joined({strip(across, {0, -1000, 1000}, {0, 0, 1000}), strip(2 * across, {0, 0, 1000}, {0, 0, -1000}),
              strip(across, {0, 0, -1000}, {0, 1000, -1000})}),
      {E, 0.3, 100.0});
  const Mesh& mesh = model.mesh();
  model.hold(mesh.where([](Vec3 p) { return p.x < 1e-6; }), {U, V, W});
  for (const double side : {1.0, -1.0})
    for (int j = 0; j <= across; ++j)
      model.push(mesh.at({10000.0, side * -1000.0 * j / across, side * 1000.0}), V,
                 -side * 0.6e6 / across * (j == 0 || j == across ? 0.5 : 1.0));
  const Freedoms moved = model.solve();
  const double step = 10000.0 / nx;
  const auto u = [&](double x) { return moved(model.freedom(mesh.at({x, -1000.0, 1000.0}), U)); };
  return E * (u(2500.0 + step) - u(2500.0 - step)) / (2.0 * step);
}

// A closed square tube, n cells to the side, turned at its end by an even shear flow: twist per length,
// between a quarter and three quarters of it.
double tube_twist(Kind kind, int n) {
  const double a = 100.0, t = 1.0, length = 400.0, T = 1e5;
  const std::array<Vec3, 4> corner{{{0, 0, 0}, {0, a, 0}, {0, a, a}, {0, 0, a}}};
  std::vector<Mesh> walls;
  for (std::size_t side = 0; side < 4; ++side) {
    const Vec3 from = corner[side], to = corner[(side + 1) % 4];
    walls.push_back(grid(kind, 4 * n, n, [=](double x, double s) {
      return from + (to - from) * s + Vec3{length * x, 0, 0};
    }));
  }
  Model model(joined(walls), {210000.0, 0.3, t});
  const Mesh& mesh = model.mesh();
  model.hold(mesh.where([](Vec3 p) { return p.x < 1e-6; }), {U, V, W});
  const double flow = T / (2.0 * a * a);
  for (std::size_t side = 0; side < 4; ++side) {
    const Vec3 from = corner[side], along = unit(corner[(side + 1) % 4] - from);
    for (int j = 0; j <= n; ++j) {
      const std::size_t node = mesh.at(from + along * (a * j / n) + Vec3{length, 0, 0});
      const double force = flow * a / n * (j == 0 || j == n ? 0.5 : 1.0);
      model.push(node, V, force * along.y);
      model.push(node, W, force * along.z);
    }
  }
  const Freedoms moved = model.solve();
  const auto turn = [&](double x) { // middles of two walls that face each other
    return (moved(model.freedom(mesh.at({x, 0.5 * a, 0.0}), V)) -
            moved(model.freedom(mesh.at({x, 0.5 * a, a}), V))) /
           a;
  };
  return (turn(0.75 * length) - turn(0.25 * length)) / (0.5 * length);
}

} // namespace

TEST_CASE("folded plates twist as Vlasov and Bredt say") {
  const Table table("shell_folded.tsv",
                    {"case", "elements", "cells", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 14);
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    REQUIRE((row.text("case") == "z_section_mpa" || row.text("case") == "tube_rad_per_mm"));
    const auto of_case = row.text("case") == "z_section_mpa" ? z_section_stress : tube_twist;
    const double got = of_case(kind_named(row.text("elements")), row.integer("cells"));
    CAPTURE(got);
    CHECK(std::abs(got / row.number("value") - 1.0) < row.number("tolerance"));
  }
}

TEST_CASE("the stress of the Z section settles with finer meshes") {
  for (const Kind kind : kKinds) {
    const double coarse = z_section_stress(kind, 8), middle = z_section_stress(kind, 16),
                 fine = z_section_stress(kind, 32);
    CHECK(std::abs(fine - middle) < 0.6 * std::abs(middle - coarse));
  }
}
