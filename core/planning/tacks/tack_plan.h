// Where to tack and in what order: rim first, opposite seams in turn, then halving the open lengths.
#pragma once

#include "work/work.h"

namespace tacksquare {

// In the order in which they are made. Rounds are numbered from 0 (the rim tacks, after which the diagonals are
// taken). Positions keep clear of free edges, of corners where seams meet and of vents.
std::vector<Tack> plan_tacks(const Box& box, const BoxGeometry& geometry, const Work& work);

} // namespace tacksquare
