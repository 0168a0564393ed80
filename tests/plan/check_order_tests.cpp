// check_plan: orders that were changed by hand in all places that list them, so that only sense tells.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

using Spoil = std::function<void(BoxPlan&)>;

// What is told of the sample's plan, altered in one thing.
std::string told_of(const std::string& sample, const Spoil& spoil) {
  const Planned& good = planned_sample(sample);
  Plan bad = good.plan;
  spoil(bad.boxes.at(0));
  CHECK_FALSE(bad == good.plan); // else nothing was altered
  return joined(check_plan(good.job, good.geometry, bad));
}

void spoilt(const std::string& sample, const Spoil& spoil, const std::string& wanted) {
  const std::string told = told_of(sample, spoil);
  INFO(sample << ", wanted: " << wanted << "\ntold:\n" << told);
  CHECK(told.find(wanted) != std::string::npos);
}

const std::string kLocker = "gear-locker.xml", kTray = "divided-tray.xml";

// Two runs in the list, in their steps and in the order that is compared.
Spoil swap(const std::string& a, const std::string& b) {
  return [a, b](BoxPlan& p) {
    const auto at = [&](const std::string& id) {
      return std::find_if(p.runs.begin(), p.runs.end(), [&](const PlannedRun& r) { return r.id == id; });
    };
    REQUIRE((at(a) != p.runs.end() && at(b) != p.runs.end()));
    std::iter_swap(at(a), at(b));
    const auto swap_ids = [&](std::vector<std::string>& ids) {
      for (std::string& id : ids)
        if (id == a || id == b) id = id == a ? b : a;
    };
    for (Step& step : p.steps)
      swap_ids(step.runs);
    swap_ids(p.orders[0].runs);
  };
}

Step& step_of(BoxPlan& plan, const std::string& key) {
  const auto found =
      std::find_if(plan.steps.begin(), plan.steps.end(), [&](const Step& s) { return s.what.key == key; });
  if (found == plan.steps.end()) FAIL("the sample has no such step");
  return *found;
}

} // namespace

TEST_CASE("the runs of a seam are made in the order of their letters") {
  spoilt(kTray, swap("S9b", "S9d"), "run S9d is made before run S9c, against their letters");
  spoilt(kLocker, swap("S1a", "S1b"), "run S1b is made before run S1a, against their letters");
  spoilt(kLocker, swap("S1c", "S1d"), "run S1d is made before run S1c, against their letters");
}

TEST_CASE("the words of a step say what it makes") {
  spoilt(kLocker, swap("S1a", "S3a"), "says to weld S1, but makes runs of S3");
  spoilt(kTray, swap("S9a", "S9b"),
         "says to weld from 36.0 to 61.0 mm, but makes run S9b from 111.0 to 136.0");
  spoilt(
      kLocker, [](BoxPlan& p) { step_of(p, "step.run").what.args[1].number += 5.0; }, // where it starts
      "says to weld from 155.0 to 299.0 mm, but makes run S3a from 150.0 to 299.0");
  spoilt(
      kTray, [](BoxPlan& p) { step_of(p, "step.stitches").what.args[2].list.pop_back(); },
      "tells where 1 of the runs of S14 go, but makes 2");
  spoilt(
      kLocker, [](BoxPlan& p) { step_of(p, "step.dabs-folded").what.args[0].list.pop_back(); },
      "says to weld S1 S3 S2, but makes runs of S1 S3 S2 S4");
}

TEST_CASE("a seam's run before what the seam waits for is told, and so are a second one and one of no seam") {
  const Planned& good = planned_sample(kLocker);
  Job job = good.job;
  for (Seam& seam : job.boxes[0].seams)
    if (seam.id == good.plan.boxes[0].runs[1].seam) seam.after = {good.plan.boxes[0].runs[0].seam};
  CHECK(joined(check_plan(job, good.geometry, good.plan)).find("is to be welded before seam S3") !=
        std::string::npos);
  spoilt(
      kLocker, [](BoxPlan& p) { p.runs.push_back(p.runs[0]); }, "run S1a is listed twice");
  spoilt(
      kLocker, [](BoxPlan& p) { p.steps.back().runs.push_back(p.runs[0].id); },
      "makes run S1a a second time");
  spoilt(
      kLocker, [](BoxPlan& p) { p.steps.back().runs.push_back(p.runs[0].id); },
      "makes runs of S1, but does not say so");
  spoilt(
      kLocker,
      [](BoxPlan& p) {
        PlannedRun& stray = p.runs.emplace_back(p.runs[0]);
        stray.id += "x";
        stray.seam += "x";
        p.steps.back().runs.push_back(stray.id);
      },
      "run S1ax lies on seam S1x, which the job does not state");
}
