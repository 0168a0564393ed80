// How good and how quick the order of welds is: exact against trying all orders, planned against plain
// orders, growth with the number of seams, and one job's worth of a hundred closed boxes.
#include "../planning/fixtures.h"
#include "planning/search/round_search.h"
#include "planning/sequence/weld_order.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <numeric>

using namespace tacksquare;

namespace {

template <class Work> double milliseconds(Work work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
}

RoundProblem random_problem(Random& random, std::size_t units) {
  RoundProblem problem;
  problem.units = units;
  problem.rounds = 2;
  problem.load_per_point = 100;
  problem.peak_width = 100;
  problem.joins.assign(units * 2, 1);
  const auto coordinate = [&] { return static_cast<long long>(random.below(100001)) - 50000; };
  for (std::size_t i = 0; i < units * 2; ++i)
    problem.load.push_back({coordinate(), coordinate(), coordinate()});
  for (std::size_t i = 0; i < units * units; ++i)
    problem.follow.push_back(static_cast<long long>(random.below(1000)));
  problem.after.resize(units);
  return problem;
}

std::vector<std::size_t> by_number(std::size_t units) {
  std::vector<std::size_t> order(units);
  std::iota(order.begin(), order.end(), std::size_t{0});
  return order;
}

void against_all_orders() {
  std::printf("exact against trying all orders, two rounds\n%6s %10s %12s %10s %8s\n", "units", "exact ms",
              "all ms", "quicker", "equal");
  Random random(1);
  for (std::size_t units = 4; units <= 8; ++units) {
    const RoundProblem problem = random_problem(random, units);
    FoundOrder found;
    const double exact = milliseconds([&] { found = exact_order(problem, 0); });
    std::vector<std::size_t> order = by_number(units);
    OrderCost least = cost_of(problem, order);
    const double all = milliseconds([&] {
      do
        least = std::min(least, cost_of(problem, order));
      while (std::next_permutation(order.begin(), order.end()));
    });
    std::printf("%6zu %10.3f %12.3f %10.1f %8s\n", units, exact, all, all / exact,
                least == found.cost ? "yes" : "NO");
  }
}

void growth() {
  std::printf(
      "\ngrowth with the seams between two turns; beyond 16 by local search, 20000 trials\n%6s %10s %8s\n",
      "units", "ms", "times");
  Random random(2);
  double before = 0.0;
  for (std::size_t units = 8; units <= 24; units += 2) {
    const RoundProblem problem = random_problem(random, units);
    const double took = milliseconds([&] {
      if (units <= kExactUnits)
        exact_order(problem, 0);
      else
        local_order(problem, 0, {by_number(units)}, 1, 20000);
    });
    std::printf("%6zu %10.3f %8.1f\n", units, took, before > 0.0 ? took / before : 1.0);
    before = took;
  }
  int equal = 0;
  const int jobs = 20;
  for (int job = 0; job < jobs; ++job) {
    const RoundProblem problem = random_problem(random, 14);
    equal += local_order(problem, 0, {by_number(14)}, 1, 20000).cost == exact_order(problem, 0).cost;
  }
  std::printf("local search finds the proven optimum of 14 units in %d of %d\n", equal, jobs);
}

void against_plain_orders() {
  std::printf("\nplanned order against plain ones: largest moment, mean moment, worst warmth K\n");
  for (const bool closed : {false, true}) {
    const test::BoxCase c = test::build(closed ? test::float_box() : test::locker());
    WeldOrder order;
    const double took = milliseconds([&] { order = order_welds(c.job, c.box, c.geometry, c.work); });
    std::printf("%s, %.3f ms%s\n", closed ? "closed box, 12 seams" : "locker, 4 seams", took,
                order.proven_best ? ", proven" : "");
    const auto line = [](const char* name, const OrderFigures& f, const OrderFigures& best) {
      std::printf("  %-16s %7.4f %7.4f %6.1f   mean moment %.2f times the planned one\n", name, f.heat_moment,
                  f.mean_moment, f.worst_warmth_K, f.mean_moment / best.mean_moment);
    };
    line("planned", order.figures, order.figures);
    for (const NamedOrder& plain : order.compared)
      line(plain.key.c_str(), plain.figures, order.figures);
  }
  const test::BoxCase c = test::build(test::float_box());
  const double all = milliseconds([&] {
    for (int copy = 0; copy < 100; ++copy)
      order_welds(c.job, c.box, c.geometry, c.work);
  });
  std::printf("\na hundred closed boxes in one job: %.0f ms\n", all);
}

} // namespace

int main() {
  against_all_orders();
  growth();
  against_plain_orders();
}
