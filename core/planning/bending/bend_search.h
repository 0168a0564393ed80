// The best order of bends, by dynamic programming over the sets of bends that are made.
#pragma once

#include "planning/bending/bend_check.h"

#include <compare>
#include <tuple>
#include <vector>

namespace tacksquare {

// One stroke: a line of the folding, and which half lies at the back.
struct BendMove {
  std::size_t line = 0;
  bool a_back = false;
  bool operator==(const BendMove&) const = default;
};

// A bend that is gauged over far weighs as much as a turn: what is off in the whole sheet comes into it.
struct BendCost {
  int turns = 0; // the sheet lies another way round, or the other side is up
  int far = 0;   // gauged over more than kFarTimes the least distance
  int strokes = 0;
  int changes = 0; // of the punch's length, and of the gauge
  BendCost operator+(BendCost b) const {
    return {turns + b.turns, far + b.far, strokes + b.strokes, changes + b.changes};
  }
  bool operator==(const BendCost&) const = default;
  std::strong_ordering operator<=>(const BendCost& b) const {
    return std::tuple(turns + far, far, strokes, changes) <=>
           std::tuple(b.turns + b.far, b.far, b.strokes, b.changes);
  }
};

// What has to be set up for a move, so that two of them can be compared.
struct BendSetUp {
  int lies = 0; // number of a way in which the sheet lies: direction to the back, side up
  int punch_mm = 0;
  int gauge_tenths = 0;
  bool far = false;
};
BendCost cost_of(const BendSetUp& set_up); // of the stroke by itself
BendCost cost_between(const BendSetUp& before, const BendSetUp& after);
BendSetUp set_up_of(const Folding& folding, BendMove move, const BendCheck& check);

struct BendSearch {
  std::vector<BendMove> order; // empty where none is possible
  BendCost cost;
  std::size_t sets_seen = 0;
  std::vector<BendSet> fullest; // the sets with the most bends that can be made
};
BendSearch search_order(BendChecker& checker, const Folding& folding);

// Whether any order can bend the part.
bool can_be_bent(BendChecker& checker, const Folding& folding);

} // namespace tacksquare
