// The figures to expect at each check, by what is made of the box when it comes.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// Of every measure that a check reads: after the tacks and runs of this step and those before it; ground from
// the first grit on. None before the first tack, of bounds, and where a box is welded before all of its tacks
// are in.
void tell_expected(const BoxCase& box, std::vector<Step>& steps);

} // namespace tacksquare
