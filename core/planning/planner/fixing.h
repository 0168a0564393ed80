// The fixture of a planned box: as stated, else the planner's.
#pragma once

#include "planning/planner/box_case.h"

#include <optional>

namespace tacksquare {

// Tells the faults of a stated fixture; nothing then.
std::optional<Fixing> fix(const BoxCase& box, Diagnostics& out);

// A planned one, which has no faults.
Fixing fixing_of(const BoxCase& box, Fixture planned);

// The box's own, when its tacks have come into another order: what leaves when.
void hold_again(BoxCase& box);

} // namespace tacksquare
