// The bent walls of a box as the receiving step looks at them.
#pragma once

#include "geometry/box_geometry.h"
#include "job/job.h"

#include <cstddef>
#include <vector>

namespace tacksquare::receiving {

// A face that a bend joins to the rest of its part, on the way to the part's largest face.
struct BentWall {
  std::size_t face = 0;
  Vec3 foot_start, foot_end; // of the bend line
  double tall_mm = 0.0;      // bend to rim, outside
  double deep_mm = 0.0;      // along the bend
  bool held = false;         // seams run up both its ends
  bool lip = false;          // lower than what is looked at for lean unasked
  int axis = -1;             // of its normal: 0 x, 1 y, 2 z; -1 skew
  double t_mm = 0.0;
  const Metal* metal = nullptr;
};

// By face.
std::vector<BentWall> bent_walls(const Job& job, const Box& box, const BoxGeometry& geometry);

// Axis 0..2 that a direction lies along, -1: none.
int axis_of(Vec3 direction);

// Axes of the box along which the two figures of a part's flat pattern lie, in their order: x and y of its
// largest face.
struct BlankAxes {
  int length = -1, width = -1;
};
BlankAxes blank_axes(const Box& box, std::size_t part);

} // namespace tacksquare::receiving
