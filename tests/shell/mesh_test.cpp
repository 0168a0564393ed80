// Plates of four sides, and the nodes along a line.
#include "base/diagnostic.h"
#include "shell/mesh_checks.h"
#include "support/catch.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::shell;
using namespace tacksquare::test;

namespace {

const std::vector<Vec2> kTrapezoid{{0, 0}, {600, 0}, {450, 300}, {100, 300}};

std::vector<double> places(const std::vector<ChainNode>& chain) {
  std::vector<double> at;
  for (const ChainNode& node : chain)
    at.push_back(node.at_mm);
  return at;
}

} // namespace

TEST_CASE("a rectangle has an even number of square elements a side, and nodes in its middles") {
  const PlateShape plate{rectangle(0, 0, 600, 400), {}, {}};
  for (const double size : {100.0, 50.0, 25.0, 12.5}) {
    INFO("size " << size);
    const auto mesh = mesh_plate(plate, size);
    check_mesh(plate, mesh);
    CHECK(mesh.cells.size() == static_cast<std::size_t>(600 / size * 400 / size));
    const auto f = figures(mesh);
    CHECK(f.triangles == 0);
    CHECK(f.shortest_mm == Approx(size).epsilon(1e-12));
    CHECK(f.longest_mm == Approx(size).epsilon(1e-12));
    for (const Vec2 middle : {Vec2{300, 200}, Vec2{300, 0}, Vec2{600, 200}, Vec2{300, 400}, Vec2{0, 200}})
      CHECK(has_node(mesh, middle, 1e-9));
  }
}

TEST_CASE("the number of elements a side is even and nearest to the size, two at least") {
  struct Row {
    double length_mm;
    std::size_t elements;
  };
  for (const Row row : {Row{10, 2}, Row{149, 2}, Row{151, 4}, Row{450, 10}, Row{449, 8}, Row{600, 12}}) {
    INFO("length " << row.length_mm);
    const PlateShape plate{rectangle(0, 0, row.length_mm, 400), {}, {}};
    CHECK(mesh_plate(plate, 50.0).cells.size() == row.elements * 8);
  }
}

TEST_CASE("a size beyond the plate gives the coarsest mesh") {
  const PlateShape plate{rectangle(0, 0, 60, 40), {}, {}};
  CHECK(mesh_plate(plate, 1000.0).cells.size() == 4);
  const PlateShape corner{{{0, 0}, {60, 0}, {60, 20}, {25, 20}, {25, 40}, {0, 40}}, {}, {}};
  const auto mesh = mesh_plate(corner, 1000.0);
  check_mesh(corner, mesh);
  CHECK(mesh.cells.size() < 20);
}

TEST_CASE("a trapezoid is mapped bilinearly, by the longer of two opposite sides") {
  const PlateShape plate{kTrapezoid, {}, {}};
  const auto mesh = mesh_plate(plate, 50.0);
  check_mesh(plate, mesh);
  // 600 mm below: 12; the left side sqrt(100^2 + 300^2) = 316 mm, the right 335 mm: 6.
  CHECK(mesh.cells.size() == 72);
  CHECK(figures(mesh).triangles == 0);
  // Derived: at (1/2, 1/2) the mean of the corners, at (1/4, 1/3) by the four weights (1-s)(1-t) = 1/2,
  // s(1-t) = 1/6, st = 1/12, (1-s)t = 1/4.
  CHECK(has_node(mesh, {287.5, 150}, 1e-9));
  CHECK(has_node(mesh, {600.0 / 6 + 450.0 / 12 + 100.0 / 4, 100}, 1e-9));
}

TEST_CASE("a plate that is turned and moved has the mesh turned and moved") {
  PlateShape shapes[] = {
      {rectangle(0, 0, 450, 350), {}, {{{100, 0}, {100, 350}}}},
      {rectangle(0, 0, 600, 400), {}, {{{275, 0}, {275, 400}}}}, // half a size off the middle
      {kTrapezoid, {}, {{{50, 150}, {525, 150}}}}};
  for (const auto& plate : shapes)
    for (double turn = 0.3; turn < 6.0; turn += 0.3) {
      INFO("turn " << turn);
      const auto mesh = mesh_plate(plate, 50.0);
      const auto turned = mesh_plate(moved(plate, turn, {1200, -700}), 50.0);
      check_mesh(moved(plate, turn, {1200, -700}), turned);
      const auto wanted = moved({mesh.nodes, {}, {}}, turn, {1200, -700}).outline;
      REQUIRE(turned.nodes.size() == wanted.size());
      double off = 0.0;
      for (std::size_t i = 0; i < wanted.size(); ++i)
        off = std::max(off, norm(turned.nodes[i] - wanted[i]));
      CHECK(off < 1e-9);
      REQUIRE(turned.cells.size() == mesh.cells.size());
      bool same = true;
      for (std::size_t i = 0; i < mesh.cells.size(); ++i)
        same = same && turned.cells[i].node == mesh.cells[i].node;
      CHECK(same);
    }
}

