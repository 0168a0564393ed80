// Finds an order in which a part can be bent on the job's brake. docs/theory.md.
#pragma once

#include "geometry/flat_pattern.h"
#include "job/job.h"
#include "work/bend_order.h"

namespace tacksquare {

// Precondition: the pattern is of a part of the box. At most 20 bends; InternalError beyond.
BendOrder find_bend_order(const Brake& brake, const Box& box, const FlatPattern& pattern);

} // namespace tacksquare
