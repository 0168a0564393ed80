#include "planning/search/round_cost.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

std::vector<Load> round_bases(const RoundProblem& problem) {
  std::vector<Load> bases;
  Load sum = problem.before;
  for (std::size_t round = 0; round < problem.rounds; ++round) {
    bases.push_back(sum);
    for (std::size_t unit = 0; unit < problem.units; ++unit)
      sum = sum + problem.load[round * problem.units + unit];
  }
  return bases;
}

long long length_points(const RoundProblem& problem, const Load& sum) {
  // sqrt is exactly rounded everywhere, so this is the same integer on every machine.
  const double x = static_cast<double>(sum.x), y = static_cast<double>(sum.y), z = static_cast<double>(sum.z);
  return std::llround(std::sqrt(x * x + y * y + z * z) / static_cast<double>(problem.load_per_point));
}

long long widths(const RoundProblem& problem, long long points) {
  return (points + problem.peak_width - 1) / problem.peak_width;
}

OrderCost cost_of(const RoundProblem& problem, const std::vector<std::size_t>& order) {
  OrderCost cost;
  Load sum = problem.before;
  long long longest = 0;
  for (std::size_t round = 0; round < problem.rounds; ++round) {
    for (const std::size_t unit : order) {
      const std::size_t at = round * problem.units + unit;
      if (!problem.joins[at]) continue;
      sum = sum + problem.load[at];
      const long long points = length_points(problem, sum);
      longest = std::max(longest, points);
      cost.sum += points;
    }
  }
  for (std::size_t i = 1; i < order.size(); ++i)
    cost.sum += problem.follow[order[i - 1] * problem.units + order[i]];
  cost.peak = widths(problem, longest);
  return cost;
}

std::vector<std::size_t> made_legal(const RoundProblem& problem, const std::vector<std::size_t>& wanted) {
  std::vector<std::size_t> left = wanted, order;
  std::vector<char> done(problem.units, 0);
  while (!left.empty()) {
    const auto ready = std::find_if(left.begin(), left.end(), [&](std::size_t unit) {
      return std::all_of(problem.after[unit].begin(), problem.after[unit].end(),
                         [&](std::size_t earlier) { return done[earlier] != 0; });
    });
    if (ready == left.end()) throw InternalError("round search: units wait for each other in a ring");
    done[*ready] = 1;
    order.push_back(*ready);
    left.erase(ready);
  }
  return order;
}

} // namespace tacksquare
