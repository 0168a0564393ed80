#include "geometry/polygon.h"

#include <algorithm>
// Shapes that Boost finds no clean sum for come out as they may; faults of input are told before.
#define BOOST_GEOMETRY_OVERLAY_NO_THROW
// Not all of boost/geometry.hpp: it takes a minute to compile.
#include <boost/geometry/algorithms/area.hpp>
#include <boost/geometry/algorithms/centroid.hpp>
#include <boost/geometry/algorithms/convex_hull.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/covered_by.hpp>
#include <boost/geometry/algorithms/difference.hpp>
#include <boost/geometry/algorithms/distance.hpp>
#include <boost/geometry/algorithms/intersection.hpp>
#include <boost/geometry/algorithms/intersects.hpp>
#include <boost/geometry/algorithms/is_valid.hpp>
#include <boost/geometry/algorithms/union.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/multi_point.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/geometries/segment.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <fmt/format.h>
#include <optional>

namespace tacksquare {
namespace {

namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Point, false, false>; // counter-clockwise, not closed
using Line = bg::model::linestring<Point>;
using Polygons = bg::model::multi_polygon<Polygon>;

constexpr double kSamePoint_mm = 0.01;
constexpr double kStraight_mm = 1e-4; // a point nearer to the line of its neighbours is none
constexpr double kSliver_mm2 = 0.01;

Point point(Vec2 p) {
  return {p.x, p.y};
}

Polygon polygon(const Shape& shape) {
  Polygon p;
  for (const Vec2 v : shape.outline)
    p.outer().push_back(point(v));
  p.inners().resize(shape.holes.size());
  for (std::size_t i = 0; i < shape.holes.size(); ++i)
    for (const Vec2 v : shape.holes[i])
      p.inners()[i].push_back(point(v));
  bg::correct(p);
  return p;
}

double distance_to_ring(const Ring& ring, Vec2 p) {
  Line line;
  for (const Vec2 v : ring)
    line.push_back(point(v));
  line.push_back(point(ring.front()));
  return bg::distance(point(p), line);
}

bool cross_or_touch(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  using Edge = bg::model::segment<Point>;
  return bg::intersects(Edge{point(a), point(b)}, Edge{point(c), point(d)});
}

bool edges_touch(const Ring& a, const Ring& b) {
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t j = 0; j < b.size(); ++j)
      if (cross_or_touch(a[i], a[(i + 1) % a.size()], b[j], b[(j + 1) % b.size()])) return true;
  return false;
}

bool inside(Vec2 p, const Ring& ring) {
  return bg::covered_by(point(p), polygon({ring, {}}));
}

// Where the line p + s d meets the edges of the ring, and where its corners lie along it: all places at which
// a piece of the line can enter or leave the shape.
void add_breaks(const Ring& ring, Vec2 p, Vec2 d, std::vector<double>& at) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    at.push_back(dot(a - p, d));
    const double side_a = cross(d, a - p), side_b = cross(d, b - p);
    if ((side_a < 0.0) != (side_b < 0.0))
      at.push_back(dot(a + (b - a) * (side_a / (side_a - side_b)) - p, d));
  }
}

template <class BoostRing> Ring plain_ring(const BoostRing& from) {
  Ring ring;
  for (const Point& p : from)
    ring.push_back({p.x() + 0.0, p.y() + 0.0});
  return ring;
}

bool is_straight(Vec2 before, Vec2 p, Vec2 after) {
  const Vec2 d = after - before;
  const double length = norm(d);
  return length < kStraight_mm || std::abs(cross(d, p - before)) < kStraight_mm * length;
}

bool lower_left(Vec2 a, Vec2 b) {
  if (std::abs(a.y - b.y) > kStraight_mm) return a.y < b.y;
  return a.x < b.x;
}

// Counter-clockwise, without points in straight edges, from the lowest, then leftmost point.
Ring tidy(Ring ring) {
  if (signed_area(ring) < 0.0) std::reverse(ring.begin(), ring.end());
  for (std::size_t i = 0; ring.size() > 3 && i < ring.size();) {
    const std::size_t n = ring.size();
    if (is_straight(ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n])) {
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
      i = i < 2 ? 0 : i - 2; // its neighbours may be in line now
    } else {
      ++i;
    }
  }
  std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end(), lower_left), ring.end());
  return ring;
}

