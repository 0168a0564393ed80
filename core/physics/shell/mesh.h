// A plate cut into elements: quadrilaterals mapped onto four-sided plates, triangles on all others.
#pragma once

#include "base/vec.h"

#include <array>
#include <cstddef>
#include <utility>
#include <vector>

namespace tacksquare::shell {

// Where elements are small: of this size at a point, growing away from it (grading.h).
struct FinePlace {
  Vec2 at;
  double size_mm = 0.0;
  bool operator==(const FinePlace&) const = default;
};

// In the plate's own plane, mm. Rings are not closed; the outline runs counter-clockwise. `lines` are lines
// inside (seams of a T, laps) that edges of elements must follow.
struct PlateShape {
  std::vector<Vec2> outline;
  std::vector<std::vector<Vec2>> cutouts;
  std::vector<std::pair<Vec2, Vec2>> lines;
  std::vector<FinePlace> fine{};
  bool operator==(const PlateShape&) const = default;
};

struct Cell {
  std::array<std::size_t, 4> node{}; // counter-clockwise
  std::size_t corners = 4;           // 3: the last of `node` is not used
};

struct PlateMesh {
  std::vector<Vec2> nodes;
  std::vector<Cell> cells;
};

// Elements of about `size_mm` edge length, smaller where the shape has it so. A convex plate of four sides
// without cut-outs, whose lines run along its mapped net, is mapped with an even number of elements a side
// (nodes at the middle of each side and of the plate where no line shifts them), else triangulated:
// constrained Delaunay with refinement, no angle under 20 degrees but where the shape has one and in elements
// smaller than a hundredth of the size wanted there. Same shape, same mesh, on every machine. Nodes lie on
// each corner of each ring and on both ends of each line. size_mm > 0; the shape is sound (no crossings,
// cut-outs and lines inside); a shape that it cannot mesh is an InternalError.
PlateMesh mesh_plate(const PlateShape& shape, double size_mm);

// Nodes on the straight line from a to b, in order from a, with their place along it (mm from a): all nodes
// within 1e-6 of it and up to one node beyond either end, so that the chain covers a..b. Every two neighbours
// are an edge of an element. Empty when the line does not follow edges.
struct ChainNode {
  std::size_t node = 0;
  double at_mm = 0.0;
};
std::vector<ChainNode> nodes_along(const PlateMesh& mesh, Vec2 a, Vec2 b);

} // namespace tacksquare::shell
