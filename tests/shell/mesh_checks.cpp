#include "shell/mesh_checks.h"

#include "support/catch.h"

// Not all of boost/geometry.hpp: it takes a minute to compile.
#include <boost/geometry/algorithms/area.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/is_valid.hpp>
#include <boost/geometry/algorithms/perimeter.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/strategies/strategies.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <set>

namespace tacksquare::test {
namespace {

namespace bg = boost::geometry;
using Place = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Place>;

constexpr double kDegrees = 180.0 / std::numbers::pi;

// The same shape to another library.
Polygon to_boost(const shell::PlateShape& shape) {
  Polygon polygon;
  for (const Vec2 p : shape.outline)
    polygon.outer().emplace_back(p.x, p.y);
  for (const auto& cutout : shape.cutouts) {
    polygon.inners().emplace_back();
    for (const Vec2 p : cutout)
      polygon.inners().back().emplace_back(p.x, p.y);
  }
  bg::correct(polygon);
  return polygon;
}

std::vector<std::pair<Vec2, Vec2>> sides_of(const shell::PlateShape& shape) {
  std::vector<std::pair<Vec2, Vec2>> sides;
  const auto add = [&](const std::vector<Vec2>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i)
      sides.emplace_back(ring[i], ring[(i + 1) % ring.size()]);
  };
  add(shape.outline);
  for (const auto& cutout : shape.cutouts)
    add(cutout);
  return sides;
}

double angle_deg(Vec2 a, Vec2 b) {
  return std::atan2(std::abs(cross(a, b)), dot(a, b)) * kDegrees;
}

// a node, next node -> how many cells run along it this way
using Ways = std::map<std::pair<std::size_t, std::size_t>, int>;

Ways ways_of(const shell::PlateMesh& mesh) {
  Ways ways;
  for (const auto& cell : mesh.cells)
    for (std::size_t i = 0; i < cell.corners; ++i)
      ++ways[{cell.node[i], cell.node[(i + 1) % cell.corners]}];
  return ways;
}

void check_follows(const shell::PlateMesh& mesh, const Ways& ways, Vec2 a, Vec2 b) {
  const auto chain = shell::nodes_along(mesh, a, b);
  INFO("from " << a.x << " " << a.y << " to " << b.x << " " << b.y);
  REQUIRE(chain.size() >= 2);
  CHECK(norm(mesh.nodes[chain.front().node] - a) < 1e-9);
  CHECK(norm(mesh.nodes[chain.back().node] - b) < 1e-9);
  bool edges = true, in_order = true;
  for (std::size_t k = 0; k + 1 < chain.size(); ++k) {
    const auto p = chain[k].node, q = chain[k + 1].node;
    edges = edges && ways.count({p, q}) + ways.count({q, p}) > 0;
    in_order = in_order && chain[k].at_mm < chain[k + 1].at_mm;
  }
  CHECK(edges);
  CHECK(in_order);
}

} // namespace