constexpr double kBoostGrid_mm = 1e-3; // sums may come out on a grid of their own, finer than this

// Each corner of a sum is a corner of what was summed, or a crossing of two of its edges: put exactly there.
Vec2 exact(Vec2 p, const std::vector<Ring>& summed) {
  std::optional<Vec2> corner;
  std::vector<std::pair<Vec2, Vec2>> edges; // a point and the unit direction
  for (const Ring& ring : summed)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
      if (norm(a - p) < kBoostGrid_mm && (!corner || norm(a - p) < norm(*corner - p))) corner = a;
      const double length = norm(b - a);
      if (length < kBoostGrid_mm) continue;
      const Vec2 d = (b - a) * (1.0 / length);
      const double along = dot(p - a, d);
      if (std::abs(cross(d, p - a)) < kBoostGrid_mm && along > -kBoostGrid_mm &&
          along < length + kBoostGrid_mm)
        edges.emplace_back(a, d);
    }
  if (corner) return *corner;
  for (std::size_t i = 1; i < edges.size(); ++i) {
    const auto& [a, d] = edges.front();
    const auto& [b, e] = edges[i];
    const double turn = cross(d, e);
    if (std::abs(turn) > 1e-3) return a + d * (cross(b - a, e) / turn);
  }
  return p;
}

Ring exact(Ring ring, const std::vector<Ring>& summed) {
  for (Vec2& p : ring)
    p = exact(p, summed);
  return ring;
}

std::vector<Shape> plain_shapes(const Polygons& polygons, const std::vector<Ring>& summed) {
  std::vector<Shape> shapes;
  for (const Polygon& p : polygons) {
    Shape shape;
    shape.outline = tidy(exact(plain_ring(p.outer()), summed));
    if (signed_area(shape.outline) < kSliver_mm2) continue;
    for (const auto& inner : p.inners()) {
      Ring hole = tidy(exact(plain_ring(inner), summed));
      if (signed_area(hole) >= kSliver_mm2) shape.holes.push_back(std::move(hole));
    }
    shapes.push_back(std::move(shape));
  }
  std::sort(shapes.begin(), shapes.end(),
            [](const Shape& a, const Shape& b) { return lower_left(a.outline.front(), b.outline.front()); });
  return shapes;
}

Polygons sum(const std::vector<Ring>& rings) {
  Polygons all;
  for (const Ring& ring : rings) {
    Polygons more;
    bg::union_(all, polygon({ring, {}}), more);
    all = std::move(more);
  }
  return all;
}

} // namespace

std::string ring_fault(const Ring& ring) {
  const std::size_t n = ring.size();
  if (n < 3) return fmt::format("has {} point{}, it needs at least 3", n, n == 1 ? "" : "s");
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j)
      if (norm(ring[i] - ring[j]) < kSamePoint_mm)
        return fmt::format("has the same point twice, as number {} and as number {}", i + 1, j + 1);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 2; j < n; ++j) {
      if (i == 0 && j == n - 1) continue; // neighbours through the first point
      if (cross_or_touch(ring[i], ring[i + 1], ring[j], ring[(j + 1) % n]))
        return fmt::format("crosses itself: the edge from point {} to {} meets the edge from point {} to {}",
                           i + 1, i + 2, j + 1, (j + 1) % n + 1);
    }
  std::string reason;
  if (!bg::is_valid(polygon({ring, {}}), reason)) return "bounds no sound area (" + reason + ")";
  return {};
}

double signed_area(const Ring& ring) {
  bg::model::ring<Point, false, false> r;
  for (const Vec2 v : ring)
    r.push_back(point(v));
  return bg::area(r);
}

double area(const Shape& shape) {
  return bg::area(polygon(shape));
}

Vec2 centroid(const Shape& shape) {
  const auto c = bg::return_centroid<Point>(polygon(shape));
  return {c.x(), c.y()};
}

