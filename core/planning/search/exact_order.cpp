#include "base/diagnostic.h"
#include "planning/search/round_cost.h"

#include <algorithm>
#include <limits>

namespace tacksquare {
namespace {

constexpr long long kNever = std::numeric_limits<long long>::max() / 4;

using Set = std::uint32_t;

class SubsetTable {
 public:
  explicit SubsetTable(const RoundProblem& problem)
      : problem_(problem), units_(problem.units), full_((Set{1} << units_) - 1), needs_(units_, 0) {
    for (std::size_t unit = 0; unit < units_; ++unit)
      for (const std::size_t earlier : problem.after[unit])
        needs_[unit] |= Set{1} << earlier;
    tabulate_steps();
  }

  // Least possible peak, in widths.
  long long least_peak() const {
    std::vector<long long> to_go(std::size_t{full_} + 1, kNever);
    to_go[full_] = 0;
    for (Set set = full_; set-- > 0;) {
      for (std::size_t next = 0; next < units_; ++next) {
        if (!may_follow(set, next)) continue;
        const Set with = set | Set{1} << next;
        to_go[set] = std::min(to_go[set], std::max(peak_[index(with, next)], to_go[with]));
      }
    }
    return to_go[0];
  }

  // The order of least sum among those whose peak stays within the limit; of equals the first by unit
  // numbers.
  std::vector<std::size_t> least_sum(long long limit) const {
    std::vector<long long> to_go(sum_.size(),
                                 kNever); // sum from this set and last unit on, this step included
    for (Set set = full_; set > 0; --set) {
      for (std::size_t last = 0; last < units_; ++last) {
        if (!(set >> last & 1u) || peak_[index(set, last)] > limit) continue;
        long long best = set == full_ ? 0 : kNever;
        for (std::size_t next = 0; next < units_; ++next)
          if (may_follow(set, next)) best = std::min(best, continued(to_go, set, last, next));
        if (best < kNever) to_go[index(set, last)] = sum_[index(set, last)] + best;
      }
    }
    std::vector<std::size_t> order;
    Set set = 0;
    while (set != full_) {
      std::size_t chosen = units_;
      long long least = kNever;
      for (std::size_t next = 0; next < units_; ++next) {
        if (!may_follow(set, next)) continue;
        const long long cost =
            order.empty() ? to_go[index(Set{1} << next, next)] : continued(to_go, set, order.back(), next);
        if (cost < least) {
          least = cost;
          chosen = next;
        }
      }
      if (chosen == units_) throw InternalError("round search: no order keeps the precedence");
      order.push_back(chosen);
      set |= Set{1} << chosen;
    }
    return order;
  }

 private:
  std::size_t index(Set set, std::size_t last) const { return std::size_t{set} * units_ + last; }
  bool may_follow(Set set, std::size_t next) const {
    return !(set >> next & 1u) && (needs_[next] & ~set) == 0;
  }
  long long continued(const std::vector<long long>& to_go, Set set, std::size_t last,
                      std::size_t next) const {
    return problem_.follow[last * units_ + next] + to_go[index(set | Set{1} << next, next)];
  }

  // For every set and the unit that joined it last: the lengths after that unit's steps of all rounds.
  void tabulate_steps() {
    const std::size_t sets = std::size_t{full_} + 1;
    sum_.assign(sets * units_, 0);
    peak_.assign(sets * units_, 0);
    const std::vector<Load> bases = round_bases(problem_);
    std::vector<Load> running(sets);
    for (std::size_t round = 0; round < problem_.rounds; ++round) {
      running[0] = bases[round];
      for (Set set = 1; set <= full_; ++set) {
        std::size_t lowest = 0;
        while (!(set >> lowest & 1u))
          ++lowest;
        running[set] = running[set & (set - 1)] + problem_.load[round * units_ + lowest];
        const long long points = length_points(problem_, running[set]);
        const long long peak = widths(problem_, points);
        for (std::size_t last = lowest; last < units_; ++last) {
          if (!(set >> last & 1u) || !problem_.joins[round * units_ + last]) continue;
          sum_[index(set, last)] += points;
          peak_[index(set, last)] = std::max(peak_[index(set, last)], peak);
        }
      }
    }
  }

  const RoundProblem& problem_;
  std::size_t units_;
  Set full_;
  std::vector<Set> needs_;
  std::vector<long long> sum_, peak_; // [set * units + last]
};

} // namespace

FoundOrder exact_order(const RoundProblem& problem, long long peak_allowed) {
  if (problem.units > kExactUnits) throw InternalError("round search: too many units for the subset table");
  FoundOrder found;
  found.proven = true;
  if (problem.units == 0) return found;
  const SubsetTable table(problem);
  found.order = table.least_sum(std::max(table.least_peak(), peak_allowed));
  found.cost = cost_of(problem, found.order);
  return found;
}

} // namespace tacksquare
