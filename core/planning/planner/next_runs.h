// Which of the runs that are left pulls a box back that stands racked at the look half way.
#pragma once

#include "planning/planner/order_model.h"

#include <vector>

namespace tacksquare {

// What each run that could come next, without turning the box, does to the diagonals that are read then
// (NextRun): tacks kept, the planned runs before it made. By run id. Nothing where no diagonals are read. The
// box has its order already. Throws NumericalFailure.
std::vector<NextRun> next_runs_of(const BoxCase& box, const OrderModel& model);

} // namespace tacksquare
