// The order of the seams by squareness, against going through every order.
#include "base/random.h"
#include "planning/made_case.h"
#include "planning/planner/fixing.h"
#include "planning/planner/order_model.h"
#include "planning/planner/seam_order.h"
#include "support/repeat.h"

#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <map>
#include <memory>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

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
  const std::function<void(std::size_t)> from = [&](std::size_t g) {
    if (g == orders.size()) {
      all.push_back(orders);
      return;
    }
    std::vector<std::size_t> group = order.seams[g];
    std::sort(group.begin(), group.end());
    do {
      orders[g] = group;
      if (made_legal(order.problems[g], group) == group) from(g + 1);
    } while (std::next_permutation(group.begin(), group.end()));
  };
  from(0);
  return all;
}

// Worst of the limits of squareness under these amounts; mean over the columns. end: watched x cases.
double worst_of(const BoxCase& box, const Eigen::MatrixXd& end, const Eigen::MatrixXd& amounts) {
  const Eigen::MatrixXd read = end * amounts;
  const std::vector<std::size_t> measures = coarse_case(box).measure;
  double sum = 0.0;
  for (Eigen::Index d = 0; d < read.cols(); ++d) {
    double worst = 0.0;
    for (std::size_t i = 0; i < measures.size(); ++i) {
      const Measure& m = box.work.measures[measures[i]];
      if (m.kind == MeasureKind::width || m.kind == MeasureKind::belly) continue;
      worst = std::max(worst, std::abs(read(static_cast<Eigen::Index>(i), d)) / m.over_mm);
    }
    sum += worst;
  }
  return sum / static_cast<double>(read.cols());
}

// Each order by going through it, without tables.
class ByHistory {
 public:
  explicit ByHistory(const BoxCase& box) : box_(box), base_(coarse_case(box)) {
    Diagnostics faults;
    auto prepared = elastic::prepared_of(box.job, box.box, box.geometry, base_.making, base_.options, faults);
    REQUIRE(prepared);
    prepared_ = std::move(*prepared);
    each_ = Eigen::MatrixXd::Identity(prepared_.cases.count(), prepared_.cases.count());
  }

  elastic::Ends ends(const SeamOrders& seams) const {
    elastic::Making making = base_.making;
    making.events = events(seams);
    elastic::Variants variants = elastic::variants_of(prepared_, making);
    return {variants.kept.measures.back(), variants.remelted.measures.back()};
  }

  // By kept tacks, quicker: watched x cases.
  Eigen::MatrixXd kept(const SeamOrders& seams) {
    const elastic::Course course = elastic::course_of(events(seams), prepared_);
    const auto split = course.events.begin() + static_cast<long>(course.before_welds);
    const std::vector<elastic::Event> first(course.events.begin(), split), then(split, course.events.end());
    if (!begun_ || first != first_)
      begun_.emplace(*prepared_.model, first, prepared_.holding.holds, prepared_.cases, each_);
    first_ = first;
    return begun_->end(then, false).topRows(static_cast<Eigen::Index>(base_.making.watched.size()));
  }

 private:
  std::vector<elastic::Event> events(const SeamOrders& seams) const {
    BoxCase ordered = box_;
    ordered.order = with_seams(box_.job, box_.box, box_.geometry, box_.work, box_.order, seams);
    hold_again(ordered);
    const ElasticCase other = coarse_case(ordered);
    std::vector<elastic::Event> all = other.making.events;
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t k = 0; k < base_.made.size(); ++k)
        if (all[i].kind == base_.making.events[k].kind && other.made[i] == base_.made[k])
          all[i].which = base_.making.events[k].which;
    return all;
  }

  const BoxCase& box_;
  ElasticCase base_;
  elastic::Prepared prepared_;
  Eigen::MatrixXd each_;
  std::vector<elastic::Event> first_;
  std::optional<elastic::Begun> begun_;
};

} // namespace

