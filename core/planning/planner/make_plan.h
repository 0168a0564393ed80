// The planner: a pure function of the job.
#pragma once

#include "base/diagnostic.h"
#include "job/job.h"
#include "plan/plan.h"

#include <optional>

namespace tacksquare {

// Empty when the diagnostics hold an error. Same job, same plan, on every machine.
std::optional<Plan> make_plan(const Job& job, Diagnostics& out);

} // namespace tacksquare
