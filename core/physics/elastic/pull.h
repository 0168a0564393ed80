// A tacked box pulled across a diagonal, and how much of that stays when it is let go.
#pragma once

#include "physics/elastic/expect.h"

namespace tacksquare::elastic {

// Of 1 mm by which the diagonals are pulled to differ.
struct PullStays {
  Band until_tacked; // let go when the last tack is on; limits: tacks softer and stiffer by kTackStiffness
  Band until_welded; // when all is welded and cold; limits: tacks that keep their force under the bead, and
                     // that lose it; value: their middle
  double force_N = 0.0; // across both diagonals, for 1 mm, when it is put on
};

// 90 %: what a tack has square to its sheets, the widest of formulas::tack_stiffness.
inline constexpr double kTackStiffness = 2.0;

// Nothing but the pull is on the box: what is tacked and welded meanwhile lies as it is pulled, without
// stress, and the rest springs back. diagonals: the figure that is read. first: so many tacks are on before
// the pull, in the order of the making's events; an answer for each of these. Faults as make_box_model;
// throws NumericalFailure.
std::vector<PullStays> pull_stays(const Job& job, const Box& box, const BoxGeometry& geometry,
                                  const Making& making, const ModelOptions& options, const Figure& diagonals,
                                  const std::vector<std::size_t>& first, Diagnostics& out);

} // namespace tacksquare::elastic