TEST_CASE("the proven best and worst order of small boxes are those of going through every order") {
  Random random(20270620);
  int boxes = 0, matters = 0;
  for (int trial = 0; boxes < times(300, 4) && trial < 1000; ++trial) {
    const auto all = made(random_job(random), false);
    if (!all->box) continue;
    const BoxCase& box = *all->box;
    const std::vector<SeamOrders> orders = every_order(box.order);
    if (orders.size() < 2 || orders.size() > (boxes % 30 == 0 ? 576u : 24u)) continue;
    const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
    REQUIRE(model);
    const auto nominal = model->kept_search(0), robust = model->kept_search(kScenarios);
    REQUIRE(nominal);
    REQUIRE(robust);
    ++boxes;
    INFO("trial " << trial << ", " << orders.size() << " orders");
    CHECK(robust->orders() == static_cast<double>(orders.size()));
    ByHistory history(box);
    const Eigen::MatrixXd middle = model->amounts().leftCols(1),
                          draws = model->amounts().middleCols(1, kScenarios);
    double best = 1e9, least = 1e9, most = 0.0;
    for (const SeamOrders& seams : orders) {
      const Eigen::MatrixXd end = history.kept(seams);
      best = std::min(best, worst_of(box, end, middle));
      least = std::min(least, worst_of(box, end, draws));
      most = std::max(most, worst_of(box, end, draws));
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
  CHECK(boxes == times(300, 4));
  if (!kSanitized) CHECK(matters > 10);
}

TEST_CASE("an order that is gone through from the tacked box is that of the whole making") {
  // Formers and clamps on and off midway, stitches, dabs, tacks kept and remelted.
  Random random(20270621);
  for (const char* name : {"gear-locker.xml", "battery-box.xml", "divided-tray.xml"}) {
    const auto all = made(sample_text(name));
    const BoxCase& box = *all->box;
    const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
    REQUIRE(model);
    const ByHistory history(box);
    SeamOrders seams = box.order.seams;
    for (int i = 0; i < times(3, 1); ++i) {
      for (std::size_t g = 0; g < seams.size(); ++g) {
        random.shuffle(seams[g]);
        seams[g] = made_legal(box.order.problems[g], seams[g]);
      }
      const elastic::Ends quick = model->ends(seams), whole = history.ends(seams);
      INFO(name << " order " << i);
      const auto close = [](const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
        REQUIRE(a.rows() == b.rows());
        return (a - b).cwiseAbs().maxCoeff() <= 1e-6 * b.cwiseAbs().maxCoeff();
      };
      CHECK(close(quick.kept, whole.kept));
      CHECK(close(quick.remelted, whole.remelted));
    }
  }
}

TEST_CASE("of orders that are as square the one of least heat is taken, and a squarer one where it is not") {
  const auto all = made(sample_text("gear-locker.xml"));
  const BoxCase& box = *all->box;
  const std::optional<SeamOrder> order = order_seams(box);
  REQUIRE(order);
  REQUIRE(order->judged.front().key == "planned");
  CHECK(order->judged.front().seams == order->seams);
  CHECK(order->proof.orders == 24.0);
  CHECK(order->proof.all_within);
  CHECK(order->proof.tried == 24);
  const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
  REQUIRE(model);
  double squarest = 1e9;
  std::map<SeamOrders, double> square;
  for (const SeamOrders& seams : every_order(box.order)) {
    const std::vector<double> worst = model->worst(model->ends(seams), kScenarios);
    REQUIRE(worst.size() == static_cast<std::size_t>(kScenarios));
    double sum = 0.0;
    for (const double each : worst)
      sum += each / kScenarios;
    square[seams] = sum;
    squarest = std::min(squarest, sum);
  }
  CHECK(order->proof.squarest == Approx(squarest).epsilon(1e-6));
  CHECK(square.at(order->seams) <= squarest + kSameSquare + 1e-6);
  for (const auto& [seams, of] : square)
    if (of <= squarest + kSameSquare - 1e-6)
      CHECK(model->laid_out(seams).figures.cost >= model->laid_out(order->seams).figures.cost);
}

TEST_CASE("more seams than a table holds are searched, with a bound that none is below") {
  std::string dividers;
  for (int i = 1; i <= 7; ++i)
    dividers +=
        fmt::format(R"(<divider id="D{}" across="width" at="{} mm" height="60 mm" sheet="s" weld="fillet"
leg="2 mm" side="inside" finish="left"/>)",
                    i, 50 * i);
  const auto all = made(R"(<tacksquare-job name="RACK"><sheet id="s" metal="mild-steel" thickness="2 mm"/>
<box id="rack"><open-box width="400 mm" depth="150 mm" height="80 mm" open="top" made="folded" sheet="s"
inside-radius="2 mm" corner="half-open-corner" weld="square" side="outside" finish="flush"/>)" +
                        dividers + "</box></tacksquare-job>");
  const BoxCase& box = *all->box;
  const bool large = std::any_of(box.order.groups.begin(), box.order.groups.end(),
                                 [](const SeamGroup& group) { return group.seams.size() > 12; });
  REQUIRE(large);
  const std::optional<SeamOrder> order = order_seams(box);
  REQUIRE(order);
  const OrderProof& proof = order->proof;
  CHECK(proof.orders == 0.0);
  CHECK_FALSE(proof.proven);
  CHECK(proof.least_bound > 0.0);
  CHECK(proof.least_bound <= proof.least);
  CAPTURE(proof.least, proof.least_bound, proof.squarest);
  // None of these is below it, nor better than what was found.
  const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
  REQUIRE(model);
  CHECK_FALSE(model->kept_search(kScenarios));
  const WholeSeams whole = model->whole_seams();
  CHECK(whole.bound(box.order.groups) == Approx(proof.least_bound));
  CHECK_FALSE(whole.search());
  Random random(20270622);
  SeamOrders seams = box.order.seams;
  for (int i = 0; i < times(40, 4); ++i) {
    for (std::size_t g = 0; g < seams.size(); ++g) {
      random.shuffle(seams[g]);
      seams[g] = made_legal(box.order.problems[g], seams[g]);
    }
    const double value = whole.value(model->flattened(seams));
    CHECK(value >= proof.least_bound - 1e-9);
    if (!kSanitized) CHECK(value >= proof.least - 1e-9);
  }
}

