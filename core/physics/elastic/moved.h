// The deformed box for drawings.
#pragma once

#include "physics/elastic/whole_box.h"

#include <vector>

namespace tacksquare::elastic {

// The same shape, moved and turned as a whole (small turns) so that its nodes lie as near to where they were
// as they can, by least squares. Empty shapes stay empty.
Shape settled(const Plates& plates, Shape shape);

// The nodes along one edge of a face's outline in order, and by how much each has moved; box frame, mm.
struct MovedLine {
  std::size_t face = 0;
  std::vector<Vec3> at, moved;
};
// All edges of all faces that are not loose, in order.
std::vector<MovedLine> moved_edges(const Box& box, const Plates& plates, const Shape& shape);

} // namespace tacksquare::elastic
