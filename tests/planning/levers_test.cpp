// What could be changed about a box: each figure against the changed job planned by hand.
#include "physics/elastic/ordering.h"
#include "plan/verify/check_plan.h"
#include "planning/planner/case_of.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/levers.h"
#include "planning/planner/tack_order.h"
#include "planning/planner/weigh_fixture.h"
#include "support/planned.h"

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

struct Made {
  Job job;
  std::optional<BoxCase> box;
  // As the job states it now, held by all that is planned.
  void again() {
    Diagnostics faults;
    std::optional<BoxCase> made = case_of(job, 0, std::nullopt, faults);
    INFO(told(faults));
    REQUIRE(made);
    box.emplace(std::move(*made));
  }
};

std::unique_ptr<Made> made(const std::string& xml) {
  auto all = std::make_unique<Made>();
  JobReading reading = read_job(xml);
  INFO(told(reading.diagnostics));
  REQUIRE(reading.job);
  all->job = std::move(*reading.job);
  all->again();
  return all;
}

std::string replaced(std::string text, const std::string& old, const std::string& now) {
  const std::size_t at = text.find(old);
  if (at == std::string::npos) FAIL("not in the job: " << old);
  return text.replace(at, old.size(), now);
}

const std::string& locker() {
  static const std::string xml = sample_text("gear-locker.xml");
  return xml;
}

std::string with_rules(const std::string& rules) {
  return replaced(locker(), "<limits", "<rules " + rules + "/>\n<limits");
}

// By going through the making and counting the draws that keep each limit of the work.
double chance_of(const BoxCase& box) {
  const ElasticCase coarse = coarse_case(box);
  std::vector<elastic::Limit> limits;
  for (std::size_t i = 0; i < coarse.measure.size(); ++i) {
    const Measure& m = box.work.measures[coarse.measure[i]];
    limits.push_back({i, -m.under_mm, m.over_mm});
  }
  Diagnostics faults;
  const auto ordering = elastic::Ordering::make(box.job, box.box, box.geometry, coarse.making, coarse.options,
                                                kWeighingSeed, limits, faults);
  REQUIRE(ordering);
  return *ordering->judging().kept(ordering->ends(coarse.making.events)) / double(elastic::Judging::draws());
}

const Lever* find(const std::vector<Lever>& levers, const std::string& key) {
  const auto found =
      std::find_if(levers.begin(), levers.end(), [&](const Lever& each) { return each.key == key; });
  return found == levers.end() ? nullptr : &*found;
}
const Lever& of(const std::vector<Lever>& levers, const std::string& key) {
  const Lever* found = find(levers, key);
  if (!found) FAIL("no lever " << key);
  return *found;
}

} // namespace

TEST_CASE("what a change does is what the changed job gives when it is planned and judged by hand") {
  const std::vector<Lever> levers = levers_of(*made(locker())->box);
  const double now = chance_of(*made(locker())->box);
  const auto by_hand = [&](const std::string& key, const std::string& xml) {
    INFO(key);
    CHECK(of(levers, key).chance_before == Approx(now));
    CHECK(of(levers, key).chance_after == Approx(chance_of(*made(xml)->box)));
  };
  // The sheet rule's tacks on 2 mm: 6 mm long, at most 75 mm apart; runs of at most 150 mm.
  CHECK(of(levers, "pitch").what == Text{"lever.pitch", {length("pitch", 37.5)}});
  by_hand("pitch", with_rules("tack-pitch=\"37.5 mm\""));
  by_hand("tack-length", with_rules("tack-length=\"9 mm\""));
  by_hand("runs", with_rules("run-length=\"75 mm\""));
  CHECK(of(levers, "side").what.key == "lever.side-inside");
  by_hand("side", replaced(replaced(locker(), "side=\"outside\"", "side=\"inside\""), "finish=\"flush\"",
                           "finish=\"left\""));
  // Middle surfaces stay where they are, a thicker box stated by its outside is a quarter millimetre less.
  CHECK(of(levers, "thicker").what == Text{"lever.thicker", {length("thickness", 2.5)}});
  const auto thicker = made(replaced(locker(), "thickness=\"2 mm\"", "thickness=\"2.5 mm\""));
  CHECK(of(levers, "thicker").chance_after == Approx(chance_of(*thicker->box)).margin(0.01));
  // Two runs a seam are made from the inner one, in back-step as in skips.
  CHECK(find(levers, "back-step") == nullptr);
  const std::string deep = odd_job_text("deep-locker.xml");
  const auto stepped = made(deep);
  stepped->job.rules.back_step = true;
  const Lever back_step = of(levers_of(*made(deep)->box), "back-step");
  stepped->again();
  CHECK(back_step.what.key == "lever.back-step-on");
  CHECK(back_step.chance_after == Approx(chance_of(*stepped->box)));
}

