// The foreman's pages: every figure with its band and source, what stands against the plan.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

std::vector<Figure> figures_of(const BoxCase& box);
std::vector<Caution> cautions_of(const BoxCase& box); // red ones first
// Of the fixture, the parts as they come, their bends, and the row that the box stands in. plan: with fixture
// and bend orders.
std::vector<Caution> cautions_of_fit(const BoxCase& box, const BoxPlan& plan);

std::vector<FaceOutline> outlines_of(const BoxCase& box);
std::vector<PlannedSeam> seams_of(const BoxCase& box);
std::vector<PlannedTack> tacks_of(const BoxCase& box);
std::vector<PlannedRun> runs_of(const BoxCase& box);
std::vector<PlannedMeasure> measures_of(const BoxCase& box);

} // namespace tacksquare
