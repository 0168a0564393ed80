#include "base/diagnostic.h"
#include "base/random.h"
#include "planning/search/round_cost.h"

#include <algorithm>

namespace tacksquare {
namespace {

bool is_legal(const RoundProblem& problem, const std::vector<std::size_t>& order, std::vector<char>& done) {
  std::fill(done.begin(), done.end(), char{0});
  for (const std::size_t unit : order) {
    for (const std::size_t earlier : problem.after[unit])
      if (!done[earlier]) return false;
    done[unit] = 1;
  }
  return true;
}

// Swaps two units, or takes one, two or three neighbours out and puts them in elsewhere.
void move_at_random(std::vector<std::size_t>& order, Random& random) {
  const std::size_t units = order.size();
  const std::size_t length = static_cast<std::size_t>(random.below(4));
  if (length == 0) {
    std::swap(order[static_cast<std::size_t>(random.below(units))],
              order[static_cast<std::size_t>(random.below(units))]);
    return;
  }
  const std::size_t taken = std::min(length, units - 1);
  const std::size_t from = static_cast<std::size_t>(random.below(units - taken + 1));
  const std::size_t to = static_cast<std::size_t>(random.below(units - taken + 1));
  const auto at = [&](std::size_t place) { return order.begin() + static_cast<std::ptrdiff_t>(place); };
  if (to < from) {
    std::rotate(at(to), at(from), at(from + taken));
  } else {
    std::rotate(at(from), at(from + taken), at(to + taken));
  }
}

} // namespace

FoundOrder local_order(const RoundProblem& problem, long long peak_allowed,
                       const std::vector<std::vector<std::size_t>>& starts, std::uint64_t seed, int trials) {
  if (starts.empty()) throw InternalError("round search: no order to start from");
  const auto compared = [&](OrderCost cost) {
    cost.peak = std::max(cost.peak, peak_allowed);
    return cost;
  };
  std::vector<std::size_t> best = starts.front();
  OrderCost best_cost = compared(cost_of(problem, best));
  for (const auto& start : starts) {
    const OrderCost cost = compared(cost_of(problem, start));
    if (cost < best_cost) {
      best = start;
      best_cost = cost;
    }
  }
  if (problem.units > 1) {
    constexpr int kPatience = 600; // trials without gain before a kick
    Random random(seed);
    std::vector<char> done(problem.units);
    std::vector<std::size_t> current = best;
    OrderCost current_cost = best_cost;
    int idle = 0;
    for (int trial = 0; trial < trials; ++trial) {
      std::vector<std::size_t> tried = current;
      const bool kick = idle == kPatience;
      if (kick) tried = best;
      for (int moves = kick ? 4 : 1; moves > 0; --moves)
        move_at_random(tried, random);
      if (kick) idle = 0;
      if (!is_legal(problem, tried, done)) continue;
      const OrderCost cost = compared(cost_of(problem, tried));
      idle = cost < current_cost ? 0 : idle + 1;
      if (!kick && current_cost < cost) continue;
      current = std::move(tried);
      current_cost = cost;
      if (cost < best_cost) {
        best = current;
        best_cost = cost;
      }
    }
  }
  return {best, cost_of(problem, best), false};
}

} // namespace tacksquare
