// The welded box as the elastic model sees it: its shape, and which faces buckle under what the seams leave.
#pragma once

#include "planning/planner/elastic_case.h"
#include "planning/planner/expectation.h"

namespace tacksquare {

// Middle of all that is uncertain but misfit, all tacks kept; fills shape and buckling of BoxCase::elastic.
// model: its welds in the order in which they are made. Throws NumericalFailure.
ShapeFile put_shape(const ElasticCase& made, const elastic::BoxModel& model, BoxCase& box);

} // namespace tacksquare
