// Places on a resolved box where one can hold a gauge. Everything is in the box's frame, mm; results come in
// a fixed order that follows the faces' order in the box.
#pragma once

#include "geometry/box_geometry.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace tacksquare {

// Two welded faces that are parallel, look away from each other and lie over each other, with no other
// parallel face outside of them: not a divider.
struct OppositeFaces {
  std::size_t a = 0, b = 0; // a is left, in front or under
  Vec3 across;              // unit, from a to b
  double outside_mm = 0.0;  // over the outsides of both sheets
};
std::vector<OppositeFaces> opposite_faces(const Job& job, const Box& box, const BoxGeometry& geometry);

// Where a width over two opposite faces is taken: at three depths by three places across them.
struct WidthPlace {
  int depth =
      0; // 0 at the rim (of a closed box: in front; of its front and back: under), 1 middle, 2 far end
  int place = 0;   // 0 lower or left, 1 middle, 2 upper or right
  Vec3 on_a, on_b; // on the outsides
};
// Nine where the faces cover each other as rectangles, fewer where a place falls off a face or into a
// cut-out. The outer ones lie inset_mm inside the common rectangle.
std::vector<WidthPlace> width_places(const Job& job, const Box& box, const BoxGeometry& geometry,
                                     const OppositeFaces& pair, double inset_mm);

// Corners between the walls at the rim, on the insides of the sheets, in order; of a rim with lips the
// corners of the lips' free edges. Empty without an opening.
std::vector<Vec3> opening_corners_inside(const Job& job, const Box& box, const BoxGeometry& geometry);

// Corners of a face on its middle surface, in the order of its outline; points in a straight edge are none.
std::vector<Vec3> face_corners(const BoxGeometry& geometry, std::size_t face);

// The two diagonals over four corners in order; nothing for any other number.
std::vector<std::pair<Vec3, Vec3>> diagonals(const std::vector<Vec3>& corners);

// A wall that stands on the face opposite to the opening, for a try square at both of its ends.
struct Wall {
  std::size_t face = 0;
  Vec3 foot_start, foot_end; // on the common line with the base
  Vec3 top_start, top_end;   // furthest corners from it, over the same ends
};
std::vector<Wall> walls(const Box& box, const BoxGeometry& geometry);

} // namespace tacksquare
