// A tacked box pulled across a diagonal, and how much of that stays when it is let go.
#pragma once

#include "physics/elastic/expect.h"

namespace tacksquare::elastic {

// Of 1 mm by which the diagonals are pulled to differ. Value: middle of tacks that keep their force under the
// bead and tacks that lose it, which are the limits.
struct PullStays {
  Band until_tacked, until_welded; // let go when the last tack is on; when all is welded and cold
  double force_N = 0.0;            // across both diagonals, for 1 mm, when it is put on
};

// Nothing but the pull is on the box: what is tacked and welded meanwhile lies as it is pulled, without
// stress, and the rest springs back. diagonals: the figure that is read. first: so many tacks are on before
// the pull, in the order of the making's events; an answer for each of these. Faults as make_box_model;
// throws NumericalFailure.
std::vector<PullStays> pull_stays(const Job& job, const Box& box, const BoxGeometry& geometry,
                                  const Making& making, const ModelOptions& options, const Figure& diagonals,
                                  const std::vector<std::size_t>& first, Diagnostics& out);

} // namespace tacksquare::elastic
