// In what order to weld the seams: weighed by how square the box comes out, then by heat.
#pragma once

#include "planning/planner/box_case.h"

#include <optional>
#include <vector>

namespace tacksquare {

// Weighed is, for each of kScenarios (order_model.h) fixed draws of all that is not known (shrinkage of the
// job and of each seam, misfit, tacks that keep their force or melt), the worst limit of squareness of the
// cold box in parts of it; the mean counts. Orders within kSameSquare of the squarest are equal: of them the
// one of least heat off centre is taken (weld_order.h; its turns come first, and all orders of groups and
// rounds turn as often).
//
// Of tacks that keep their force steps add up, and the best and the worst of all orders are proven
// (search/set_search.h) where no group of seams is larger than a table. Tacks that melt make a box hang on
// the way it came about: such orders are gone through, all of those within kSameSquare of the proven best
// where they are few, else the plain ones, the proven best and worst, and, where these differ so that it
// could be seen, a search from the best of them.
//
// Seams that are each welded in one go, in any order and with whatever turns it takes (whole_seams.h), are
// weighed beside these and taken where no order in rounds is as square: of those that are within kSameSquare
// of the squarest, one of few turns and little heat off centre.
//
// On a coarser net than the figures of the plan. Where orders differ, the one that is taken and the squarest
// are gone through once more on half that mesh: if they are not equal there, the squarest is taken.
inline constexpr double kSameSquare = 0.05;

struct SeamOrder {
  SeamOrders seams;
  std::vector<std::size_t> whole;  // of Work::seams: taken instead, seam after seam; or none
  std::vector<JudgedOrder> judged; // the planned one first
  OrderProof proof;
  std::vector<NextRun> next_runs; // of the order that was chosen
};

// Nothing for boxes with fewer than two seams, very many tacks, or no limit of squareness.
std::optional<SeamOrder> order_seams(const BoxCase& box);

void weld_by(const SeamOrder& chosen, BoxCase& box);

// What the orders' heat comes to in this box.
std::vector<OrderCompared> orders_of(const BoxCase& box); // the planned one first

} // namespace tacksquare
