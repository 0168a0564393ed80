// Straight pieces in space, mm.
#pragma once

#include "base/vec.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace tacksquare {

struct Segment {
  Vec3 start, end;
};

inline double length(const Segment& s) {
  return norm(s.end - s.start);
}
inline Vec3 middle(const Segment& s) {
  return (s.start + s.end) * 0.5;
}

// The same vector without a negative zero, which would print as "-0".
inline Vec3 plain(Vec3 v) {
  return {v.x + 0.0, v.y + 0.0, v.z + 0.0};
}

struct Nearest {
  double distance_mm = 0.0;
  Vec3 on_a, on_b; // where the two come nearest
};

// Exact, for all cases: crossing, skew, parallel, and pieces that have shrunk to a point.
Nearest nearest(const Segment& a, const Segment& b);
double distance(const Segment& s, Vec3 p);

// The part of edge that runs along line: positions 0..1 on edge. Nothing when they are more than about 1
// degree out of parallel, further apart than slack_mm at either end of the common part, or have no common
// part.
std::optional<std::pair<double, double>> common_part(const Segment& edge, const Segment& line,
                                                     double slack_mm);

// What is left of 0..1 when the covered parts are taken away, in order.
std::vector<std::pair<double, double>> uncovered(std::vector<std::pair<double, double>> covered);

} // namespace tacksquare
