// A box on its way into a plan: geometry, work, tacks, order and closed forms.
#pragma once

#include "planning/planner/box_case.h"

#include <optional>

namespace tacksquare {

// job: its boxes at the sizes that they are made to; row: of the opening, whose limits then hold for widths.
// Both must outlive the case. Faults as resolve_geometry and make_work: nothing.
std::optional<BoxCase> case_of(const Job& job, std::size_t index, const std::optional<RowFit>& row,
                               Diagnostics& faults);

} // namespace tacksquare
