// A planned fixture as one would state it, to build the same way next month.
#pragma once

#include "job/fixture.h"
#include "plan/fixture_plan.h"

namespace tacksquare {

// Fixture::box is 0. Precondition: the plan's fixture is one that the planner or a plan file made;
// InternalError for a kind that there is not.
Fixture fixture_of(const FixturePlan& plan);

} // namespace tacksquare