TEST_CASE("lines along the net become grid lines with nodes at their ends, wherever they end") {
  struct Row {
    std::string what;
    PlateShape plate;
  };
  const auto plate = rectangle(0, 0, 600, 400);
  const std::vector<Row> rows{
      {"from side to side", {plate, {}, {{{200, 0}, {200, 400}}}}},
      {"from one side", {plate, {}, {{{210, 0}, {210, 170}}}}},
      {"inside", {plate, {}, {{{310, 60}, {310, 335}}}}},
      {"backwards", {plate, {}, {{{310, 335}, {310, 60}}}}},
      {"a cross", {plate, {}, {{{0, 130}, {600, 130}}, {{470, 0}, {470, 400}}}}},
      {"a tee", {plate, {}, {{{0, 130}, {600, 130}}, {{470, 130}, {470, 400}}}}},
      {"two in one line", {plate, {}, {{{20, 130}, {200, 130}}, {{300, 130}, {580, 130}}}}},
      {"one over the other", {plate, {}, {{{20, 130}, {300, 130}}, {{200, 130}, {580, 130}}}}},
      {"beside a side", {plate, {}, {{{0, 12}, {600, 12}}}}},
      {"on a side", {plate, {}, {{{120, 0}, {330, 0}}}}},
      {"in a trapezoid, level", {kTrapezoid, {}, {{{50, 150}, {525, 150}}}}},
      // s = 1/2 joins the middles (300, 0) and (275, 300); from a fifth to the half of its height.
      {"in a trapezoid, upright", {kTrapezoid, {}, {{{295, 60}, {287.5, 150}}}}},
      {"a point on a side", {{{0, 0}, {170, 0}, {600, 0}, {600, 400}, {0, 400}}, {}, {}}},
      {"points on two sides",
       {{{0, 0}, {170, 0}, {400, 0}, {600, 0}, {600, 40}, {600, 400}, {0, 400}}, {}, {}}},
      {"a point first", {{{170, 0}, {600, 0}, {600, 400}, {300, 400}, {0, 400}, {0, 0}}, {}, {}}},
  };
  for (const Row& row : rows)
    for (const double turn : {0.0, 0.8}) {
      INFO(row.what << ", turned by " << turn);
      const auto shape = moved(row.plate, turn, {0, 0});
      for (const double size : {50.0, 25.0}) {
        const auto mesh = mesh_plate(shape, size);
        check_mesh(shape, mesh);
        const auto f = figures(mesh);
        CHECK(f.triangles == 0);
        CHECK(f.longest_mm <= 1.5 * size);
        for (const Vec2 corner : shape.outline)
          CHECK(has_node(mesh, corner, 0.0));
        for (const auto& [a, b] : shape.lines)
          CHECK((has_node(mesh, a, 0.0) && has_node(mesh, b, 0.0)));
        // No element is thinner than what the lines ask for: half of the narrowest gap that a line leaves.
        CHECK(f.shortest_mm >= 0.499 * std::min(12.0, size));
        const auto low = moved({{{0, 0}, {600, 0}}, {}, {}}, turn, {0, 0}).outline;
        CHECK(nodes_along(mesh, low[0], low[1]).size() % 2 == 1); // an even number of elements
      }
    }
}

TEST_CASE("grid lines between a line and the sides keep near the size") {
  const PlateShape plate{rectangle(0, 0, 600, 400), {}, {{{200, 0}, {200, 170}}}};
  const auto mesh = mesh_plate(plate, 50.0);
  // 0-200 in four, 200-300 and 300-600 in fifties; upright 0-170 in three, 170-200 in one, 200-400 in four.
  CHECK(mesh.cells.size() == 12 * 8);
  const auto low = places(nodes_along(mesh, {0, 0}, {600, 0}));
  for (std::size_t i = 0; i < low.size(); ++i)
    CHECK(low[i] == Approx(50.0 * static_cast<double>(i)));
  const auto left = places(nodes_along(mesh, {0, 0}, {0, 400}));
  REQUIRE(left.size() == 9);
  CHECK(left[3] == Approx(170.0));
  CHECK(left[1] == Approx(170.0 / 3));
  CHECK(left[4] == Approx(200.0));
}

TEST_CASE("where the grid lines would be odd in number, the widest part gets one more") {
  const auto mesh = mesh_plate({rectangle(0, 0, 600, 400), {}, {{{75, 0}, {75, 400}}}}, 50.0);
  const auto low = places(nodes_along(mesh, {0, 0}, {600, 0}));
  // 75 mm in two of 37.5, 225 in five of 45, and 300 in seven instead of six of 50.
  REQUIRE(low.size() == 15);
  CHECK(low[2] == Approx(75.0));
  CHECK(low[7] == Approx(300.0));
  CHECK(low[8] == Approx(300.0 + 300.0 / 7));
}

