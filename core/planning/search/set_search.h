// The best order of units where a step hangs on the set of those before it, and what counts is the worst of
// sums of steps. Knows no physics.
//
// Each step adds a vector to a running sum, one for every scenario; at the end the largest absolute row of a
// scenario counts, and of an order the mean over the scenarios. Sums do not part into what is behind and what
// is ahead, so dynamic programming alone fails; but row by row the least and the largest sum still to come
// from a set are exact by it, and what no order out of the set can leave follows (branch and bound with a box
// for each set).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace tacksquare {

// Groups come one after the other; every group has an order of its own units.
using GroupOrders = std::vector<std::vector<std::size_t>>;

struct SetGroup {
  std::size_t units = 0;                       // at most kMostInSet
  std::vector<std::vector<std::size_t>> after; // of each unit: those of the group that come before it
  // [(set * units + next) * kinds * rows + kind * rows + row]: what a unit of each kind adds when `next`
  // joins the set (bit i: unit i is there). Not looked at where precedence forbids it.
  std::vector<double> steps;
  std::vector<double> amounts; // [(unit * kinds + kind) * scenarios + scenario]
};

struct SetProblem {
  std::size_t rows = 0, kinds = 1, scenarios = 1;
  std::vector<double> start; // [row * scenarios + scenario]
  std::vector<SetGroup> groups;
};

inline constexpr std::size_t kMostInSet = 12;

struct SetFound {
  GroupOrders order;
  double value = 0.0;
  double bound = 0.0;  // no order is below this (of the worst order: above)
  bool proven = false; // bound and value differ by no more than was asked
  long long steps = 0; // looked at
};

class SetSearch {
 public:
  // Precondition: precedence without a cycle (InternalError).
  explicit SetSearch(SetProblem problem);

  double value(const GroupOrders& order) const;
  double value(const GroupOrders& order, std::size_t scenario) const;

  // The best order, or one as good but for `within`. start: a legal order to begin with. Stops after so many
  // steps with what it has. Of equal orders the one that it comes to first: the same on every machine.
  SetFound least(const GroupOrders& start, double within, long long most_steps) const;
  SetFound most(const GroupOrders& start, double within, long long most_steps) const;

  // All orders not above a value, as they are come to; nothing when there are more than `cap` or it took more
  // than most_steps.
  std::optional<std::vector<GroupOrders>> all_up_to(double value, std::size_t cap,
                                                    long long most_steps) const;

  double orders() const; // how many keep the precedence

 private:
  class Walk;
  SetProblem problem_;
  std::vector<std::vector<std::uint32_t>> needs_; // of each group's units: the set that comes before
  // Of each group [(set * rows + row) * scenarios + scenario]: the least and the largest still to come, later
  // groups included; nothing of sets that no order reaches.
  std::vector<std::vector<double>> least_, largest_;
  std::vector<std::vector<double>> ways_; // of each group and set: orders of what is still to come in it
};

} // namespace tacksquare
