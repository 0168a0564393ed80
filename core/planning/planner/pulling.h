// A tacked box that is out of square pulled across its long diagonal: how far past square, so that it springs
// back to it.
#pragma once

#include "planning/planner/box_case.h"

namespace tacksquare {

// By the diagonals that are read at the hold, of the box held by nothing else. The way that has to be pulled
// less far is told: let go when all is tacked, or (an open box) when all is welded and cold.
Pulls pulls_of(const BoxCase& box);

} // namespace tacksquare
