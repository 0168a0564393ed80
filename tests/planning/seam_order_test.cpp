// The order of the seams by squareness, against going through every order.
#include "base/random.h"
#include "planning/planner/case_of.h"
#include "planning/planner/fixing.h"
#include "planning/planner/order_model.h"
#include "planning/planner/seam_order.h"
#include "support/planned.h"
#include "support/repeat.h"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <map>
#include <memory>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

struct Made {
  Job job;
  std::optional<BoxCase> box;
};

std::unique_ptr<Made> made(const std::string& xml) {
  auto all = std::make_unique<Made>();
  JobReading reading = read_job(xml);
  REQUIRE(reading.job);
  all->job = std::move(*reading.job);
  Diagnostics faults;
  std::optional<BoxCase> box = case_of(all->job, 0, std::nullopt, faults);
  for (const Diagnostic& fault : faults.items())
    UNSCOPED_INFO(fault.code << ": " << fault.message);
  if (box) all->box.emplace(std::move(*box));
  return all;
}

// Small open boxes, folded and of panels, thin and thick, with many tacks and with few.
std::string random_job(Random& random) {
  const auto mm = [&](int low, int high, int step) {
    return low + step * static_cast<int>(random.below(static_cast<std::uint64_t>((high - low) / step + 1)));
  };
  const char* thickness[] = {"1.5 mm", "2 mm", "3 mm"};
  const bool folded = random.below(4) > 0;
  return fmt::format(
      R"(<tacksquare-job name="BOX"><sheet id="s" metal="mild-steel" thickness="{}"/>
<box id="b"><open-box width="{} mm" height="{} mm" depth="{} mm" open="front" {} sheet="s" side="outside"
corner="half-open-corner" weld="square" finish="flush"/></box>
<rules tack-pitch="{} mm" tack-length="{} mm" run-length="{} mm"/>
<limits diagonals="{} mm" rock="1 mm" wall-lean="1 mm" opposite-sides="1 mm"/></tacksquare-job>)",
      thickness[random.below(3)], mm(150, 400, 10), mm(150, 400, 10), mm(80, 200, 10),
      folded ? R"(made="folded" inside-radius="2 mm")" : R"(made="panels")", mm(40, 120, 10), mm(5, 12, 1),
      folded ? mm(60, 200, 20) : 300, 1.0 + 0.1 * mm(0, 10, 1));
}

std::vector<SeamOrders> every_order(const WeldOrder& order) {
  std::vector<SeamOrders> all;
  SeamOrders orders = order.seams;
  for (std::vector<std::size_t>& group : orders)
    std::sort(group.begin(), group.end());
  const std::function<void(std::size_t)> from = [&](std::size_t g) {
    if (g == orders.size()) {
      all.push_back(orders);
      return;
    }
    std::vector<std::size_t> group = orders[g];
    do {
      orders[g] = group;
      if (made_legal(order.problems[g], group) == group) from(g + 1);
    } while (std::next_permutation(group.begin(), group.end()));
  };
  from(0);
  return all;
}

// Each order by the whole history of the box from its first tack on, no table, no condensing.
class ByHistory {
 public:
  explicit ByHistory(const BoxCase& box) : box_(box), base_(coarse_case(box)) {
    Diagnostics faults;
    auto prepared = elastic::prepared_of(box.job, box.box, box.geometry, base_.making, base_.options, faults);
    REQUIRE(prepared);
    prepared_ = std::move(*prepared);
  }

  elastic::Ends ends(const SeamOrders& seams) const {
    BoxCase ordered = box_;
    ordered.order = with_seams(box_.job, box_.box, box_.geometry, box_.work, box_.order, seams);
    hold_again(ordered);
    const ElasticCase other = coarse_case(ordered);
    elastic::Making making = base_.making;
    making.events = other.making.events;
    for (std::size_t i = 0; i < making.events.size(); ++i)
      for (std::size_t k = 0; k < base_.made.size(); ++k)
        if (making.events[i].kind == base_.making.events[k].kind && other.made[i] == base_.made[k])
          making.events[i].which = base_.making.events[k].which;
    elastic::Variants variants = elastic::variants_of(prepared_, making);
    return {variants.kept.measures.back(), variants.remelted.measures.back()};
  }

  // Worst of the limits of squareness under these amounts, by kept tacks; mean over the columns.
  double kept(const elastic::Ends& ends, const Eigen::MatrixXd& amounts) const {
    const Eigen::MatrixXd read = ends.kept * amounts;
    double sum = 0.0;
    for (Eigen::Index d = 0; d < read.cols(); ++d) {
      double worst = 0.0;
      for (std::size_t i = 0; i < base_.measure.size(); ++i) {
        const Measure& m = box_.work.measures[base_.measure[i]];
        if (m.kind == MeasureKind::width || m.kind == MeasureKind::belly) continue;
        worst = std::max(worst, std::abs(read(static_cast<Eigen::Index>(i), d)) / m.over_mm);
      }
      sum += worst;
    }
    return sum / static_cast<double>(read.cols());
  }

 private:
  const BoxCase& box_;
  ElasticCase base_;
  elastic::Prepared prepared_;
};

} // namespace

TEST_CASE("the proven best and worst order of small boxes are those of going through every order") {
  Random random(20270620);
  int boxes = 0, matters = 0;
  for (int trial = 0; trial < times(300, 4); ++trial) {
    const auto all = made(random_job(random));
    if (!all->box) continue;
    const BoxCase& box = *all->box;
    const std::vector<SeamOrders> orders = every_order(box.order);
    if (orders.size() < 2 || orders.size() > 24 * 24) continue;
    const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
    REQUIRE(model);
    const auto nominal = model->kept_search(0), robust = model->kept_search(kScenarios);
    REQUIRE(nominal);
    REQUIRE(robust);
    ++boxes;
    INFO("trial " << trial << ", " << orders.size() << " orders");
    CHECK(robust->orders() == static_cast<double>(orders.size()));
    const ByHistory history(box);
    const Eigen::MatrixXd middle = model->amounts().leftCols(1),
                          draws = model->amounts().middleCols(1, kScenarios);
    double best = 1e9, least = 1e9, most = 0.0;
    for (const SeamOrders& seams : orders) {
      const elastic::Ends ends = history.ends(seams);
      best = std::min(best, history.kept(ends, middle));
      least = std::min(least, history.kept(ends, draws));
      most = std::max(most, history.kept(ends, draws));
    }
    if (most - least > 0.02) ++matters;
    const double rounding = 1e-6;
    const SetFound found = nominal->least(box.order.seams, 0.0, 1'000'000);
    CHECK(found.proven);
    CHECK(found.value == Approx(best).margin(rounding));
    const SetFound over_draws = robust->least(box.order.seams, 0.0, 1'000'000),
                   worst = robust->most(box.order.seams, 0.0, 1'000'000);
    CHECK(over_draws.value == Approx(least).margin(rounding));
    CHECK(worst.value == Approx(most).margin(rounding));
  }
  CHECK(boxes >= times(250, 2));
  if (!kSanitized) CHECK(matters > 20);
}
