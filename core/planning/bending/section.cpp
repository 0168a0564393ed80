#include "planning/bending/section.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace tacksquare {

namespace {

// The furthest that b lies outside of any edge of a; negative: b reaches that far inside of every edge.
double outside_of(const Convex& a, const Convex& b) {
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < a.points.size(); ++i) {
    if (a.outward[i] == Vec2{}) continue;
    double nearest = std::numeric_limits<double>::infinity();
    for (const Vec2 q : b.points)
      nearest = std::min(nearest, dot(q - a.points[i], a.outward[i]));
    most = std::max(most, nearest);
  }
  return most;
}

double corners_to_edges(const std::vector<Vec2>& corners, const std::vector<Vec2>& edges) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < edges.size(); ++i) {
    const Vec2 p = edges[i], along = edges[(i + 1) % edges.size()] - p;
    const double square = dot(along, along);
    for (const Vec2 q : corners) {
      const double share = square > 0.0 ? std::clamp(dot(q - p, along) / square, 0.0, 1.0) : 0.0;
      least = std::min(least, norm(q - p - along * share));
    }
  }
  return least;
}

} // namespace

Convex convex(std::vector<Vec2> points) {
  Convex section;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec2 along = points[(i + 1) % points.size()] - points[i];
    const double length = norm(along);
    section.outward.push_back(length > 0.0 ? Vec2{along.y / length, -along.x / length} : Vec2{});
  }
  section.points = std::move(points);
  return section;
}

Convex moved(const Convex& section, const Move2& move) {
  Convex result = section;
  for (Vec2& p : result.points)
    p = move.turned(p) + move.shift;
  for (Vec2& n : result.outward)
    n = move.turned(n);
  return result;
}

double clearance(const Convex& a, const Convex& b, double enough_mm) {
  const double apart = std::max(outside_of(a, b), outside_of(b, a));
  if (apart <= 0.0 || apart >= enough_mm) return apart;
  return std::min(corners_to_edges(a.points, b.points), corners_to_edges(b.points, a.points));
}

std::vector<Stretch> free_of(Stretch whole, std::vector<Stretch> taken) {
  std::sort(taken.begin(), taken.end(), [](const Stretch& a, const Stretch& b) {
    return a.from < b.from || (a.from == b.from && a.to < b.to);
  });
  std::vector<Stretch> free;
  double from = whole.from;
  for (const Stretch& t : taken) {
    if (t.from > from && from < whole.to) free.push_back({from, std::min(t.from, whole.to)});
    from = std::max(from, t.to);
  }
  if (from < whole.to) free.push_back({from, whole.to});
  return free;
}

} // namespace tacksquare
