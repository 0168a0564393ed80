// Where clamps press walls against what holds the box, so that friction holds them along it, too.
#pragma once

#include "planning/planner/elastic_case.h"

#include <vector>

namespace tacksquare {

// Corner clamps press at all their places, bar clamps where they meet a former, hold-downs on the table. Puts
// them into Making::pressed, from when both are on until the first of them is off; returns them in the same
// order, without figures.
std::vector<PressedPlace> press(const BoxCase& box, ElasticCase& made);

} // namespace tacksquare