TEST_CASE("what the net does not fit is cut into triangles") {
  const auto plate = rectangle(0, 0, 600, 400);
  const std::vector<PlateShape> shapes{
      {plate, {rectangle(200, 100, 50, 50)}, {}},                     // a cut-out
      {plate, {}, {{{100, 100}, {300, 120}}}},                        // a line askew
      {kTrapezoid, {}, {{{200, 50}, {200, 200}}}},                    // upright, but the net is not
      {plate, {}, {{{0, 0.3}, {600, 0.3}}}},                          // a strip under half a millimetre
      {{{0, 0}, {600, 0}, {300, 400}}, {}, {}},                       // three sides
      {{{0, 0}, {600, 0}, {330, 220}, {0, 400}}, {}, {}},             // a corner of 169 degrees
      {{{0, 0}, {600, 0}, {350, 400}, {250, 400}}, {}, {}},           // sides of 600 and 100
      {{{0, 0}, {600, 0}, {600, 400}, {300, 390}, {0, 400}}, {}, {}}, // a dent
  };
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    INFO("shape " << i);
    const auto mesh = mesh_plate(shapes[i], 100.0);
    check_mesh(shapes[i], mesh);
    CHECK(figures(mesh).quads == 0);
  }
}

TEST_CASE("nodes along a part of a line reach one node beyond it on either side") {
  const auto mesh = mesh_plate({rectangle(0, 0, 600, 400), {}, {}}, 50.0);
  CHECK(places(nodes_along(mesh, {10, 0}, {130, 0})) == std::vector<double>{-10, 40, 90, 140});
  CHECK(places(nodes_along(mesh, {130, 0}, {10, 0})) == std::vector<double>{-20, 30, 80, 130});
  CHECK(places(nodes_along(mesh, {50, 0}, {150, 0})) == std::vector<double>{0, 50, 100});
  CHECK(places(nodes_along(mesh, {600, 110}, {600, 120})) == std::vector<double>{-10, 40});
  CHECK(places(nodes_along(mesh, {10, 200}, {60, 200})) == std::vector<double>{-10, 40, 90});
  CHECK(nodes_along(mesh, {50 - 5e-7, 0}, {150 + 5e-7, 0}).size() == 3);
  CHECK(places(nodes_along(mesh, {0, 1e-7}, {50, 1e-7})) == std::vector<double>{0, 50});
  const auto chain = nodes_along(mesh, {10, 0}, {130, 0});
  for (const ChainNode& n : chain)
    CHECK(mesh.nodes[n.node] == Vec2{10 + n.at_mm, 0});
}

TEST_CASE("there are no nodes along a line that leaves the edges or the plate") {
  const auto mesh = mesh_plate({rectangle(0, 0, 600, 400), {}, {}}, 50.0);
  CHECK(nodes_along(mesh, {0, 10}, {600, 10}).empty());     // between two grid lines
  CHECK(nodes_along(mesh, {0, 0}, {400, 400}).empty());     // over the diagonals of elements
  CHECK(nodes_along(mesh, {500, 0}, {610, 0}).empty());     // beyond the end
  CHECK(nodes_along(mesh, {-10, 0}, {100, 0}).empty());     // before the start
  CHECK(nodes_along(mesh, {0, 2e-6}, {600, 2e-6}).empty()); // beside the side
  CHECK(nodes_along(mesh, {50, 50}, {50, 50}).empty());     // no line
}

TEST_CASE("what is no plate is a bug of ours") {
  CHECK_THROWS_AS(mesh_plate({rectangle(0, 0, 600, 400), {}, {}}, 0.0), InternalError);
  CHECK_THROWS_AS(mesh_plate({rectangle(0, 0, 600, 400), {}, {}}, 1e-200), InternalError);
  CHECK_THROWS_AS(mesh_plate({rectangle(0, 0, 600, 400), {}, {}}, 1.0), InternalError);
  CHECK_THROWS_AS(mesh_plate({{{0, 0}, {600, 0}}, {}, {}}, 50.0), InternalError);
  CHECK_THROWS_AS(mesh_plate({{{0, 0}, {0, 400}, {600, 400}, {600, 0}}, {}, {}}, 50.0), InternalError);
  CHECK_THROWS_AS(mesh_plate({{{0, 0}, {600, 400}, {600, 0}, {0, 300}}, {}, {}}, 50.0), InternalError);
  CHECK_THROWS_AS(mesh_plate({rectangle(0, 0, 600, 400), {rectangle(550, 100, 100, 50)}, {}}, 50.0),
                  InternalError);
}
