// What each seam does to the box whichever of the others are there: one table for all orders of a group.
#pragma once

#include "physics/elastic/sequence.h"

namespace tacksquare::elastic {

// A seam of a group: what it makes in each round, lengths of TackedBox::welds that are made at once; none
// where it has no part in the round. As many rounds as the others of its group.
struct RoundsOfSeam {
  std::vector<std::vector<std::size_t>> rounds;
  std::vector<std::size_t> after; // seams of the group that come before it
};

// Sets of seams are numbers: bit i is seam i. [set * seams + next]: what the rounds of `next` do together,
// measures x 3, when in each round those of the set have come before it, and no others of the group. Empty
// where the set lacks what one of its seams, or `next`, has to wait for, or has `next`.
struct StepTable {
  std::size_t seams = 0;
  std::vector<Response> steps;
};

inline constexpr std::size_t kMostTabled = 12; // seams of a group

// Exact, of tacks that are kept: a step hangs on what is there and not on how it came about, since with one
// order for all rounds what earlier rounds of a seam did hangs on the same set. before: welds that are there
// already. Sets are walked depth first, each from one with a seam less: what is left is condensed once for
// each (Schur complement). Throws NumericalFailure.
StepTable step_table(const TackedBox& box, const std::vector<std::size_t>& before,
                     const std::vector<RoundsOfSeam>& seams);

} // namespace tacksquare::elastic
