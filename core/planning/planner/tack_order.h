// In what order to tack: plain orders and a search, weighed by the elastic model while tack after tack comes
// on.
#pragma once

#include "planning/planner/box_case.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

struct TackOrder {
  std::vector<std::size_t> order; // of BoxCase::tacks
  std::vector<TackOrderCompared> compared;
  int trials = 0; // of the search
};

// Weighed is, for each of a few draws, the worse of two: the tacked box's squareness against the limits of
// the finished one, and the gap at a tack whose seam has one already, against what is welded as it is. The
// mean counts. Plain orders: the planner's; round about instead of crosswise; seam by seam. The search starts
// from the best of them. The simplest of those that are as good as the best, to kSameOrder of a limit, is
// taken. The rim tacks stay first, walls before what stands in them, the last face last, and nothing is
// tacked before what holds it, or what is in its way, has come or gone. On a coarser net than the figures of
// the plan. Nothing for boxes with few tacks, very many, or none of these limits.
inline constexpr double kSameOrder = 0.1;
std::optional<TackOrder> order_tacks(const BoxCase& box);

// Rounds are as long as they were, but end where a seam does.
void tack_by(const TackOrder& chosen, BoxCase& box);

} // namespace tacksquare
