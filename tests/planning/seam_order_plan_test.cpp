// Orders of seams in whole plans: the shop's own, and what is said of how much it matters.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <algorithm>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const OrderCompared* find(const BoxPlan& box, const std::string& key) {
  const auto found = std::find_if(box.orders.begin(), box.orders.end(),
                                  [&](const OrderCompared& order) { return order.key == key; });
  return found == box.orders.end() ? nullptr : &*found;
}

// A tray of thin sheet with few, short tacks.
std::string few_tacks(const std::string& box_says = {}) {
  return R"(<tacksquare-job name="TRAY"><sheet id="s" metal="mild-steel" thickness="1.5 mm"/>
<box id="tray")" +
         box_says + R"(><open-box width="600 mm" depth="400 mm" height="150 mm" open="top" made="folded"
inside-radius="2 mm" sheet="s" corner="half-open-corner" weld="square" side="outside" finish="flush"/></box>
<rules tack-pitch="130 mm" tack-length="4 mm" first-tack="10 mm"/><incoming bend="1 deg"/>
<limits diagonals="1.5 mm" rock="1.5 mm" wall-lean="1.5 mm"/></tacksquare-job>)";
}

} // namespace

TEST_CASE("the shop's own order stands beside the planned one, seam after seam, and does not change it") {
  const Planned without = planned(few_tacks(), false);
  const Planned with = planned(few_tacks(R"( weld-order="S1 S3 S2 S4")"), false);
  CHECK_FALSE(find(without.plan.boxes[0], "own"));
  const BoxPlan& box = with.plan.boxes[0];
  CHECK(joined(check_plan(with.job, with.geometry, with.plan)).empty());
  CHECK(box.steps == without.plan.boxes[0].steps);
  const OrderCompared* own = find(box, "own");
  REQUIRE(own);
  REQUIRE(own->square);
  REQUIRE(own->chance);
  CHECK(own->turns >= 0);
  // Each seam with all its runs, dabs after all of them.
  std::vector<std::string> seams;
  for (const std::string& run : own->runs) {
    const auto planned_run = std::find_if(box.runs.begin(), box.runs.end(),
                                          [&](const PlannedRun& each) { return each.id == run; });
    REQUIRE(planned_run != box.runs.end());
    if (!planned_run->dab && (seams.empty() || seams.back() != planned_run->seam))
      seams.push_back(planned_run->seam);
  }
  CHECK(seams == std::vector<std::string>{"S1", "S3", "S2", "S4"});
}

TEST_CASE(
    "a box whose order decides says so on the bench, one whose order does nothing says that to the foreman") {
  const Planned tray = planned(few_tacks(), false);
  const BoxPlan& box = tray.plan.boxes[0];
  REQUIRE(box.order_proof);
  const bool decides = box.order_proof->matters == "at" || box.order_proof->matters == "above";
  const bool told = std::any_of(box.steps.begin(), box.steps.end(),
                                [](const Step& step) { return step.odd.key == "why.keep-order"; });
  CHECK(told == decides);
  CAPTURE(box.order_proof->squarest, find(box, "worst")->square.value_or(0.0), box.order_proof->scatter);
  CHECK(box.order_proof->matters != "none");
}
