// The welded box as the elastic model sees it: its shape, and which faces buckle under what the seams leave.
#pragma once

#include "planning/planner/elastic_case.h"
#include "planning/planner/expectation.h"

#include <optional>

namespace tacksquare {

// Middle of all that is uncertain, all tacks kept; fills shape and buckling of BoxCase::elastic. Faults as
// elastic::make_box_model; throws NumericalFailure.
std::optional<ShapeFile> put_shape(const ElasticCase& made, BoxCase& box, Diagnostics& out);

} // namespace tacksquare
