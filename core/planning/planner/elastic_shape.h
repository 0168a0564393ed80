// The welded box as the elastic model sees it: its shape, and which faces buckle under what the seams leave.
#pragma once

#include "physics/elastic/whole_box.h"
#include "planning/planner/elastic_case.h"

namespace tacksquare {

// As it stands at the end (Expectation::end); fills the plan's shape and buckling, gives the shape. Throws
// NumericalFailure.
elastic::Shape put_shape(const ElasticCase& made, const elastic::Expectation& expected, const BoxCase& box,
                         ElasticPlan& plan);

} // namespace tacksquare
