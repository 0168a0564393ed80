// Fewer unknowns at each weld: a few shapes of its forces instead of every spring.
#pragma once

#include "physics/elastic/sequence.h"

#include <cstdint>

namespace tacksquare::elastic {

struct Reduction {
  int chains = 6;        // random orders whose forces are looked at
  double lost = 3e-4;    // of a weld's forces, as part of their largest: what may be left out
  std::size_t most = 28; // shapes a weld
  std::uint64_t seed = 1;
};

// The same box whose welds' readings are shapes of forces: those that random orders call up, sorted by a
// singular value decomposition weld by weld (snapshots and port reduction, Eftang and Patera 2013, from
// memory). A reading is then what a shape's force does work on, its spring has stiffness 1. Forces of other
// orders are made of these shapes: an approximation from the stiff side. Welds need at least one spring.
TackedBox reduced(const TackedBox& box, const Reduction& how);

} // namespace tacksquare::elastic
