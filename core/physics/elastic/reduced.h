// Fewer unknowns at each weld: a few shapes of its forces instead of every spring.
#pragma once

#include "physics/elastic/sequence.h"

#include <cstdint>

namespace tacksquare::elastic {

struct Reduction {
  // Of the largest figure, with all seams shrinking alike in one way: what figures of other orders may be off
  // by. Half of it at most in two random orders that shapes were not taken from, or more shapes are taken.
  double error = 3e-3;
  std::uint64_t seed = 1;
};

// The same box whose welds' readings are shapes of forces: those that random orders call up and those that
// loads on the measures call up in the finished box, sorted by a singular value decomposition weld by weld
// (snapshots and port reduction, Eftang and Patera 2013, from memory; what a measure is off by is the product
// of what both kinds of forces are off by). A reading is then what a shape's force does work on, its spring
// has stiffness 1. Forces of other orders are made of these shapes: an approximation from the stiff side.
// Welds need at least one spring.
TackedBox reduced(const TackedBox& box, const Reduction& how);

} // namespace tacksquare::elastic
