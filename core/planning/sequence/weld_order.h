// The order of welds that balances heat: seams (or runs) by exact dynamic programming over sets up to 16 units, by
// seeded local search on an iteration budget beyond.
#pragma once

#include "work/work.h"

#include <array>
#include <string>
#include <vector>

namespace tacksquare {

struct OrderedRun {
  std::size_t run = 0;      // index in Work::runs
  std::size_t attitude = 0; // index in BoxGeometry::attitudes
  WeldPosition position = WeldPosition::flat;
  double warmth_K = 0.0;    // how far the neighbourhood is above ambient at the arc start
};

// What an order costs. Compared turns first, then the weighed sum of the two heat figures.
struct OrderFigures {
  int turns = 0;
  double heat_moment = 0.0; // largest distance of the heat's centroid from the work's, part of the box's half diagonal
  double mean_moment = 0.0; // its mean over arc starts
  double worst_warmth_K = 0.0;
  double turning_s = 0.0;
  double arc_s = 0.0;
  long long cost = 0;       // rounded once to integers; less is better
};

struct NamedOrder {
  std::string key;          // "by-id", "round-and-round", "longest-first"
  std::vector<std::string> runs; // ids in order
  OrderFigures figures;
};

struct WeldOrder {
  std::vector<OrderedRun> runs;
  OrderFigures figures;
  bool proven_best = false;         // exact over all allowed orders of the cost model
  std::vector<NamedOrder> compared; // the three plain orders, kept allowed by the same precedence
};

WeldOrder order_welds(const Box& box, const BoxGeometry& geometry, const Work& work);

} // namespace tacksquare
