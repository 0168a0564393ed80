// Flat plates that buckle under forces in their plane.
#include "shell/assembly.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <map>
#include <string>
#include <vector>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// k of N = k pi^2 D/b^2 for a square plate.
double buckling_k(Kind kind, int n, const std::string& edges, const std::string& load) {
  const double side = 400.0, nu = 0.3, E = 210000.0, t = 2.5, pi = std::acos(-1.0);
  Model model(plate(kind, n, n, side, side), {E, nu, t});
  const Mesh& mesh = model.mesh();
  const auto on = [side](double at) { return at < 1e-6 || at > side - 1e-6; };
  REQUIRE((edges == "supported" || edges == "clamped"));
  const bool clamped = edges == "clamped";
  for (const std::size_t node : mesh.where([&](Vec3 p) { return on(p.x) || on(p.y); })) {
    model.hold(node, W);
    if (clamped || on(mesh.nodes[node].x)) model.hold(node, RX);
    if (clamped || on(mesh.nodes[node].y)) model.hold(node, RY);
  }
  REQUIRE((load == "compression" || load == "shear"));
  const shell::MembraneForce unit =
      load == "shear" ? shell::MembraneForce(0, 0, 1) : shell::MembraneForce(-1, 0, 0);
  const double D = E * t * t * t / (12.0 * (1.0 - nu * nu));
  return model.buckling_factor(unit) * side * side / (pi * pi * D);
}

} // namespace

TEST_CASE("square plates buckle at Timoshenko and Gere's factors, and finer meshes settle") {
  const Table table("shell_buckling.tsv",
                    {"elements", "edges", "load", "cells", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 18);
  std::map<std::string, std::vector<double>> series;
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    const double got = buckling_k(kind_named(row.text("elements")), row.integer("cells"), row.text("edges"),
                                  row.text("load"));
    CAPTURE(got);
    CHECK(std::abs(got / row.number("value") - 1.0) < row.number("tolerance"));
    series[row.text("elements") + " " + row.text("edges") + " " + row.text("load")].push_back(got);
  }
  for (const auto& [name, k] : series) {
    INFO(name);
    REQUIRE(k.size() == 3);
    CHECK(std::abs(k[2] - k[1]) < 0.5 * std::abs(k[1] - k[0]));
  }
}
