// What is cut and bent for a box: flat patterns with the weld's loss put back, and the order of bends.
#pragma once

#include "opening/first_off.h"
#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// What the welds are expected to take off the outside, along x, y and z: by the middle of what the corners
// tell.
Vec3 expected_loss_mm(const BoxCase& box);

struct Cutting {
  std::vector<FlatPattern> patterns;
  std::vector<BendOrder> bend_orders; // where the job states a brake
};
// first: what the first box of the batch taught; null where none was measured.
Cutting cutting_of(const BoxCase& box, const FirstOff* first, Diagnostics& out);

} // namespace tacksquare