TEST_CASE("whole seams in any order: the proven best is that of going through every order") {
  const auto all = made(sample_text("gear-locker.xml"));
  const BoxCase& box = *all->box;
  const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
  REQUIRE(model);
  const WholeSeams whole = model->whole_seams();
  const std::optional<SetSearch> search = whole.search();
  REQUIRE(search);
  std::vector<std::size_t> order = {0, 1, 2, 3};
  double least = 1e9;
  do {
    const elastic::Ends ends = model->ends_seam_by_seam(order);
    const double value = worst_of(box, ends.kept, model->amounts().middleCols(1, kScenarios));
    // Gone through, the runs of a seam see each other come, and dabs come last: a hundredth of the limit.
    CHECK(whole.value(order) == Approx(value).margin(0.015));
    CHECK(search->value({order}) == Approx(whole.value(order)).epsilon(1e-8));
    least = std::min(least, whole.value(order));
  } while (std::next_permutation(order.begin(), order.end()));
  CHECK(search->orders() == 24.0);
  CHECK(search->least({order}, 0.0, 1'000'000).value == Approx(least).epsilon(1e-8));
}

TEST_CASE("a box that is planned seam after seam is welded so, and its order is among those compared") {
  // Of the samples none is; one of the orders that is only compared is taken here.
  const auto all = made(sample_text("battery-box.xml"));
  BoxCase& box = *all->box;
  std::optional<SeamOrder> order = order_seams(box);
  REQUIRE(order);
  const std::vector<std::size_t> seams = {4, 0, 6, 2, 5, 1, 7, 3};
  const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
  REQUIRE(model);
  const Eigen::MatrixXd compared = model->ends_seam_by_seam(seams).remelted;
  order->whole = seams;
  order->judged.front() = {"planned", {}, seams, 0.1, 0.9};
  weld_by(*order, box);
  REQUIRE(box.order_in_rounds);
  std::vector<std::size_t> welded;
  for (const OrderedRun& run : box.order.runs)
    if (!box.work.runs[run.run].dab && (welded.empty() || welded.back() != box.work.runs[run.run].seam))
      welded.push_back(box.work.runs[run.run].seam);
  CHECK(welded == seams);
  CHECK(box.order.runs.size() == box.work.runs.size());
  const std::vector<OrderCompared> orders = orders_of(box);
  REQUIRE(orders.size() == order->judged.size());
  CHECK(orders.front().turns == box.order.figures.turns);
  for (std::size_t i = 0; i < orders.front().runs.size(); ++i)
    CHECK(orders.front().runs[i] == box.work.runs[box.order.runs[i].run].id);
  // What is made of it is what was compared.
  const ElasticCase made = coarse_case(box);
  Diagnostics faults;
  const auto ordering = elastic::Ordering::make(box.job, box.box, box.geometry, made.making, made.options, 1,
                                                limits_of(box, made), faults);
  REQUIRE(ordering);
  // Seams are numbered by the box: columns are the same cases.
  const Eigen::MatrixXd planned = ordering->remelted(made.making.events);
  REQUIRE(planned.rows() == compared.rows());
  CHECK((planned - compared).cwiseAbs().maxCoeff() <= 1e-6 * compared.cwiseAbs().maxCoeff());
}

