// check_plan on plans with figures step by step.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const Planned& whole_locker() {
  return whole_sample("gear-locker.xml");
}

// Altered in one thing, it must be told with a line that holds the piece.
void spoilt(const std::function<void(BoxPlan&)>& spoil, const std::string& piece) {
  Plan bad = whole_locker().plan;
  spoil(bad.boxes.at(0));
  CHECK_FALSE(bad == whole_locker().plan);
  const std::vector<std::string> lines = check_plan(whole_locker().job, whole_locker().geometry, bad);
  INFO("wanted: " << piece << "\ntold:\n" << joined(lines));
  CHECK(std::any_of(lines.begin(), lines.end(),
                    [&](const std::string& line) { return line.find(piece) != std::string::npos; }));
}

Check& first_check(BoxPlan& plan, Phase phase) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                  [&](const Step& s) { return s.phase == phase && !s.checks.empty(); });
  if (found == plan.steps.end()) FAIL("the sample has no such step");
  return found->checks.front();
}

} // namespace

TEST_CASE("what the elastic model does not know of may be taken off at any step", "[together]") {
  Plan plan = whole_locker().plan;
  plan.boxes.at(0).fixture.reset(); // which would know all that goes on and comes off
  for (Step& step : plan.boxes.at(0).steps) {
    step.on.clear();
    step.off.push_back("stop-" + std::to_string(step.number));
  }
  CHECK(joined(check_plan(whole_locker().job, whole_locker().geometry, plan)) == "");
}

TEST_CASE("figures step by step that do not hang together are told", "[together]") {
  CHECK(joined(check_plan(whole_locker().job, whole_locker().geometry, whole_locker().plan)) == "");
  REQUIRE(whole_locker().plan.boxes.at(0).elastic);
  spoilt([](BoxPlan& p) { std::swap(p.elastic->states[0], p.elastic->states[1]); },
         "states do not follow the steps");
  spoilt([](BoxPlan& p) { p.elastic->states.pop_back(); }, "states do not follow the steps");
  spoilt([](BoxPlan& p) { p.elastic->states[0].gap_mm.reset(); }, "there is no gap and what closes it");
  spoilt([](BoxPlan& p) { p.elastic->states.back().gap_mm = Band{}; }, "there is a gap and what closes it");
  spoilt([](BoxPlan& p) { p.elastic->states[0].gap_mm->low = 9.0; }, "the band of the gap is not in order");
  spoilt([](BoxPlan& p) { p.elastic->states[3].low.pop_back(); }, "not one figure for each reading");
  spoilt([](BoxPlan& p) { p.elastic->states[3].low[0] = 1e3; }, "is not in order");
  spoilt(
      [](BoxPlan& p) {
        for (std::size_t i = 0; i < p.elastic->readings.size(); ++i)
          if (p.elastic->readings[i].without_sign) p.elastic->states[3].low[i] = -0.5;
      },
      "off by less than nothing");
  spoilt([](BoxPlan& p) { p.elastic->states.back().value[0] += 0.1; },
         "expects another figure than the last state");
  spoilt([](BoxPlan& p) { first_check(p, Phase::weld).expected_mm.high += 0.25; },
         "expects other figures than the state after");
  spoilt(
      [](BoxPlan& p) {
        Check& early = first_check(p, Phase::dry_fit);
        early.has_expected = true;
        early.expected_mm = {0.0, 0.0, 0.0};
      },
      "expects a figure that no state has");
  spoilt(
      [](BoxPlan& p) {
        p.elastic->buckling.insert(p.elastic->buckling.begin(), {"L", {0.5, 0.4, 0.6}, 2.0});
      },
      "expects a figure for a face that buckles");
}

TEST_CASE("orders of the tacks that were weighed wrong, or another one taken, are told", "[together]") {
  REQUIRE(whole_locker().plan.boxes.at(0).tack_orders.size() == 4);
  REQUIRE(whole_locker().plan.boxes.at(0).tack_orders.front().chosen);
  spoilt([](BoxPlan& p) { p.tack_orders[1].chosen = true; }, "planned is to be taken, round-about is");
  spoilt([](BoxPlan& p) { p.tack_orders[3].worst -= 0.06; }, "better than the worse of its two parts");
  spoilt([](BoxPlan& p) { p.tack_orders[3].worst = 9.0; }, "worse than both its parts");
  spoilt([](BoxPlan& p) { p.tack_orders[2].gap_mm.high = 0.0; },
         "the band of the gap of the order seam-by-seam");
  spoilt(
      [](BoxPlan& p) {
        p.tack_orders[3].worst = p.tack_orders[3].square = 0.1;
        p.tack_orders[3].gap = 0.05;
      },
      "searched is to be taken");
  spoilt([](BoxPlan& p) { p.tacks[0].then = "feather"; }, "is to be knocked down");
}