std::vector<Vec2> rectangle(double x, double y, double width, double height) {
  return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

std::vector<Vec2> hole(double x, double y, double diameter) {
  std::vector<Vec2> ring;
  for (int i = 0; i < 24; ++i) {
    const double a = std::numbers::pi * i / 12.0;
    ring.push_back({std::round((x + 0.5 * diameter * std::cos(a)) * 1024.0) / 1024.0,
                    std::round((y + 0.5 * diameter * std::sin(a)) * 1024.0) / 1024.0});
  }
  return ring;
}

shell::PlateShape moved(shell::PlateShape shape, double turn_rad, Vec2 by) {
  const double c = std::cos(turn_rad), s = std::sin(turn_rad);
  const auto move = [&](Vec2& p) { p = Vec2{p.x * c - p.y * s, p.x * s + p.y * c} + by; };
  for (Vec2& p : shape.outline)
    move(p);
  for (auto& cutout : shape.cutouts)
    for (Vec2& p : cutout)
      move(p);
  for (auto& [a, b] : shape.lines) {
    move(a);
    move(b);
  }
  return shape;
}

MeshFigures figures(const shell::PlateMesh& mesh, double tiny_mm) {
  MeshFigures f{0, 0, 1e9, 0.0, 180.0, 0.0};
  for (const auto& cell : mesh.cells) {
    ++(cell.corners == 4 ? f.quads : f.triangles);
    double least = 180.0, longest = 0.0;
    for (std::size_t i = 0; i < cell.corners; ++i) {
      const Vec2 p = mesh.nodes[cell.node[i]], q = mesh.nodes[cell.node[(i + 1) % cell.corners]];
      const Vec2 o = mesh.nodes[cell.node[(i + cell.corners - 1) % cell.corners]];
      f.shortest_mm = std::min(f.shortest_mm, norm(q - p));
      longest = std::max(longest, norm(q - p));
      least = std::min(least, angle_deg(q - p, o - p));
    }
    f.longest_mm = std::max(f.longest_mm, longest);
    if (longest > tiny_mm) f.least_angle_deg = std::min(f.least_angle_deg, least);
    f.mean_least_angle_deg += least / static_cast<double>(mesh.cells.size());
  }
  return f;
}

double least_angle_deg(const shell::PlateShape& shape) {
  auto all = sides_of(shape);
  all.insert(all.end(), shape.lines.begin(), shape.lines.end());
  double least = 180.0;
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      for (const auto& [a, b] : {all[i], std::pair(all[i].second, all[i].first)})
        for (const auto& [c, d] : {all[k], std::pair(all[k].second, all[k].first)})
          if (norm(a - c) < 1e-6) least = std::min(least, angle_deg(b - a, d - c));
  return least;
}

void check_mesh(const shell::PlateShape& shape, const shell::PlateMesh& mesh) {
  const Polygon polygon = to_boost(shape);
  REQUIRE(bg::is_valid(polygon));

  double area = 0.0;
  bool convex = true, numbers = true;
  std::set<std::size_t> used;
  for (const auto& cell : mesh.cells) {
    REQUIRE((cell.corners == 3 || cell.corners == 4));
    for (std::size_t i = 0; i < cell.corners; ++i) {
      numbers = numbers && cell.node[i] < mesh.nodes.size();
      used.insert(cell.node[i]);
    }
    REQUIRE(numbers);
    const auto corner = [&](std::size_t i) { return mesh.nodes[cell.node[i % cell.corners]]; };
    for (std::size_t i = 0; i < cell.corners; ++i)
      convex = convex && cross(corner(i + 1) - corner(i), corner(i + 2) - corner(i + 1)) > 0.0;
    for (std::size_t i = 1; i + 1 < cell.corners; ++i)
      area += 0.5 * cross(corner(i) - corner(0), corner(i + 1) - corner(0));
  }
  CHECK(convex); // and counter-clockwise
  CHECK(used.size() == mesh.nodes.size());
  CHECK(area == Approx(bg::area(polygon)).epsilon(1e-9).margin(0.0));

  // Each edge is run along once this way, and once the other way or not at all: then it is on the boundary.
  const Ways ways = ways_of(mesh);
  bool once = true;
  double boundary_mm = 0.0;
  std::size_t outer = 0;
  std::set<std::size_t> on_boundary;
  for (const auto& [way, cells] : ways) {
    once = once && cells == 1;
    if (ways.count({way.second, way.first}) == 1) continue;
    ++outer;
    boundary_mm += norm(mesh.nodes[way.second] - mesh.nodes[way.first]);
    on_boundary.insert({way.first, way.second});
  }
  CHECK(once);
  CHECK(on_boundary.size() == outer);
  CHECK(boundary_mm == Approx(bg::perimeter(polygon)).epsilon(1e-9).margin(0.0));

  const auto edges = static_cast<long>((ways.size() + outer) / 2);
  CHECK(static_cast<long>(mesh.nodes.size()) - edges + static_cast<long>(mesh.cells.size()) ==
        1 - static_cast<long>(shape.cutouts.size()));

  for (const auto& [a, b] : sides_of(shape))
    check_follows(mesh, ways, a, b);
  for (const auto& [a, b] : shape.lines) {
    check_follows(mesh, ways, a, b);
    check_follows(mesh, ways, b, a);
  }
}

bool has_node(const shell::PlateMesh& mesh, Vec2 p, double within_mm) {
  return std::any_of(mesh.nodes.begin(), mesh.nodes.end(),
                     [&](Vec2 node) { return norm(node - p) <= within_mm; });
}

std::string bytes_of(const shell::PlateMesh& mesh) {
  std::string bytes;
  const auto add = [&](std::uint64_t value) {
    for (int i = 0; i < 8; ++i)
      bytes += static_cast<char>(value >> (8 * i) & 0xff);
  };
  for (const Vec2 p : mesh.nodes) {
    add(std::bit_cast<std::uint64_t>(p.x));
    add(std::bit_cast<std::uint64_t>(p.y));
  }
  for (const auto& cell : mesh.cells) {
    add(cell.corners);
    for (const std::size_t node : cell.node)
      add(node);
  }
  return bytes;
}

bool same_bytes(const shell::PlateMesh& a, const shell::PlateMesh& b) {
  return bytes_of(a) == bytes_of(b);
}

} // namespace tacksquare::test
