// Strips and slender beams against beam theory.
#include "shell/assembly.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <map>
#include <string>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// Forces of a load P spread evenly over the end x = L of a mesh with ny cells across the height h.
void push_end(Model& model, double L, double h, int ny, Freedom f, double P) {
  for (int j = 0; j <= ny; ++j)
    model.push(model.mesh().at({L, h * j / ny, 0.0}), f, P / ny * (j == 0 || j == ny ? 0.5 : 1.0));
}

// Clamped at x = 0, loaded in its plane; the middle of the end over Timoshenko's beam with a shear area of
// 5/6.
double in_plane_cantilever(Kind kind, int nx, double length, double nu) {
  const double h = 100.0, t = 2.5, E = 210000.0, P = 1000.0;
  const int ny = nx / 4;
  Model model(plate(kind, nx, ny, length, h), {E, nu, t});
  model.hold_all({W, RX, RY});
  model.hold(model.mesh().where([](Vec3 p) { return p.x < 1e-6; }), {U, V, RZ});
  push_end(model, length, h, ny, V, P);
  const double I = t * h * h * h / 12.0, G = E / (2.0 * (1.0 + nu));
  const double beam = P * length * length * length / (3.0 * E * I) + P * length / (5.0 / 6.0 * G * h * t);
  return model.solve()(model.freedom(model.mesh().at({length, 0.5 * h, 0.0}), V)) / beam;
}

// MacNeal and Harder's slender beam, 6 by 0.2 by 0.1, six cells: E 1e7, nu 0.3. Sides across lean by 45
// degrees: all the same way (parallelograms) or in turns (trapezia); the ends are square.
Model slender(Kind kind, const std::string& shape) {
  REQUIRE((shape == "regular" || shape == "trapezia" || shape == "parallelograms"));
  const Mesh mesh = grid(kind, 6, 1, [&](double x, double y) {
    const int cell = static_cast<int>(std::lround(6.0 * x));
    double lean = 0.0;
    if (cell > 0 && cell < 6 && shape != "regular")
      lean = shape == "parallelograms" || cell % 2 == 1 ? 1.0 : -1.0;
    return Vec3{6.0 * x + 0.2 * lean * (y - 0.5), 0.2 * y, 0.0};
  });
  Model model(mesh, {1e7, 0.3, 0.1});
  model.hold(mesh.where([](Vec3 p) { return p.x < 1e-9; }), {U, V, W, RX, RY, RZ});
  return model;
}

double slender_tip(Kind kind, const std::string& shape, const std::string& load) {
  Model model = slender(kind, shape);
  const std::size_t low = model.mesh().at({6.0, 0.0, 0.0}), high = model.mesh().at({6.0, 0.2, 0.0});
  if (load == "twist") { // a unit moment, as a couple over the width
    model.push(low, W, -5.0);
    model.push(high, W, 5.0);
    const Freedoms moved = model.solve();
    return 0.5 * (moved(model.freedom(low, RX)) + moved(model.freedom(high, RX)));
  }
  REQUIRE((load == "extension" || load == "in-plane" || load == "out-of-plane"));
  const Freedom f = load == "extension" ? U : load == "in-plane" ? V : W;
  model.push(low, f, 0.5);
  model.push(high, f, 0.5);
  const Freedoms moved = model.solve();
  return 0.5 * (moved(model.freedom(low, f)) + moved(model.freedom(high, f)));
}

} // namespace

TEST_CASE("a cantilever bent in its plane is Timoshenko's beam, closer with each finer mesh") {
  const Table table("shell_cantilever.tsv",
                    {"elements", "length", "nu", "cells", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 8);
  std::map<std::string, double> before;
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    const double got = in_plane_cantilever(kind_named(row.text("elements")), row.integer("cells"),
                                           row.number("length"), row.number("nu"));
    const double error = std::abs(got / row.number("value") - 1.0);
    CAPTURE(got, error);
    CHECK(error < row.number("tolerance"));
    const std::string series = row.text("elements") + row.text("nu");
    if (before.count(series) != 0) {
      CHECK(error < 0.5 * before[series]);
    }
    before[series] = error;
  }
}

TEST_CASE("MacNeal and Harder's slender beam is met as far as such elements can") {
  const Table table("shell_slender_beam.tsv",
                    {"elements", "shape", "load", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 23);
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    const double got = slender_tip(kind_named(row.text("elements")), row.text("shape"), row.text("load"));
    const double error = std::abs(got / row.number("value") - 1.0);
    CAPTURE(got, error);
    CHECK(error < row.number("tolerance"));
  }
}

TEST_CASE("slender trapezia lock in their plane, as MacNeal proved of all four-cornered membranes that pass "
          "the patch test") {
  // MacNeal, "A theorem regarding the locking of tapered four-noded membrane elements", 1987 [from memory].
  // So a strip one element wide must be of rectangles or of triangles.
  const double exact = 0.1081;
  const double quads = slender_tip(Kind::quads, "trapezia", "in-plane") / exact;
  CHECK(quads > 0.03);
  CHECK(quads < 0.1);
  CHECK(slender_tip(Kind::triangles, "trapezia", "in-plane") / exact > 0.7);
}

TEST_CASE("a strip in bending is a beam") {
  // nu 0, so that nothing bends across: P L^3/(3 E I), M L^2/(2 E I) [Timoshenko, Strength of Materials;
  // derived]. The curvature of a triangle of this kind is linear, but not the beam's when cut at a slant:
  // hence 0.12 % under P.
  const double L = 600.0, b = 60.0, t = 2.0, E = 210000.0, I = b * t * t * t / 12.0;
  for (const Kind kind : kKinds)
    for (const bool moment : {false, true}) {
      Model model(plate(kind, 6, 2, L, b), {E, 0.0, t});
      model.hold(model.mesh().where([](Vec3 p) { return p.x < 1e-6; }), {U, V, W, RX, RY, RZ});
      push_end(model, L, b, 2, moment ? RY : W, moment ? -100.0 : 1.0);
      const double exact = moment ? 100.0 * L * L / (2.0 * E * I) : L * L * L / (3.0 * E * I);
      const double got = model.solve()(model.freedom(model.mesh().at({L, 0.5 * b, 0.0}), W));
      CHECK(got == Approx(exact).epsilon(kind == Kind::triangles && !moment ? 0.0012 : 1e-9));
    }
}
