// Sections square to the bend, as convex polygons.
#pragma once

#include "base/vec.h"

#include <vector>

namespace tacksquare {

struct Convex {
  std::vector<Vec2> points;  // counter-clockwise, at least 3, not closed
  std::vector<Vec2> outward; // unit, square to the edge from the point of the same place; zero: no edge
};
Convex convex(std::vector<Vec2> points);

// A turn, then a shift.
struct Move2 {
  double cosine = 1.0, sine = 0.0;
  Vec2 shift;
  Vec2 turned(Vec2 p) const { return {p.x * cosine - p.y * sine, p.x * sine + p.y * cosine}; }
};
Convex moved(const Convex& section, const Move2& move);

// How far apart two sections are, exact up to enough_mm, beyond it at least that; where they overlap, minus
// how far one has to move to be free. By the separating axis theorem.
double clearance(const Convex& a, const Convex& b, double enough_mm);

// From here to there along a line.
struct Stretch {
  double from = 0.0, to = 0.0;
};
// The parts of the whole that nothing taken covers, in order.
std::vector<Stretch> free_of(Stretch whole, std::vector<Stretch> taken);

} // namespace tacksquare