TEST_CASE("a change leaves the order of the tacks as it was chosen") {
  const auto tray = made(sample_text("divided-tray.xml"));
  const std::optional<TackOrder> order = order_tacks(*tray->box);
  REQUIRE(order);
  REQUIRE_FALSE(std::is_sorted(order->order.begin(), order->order.end()));
  tack_by(*order, *tray->box);
  const Lever runs = of(levers_of(*tray->box), "runs");
  CHECK(runs.chance_before == Approx(chance_of(*tray->box)));
  tray->job.rules.run_length = mm(0.5 * tray->box->work.rules.longest_run_mm.value);
  tray->again();
  const double plain = chance_of(*tray->box);
  tack_by(*order, *tray->box);
  CHECK(runs.chance_after == Approx(chance_of(*tray->box)));
  CHECK(plain != runs.chance_after);
}

// Where all that moves the box is in proportion to what is made less, each draw comes nearer to drawn, and
// every limit has room on both sides of that or none. Elsewhere less of one thing can lay bare another: the
// deep locker of tests/data/jobs is worse for bends that come in half as far off.
TEST_CASE("less heat, or truer bends, never lower the chance where nothing else moves the box") {
  const auto bare = made(replaced(locker(), "finish=\"flush\"", "finish=\"left\""));
  bare->job.incoming.bend = deg(0.0);
  bare->job.incoming.blank = mm(0.0);
  bare->again();
  hold_by(FewPieces{}, *bare->box);
  REQUIRE(coarse_case(*bare->box).making.pieces.empty());
  const std::vector<Lever> true_parts = levers_of(*bare->box);
  CHECK(of(true_parts, "heat").gain() > 0.0);
  CHECK(of(true_parts, "bends").gain() == 0.0); // nothing to gain

  bare->job.incoming.bend = deg(1.0);
  bare->again();
  hold_by(FewPieces{}, *bare->box);
  for (SeamShrinkage& seam : bare->box->prediction.seams)
    seam.across_mm = seam.force_N = seam.angle_deg = {};
  const std::vector<Lever> cold = levers_of(*bare->box);
  CHECK(of(cold, "bends").gain() > 0.0);
  CHECK(of(cold, "heat").gain() == 0.0);

  const Lever bends = of(levers_of(*made(odd_job_text("deep-locker.xml"))->box), "bends");
  CHECK(bends.gain() < 0.0);
}

TEST_CASE("what gains most stands first, the first that one would see are advised, the same twice") {
  const auto battery = made(sample_text("battery-box.xml"));
  const std::optional<FewPieces> few = weigh_fixture(*battery->box);
  REQUIRE(few);
  hold_by(*few, *battery->box);
  const std::vector<Lever> levers = levers_of(*battery->box);
  CHECK(levers == levers_of(*battery->box));
  for (const char* key :
       {"pitch", "tack-length", "fixture", "fixture-none", "runs", "back-step", "heat", "side", "thicker"})
    CHECK(find(levers, key) != nullptr);
  CHECK(find(levers, "bends") == nullptr); // of panels
  CHECK(std::is_sorted(levers.begin(), levers.end(),
                       [](const Lever& a, const Lever& b) { return a.gain() > b.gain() + 1e-9; }));
  CHECK(levers.front().advised);
  for (std::size_t i = 0; i < levers.size(); ++i)
    CHECK(levers[i].advised == (i < 3 && levers[i].gain() > 0.0099));
  // From what was weighed already.
  for (const FixtureCompared& each : few->compared)
    if (each.key == "none") CHECK(of(levers, "fixture-none").chance_after == each.kept);
}

TEST_CASE("a stated fixture is kept, and nothing is told of others") {
  const auto planned = made(locker()), stated = made(locker());
  const Fixture fixture = planned->box->fixed().fixture;
  stated->job.fixtures = {fixture};
  stated->again();
  REQUIRE(stated->box->fixed().stated);
  const std::vector<Lever> levers = levers_of(*stated->box);
  CHECK(find(levers, "fixture") == nullptr);
  CHECK(find(levers, "fixture-none") == nullptr);
  const std::vector<Lever> others = levers_of(*planned->box);
  for (const char* key : {"pitch", "tack-length", "runs", "heat", "bends"})
    CHECK(of(levers, key).chance_after == of(others, key).chance_after);
}

TEST_CASE("a closed box is not welded from inside, and changes with very many springs are left out") {
  const auto box = made(sample_text("ballast-float.xml"));
  REQUIRE(springs_in(coarse_case(*box->box)) > 1750.0);
  const std::vector<Lever> levers = levers_of(*box->box);
  CHECK(find(levers, "heat") != nullptr);
  CHECK(find(levers, "thicker") != nullptr); // has fewer tacks
  for (const char* key : {"side", "pitch", "tack-length", "runs", "back-step"})
    CHECK(find(levers, key) == nullptr);
}

TEST_CASE("the plan has the levers of each box, and none by closed forms alone", "[together]") {
  for (const BoxPlan& box : planned_sample("gear-locker.xml").plan.boxes)
    CHECK(box.levers.empty());
  const Planned& whole = whole_sample("gear-locker.xml");
  CHECK(joined(check_plan(whole.job, whole.geometry, whole.plan)) == "");
  const std::vector<Lever>& levers = whole.plan.boxes.at(0).levers;
  CHECK(levers.size() >= 8);
  CHECK(of(levers, "fixture-none").gain() < 0.0);
}