double distance_to(const Shape& shape, Vec2 p) {
  return bg::distance(point(p), polygon(shape));
}

double distance_to_edges(const Shape& shape, Vec2 p) {
  double nearest = distance_to_ring(shape.outline, p);
  for (const Ring& hole : shape.holes)
    nearest = std::min(nearest, distance_to_ring(hole, p));
  return nearest;
}

bool lies_within(const Ring& inner, const Ring& outer) {
  if (edges_touch(inner, outer) || !inside(inner.front(), outer)) return false;
  return std::all_of(inner.begin(), inner.end(),
                     [&](Vec2 p) { return distance_to_ring(outer, p) > kSamePoint_mm; });
}

bool overlap(const Ring& a, const Ring& b) {
  return edges_touch(a, b) || inside(a.front(), b) || inside(b.front(), a);
}

double common_area(const Ring& a, const Ring& b) {
  Polygons both;
  bg::intersection(polygon({a, {}}), polygon({b, {}}), both);
  return bg::area(both);
}

std::vector<Shape> united(const std::vector<Ring>& rings) {
  return plain_shapes(sum(rings), rings);
}

std::vector<Shape> less(const std::vector<Shape>& shapes, const std::vector<Ring>& taken) {
  Polygons left;
  std::vector<Ring> summed = taken;
  for (const Shape& shape : shapes) {
    left.push_back(polygon(shape));
    summed.push_back(shape.outline);
    summed.insert(summed.end(), shape.holes.begin(), shape.holes.end());
  }
  for (const Ring& ring : taken) {
    Polygons more;
    bg::difference(left, polygon({ring, {}}), more);
    left = std::move(more);
  }
  return plain_shapes(left, summed);
}

Ring convex_hull(const std::vector<Vec2>& points) {
  if (points.size() < 3) return points;
  bg::model::multi_point<Point> all;
  for (const Vec2 v : points)
    all.push_back(point(v));
  Polygon hull;
  bg::convex_hull(all, hull);
  if (bg::area(hull) < kSamePoint_mm) return {};
  Ring ring;
  for (const Point& p : hull.outer())
    ring.push_back({p.x(), p.y()});
  return ring;
}

std::vector<std::pair<double, double>> pieces_within(const Shape& shape, Vec2 p, Vec2 q, double slack_mm) {
  const double length = norm(q - p);
  if (length <= 0.0) return {};
  const Vec2 d = (q - p) * (1.0 / length);
  std::vector<double> at{0.0, length};
  add_breaks(shape.outline, p, d, at);
  for (const Ring& hole : shape.holes)
    add_breaks(hole, p, d, at);
  std::sort(at.begin(), at.end());
  const Polygon solid = polygon(shape);
  std::vector<std::pair<double, double>> pieces;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const double from = at[i], to = at[i + 1];
    if (from < 0.0 || to > length || to - from < 1e-9) continue;
    if (bg::distance(point(p + d * (0.5 * (from + to))), solid) > slack_mm) continue;
    if (!pieces.empty() && from - pieces.back().second < 1e-6) {
      pieces.back().second = to;
    } else {
      pieces.emplace_back(from, to);
    }
  }
  return pieces;
}

Ring edges_moved(const Ring& ring, const std::vector<double>& inward_mm) {
  const std::size_t n = ring.size();
  Ring moved;
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t before = (i + n - 1) % n;
    const Vec2 e0 = ring[i] - ring[before], e1 = ring[(i + 1) % n] - ring[i];
    const Vec2 d0 = e0 * (1.0 / norm(e0)), d1 = e1 * (1.0 / norm(e1));
    const Vec2 p0 = ring[i] + Vec2{-d0.y, d0.x} * inward_mm[before];
    const Vec2 p1 = ring[i] + Vec2{-d1.y, d1.x} * inward_mm[i];
    const double turn = cross(d0, d1);
    if (std::abs(turn) > 0.02) {
      moved.push_back(p0 + d0 * (cross(p1 - p0, d1) / turn));
    } else {
      moved.push_back(p0);
      if (norm(p1 - p0) > kSamePoint_mm) moved.push_back(p1);
    }
  }
  return moved;
}

} // namespace tacksquare
