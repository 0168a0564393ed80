// What a plan breaks, found by code that shares nothing with the planner.
#pragma once

#include "geometry/box_geometry.h"
#include "job/job.h"
#include "plan/plan.h"

#include <string>
#include <vector>

namespace tacksquare {

// One line for each rule that the plan does not keep; empty when it keeps all: every seam welded once over
// its stated length, as the words of the steps say, precedence kept, runs reachable in their attitude and in
// the stated position, tacks on their seams and before any weld, nobody in two places at once, holds at most
// three, the vent open through welding and cooling and plugged last, inside work before the last face, no
// grinding before cooling, at most eight cautions of care, waits with a cause, every check with gauge and
// ladder, bands ordered, pieces of the fixture on metal, put on once and off once in time, as well located as
// told.
std::vector<std::string> check_plan(const Job& job, const std::vector<BoxGeometry>& geometry,
                                    const Plan& plan);

} // namespace tacksquare
