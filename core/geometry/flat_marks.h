// What is etched on a flat pattern. Not for other rooms.
#pragma once

#include "geometry/flat_pattern.h"

namespace tacksquare {

// Texts read to the right or upwards in the pattern, within the flat of their face and off its holes; one
// without room is left out, as is a tick that would lie on a bend or a hole.
// - Face letters, near the middle of each face.
// - Seam numbers, inside of each seam edge of both faces. The face that a T stands on, or that a lap lies on,
//   has no edge there and the seam is behind its sheet: no mark.
// - Tack ticks, kTick_mm into the face and square to the edge.
// - Witness crosses on the faces of a closed volume, kWitnessIn_mm in from the outside of the box, as its
//   diagonals are measured.
inline constexpr double kTick_mm = 3.0, kWitnessIn_mm = 20.0, kWitnessArm_mm = 3.0;
inline constexpr double kFaceLetter_mm = 20.0, kSeamNumber_mm = 6.0, kSmallestText_mm = 2.5;

std::vector<FlatMark> flat_marks(const Box& box, const BoxGeometry& geometry, const TackPlaces& tacks,
                                 const FlatPattern& pattern);

} // namespace tacksquare
