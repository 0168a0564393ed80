// Plane polygons with holes, mm. Boost.Geometry does the work; only polygon.cpp compiles it.
#pragma once

#include "base/vec.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare {

using Ring = std::vector<Vec2>; // not closed: the last point is not the first again

struct Shape {
  Ring outline;
  std::vector<Ring> holes;
};

// Why a ring bounds no area, as the end of a sentence ("has 2 points, needs at least 3"); empty when it is
// sound. Turning the wrong way is no fault here.
std::string ring_fault(const Ring& ring);

double signed_area(const Ring& ring); // positive: counter-clockwise
double area(const Shape& shape);      // holes taken off
Vec2 centroid(const Shape& shape);
double distance_to(const Shape& shape, Vec2 p);         // 0 inside and on the edge
double distance_to_edges(const Shape& shape, Vec2 p);   // of outline and holes
bool lies_within(const Ring& inner, const Ring& outer); // touching is not within
bool overlap(const Ring& a, const Ring& b);             // touching is overlap
double common_area(const Ring& a, const Ring& b);
// Boolean sums, without slivers under 0.01 mm2: each shape's outline counter-clockwise from its lowest, then
// leftmost point, points in a straight edge left out; by that point in order.
std::vector<Shape> united(const std::vector<Ring>& rings);
std::vector<Shape> less(const std::vector<Shape>& shapes, const std::vector<Ring>& taken);
Ring convex_hull(
    const std::vector<Vec2>& points); // counter-clockwise; under 3 points when they lie in a line

// Which parts of the straight piece from p to q lie in the shape or not more than slack_mm outside of it:
// pairs of positions in mm from p, in order, apart from each other.
std::vector<std::pair<double, double>> pieces_within(const Shape& shape, Vec2 p, Vec2 q, double slack_mm);

// Each edge line i (point i to i+1) moved inward by inward_mm[i], for a counter-clockwise ring; negative:
// outward. Between edges in one line that move differently there is a step.
Ring edges_moved(const Ring& ring, const std::vector<double>& inward_mm);

} // namespace tacksquare
