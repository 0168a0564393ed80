// What of the fixture the elastic model holds the box with: formers, squares, spreaders, corner clamps, and
// the table where hold-downs press the box onto it.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// By the ids of the fixture; the table by that of the hold-down that comes off first, since from then on it
// is not held down everywhere. Bar clamps press the walls against what is inside; stops, pads and the table
// without hold-downs push only (standing.h): they are not in it.
std::vector<HoldingPiece> holding_pieces(const BoxCase& box);

} // namespace tacksquare
