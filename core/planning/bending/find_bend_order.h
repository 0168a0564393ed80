// Finds an order in which a part can be bent on the job's brake. docs/theory.md, "Order of bends".
#pragma once

#include "geometry/flat_pattern.h"
#include "job/brake.h"
#include "work/bend_order.h"

namespace tacksquare {

// The order with the fewest turns of the sheet and bends gauged far, together; of those the one with the
// fewest gauged far, then fewest strokes, then fewest changes of punch length and gauge; of those the one
// that comes first by bend index. Exact: all sets of bends that can be reached are looked at. Preconditions:
// the bends join the faces to a tree, none of them is flat, and there are at most kMostBends (InternalError
// beyond).
BendOrder find_bend_order(const Brake& brake, const FlatPattern& pattern);

} // namespace tacksquare
