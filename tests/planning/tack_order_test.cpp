// In what order a box is tacked, what is met on the way, and what a pull across it leaves.
#include "plan/verify/check_plan.h"
#include "planning/made_case.h"
#include "planning/planner/pulling.h"
#include "planning/planner/tack_order.h"
#include "support/repeat.h"

#include <algorithm>
#include <numeric>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const TackOrderCompared& of(const TackOrder& order, const std::string& key) {
  const auto found = std::find_if(order.compared.begin(), order.compared.end(),
                                  [&](const TackOrderCompared& each) { return each.key == key; });
  REQUIRE(found != order.compared.end());
  return *found;
}

bool each_once(std::vector<std::size_t> order, std::size_t count) {
  std::vector<std::size_t> wanted(count);
  std::iota(wanted.begin(), wanted.end(), std::size_t{0});
  std::sort(order.begin(), order.end());
  return order == wanted;
}

} // namespace

// Trade practice (no source): rim first, opposite seams, then halve, so that no seam opens far ahead of its
// tacks. The model says so of the battery box, where an order that runs seam by seam meets gaps twice as
// wide.
TEST_CASE("the plain order of the trade is kept where nothing does better") {
  const auto battery = made(sample_text("battery-box.xml"));
  const std::optional<TackOrder> order = order_tacks(*battery->box);
  REQUIRE(order);
  CHECK(order->trials > 0);
  REQUIRE(each_once(order->order, battery->box->tacks.size()));
  CHECK(std::is_sorted(order->order.begin(), order->order.end()));
  CHECK(of(*order, "planned").chosen);
  CHECK(of(*order, "seam-by-seam").gap_mm.value > 1.5 * of(*order, "planned").gap_mm.value);
  CHECK(of(*order, "seam-by-seam").worst > of(*order, "planned").worst + kSameOrder);
  CHECK(of(*order, "searched").worst < of(*order, "planned").worst + kSameOrder);
  BoxCase as_told = *battery->box;
  tack_by(*order, as_told);
  for (std::size_t i = 0; i < as_told.tacks.size(); ++i)
    CHECK(as_told.tacks[i].id == battery->box->tacks[i].id);
}

TEST_CASE("another order is taken where it keeps the seams shut, and the steps follow it", "[together]") {
  const Planned& tray = whole_sample("divided-tray.xml");
  const BoxPlan& box = tray.plan.boxes.at(0);
  CHECK(joined(check_plan(tray.job, tray.geometry, tray.plan)) == "");
  const auto chosen = std::find_if(box.tack_orders.begin(), box.tack_orders.end(),
                                   [](const TackOrderCompared& each) { return each.chosen; });
  REQUIRE(chosen != box.tack_orders.end());
  CHECK(chosen->key == "seam-by-seam");
  CHECK(chosen->worst < box.tack_orders.front().worst - kSameOrder);
  // Rim tacks first, then walls, then dividers; a round never parts a seam; rounds without a hole.
  int round = 0;
  std::map<std::string, int> rounds;
  bool inside = false;
  for (const PlannedTack& tack : box.tacks) {
    CHECK((tack.round == round || tack.round == round + 1));
    round = tack.round;
    const bool divider = tack.then == "feather";
    CHECK((divider || !inside));
    inside = divider;
    if (tack.round == 0) continue;
    CHECK(rounds.emplace(tack.seam, tack.round).first->second == tack.round);
  }
  std::vector<std::string> told, planned;
  for (const Step& step : box.steps)
    told.insert(told.end(), step.tacks.begin(), step.tacks.end());
  for (const PlannedTack& tack : box.tacks)
    planned.push_back(tack.id);
  CHECK(told == planned);
}

TEST_CASE("an order of tacks comes out the same twice, and never mixes what has to stay apart") {
  const auto floating = made(sample_text("ballast-float.xml"));
  const BoxCase& box = *floating->box;
  const std::optional<TackOrder> once = order_tacks(box);
  REQUIRE(once);
  if (!kSanitized) {
    const std::optional<TackOrder> twice = order_tacks(box);
    REQUIRE(twice);
    CHECK(once->order == twice->order);
    CHECK(once->compared == twice->compared);
  }
  const auto on_last = [&](std::size_t tack) {
    const Seam& seam = box.box.seams[box.work.seams[box.tacks[tack].seam].seam];
    return box.box.faces[seam.face_a].id == *box.work.last_face ||
           box.box.faces[seam.face_b].id == *box.work.last_face;
  };
  CHECK(std::is_partitioned(once->order.begin(), once->order.end(),
                            [&](std::size_t tack) { return !on_last(tack); }));
  CHECK(std::is_partitioned(once->order.begin(), once->order.end(),
                            [&](std::size_t tack) { return box.tacks[tack].round == 0; }));
}

TEST_CASE("a pull past square is told where it stays, on the ladder and to the foreman", "[together]") {
  const Planned& locker = whole_sample("gear-locker.xml");
  const BoxPlan& box = locker.plan.boxes.at(0);
  const auto figure = std::find_if(box.figures.begin(), box.figures.end(), [](const Figure& each) {
    return each.what.key.rfind("figure.pull-past-rim", 0) == 0;
  });
  REQUIRE(figure != box.figures.end());
  const double past = figure->value.value;
  CHECK(figure->value.low < past);
  CHECK(past < figure->value.high);
  const auto hold =
      std::find_if(box.steps.begin(), box.steps.end(), [](const Step& step) { return step.hold == 1; });
  REQUIRE(hold != box.steps.end());
  const std::vector<Remedy>& ladder = hold->checks.at(0).ladder;
  const auto pull = std::find_if(ladder.begin(), ladder.end(), [](const Remedy& rung) {
    return rung.what.key.rfind("fix.pull-until-", 0) == 0;
  });
  REQUIRE(pull != ladder.end());
  const double off = pull->what.args.at(0).number;
  CHECK(off == Approx(hold->checks.at(0).accept_high_mm));
  CHECK(pull->what.args.at(1).number == Approx(past * off).epsilon(1e-3));
  CHECK(pull->what.args.at(3).number == Approx(2.0 * past * off).epsilon(1e-3));

  // By closed forms alone nobody knows: the pair tries and writes it down.
  const Planned& quick = planned_sample("gear-locker.xml");
  bool tries = false;
  for (const Step& step : quick.plan.boxes.at(0).steps)
    for (const Check& check : step.checks)
      for (const Remedy& rung : check.ladder) {
        CHECK(rung.what.key.rfind("fix.pull-until-", 0) != 0);
        tries = tries || rung.what.key == "fix.pull-and-see";
      }
  CHECK(tries);
}

TEST_CASE("tacks by a rule for plate are as long, keep clear of the rim, and hold the box") {
  const std::string xml = sample_text("gear-locker.xml");
  const auto with_rule = [&](const std::string& rule) {
    std::string changed = xml;
    const std::size_t at = changed.find("</tacksquare-job>");
    REQUIRE(changed.find("<rules") == std::string::npos);
    changed.insert(at, "<rules tack-rule=\"" + rule + "\"/>\n");
    return planned(changed, true);
  };
  for (const auto& [rule, length] :
       std::vector<std::pair<std::string, double>>{{"en-1011-2", 8.0}, {"handbook", 30.0}}) {
    const Planned plan = with_rule(rule);
    CHECK(joined(check_plan(plan.job, plan.geometry, plan.plan)) == "");
    for (const PlannedTack& tack : plan.plan.boxes.at(0).tacks) {
      CHECK(tack.length_mm == Approx(length));
      CHECK(tack.at_mm - 0.5 * tack.length_mm >= 10.0);
    }
  }
}
