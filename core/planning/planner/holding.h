// What holds a box from within while it is tacked and welded: where it touches the walls.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// The former, or the squares, of BoxCase::hold. None where a box has no such corners.
std::vector<HoldingPiece> holding_pieces(const BoxCase& box);

// Their ids, for the step that takes them off.
std::vector<std::string> ids_of(const std::vector<HoldingPiece>& pieces);

// How many squares the sheet asks for: one a corner.
double squares_wanted(const BoxCase& box);

} // namespace tacksquare
