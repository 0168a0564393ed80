// The fixture as the plan holds it.
#pragma once

#include "plan/fixture_plan.h"
#include "planning/planner/box_case.h"

namespace tacksquare {

FixturePlan fixture_plan_of(const BoxCase& box);

} // namespace tacksquare
