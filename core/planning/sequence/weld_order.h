// The order of welds that balances heat, on two levels.
//
// Turns: the box is turned as seldom as all runs can be reached in allowed positions (turns.h). Between two
// turns seams of one settings and one position are welded together (rounds.h), round by round: the first run
// of every seam, then the second of every seam, in one order of seams that stays the same in all rounds, so
// that each seam rests equally long. Dabs at ends and relief holes come after all other runs of their turn. A
// seam that must wait for another one of its turn joins with the round in which that one is finished. Seams
// to finish before the last face goes on come before all others.
//
// The order of seams in a group is chosen exactly up to 16 seams (search/round_search.h), beyond by
// local search.
#pragma once

#include "planning/sequence/rounds.h"
#include "work/work.h"

#include <string>
#include <vector>

namespace tacksquare {

struct OrderedRun {
  std::size_t run = 0;      // index in Work::runs
  std::size_t attitude = 0; // index in BoxGeometry::attitudes
  WeldPosition position =
      WeldPosition::flat; // an unreachable or overhead one only when no attitude gives better
  double warmth_K = 0.0;  // mean rise of the run's two faces above ambient at the arc start
  double waited_s = 0.0;  // before it, until the faces are below the start limit
};

// What an order costs. Heat moment: after each run, the sum of heat times distance vector from the centroid
// of all heat, over all heat and half the box's diagonal: how far the heat made so far pulls to one side.
// Compared in this order: turns; the largest moment in whole hundredths, rounded up; the sum over runs of
// moment (100 points a hundredth) and of the warmth that the seam just made leaves on the faces of the next
// one (100 points a kelvin, mean over the rounds that both join, dabs left out).
struct OrderFigures {
  int turns = 0;
  double heat_moment = 0.0; // the largest
  double mean_moment = 0.0; // mean over runs
  double worst_warmth_K = 0.0;
  double turning_s = 0.0;
  double arc_s = 0.0;
  long long cost = 0; // the three in one number, less is better
};

using SeamOrders =
    std::vector<std::vector<std::size_t>>; // of each group its units, in the order of all rounds

struct NamedOrder {
  std::string key; // "by-id", "round-and-round", "longest-first"
  SeamOrders seams;
  std::vector<std::string> runs; // ids in order
  OrderFigures figures;
};

struct WeldOrder {
  std::size_t first_attitude =
      0; // index in BoxGeometry::attitudes: how the box lies while it is fitted and tacked
  std::vector<OrderedRun> runs;
  std::vector<Run> directed; // Work::runs as they are welded, turned round where it has to be (turns.h)
  OrderFigures figures;
  // Of least cost among all orders of seams that keep the turns, the groups, the rounds and the precedence
  // described above. What a proof does not cover: warmth from seams before the last one (worst_warmth_K has
  // it all), other roundings of the same box, another sharing of seams among equally few turns.
  bool proven_best = false;
  std::vector<NamedOrder> compared; // three plain orders of seams under the same turns, rounds and precedence
  // What there is to order, and how it is ordered.
  std::vector<SeamGroup> groups;
  std::vector<RoundProblem> problems; // of each group
  SeamOrders seams;
};

// Precondition: box, geometry and work belong together; Work::before has no cycle.
WeldOrder order_welds(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work);

// The same turns, groups and rounds with the seams in another order: its runs and figures; proven no longer.
// work: with its runs as they are directed. Precondition: an order of each group that keeps its precedence.
WeldOrder with_seams(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work,
                     WeldOrder order, SeamOrders seams);

// Seam after seam, each with all its runs while the box lies as planned for it; dabs after all of them.
// seams: indices in Work::seams, each once.
WeldOrder seam_by_seam(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work,
                       const WeldOrder& planned, const std::vector<std::size_t>& seams);

} // namespace tacksquare
