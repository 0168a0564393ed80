// planning/search against an enumeration that shares no code with it.
#include "base/diagnostic.h"
#include "base/random.h"
#include "planning/search/round_search.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace tacksquare;

namespace {

using Order = std::vector<std::size_t>;

RoundProblem random_problem(Random& random, std::size_t units) {
  RoundProblem problem;
  problem.units = units;
  problem.rounds = 1 + static_cast<std::size_t>(random.below(3));
  problem.load_per_point = 1 + static_cast<long long>(random.below(20));
  problem.peak_width = 1 + static_cast<long long>(random.below(30));
  const auto coordinate = [&] { return static_cast<long long>(random.below(401)) - 200; };
  problem.before = {coordinate(), coordinate(), 0};
  for (std::size_t i = 0; i < units * problem.rounds; ++i) {
    const bool joins = random.below(4) != 0;
    problem.joins.push_back(joins ? 1 : 0);
    problem.load.push_back(joins ? Load{coordinate(), coordinate(), coordinate()} : Load{});
  }
  for (std::size_t i = 0; i < units * units; ++i)
    problem.follow.push_back(static_cast<long long>(random.below(60)));
  problem.after.resize(units);
  for (std::size_t unit = 1; unit < units; ++unit)
    if (random.below(4) == 0) problem.after[unit - 1].push_back(unit);
  return problem;
}

// Written from the header's words, step by step.
OrderCost cost_by_hand(const RoundProblem& p, const Order& order) {
  OrderCost cost;
  double x = static_cast<double>(p.before.x), y = static_cast<double>(p.before.y),
         z = static_cast<double>(p.before.z);
  for (std::size_t round = 0; round < p.rounds; ++round) {
    for (const std::size_t unit : order) {
      const Load& load = p.load[round * p.units + unit];
      x += static_cast<double>(load.x);
      y += static_cast<double>(load.y);
      z += static_cast<double>(load.z);
      if (!p.joins[round * p.units + unit]) continue;
      const long long points =
          std::llround(std::sqrt(x * x + y * y + z * z) / static_cast<double>(p.load_per_point));
      cost.sum += points;
      cost.peak = std::max(cost.peak, (points + p.peak_width - 1) / p.peak_width);
    }
  }
  for (std::size_t i = 0; i + 1 < order.size(); ++i)
    cost.sum += p.follow[order[i] * p.units + order[i + 1]];
  return cost;
}

bool legal(const RoundProblem& p, const Order& order) {
  for (std::size_t i = 0; i < order.size(); ++i)
    for (const std::size_t earlier : p.after[order[i]])
      if (std::find(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(i), earlier) ==
          order.begin() + static_cast<std::ptrdiff_t>(i))
        return false;
  return true;
}

// The first of the best among all orders.
FoundOrder enumerate(const RoundProblem& p, long long peak_allowed) {
  Order order(p.units);
  std::iota(order.begin(), order.end(), std::size_t{0});
  FoundOrder best;
  OrderCost least;
  do {
    if (!legal(p, order)) continue;
    OrderCost cost = cost_by_hand(p, order);
    cost.peak = std::max(cost.peak, peak_allowed);
    if (best.order.empty() || cost < least) {
      best.order = order;
      least = cost;
    }
  } while (std::next_permutation(order.begin(), order.end()));
  best.cost = cost_by_hand(p, best.order);
  return best;
}

} // namespace

TEST_CASE("The exact search finds the very order that trying all orders finds, up to 8 units") {
  Random random(71);
  int with_precedence = 0;
  for (int job = 0; job < 300; ++job) {
    const std::size_t units = job < 20 ? 8 : 1 + static_cast<std::size_t>(random.below(7));
    const RoundProblem problem = random_problem(random, units);
    const long long allowed = static_cast<long long>(random.below(12));
    INFO("seed 71, job " << job << ", " << units << " units");
    const FoundOrder expected = enumerate(problem, allowed), found = exact_order(problem, allowed);
    REQUIRE(found.order == expected.order);
    REQUIRE(found.cost == expected.cost);
    REQUIRE(found.proven);
    with_precedence +=
        std::any_of(problem.after.begin(), problem.after.end(), [](const auto& a) { return !a.empty(); });
  }
  CHECK(with_precedence > 50);
}

TEST_CASE("Of orders that cost the same, the smaller unit goes first") {
  RoundProblem problem;
  problem.units = 5;
  problem.rounds = 2;
  problem.joins.assign(10, 1);
  problem.load.assign(10, Load{});
  problem.follow.assign(25, 7);
  problem.after.resize(5);
  CHECK(exact_order(problem, 0).order == Order{0, 1, 2, 3, 4});
  problem.after[0] = {3};
  CHECK(exact_order(problem, 0).order == Order{1, 2, 3, 0, 4});
}

TEST_CASE("Sixteen units are proven, seventeen are not for the table") {
  Random random(5);
  const FoundOrder found = exact_order(random_problem(random, 16), 0);
  CHECK(found.proven);
  CHECK(found.order.size() == 16);
  CHECK_THROWS_AS(exact_order(random_problem(random, 17), 0), InternalError);
}

TEST_CASE("The local search keeps precedence and never ends worse than any start") {
  Random random(13);
  for (int job = 0; job < 40; ++job) {
    const RoundProblem problem = random_problem(random, 17 + static_cast<std::size_t>(random.below(14)));
    std::vector<Order> starts;
    for (int s = 0; s < 3; ++s) {
      Order order(problem.units);
      std::iota(order.begin(), order.end(), std::size_t{0});
      random.shuffle(order);
      starts.push_back(made_legal(problem, order));
    }
    const FoundOrder found = local_order(problem, 0, starts, 1, 2000);
    INFO("seed 13, job " << job);
    REQUIRE(legal(problem, found.order));
    REQUIRE_FALSE(found.proven);
    Order sorted = found.order;
    std::sort(sorted.begin(), sorted.end());
    for (std::size_t unit = 0; unit < problem.units; ++unit)
      REQUIRE(sorted[unit] == unit);
    for (const Order& start : starts)
      REQUIRE(found.cost <= cost_by_hand(problem, start));
    REQUIRE(found.cost == cost_by_hand(problem, found.order));
    REQUIRE(local_order(problem, 0, starts, 1, 2000).order == found.order);
  }
}

TEST_CASE("The local search reaches the proven optimum of most problems of ten units") {
  Random random(29);
  int reached = 0;
  for (int job = 0; job < 50; ++job) {
    const RoundProblem problem = random_problem(random, 10);
    Order order(10);
    std::iota(order.begin(), order.end(), std::size_t{0});
    const FoundOrder best = exact_order(problem, 0);
    const FoundOrder found = local_order(problem, 0, {made_legal(problem, order)}, 3, 20000);
    REQUIRE(best.cost <= found.cost);
    reached += found.cost == best.cost;
  }
  CAPTURE(reached);
  CHECK(reached >= 40);
}

TEST_CASE("An order is changed only as far as precedence asks") {
  RoundProblem problem;
  problem.units = 4;
  problem.after = {{2}, {}, {}, {1}};
  CHECK(made_legal(problem, {0, 3, 2, 1}) == Order{2, 0, 1, 3});
  problem.after[2] = {0};
  CHECK_THROWS_AS(made_legal(problem, {0, 1, 2, 3}), InternalError);
}
