// Where to tack and in what order: rim first, opposite seams in turn, then halving the open lengths.
//
// Places along a seam: the first tack's middle lies first_tack_mm from a free rim; at a corner where seams
// meet the near end of the tack keeps that distance (clear of the relief); then the seam's middle, then the
// middle of every gap that is wider than the pitch, to whole 5 mm as a tape reads. A seam too short for two
// tacks gets one in its middle. Stitches are tacked where a stitch will lie. A tack moves aside for a vent.
//
// Order, common practice without a source:
//   round 0   boxes of panels: the middle of each seam without a rim end, so that the walls stand; then the
//   rim ends round 1   the middles round 2   the ends at corners round 3.. the halvings, gap by gap
// and after these the seams of the face that goes on last in the same way, from its corners on. Within a pass
// the next tack is the farthest from the one before (to 5 mm; of as far ones the first by id; corner boxes:
// crosswise), a pass starts with the first seam by id, that of the middles with the farthest from the last
// rim tack.
#pragma once

#include "work/work.h"

namespace tacksquare {

// In the order in which they are made. Rounds are numbered from 0 (the rim tacks, after which the diagonals
// are taken) without a hole.
std::vector<Tack> plan_tacks(const Box& box, const BoxGeometry& geometry, const Work& work);

} // namespace tacksquare
