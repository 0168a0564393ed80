// The table of steps against the same welds one after the other.
#include "base/random.h"
#include "elastic/made_box.h"
#include "physics/elastic/reduced.h"
#include "physics/elastic/step_table.h"
#include "support/catch.h"
#include "support/repeat.h"

#include <algorithm>
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
