// The welded box as the elastic model sees it: its shape, and which faces buckle under what the seams leave.
#pragma once

#include "physics/elastic/whole_box.h"
#include "planning/planner/elastic_case.h"

namespace tacksquare {

// Middle of all that is uncertain but misfit, all tacks kept; fills the plan's shape and buckling, gives the
// shape. model: its welds in the order in which they are made. Throws NumericalFailure.
elastic::Shape put_shape(const ElasticCase& made, const elastic::BoxModel& model, const BoxCase& box,
                         ElasticPlan& plan);

} // namespace tacksquare
