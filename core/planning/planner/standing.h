// On what the box stands while it is tacked, and welded before it is turned.
#pragma once

#include "planning/planner/elastic_case.h"

#include <vector>

namespace tacksquare {

// Supports, else the table under the corners of what lies on it. Puts into Making::standing the box as
// tacked, and as it is turned or shut if welds come in between; returns them in the same order, without
// figures. Nothing where it is turned before it is tacked, or where hold-downs press it down: they tell what
// is under them.
std::vector<ElasticStand> stand(const BoxCase& box, ElasticCase& made);

} // namespace tacksquare
