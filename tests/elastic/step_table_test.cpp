// The table of steps against the same welds one after the other.
#include "base/random.h"
#include "elastic/made_box.h"
#include "physics/elastic/reduced.h"
#include "physics/elastic/step_range.h"
#include "physics/elastic/step_table.h"
#include "support/catch.h"
#include "support/repeat.h"

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// Every seam in so many equal lengths, one a round, in this order of rounds.
TackedBox in_rounds(const StatedBox& b, const std::vector<int>& lengths) {
  std::vector<WeldLength> welds;
  for (std::size_t s = 0; s < b.box.seams.size(); ++s)
    for (int i = 0; i < lengths[s]; ++i) {
      const double l = b.geometry.seams[s].length_mm / lengths[s];
      welds.push_back({s, l * i, l * (i + 1)});
    }
  return tacked(made_box(b, b.tacks, welds, {}));
}

// Rounds of some seams; those with fewer lengths drop out after their last.
std::vector<RoundsOfSeam> rounds_of(const TackedBox& box, const std::vector<std::size_t>& seams,
                                    std::size_t rounds) {
  std::vector<RoundsOfSeam> all;
  for (const std::size_t seam : seams) {
    RoundsOfSeam made{std::vector<std::vector<std::size_t>>(rounds), {}};
    std::size_t round = 0;
    for (std::size_t w = 0; w < box.welds.size(); ++w)
      if (box.welds[w].seam == seam) made.rounds[round++].push_back(w);
    all.push_back(std::move(made));
  }
  return all;
}

std::vector<std::size_t> welds_in(const std::vector<RoundsOfSeam>& seams,
                                  const std::vector<std::size_t>& order) {
  std::vector<std::size_t> welds;
  for (std::size_t round = 0; round < seams.front().rounds.size(); ++round)
    for (const std::size_t s : order)
      welds.insert(welds.end(), seams[s].rounds[round].begin(), seams[s].rounds[round].end());
  return welds;
}

MatrixXd by_table(const StepTable& table, const std::vector<std::size_t>& order) {
  MatrixXd sum;
  std::size_t set = 0;
  for (const std::size_t next : order) {
    const Response& step = table.steps[set * table.seams + next];
    REQUIRE(step.size() > 0);
    if (sum.size() == 0) sum = MatrixXd::Zero(step.rows(), 3);
    sum += step;
    set |= std::size_t{1} << next;
  }
  return sum;
}

MatrixXd by_sequence(const TackedBox& box, const std::vector<std::size_t>& welds, std::size_t first) {
  const std::vector<Response> steps = weld_sequence(box, welds);
  MatrixXd sum = MatrixXd::Zero(steps.front().rows(), 3);
  for (std::size_t k = first; k < steps.size(); ++k)
    sum += steps[k];
  return sum;
}

} // namespace

TEST_CASE("orders of seams in rounds are sums out of the table of sets") {
  Random random(11);
  for (const char* name : {"open", "hexagon", "divider"}) {
    const StatedBox b = stated_box(name);
    std::vector<int> lengths(b.box.seams.size(), 2);
    lengths.front() = 3;
    lengths.back() = 1;
    const TackedBox box = in_rounds(b, lengths);
    std::vector<std::size_t> group;
    for (std::size_t s = 0; s < std::min<std::size_t>(b.box.seams.size(), 6); ++s)
      group.push_back(s);
    const std::vector<RoundsOfSeam> seams = rounds_of(box, group, 3);
    std::vector<std::size_t> before, order(group.size());
    for (std::size_t w = 0; w < box.welds.size(); ++w)
      if (box.welds[w].seam >= group.size()) before.push_back(w);
    const StepTable table = step_table(box, before, seams);
    std::iota(order.begin(), order.end(), std::size_t{0});
    for (int i = 0; i < times(8, 2); ++i) {
      random.shuffle(order);
      std::vector<std::size_t> welds = before;
      const std::vector<std::size_t> more = welds_in(seams, order);
      welds.insert(welds.end(), more.begin(), more.end());
      const MatrixXd exact = by_sequence(box, welds, before.size()), sum = by_table(table, order);
      INFO(name << " order " << i);
      for (Eigen::Index c = 0; c < 3; ++c)
        CHECK((sum.col(c) - exact.col(c)).cwiseAbs().maxCoeff() <= 1e-9 * exact.col(c).cwiseAbs().maxCoeff());
    }
  }
}

