// The search over sets against trying every order.
#include "base/random.h"
#include "planning/search/set_search.h"
#include "support/catch.h"
#include "support/repeat.h"
#include "support/table.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>
#include <sstream>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

SetGroup random_group(std::size_t units, const SetProblem& p, Random& random) {
  SetGroup group;
  group.units = units;
  group.after.resize(units);
  for (std::size_t a = 0; a < units; ++a)
    for (std::size_t b = a + 1; b < units; ++b)
      if (random.below(8) == 0) group.after[b].push_back(a);
  group.steps.resize((std::size_t{1} << units) * units * p.kinds * p.rows);
  for (double& step : group.steps)
    step = random.uniform(-1.0, 1.0);
  group.amounts.resize(units * p.kinds * p.scenarios);
  for (double& amount : group.amounts)
    amount = random.uniform(0.5, 1.5);
  return group;
}

SetProblem random_problem(Random& random) {
  SetProblem p;
  p.rows = 1 + random.below(3);
  p.kinds = 1 + random.below(3);
  p.scenarios = 1 + random.below(4);
  for (std::size_t i = 0; i < p.rows * p.scenarios; ++i)
    p.start.push_back(random.uniform(-1.0, 1.0));
  const std::size_t groups = 1 + random.below(2);
  for (std::size_t g = 0; g < groups; ++g)
    p.groups.push_back(random_group(1 + random.below(groups == 1 ? 6 : 4), p, random));
  return p;
}

bool legal(const SetGroup& group, const std::vector<std::size_t>& order) {
  for (std::size_t i = 0; i < order.size(); ++i)
    for (const std::size_t earlier : group.after[order[i]])
      if (std::find(order.begin(), order.begin() + static_cast<long>(i), earlier) ==
          order.begin() + static_cast<long>(i))
        return false;
  return true;
}

// As the header words it, term by term.
double by_words(const SetProblem& p, const GroupOrders& orders) {
  double mean = 0.0;
  for (std::size_t s = 0; s < p.scenarios; ++s) {
    double worst = 0.0;
    for (std::size_t row = 0; row < p.rows; ++row) {
      double sum = p.start[row * p.scenarios + s];
      for (std::size_t g = 0; g < p.groups.size(); ++g) {
        const SetGroup& group = p.groups[g];
        std::size_t set = 0;
        for (const std::size_t next : orders[g]) {
          for (std::size_t kind = 0; kind < p.kinds; ++kind)
            sum += group.steps[(set * group.units + next) * p.kinds * p.rows + kind * p.rows + row] *
                   group.amounts[(next * p.kinds + kind) * p.scenarios + s];
          set |= std::size_t{1} << next;
        }
      }
      worst = std::max(worst, std::abs(sum));
    }
    mean += worst / static_cast<double>(p.scenarios);
  }
  return mean;
}

void each_order(const SetProblem& p, const std::function<void(const GroupOrders&)>& see) {
  GroupOrders orders(p.groups.size());
  const std::function<void(std::size_t)> from = [&](std::size_t g) {
    if (g == p.groups.size()) {
      see(orders);
      return;
    }
    orders[g].resize(p.groups[g].units);
    std::iota(orders[g].begin(), orders[g].end(), std::size_t{0});
    std::vector<std::size_t> order = orders[g];
    do {
      orders[g] = order;
      if (legal(p.groups[g], order)) from(g + 1);
    } while (std::next_permutation(order.begin(), order.end()));
  };
  from(0);
}

GroupOrders as_numbered(const SetProblem& p) { // legal: units wait for smaller ones only
  GroupOrders orders;
  for (const SetGroup& group : p.groups) {
    orders.emplace_back(group.units);
    std::iota(orders.back().begin(), orders.back().end(), std::size_t{0});
  }
  return orders;
}

} // namespace

