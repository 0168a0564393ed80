// The planner: a pure function of the job.
#pragma once

#include "base/diagnostic.h"
#include "job/job.h"
#include "plan/plan.h"
#include "planning/planner/expectation.h"

#include <optional>
#include <vector>

namespace tacksquare {

// Empty when the diagnostics hold an error. Same job, same plan, on every machine.
// quick: by closed forms alone. shapes: where not null, the welded boxes are added.
std::optional<Plan> make_plan(const Job& job, Diagnostics& out, bool quick = false,
                              std::vector<ShapeFile>* shapes = nullptr);

} // namespace tacksquare
