// Elements that are small in some places and grow away from there.
#pragma once

#include "base/vec.h"

#include <functional>
#include <vector>

namespace tacksquare::shell {

// mm of size for 1 mm of way.
inline constexpr double kGrowth = 0.5;

// Size at a way of distance_mm from where it is size_mm.
inline double grown_mm(double size_mm, double distance_mm) {
  return size_mm + kGrowth * distance_mm;
}

// Sizes along a straight way, mm, at `at` mm along it. least_mm: none is smaller.
struct SizeAlong {
  std::function<double(double at)> at;
  double least_mm = 0.0;
};

// How many pieces of that size there are from..to, not rounded.
double pieces_along(const SizeAlong& size, double from_mm, double to_mm);

// from, to, and what cuts it into so many pieces, each of them the same part of its size. The other way round
// the same but for rounding. pieces >= 1.
std::vector<double> cuts_along(const SizeAlong& size, double from_mm, double to_mm, std::size_t pieces);

} // namespace tacksquare::shell