TEST_CASE(
    "whole seams are planned where no order in rounds is as square, and none of less cost is as square") {
  const auto all = made(odd_job_text("bait-box.xml"));
  const BoxCase& box = *all->box;
  const std::optional<SeamOrder> order = order_seams(box);
  REQUIRE(order);
  REQUIRE_FALSE(order->whole.empty());
  CHECK(order->judged.front().seam_by_seam == order->whole);
  CHECK_FALSE(order->proof.passed_over_finer);
  CHECK(order->proof.planned_finer <= order->proof.squarest_finer + kSameSquare);
  const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
  REQUIRE(model);
  const auto square = [&](const elastic::Ends& ends) {
    double sum = 0.0;
    for (const double each : model->worst(ends, kScenarios))
      sum += each / kScenarios;
    return sum;
  };
  const double planned = square(model->ends_seam_by_seam(order->whole));
  CHECK(order->judged.front().square == Approx(planned).epsilon(1e-6));
  CHECK(planned <= order->proof.squarest + kSameSquare);
  Random random(20270623);
  SeamOrders seams = box.order.seams;
  for (int i = 0; i < times(12, 1); ++i) {
    CHECK(square(model->ends(seams)) > order->proof.squarest + kSameSquare);
    for (std::size_t g = 0; g < seams.size(); ++g) {
      random.shuffle(seams[g]);
      seams[g] = made_legal(box.order.problems[g], seams[g]);
    }
  }
  // With one seam moved there are orders of less cost; the tables or the way they come about rule them out.
  const std::optional<SetSearch> search = model->whole_seams().search();
  REQUIRE(search);
  REQUIRE(order->proof.whole);
  const long long cost = model->laid_out_whole(order->whole).figures.cost;
  int cheaper = 0;
  for (std::size_t from = 0; from < order->whole.size(); ++from)
    for (std::size_t to = 0; to < order->whole.size(); ++to) {
      std::vector<std::size_t> other = order->whole;
      other.erase(other.begin() + static_cast<std::ptrdiff_t>(from));
      other.insert(other.begin() + static_cast<std::ptrdiff_t>(to), order->whole[from]);
      if (model->laid_out_whole(other).figures.cost >= cost) continue;
      ++cheaper;
      if (search->value({other}) <= *order->proof.whole + kSameSquare)
        CHECK(square(model->ends_seam_by_seam(other)) > order->proof.squarest + kSameSquare);
    }
  CHECK(cheaper > 0);
}
