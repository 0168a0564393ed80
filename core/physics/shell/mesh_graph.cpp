#include "physics/shell/grading.h"
#include "physics/shell/mesh_parts.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::shell {
namespace {

constexpr double kClear = 0.6; // sizes: no point of the lattice lies in the circle over a piece

using Segment = std::pair<std::size_t, std::size_t>;

std::size_t index_of(std::vector<Vec2>& points, Vec2 p) {
  for (std::size_t i = 0; i < points.size(); ++i)
    if (norm(points[i] - p) <= kOne_mm) return i;
  points.push_back(p);
  return points.size() - 1;
}

std::vector<Segment> segments_of(const PlateShape& shape, std::vector<Vec2>& points) {
  std::vector<Segment> segments;
  const auto add = [&](Vec2 a, Vec2 b) {
    const std::size_t from = index_of(points, a), to = index_of(points, b);
    if (from != to) segments.emplace_back(from, to);
  };
  const auto add_ring = [&](const std::vector<Vec2>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i)
      add(ring[i], ring[(i + 1) % ring.size()]);
  };
  add_ring(shape.outline);
  for (const auto& cutout : shape.cutouts)
    add_ring(cutout);
  for (const auto& [a, b] : shape.lines)
    add(a, b);
  return segments;
}

bool lies_on(Vec2 p, Vec2 a, Vec2 b) {
  const double length = norm(b - a), at = dot(p - a, b - a) / length;
  return std::abs(cross(b - a, p - a)) <= kOne_mm * length && at >= -kOne_mm && at <= length + kOne_mm;
}

// Where two segments cross inside both becomes a point.
void add_crossings(const std::vector<Segment>& segments, std::vector<Vec2>& points) {
  for (std::size_t k = 0; k < segments.size(); ++k)
    for (std::size_t l = k + 1; l < segments.size(); ++l) {
      const Vec2 a = points[segments[k].first], b = points[segments[k].second];
      const Vec2 c = points[segments[l].first], d = points[segments[l].second];
      if (lies_on(a, c, d) || lies_on(b, c, d) || lies_on(c, a, b) || lies_on(d, a, b)) continue;
      const double c_side = cross(b - a, c - a), d_side = cross(b - a, d - a);
      const double a_side = cross(d - c, a - c), b_side = cross(d - c, b - c);
      if ((c_side > 0.0) == (d_side > 0.0) || (a_side > 0.0) == (b_side > 0.0)) continue;
      index_of(points, c + (d - c) * (c_side / (c_side - d_side)));
    }
}

double distance(Vec2 p, Vec2 a, Vec2 b) {
  const double part = std::clamp(dot(p - a, b - a) / dot(b - a, b - a), 0.0, 1.0);
  return norm(p - (a + (b - a) * part));
}

} // namespace

PlateGraph plate_graph(const PlateShape& shape, double size_mm) {
  PlateGraph graph;
  const auto segments = segments_of(shape, graph.points);
  add_crossings(segments, graph.points);

  std::set<Segment> spans; // between neighbouring meeting points
  for (const auto& [from, to] : segments) {
    const Vec2 a = graph.points[from], b = graph.points[to];
    std::vector<std::pair<double, std::size_t>> on;
    for (std::size_t i = 0; i < graph.points.size(); ++i)
      if (lies_on(graph.points[i], a, b)) on.emplace_back(dot(graph.points[i] - a, b - a), i);
    std::sort(on.begin(), on.end());
    for (std::size_t i = 0; i + 1 < on.size(); ++i)
      spans.insert(std::minmax(on[i].second, on[i + 1].second));
  }

  for (const auto& [from, to] : spans) {
    const Vec2 a = graph.points[from], b = graph.points[to];
    const double length = norm(b - a);
    const SizeAlong size{
        [&, a = a, b = b](double at) { return size_at_mm(shape, size_mm, a + (b - a) * (at / length)); },
        least_size_mm(shape, size_mm)};
    const double pieces = std::max(1.0, std::ceil(pieces_along(size, 0.0, length) - 1e-9));
    const std::vector<double> cuts = cuts_along(size, 0.0, length, static_cast<std::size_t>(pieces));
    std::size_t last = from;
    for (std::size_t k = 1; k + 1 < cuts.size(); ++k) {
      graph.points.push_back(a + (b - a) * (cuts[k] / length));
      graph.pieces.insert(std::minmax(last, graph.points.size() - 1));
      last = graph.points.size() - 1;
    }
    graph.pieces.insert(std::minmax(last, to));
  }
  return graph;
}

std::vector<Vec2> lattice(const PlateShape& shape, const PlateGraph& graph, double size_mm) {
  Vec2 origin, along;
  for (std::size_t i = 0; i < shape.outline.size(); ++i) {
    const Vec2 side = shape.outline[(i + 1) % shape.outline.size()] - shape.outline[i];
    if (norm(side) <= norm(along) + kOne_mm) continue;
    origin = shape.outline[i];
    along = side;
  }
  const Vec2 step = along * (size_mm / norm(along));
  const Vec2 rise = Vec2{-step.y, step.x} * std::sqrt(0.75);

  // Rows that cover the outline.
  const auto reach = [&](Vec2 d) {
    std::pair<long, long> range{0, 0};
    for (const Vec2 p : shape.outline) {
      const double at = dot(p - origin, d) / dot(d, d);
      range.first = std::min(range.first, static_cast<long>(std::floor(at)));
      range.second = std::max(range.second, static_cast<long>(std::ceil(at)));
    }
    return range;
  };
  const auto [first_row, last_row] = reach(rise);
  const auto [first, last] = reach(step);
  std::vector<Vec2> points;
  for (long j = first_row; j <= last_row; ++j)
    for (long i = first - 1; i <= last; ++i) {
      const double shift = j % 2 == 0 ? 0.0 : 0.5;
      const Vec2 p = origin + step * (static_cast<double>(i) + shift) + rise * static_cast<double>(j);
      const bool clear = std::all_of(graph.pieces.begin(), graph.pieces.end(), [&](const auto& piece) {
        return distance(p, graph.points[piece.first], graph.points[piece.second]) > kClear * size_mm;
      });
      if (clear) points.push_back(p);
    }
  return points;
}

} // namespace tacksquare::shell
