#include "geometry/segments.h"

namespace tacksquare {
namespace {

constexpr double kParallelSine = 0.02;

double position_on(const Segment& s, Vec3 p) { // 0..1, of the nearest point
  const Vec3 d = s.end - s.start;
  const double dd = dot(d, d);
  return dd > 0.0 ? std::clamp(dot(p - s.start, d) / dd, 0.0, 1.0) : 0.0;
}

Vec3 at(const Segment& s, double f) {
  return s.start + (s.end - s.start) * f;
}

} // namespace

double distance(const Segment& s, Vec3 p) {
  return norm(p - at(s, position_on(s, p)));
}

Nearest nearest(const Segment& a, const Segment& b) {
  Nearest best;
  best.distance_mm = -1.0;
  const auto offer = [&](Vec3 on_a, Vec3 on_b) {
    const double d = norm(on_b - on_a);
    if (best.distance_mm < 0.0 || d < best.distance_mm) best = {d, on_a, on_b};
  };
  // The nearest pair lies inside both, or has an end of one of them.
  offer(a.start, at(b, position_on(b, a.start)));
  offer(a.end, at(b, position_on(b, a.end)));
  offer(at(a, position_on(a, b.start)), b.start);
  offer(at(a, position_on(a, b.end)), b.end);
  const Vec3 da = a.end - a.start, db = b.end - b.start, r = a.start - b.start;
  const double aa = dot(da, da), bb = dot(db, db), ab = dot(da, db);
  const double det = aa * bb - ab * ab;
  if (det > 1e-12 * aa * bb) {
    const double fa = (ab * dot(db, r) - bb * dot(da, r)) / det;
    const double fb = (aa * dot(db, r) - ab * dot(da, r)) / det;
    if (fa > 0.0 && fa < 1.0 && fb > 0.0 && fb < 1.0) offer(at(a, fa), at(b, fb));
  }
  return best;
}

std::optional<std::pair<double, double>> common_part(const Segment& edge, const Segment& line,
                                                     double slack_mm) {
  const double edge_mm = length(edge), line_mm = length(line);
  if (edge_mm <= 0.0 || line_mm <= 0.0) return std::nullopt;
  const Vec3 d = (edge.end - edge.start) * (1.0 / edge_mm);
  if (norm(cross(d, line.end - line.start)) > kParallelSine * line_mm) return std::nullopt;
  double from = dot(line.start - edge.start, d), to = dot(line.end - edge.start, d);
  if (from > to) std::swap(from, to);
  from = std::max(from, 0.0);
  to = std::min(to, edge_mm);
  if (to - from <= 0.0) return std::nullopt;
  for (const double s : {from, to})
    if (distance(line, edge.start + d * s) > slack_mm) return std::nullopt;
  return std::pair{from / edge_mm, to / edge_mm};
}

std::vector<std::pair<double, double>> uncovered(std::vector<std::pair<double, double>> covered) {
  std::sort(covered.begin(), covered.end());
  std::vector<std::pair<double, double>> left;
  double reached = 0.0;
  for (const auto& [from, to] : covered) {
    if (from > reached) left.emplace_back(reached, from);
    reached = std::max(reached, to);
  }
  if (reached < 1.0) left.emplace_back(reached, 1.0);
  return left;
}

} // namespace tacksquare
