// The distance of two convex bodies by another's hand: CGAL, "Optimal Distances" (Debian: libcgal-dev).
#pragma once

#include "base/vec.h"

#include <vector>

namespace tacksquare::test {

// Of the hulls of two sets of points, by quadratic programming in exact numbers; 0: they touch or overlap.
double apart_by_cgal(const std::vector<Vec3>& a, const std::vector<Vec3>& b);

} // namespace tacksquare::test