TEST_CASE("the best and the worst order out of the table of sets are those of trying every order") {
  Random random(20270601);
  for (int trial = 0; trial < times(300, 60); ++trial) {
    const SetProblem p = random_problem(random);
    const SetSearch search(p);
    std::map<GroupOrders, double> values;
    each_order(p, [&](const GroupOrders& orders) { values[orders] = by_words(p, orders); });
    double least = 1e9, most = 0.0;
    for (const auto& [orders, value] : values) {
      least = std::min(least, value);
      most = std::max(most, value);
      REQUIRE(search.value(orders) == Approx(value).margin(1e-12));
    }
    INFO("trial " << trial);
    CHECK(search.orders() == static_cast<double>(values.size()));
    const SetFound best = search.least(as_numbered(p), 0.0, 1'000'000);
    CHECK(best.proven);
    CHECK(best.value == Approx(least).margin(1e-12));
    CHECK(best.bound == Approx(least).margin(1e-12));
    CHECK(values.at(best.order) == Approx(least).margin(1e-12));
    const SetFound worst = search.most(as_numbered(p), 0.0, 1'000'000);
    CHECK(worst.proven);
    CHECK(worst.value == Approx(most).margin(1e-12));

    const double width = 0.3;
    const SetFound near = search.least(as_numbered(p), width, 1'000'000);
    CHECK(near.proven);
    CHECK(near.bound <= least + 1e-12);
    CHECK(near.value <= near.bound + width + 1e-12);

    const double up_to = least + width;
    const auto within = std::count_if(values.begin(), values.end(),
                                      [&](const auto& each) { return each.second <= up_to - 1e-9; });
    const auto listed = search.all_up_to(up_to, values.size(), 1'000'000);
    REQUIRE(listed);
    CHECK(static_cast<long>(listed->size()) >= within);
    for (const GroupOrders& orders : *listed)
      CHECK(values.at(orders) <= up_to + 1e-9);
    if (within > 1) CHECK_FALSE(search.all_up_to(up_to, static_cast<std::size_t>(within) - 1, 1'000'000));
  }
}

TEST_CASE("a search that is cut short tells a bound that is one, and does not call it proven") {
  Random random(20270602);
  int cut = 0;
  for (int trial = 0; trial < times(40, 10); ++trial) {
    SetProblem p = random_problem(random);
    p.groups = {random_group(6, p, random)};
    const SetSearch search(p);
    const double least = search.least(as_numbered(p), 0.0, 1'000'000).value;
    const SetFound found = search.least(as_numbered(p), 0.0, 8);
    CHECK(found.bound <= least + 1e-12);
    CHECK(found.value >= least - 1e-12);
    if (!found.proven) ++cut;
    CHECK((found.proven || found.bound < found.value));
  }
  CHECK(cut > 0);
}

TEST_CASE("the best order is the one of a mixed integer program") {
  const Table table("order_problems.tsv", {"units", "rows", "scenarios", "start", "steps", "amounts", "value",
                                           "tolerance", "source", "mark"});
  REQUIRE(table.size() == 6);
  const auto numbers = [](const std::string& text) {
    std::istringstream in(text);
    std::vector<double> all;
    for (double each = 0.0; in >> each;)
      all.push_back(each);
    return all;
  };
  for (std::size_t i = 0; i < table.size(); ++i) {
    const Table::Row row = table[i];
    INFO(row.text("units") << " units, " << row.text("source"));
    SetProblem p;
    p.rows = static_cast<std::size_t>(row.integer("rows"));
    p.scenarios = static_cast<std::size_t>(row.integer("scenarios"));
    p.start = numbers(row.text("start"));
    SetGroup group;
    group.units = static_cast<std::size_t>(row.integer("units"));
    group.after.resize(group.units);
    group.steps = numbers(row.text("steps"));
    group.amounts = numbers(row.text("amounts"));
    REQUIRE(group.steps.size() == (std::size_t{1} << group.units) * group.units * p.rows);
    p.groups = {group};
    const SetFound best = SetSearch(p).least(as_numbered(p), 0.0, 10'000'000);
    CHECK(best.proven);
    CHECK(best.value == Approx(row.number("value")).margin(row.number("tolerance")));
  }
}
