// The room that torch and grinder need at a seam, mm, in the box's frame: what stands in it is in the way.
//
// How torch and disc are held is common practice, no source. The zones are for pieces of a fixture: they cut
// into the box's own metal where it comes near, as in an inside corner, and say nothing of whether a torch
// fits between its walls.
#pragma once

#include "geometry/box_geometry.h"
#include "geometry/solid.h"

#include <cstddef>
#include <vector>

namespace tacksquare {

// ToolReach of job/fixture.h with nothing left out.
struct ToolRoom {
  double nozzle_mm = 0.0;
  double torch_lean_rad = 0.0; // along the seam, either way
  double torch_reach_mm = 0.0;
  double disc_mm = 0.0;
  double grinder_mm = 0.0; // height of head and hand above the disc
};

// Where nozzle and neck pass while the seam is welded or tacked from from_mm to to_mm, 0 <= from <= to: from
// the metal's surface for the torch's reach towards the welder. To each side of the seam a nozzle's diameter,
// half of it air; beyond each end the same and what the torch leans out.
Solid torch_zone(const ToolRoom& room, const Job& job, const Box& box, const BoxGeometry& geometry,
                 std::size_t seam, double from_mm, double to_mm);

// Where the grinder passes while the seam, or a tack on it, is ground flush from from_mm to to_mm: its disc
// flat on each face of a corner, two thirds of it on the metal and a third beyond the outer edge. On a butt
// there is one block, on face_a's side, with two thirds to each side of the seam: it may be held either way.
// Half a disc beyond each end. Empty: the seam is left as welded, or no disc lies flat there (welded from
// inside, a T, faces that look at each other outside).
std::vector<Solid> grinder_zones(const ToolRoom& room, const Job& job, const Box& box,
                                 const BoxGeometry& geometry, std::size_t seam, double from_mm, double to_mm);

} // namespace tacksquare