TEST_CASE("tables of shapes of forces are within what they are said to be off") {
  const StatedBox b = stated_box("closed");
  const TackedBox box = in_rounds(b, std::vector<int>(b.box.seams.size(), 1));
  const TackedBox few = reduced(box, {3e-3});
  std::vector<std::size_t> group, order;
  for (std::size_t s = 0; s < static_cast<std::size_t>(times(8, 5)); ++s)
    group.push_back(s);
  order.resize(group.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const StepTable exact = step_table(box, {}, rounds_of(box, group, 1)),
                  table = step_table(few, {}, rounds_of(few, group, 1));
  Random random(12);
  MatrixXd largest = MatrixXd::Zero(1, 3);
  std::vector<MatrixXd> off;
  for (int i = 0; i < 20; ++i) {
    random.shuffle(order);
    const MatrixXd whole = by_table(exact, order);
    largest = largest.cwiseMax(whole.cwiseAbs().colwise().maxCoeff());
    off.push_back((whole - by_table(table, order)).cwiseAbs().colwise().maxCoeff());
  }
  for (const MatrixXd& each : off)
    for (Eigen::Index c = 0; c < 3; ++c)
      CHECK(each(0, c) <= 3e-3 * largest(0, c));
}

TEST_CASE("welds made at once are one weld over their length") {
  // Two welds of half a seam each, as one, against the whole seam in one length: the same springs, cut at the
  // middle, where an element ends in either.
  const StatedBox b = stated_box("open");
  const TackedBox halves = in_rounds(b, std::vector<int>(b.box.seams.size(), 2)),
                  whole = in_rounds(b, std::vector<int>(b.box.seams.size(), 1));
  std::vector<std::vector<std::size_t>> together;
  for (std::size_t s = 0; s < b.box.seams.size(); ++s)
    together.push_back({2 * s, 2 * s + 1});
  const TackedBox one = merged(halves, together);
  REQUIRE(one.welds.size() == whole.welds.size());
  std::vector<std::size_t> order(b.box.seams.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const MatrixXd by_halves = by_sequence(one, order, 0), by_whole = by_sequence(whole, order, 0);
  for (Eigen::Index c : {0, 2}) // the force along grows from the ends of a length: of halves it has two more
    CHECK((by_halves.col(c) - by_whole.col(c)).cwiseAbs().maxCoeff() <=
          0.02 * by_whole.col(c).cwiseAbs().maxCoeff());
}

TEST_CASE("no set of other seams takes a step out of its range") {
  Random random(13);
  for (const char* name : {"open", "hexagon", "divider"}) {
    const StatedBox b = stated_box(name);
    const TackedBox box = in_rounds(b, std::vector<int>(b.box.seams.size(), 1));
    std::vector<std::size_t> group, before;
    for (std::size_t s = 0; s < b.box.seams.size(); ++s)
      (s < 6 ? group : before).push_back(s);
    const StepTable table = step_table(box, before, rounds_of(box, group, 1));
    const auto measures = static_cast<Eigen::Index>(box.measures.size());
    const std::vector<StepRange> ranges =
        step_ranges(box, before, group, MatrixXd::Identity(measures, measures));
    REQUIRE(ranges.size() == group.size());
    double widest = 0.0, tightest = 1e9;
    for (int i = 0; i < 10; ++i) {
      const Eigen::Vector3d amounts(random.uniform(0.0, 0.3), random.uniform(0.0, 3e4),
                                    random.uniform(0.0, 0.02));
      for (std::size_t set = 0; set < std::size_t{1} << group.size(); ++set)
        for (std::size_t next = 0; next < group.size(); ++next) {
          if (set >> next & 1u) continue;
          const StepRange& range = ranges[next];
          const VectorXd step = table.steps[set * group.size() + next] * amounts,
                         middle = range.middle * amounts,
                         reach = range.reach * std::sqrt(amounts.dot(range.spread * amounts));
          for (Eigen::Index row = 0; row < measures; ++row) {
            const double off = std::abs(step(row) - middle(row));
            if (off > reach(row) + 1e-9)
              FAIL_CHECK(name << " row " << row << ": " << off << " > " << reach(row));
            widest = std::max(widest, reach(row));
            if (reach(row) > 1e-6) tightest = std::min(tightest, (reach(row) - off) / reach(row));
          }
        }
    }
    INFO(name);
    CHECK(widest > 0.0);
    CHECK(tightest < 0.5); // a range that is twice as wide as need be is no use
  }
}
