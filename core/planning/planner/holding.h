// What of the fixture the elastic model holds the box with: formers, squares, spreaders and corner clamps.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// By the ids of the fixture. Stops, pads and the table push only, and bar clamps press the walls against what
// is inside: they are not in it.
std::vector<HoldingPiece> holding_pieces(const BoxCase& box);

} // namespace tacksquare