TEST_CASE("levers out of order, or advised where they do not help, are told", "[together]") {
  REQUIRE(whole_locker().plan.boxes.at(0).levers.size() > 3);
  REQUIRE(whole_locker().plan.boxes.at(0).levers.front().advised);
  spoilt([](BoxPlan& p) { p.levers[0].chance_after = 1.5; }, "has a chance of 1.5");
  spoilt([](BoxPlan& p) { std::swap(p.levers.front(), p.levers.back()); }, "gains more than the one before");
  spoilt([](BoxPlan& p) { p.levers.front().advised = false; }, "is not advised");
  spoilt([](BoxPlan& p) { p.levers.back().advised = true; }, "is advised, but gains");
  spoilt([](BoxPlan& p) { p.levers.front().what.key = "heat"; }, "no words of its own");
  spoilt([](BoxPlan& p) { p.elastic.reset(); }, "without an elastic model");
}

TEST_CASE("orders of seams whose squareness and proof do not go together are told", "[together]") {
  const BoxPlan& good = whole_locker().plan.boxes.at(0);
  REQUIRE(good.order_proof);
  REQUIRE(good.order_proof->orders == 24.0);
  REQUIRE(good.orders.back().key == "worst");
  spoilt([](BoxPlan& p) { p.order_proof->least_bound = p.order_proof->least + 0.1; },
         "do not go up from one");
  spoilt([](BoxPlan& p) { p.order_proof->most = p.order_proof->least - 0.1; }, "do not go up from one");
  spoilt([](BoxPlan& p) { p.order_proof->least_bound = p.order_proof->least - 0.1; }, "is called proven to");
  spoilt([](BoxPlan& p) { p.order_proof->orders = 0.0; }, "of no orders");
  spoilt([](BoxPlan& p) { p.order_proof->squarest *= 0.5; }, "the squarest order is said to be at");
  spoilt([](BoxPlan& p) { *p.orders.front().square += 0.2; }, "the planned order is at");
  spoilt([](BoxPlan& p) { p.order_proof->matters = "above"; }, "the order of the seams matters above");
  spoilt([](BoxPlan& p) { p.order_proof->planned_finer = p.order_proof->squarest_finer + 0.2; },
         "on the finer net the planned order");
  spoilt([](BoxPlan& p) { p.order_proof->passed_over_finer = p.order_proof->squarest_finer; },
         "an order is passed over that is as square");
  spoilt(
      [](BoxPlan& p) {
        p.order_proof->passed_over_finer.reset();
        for (OrderCompared& order : p.orders)
          if (order.key == "whole") order.square = *p.orders.front().square - 0.1;
      },
      "the finer net does not say otherwise");
  // Of less cost, and as square as the squarest in rounds: but not as whole seams, if these are squarer.
  const auto cheaper = [](double whole_below) {
    return [whole_below](BoxPlan& p) {
      const double squarest = p.order_proof->squarest;
      for (OrderCompared& order : p.orders) {
        if (order.key == "whole") order.square = squarest - whole_below;
        if (order.key != "by-id") continue;
        order.square = squarest + 0.03;
        order.cost = p.orders.front().cost - 1;
      }
    };
  };
  spoilt(cheaper(0.0), "order by-id costs less");
  Plan allowed = whole_locker().plan;
  cheaper(0.04)(allowed.boxes.at(0));
  CHECK(joined(check_plan(whole_locker().job, whole_locker().geometry, allowed)).find("costs less") ==
        std::string::npos);
  spoilt([](BoxPlan& p) { p.orders.front().square.reset(); }, "is weighed by squareness and the others");
  spoilt([](BoxPlan& p) { p.orders[1].chance = 1.5; }, "squareness or chance out of range");
  spoilt([](BoxPlan& p) { p.order_proof->scatter = -1.0; }, "of the orders of seams is below zero");
  spoilt([](BoxPlan& p) { p.orders[1].cost = p.orders.front().cost - 1; }, "costs less than the planned one");
}
