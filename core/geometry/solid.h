// Oriented blocks in space, mm, and which of them overlap.
#pragma once

#include "base/vec.h"

#include <array>
#include <cstddef>
#include <memory>
#include <vector>

namespace tacksquare {

// A block. Its axes are unit vectors square to each other; half a size of 0 is allowed: a plate without
// thickness, a straight piece, a point.
struct Solid {
  Vec3 centre;
  std::array<Vec3, 3> axes{Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}};
  std::array<double, 3> half_mm{};
};

std::array<Vec3, 8> corners(const Solid& s);
// From its centre to where it ends along a direction. Precondition: unit.
double half_along(const Solid& s, Vec3 direction);

// How far one of the two has to be pushed, at least, until they only touch. Negative: they are apart by at
// least so much. Of all directions that can part two blocks only 15 need looking at: the faces' normals of
// both, and what is square to an edge of each (Gottschalk, Lin, Manocha, OBBTree, SIGGRAPH 1996).
double depth(const Solid& a, const Solid& b);

// depth > slack_mm, but quicker. What only touches, within the slack, does not overlap.
bool overlap(const Solid& a, const Solid& b, double slack_mm);

// Many blocks that do not move, found by an R-tree over their axis-parallel bounds.
class SolidIndex {
 public:
  explicit SolidIndex(std::vector<Solid> solids);
  // Places in the list given of all that overlap s, in ascending order.
  std::vector<std::size_t> overlapping(const Solid& s, double slack_mm) const;

 private:
  struct Tree;
  std::shared_ptr<const Tree> tree_;
};

// --- Blocks of pieces.

// Stands on a surface at a point: a square of foot_mm, one side along `along`, standing_mm high along
// `outward`. Precondition: both unit, square to each other.
Solid footprint(Vec3 at, Vec3 outward, Vec3 along, double foot_mm, double standing_mm);

// A stop on the table, in the fixture's frame (z = 0 is the table): touches the part at `at`, stands behind
// that point, foot_mm wide and deep, height_mm high. `towards` is unit, level, from the stop to the part.
Solid stop_solid(Vec3 at, Vec3 towards, double foot_mm, double height_mm);

// A bar from a to b, width_mm square, one side along `side`. Precondition: a != b, `side` not along the bar;
// it is made square to it.
Solid bar_solid(Vec3 a, Vec3 b, double width_mm, Vec3 side);

} // namespace tacksquare
