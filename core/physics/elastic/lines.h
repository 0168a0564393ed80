// Where faces hold each other: bends and seams as lines on the middle surfaces of both faces.
#pragma once

#include "geometry/box_geometry.h"

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace tacksquare::elastic {

// A line as one of its faces has it, in plate_frame.
struct LineSide {
  std::size_t face = 0;            // index in Box::faces
  Vec2 start, end;                 // on an edge of the face, or inside it; mm
  double shift_mm = 0.0;           // place on the line where `start` lies
  Vec3 arm;                        // from the face to the line, in space
  std::optional<std::size_t> edge; // of the outline; nothing: inside the face, or on a cut-out
  bool inside = false;             // elements have to be told to follow it
};

struct JointLine {
  Vec3 start, end;
  double length_mm = 0.0;
  Vec3 along, first, second; // unit, right-handed: first points into face a
  LineSide a, b;
};

Vec2 nearest_on(const std::vector<Vec2>& ring, Vec2 p);

// A face's frame on one of its corners, along a side: the same for all faces of one shape, wherever their
// outlines start.
Placement plate_frame(const Face& face);

// From start to end between two faces that lie within slack_mm of it.
JointLine joint_line(const Box& box, std::size_t face_a, std::size_t face_b, Vec3 start, Vec3 end,
                     Vec3 into_a, double slack_mm);

} // namespace tacksquare::elastic
