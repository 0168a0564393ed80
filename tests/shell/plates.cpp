// Plates in bending against the series of Timoshenko and Woinowsky-Krieger.
#include "shell/assembly.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <map>
#include <string>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr double kSide = 400.0;
const shell::PlateProperties kSteel{210000.0, 0.3, 2.5};

bool at_x(Vec3 p, double x_mm) {
  return std::abs(p.x - x_mm) < 1e-6;
}
bool at_y(Vec3 p, double y_mm) {
  return std::abs(p.y - y_mm) < 1e-6;
}

// Deflection of the centre of a square plate, n by n cells, under 0.001 N/mm2 or 1 N at the centre.
double centre_deflection(Kind kind, int n, const std::string& edges, const std::string& load) {
  Model model(plate(kind, n, n, kSide, kSide), kSteel);
  const Mesh& mesh = model.mesh();
  model.hold_all({U, V, RZ});
  const auto along_y = mesh.where([](Vec3 p) { return at_x(p, 0.0) || at_x(p, kSide); });
  const auto along_x = mesh.where([](Vec3 p) { return at_y(p, 0.0) || at_y(p, kSide); });
  if (edges == "supported") {
    model.hold(along_y, {W, RX});
    model.hold(along_x, {W, RY});
  } else {
    REQUIRE(edges == "clamped");
    model.hold(along_y, {W, RX, RY});
    model.hold(along_x, {W, RX, RY});
  }
  const std::size_t centre = mesh.at({0.5 * kSide, 0.5 * kSide, 0.0});
  if (load == "centre") {
    model.push(centre, W, 1.0);
  } else {
    REQUIRE(load == "pressure");
    for (const Element& element : mesh.elements) {
      const auto corners = flat(mesh, element).corners;
      double area = 0.0;
      for (std::size_t i = 2; i < corners.size(); ++i)
        area += 0.5 * cross(corners[i - 1] - corners[0], corners[i] - corners[0]);
      for (std::size_t i = 0; i < element.corners; ++i)
        model.push(element.node[i], W, 0.001 * area / static_cast<double>(element.corners));
    }
  }
  return model.solve()(model.freedom(centre, W));
}

} // namespace

TEST_CASE("square plates deflect as Timoshenko and Woinowsky-Krieger say, closer with each finer mesh") {
  const Table table("shell_plates.tsv",
                    {"elements", "edges", "load", "cells", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 24);
  std::map<std::string, double> before;
  for (const Table::Row& row : table.rows()) {
    INFO(row.shown());
    const double value = row.number("value");
    const double got = centre_deflection(kind_named(row.text("elements")), row.integer("cells"),
                                         row.text("edges"), row.text("load"));
    const double error = std::abs(got / value - 1.0);
    CAPTURE(got, error);
    CHECK(error < row.number("tolerance"));
    const std::string series = row.text("elements") + row.text("edges") + row.text("load");
    if (before.count(series) != 0) {
      CHECK(error < 0.5 * before[series]);
    }
    before[series] = error;
  }
}

TEST_CASE("a plate on three corners and pulled at the fourth twists exactly") {
  // Timoshenko and Woinowsky-Krieger, article 11: w = P x y / (2 D (1 - nu)) [from memory; derived: Mxy =
  // P/2].
  const double a = 300.0, b = 200.0, P = 2.0, nu = kSteel.nu;
  const double D = kSteel.E_mpa * std::pow(kSteel.t_mm, 3) / (12.0 * (1.0 - nu * nu));
  for (const Kind kind : kKinds) {
    const Mesh net = grid(kind, 5, 4, [&](double x, double y) {
      const double inside = x * (1.0 - x) * y * (1.0 - y) > 1e-9 ? 1.0 : 0.0;
      return Vec3{a * x + inside * 12.0 * std::sin(19.0 * x + 7.0 * y),
                  b * y + inside * 9.0 * std::sin(5.0 * x - 23.0 * y), 0.0};
    });
    Model model(net, kSteel);
    model.hold_all({U, V, RZ});
    for (const Vec3 corner : {Vec3{0, 0, 0}, Vec3{a, 0, 0}, Vec3{0, b, 0}})
      model.hold(net.at(corner), W);
    model.push(net.at({a, b, 0}), W, P);
    const Freedoms moved = model.solve();
    const double most = P * a * b / (2.0 * D * (1.0 - nu));
    for (std::size_t node = 0; node < net.nodes.size(); ++node)
      CHECK(std::abs(moved(model.freedom(node, W)) - most * net.nodes[node].x * net.nodes[node].y / (a * b)) <
            1e-10 * most);
  }
}
