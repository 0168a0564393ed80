// What is cut and bent for a box: flat patterns with the weld's loss put back, and the order of bends.
#pragma once

#include "opening/first_off.h"
#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

struct Cutting {
  std::vector<FlatPattern> patterns;
  std::vector<BendOrder> bend_orders; // where the job states a brake
};
// first: what the first box of the batch taught; null where none was measured.
Cutting cutting_of(const BoxCase& box, const FirstOff* first, Diagnostics& out);

} // namespace tacksquare
