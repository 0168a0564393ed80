// check_plan: silent on every plan of ours, and one sentence for each way in which a plan is spoilt.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

using Spoil = std::function<void(BoxPlan&)>;

// The sample's plan, altered in one thing, must be told with a line that holds all the named pieces.
void spoilt(const std::string& sample, const Spoil& spoil, const std::vector<std::string>& pieces) {
  const Planned& good = planned_sample(sample);
  Plan bad = good.plan;
  spoil(bad.boxes.at(0));
  CHECK_FALSE(bad == good.plan); // else nothing was altered
  const std::vector<std::string> lines = check_plan(good.job, good.geometry, bad);
  const bool told_so = std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return std::all_of(pieces.begin(), pieces.end(),
                       [&](const std::string& piece) { return line.find(piece) != std::string::npos; });
  });
  INFO(sample << ", wanted: " << joined(pieces) << "told:\n" << joined(lines));
  CHECK(told_so);
}

const std::string kLocker = "gear-locker.xml", kFloat = "ballast-float.xml", kTray = "divided-tray.xml";

template <class F> Step& step_where(BoxPlan& plan, F test) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(), test);
  if (found == plan.steps.end()) FAIL("the sample has no such step");
  return *found;
}
Step& step_of(BoxPlan& plan, const std::string& key) {
  return step_where(plan, [&](const Step& s) { return s.what.key == key; });
}
Step& step_in(BoxPlan& plan, Phase phase) {
  return step_where(plan, [&](const Step& s) { return s.phase == phase; });
}
Step& first_arc(BoxPlan& plan) {
  return step_where(plan, [](const Step& s) { return !s.runs.empty(); });
}
Step& first_check(BoxPlan& plan) {
  return step_where(plan, [](const Step& s) { return !s.checks.empty(); });
}
void number_again(BoxPlan& plan) {
  for (std::size_t i = 0; i < plan.steps.size(); ++i)
    plan.steps[i].number = static_cast<int>(i) + 1;
}
// Moves the steps of a key behind the last step.
void move_to_end(BoxPlan& plan, const std::string& key) {
  std::stable_partition(plan.steps.begin(), plan.steps.end(),
                        [&](const Step& s) { return s.what.key != key; });
  number_again(plan);
}
void drop(BoxPlan& plan, const std::string& key) {
  plan.steps.erase(
      std::remove_if(plan.steps.begin(), plan.steps.end(), [&](const Step& s) { return s.what.key == key; }),
      plan.steps.end());
  number_again(plan);
}
PlannedRun& dab_of(BoxPlan& plan) {
  const auto found =
      std::find_if(plan.runs.begin(), plan.runs.end(), [](const PlannedRun& r) { return r.dab; });
  if (found == plan.runs.end()) FAIL("the sample has no dab");
  return *found;
}
PlannedMeasure& expected_measure(BoxPlan& plan) {
  const auto found = std::find_if(plan.measures.begin(), plan.measures.end(),
                                  [](const PlannedMeasure& m) { return m.has_expected; });
  if (found == plan.measures.end()) FAIL("the sample expects nothing");
  return *found;
}

} // namespace

TEST_CASE("a plan of ours breaks no rule") {
  for (const std::string& name : sample_names()) {
    INFO(name);
    const Planned& made = planned_sample(name);
    CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  }
  for (const std::string& name : odd_job_names()) {
    INFO(name);
    const Planned made = planned(odd_job_text(name));
    CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  }
}

TEST_CASE("a box that is missing, strange or doubled is told") {
  const Planned& good = planned_sample(kLocker);
  Plan bad = good.plan;
  bad.boxes.front().id = "other";
  CHECK(check_plan(good.job, good.geometry, bad) ==
        std::vector<std::string>{"box locker: is not planned",
                                 "row ALCOVE 2: place 1 is for locker 1, which is not planned",
                                 "row ALCOVE 2: place 2 is for locker 2, which is not planned",
                                 "row ALCOVE 2: place 3 is for locker 3, which is not planned",
                                 "box other: is planned, but the job does not state it"});
  bad = good.plan;
  bad.boxes.push_back(bad.boxes.front());
  CHECK(check_plan(good.job, good.geometry, bad) == std::vector<std::string>{"box locker: is planned twice"});
  spoilt(kLocker, [](BoxPlan& p) { p.count = 2; }, {"2 boxes are planned", "asks for 3"});
}

TEST_CASE("every seam is welded once over its stated length") {
  spoilt(kLocker, [](BoxPlan& p) { p.seams.pop_back(); }, {"seam S4 is not planned"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[1] = p.seams[0]; }, {"seam S1 is planned twice"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].length_mm += 1.0; }, {"seam S1", "299.0 mm long", "300.0"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].start.x += 1.0; }, {"seam S1", "not where the faces meet"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].finish = "left"; }, {"seam S1", "finish", "flush"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].face_a = "B"; }, {"seam S1", "first face"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].to_mm += p.runs[0].to_mm > p.runs[0].from_mm ? -20.0 : 20.0; },
         {"nothing welds it from"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].from_mm += p.runs[0].to_mm > p.runs[0].from_mm ? -20.0 : 20.0; },
         {"welds again"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs.pop_back(); }, {"which is not listed"});
  spoilt(kLocker, [](BoxPlan& p) { first_arc(p).runs.clear(); }, {"no step makes run"});
  spoilt(kLocker, [](BoxPlan& p) { first_arc(p).runs.push_back(first_arc(p).runs[0]); }, {"a second time"});
  spoilt(kLocker, [](BoxPlan& p) { std::swap(p.runs[0], p.runs[1]); }, {"in another order"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].seam = "S9"; }, {"on seam S9", "does not state"});
  spoilt(kTray,
         [](BoxPlan& p) {
           for (PlannedRun& run : p.runs)
             if (run.seam == "S9") run.to_mm += 5.0;
         },
         {"stitch", "mm long, not 25.0"});
}

TEST_CASE("runs tie in over what is made, and dabs come last") {
  spoilt(kLocker,
         [](BoxPlan& p) {
           for (PlannedRun& run : p.runs)
             run.tie_in_mm = 0.0;
         },
         {"does not tie in"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].tie_in_mm = 10.0; }, {"ties in where no run was made before"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           const PlannedRun dab = dab_of(p);
           p.runs.erase(std::find(p.runs.begin(), p.runs.end(), dab));
           p.runs.insert(p.runs.begin(), dab);
         },
         {"dab", "is made before run"});
}

TEST_CASE("arc time, heat and settings go together") {
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].arc_s *= 1.1; }, {"do not go with its travel"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].heat_J *= 1.1; }, {"J of heat do not go with its arc time"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].heat_J_mm.value *= 1.1; }, {"seam S1", "its settings give"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].settings = "none"; }, {"settings 'none' stand nowhere"});
  spoilt(kFloat,
         [](BoxPlan& p) {
           for (Text& line : p.settings[0].lines)
             if (line.key == "setting.volts-amps") line.args[0].number += 1.0;
         },
         {"the voltage is not what the procedure states"});
  spoilt(kLocker, [](BoxPlan& p) { first_arc(p).arc_s += 1.0; }, {"its runs take"});
  spoilt(kLocker, [](BoxPlan& p) { p.arc_s.value += 1.0; }, {"the runs take", "the box says"});
  spoilt(kLocker, [](BoxPlan& p) { p.wire_g.value += 1.0; }, {"the wire of the seams adds up"});
  spoilt(kLocker, [](BoxPlan& p) { first_arc(p).who = Who::grinder; }, {"the welder is not in it"});
}

TEST_CASE("the order keeps what the job asks for and is the best of those compared") {
  const Planned& good = planned_sample(kLocker);
  Job job = good.job;
  const std::string first = good.plan.boxes[0].runs.front().seam;
  for (Seam& seam : job.boxes[0].seams)
    if (seam.id == first) seam.after = {good.plan.boxes[0].runs[1].seam};
  const std::string lines = joined(check_plan(job, good.geometry, good.plan));
  CHECK(lines.find("is to be welded before seam " + first) != std::string::npos);
  spoilt(kLocker, [](BoxPlan& p) { p.orders[0].cost = p.orders[1].cost + 1; },
         {"costs less than the planned"});
  spoilt(kLocker, [](BoxPlan& p) { p.orders[1].runs.pop_back(); }, {"does not hold every run once"});
  spoilt(kLocker, [](BoxPlan& p) { std::swap(p.orders[0], p.orders[1]); }, {"is not the first"});
}

TEST_CASE("positions are what gravity makes of them, within reach, and the box is turned to them") {
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].position = "flat"; }, {"with B down it is welded", "not flat"});
  spoilt(kLocker, [](BoxPlan& p) { std::swap(p.runs[0].from_mm, p.runs[0].to_mm); }, {"it is welded"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].down = "L"; }, {"needs L down, but the box lies with B down"});
  spoilt(kLocker, [](BoxPlan& p) { p.runs[0].down = "F"; }, {"does not stand with F down"});
  spoilt(kFloat, [](BoxPlan& p) { drop(p, "step.turn"); }, {"needs", "down, but the box lies with"});
  const Planned& good = planned_sample(kLocker);
  Job job = good.job;
  job.boxes[0].seams[0].position = WeldPosition::overhead;
  CHECK(joined(check_plan(job, good.geometry, good.plan)).find("the job allows only overhead") !=
        std::string::npos);
  job = good.job;
  job.boxes[0].attitude = "U";
  CHECK(joined(check_plan(job, good.geometry, good.plan)).find("but the job says U") != std::string::npos);
  const Planned& tray =
      planned_sample("divided-tray.xml"); // stands in no row: taken as its geometry is given
  std::vector<BoxGeometry> geometry = tray.geometry;
  for (auto& seams : geometry[0].access)
    for (SeamAccess& seam : seams)
      seam.reachable = false;
  CHECK(joined(check_plan(tray.job, geometry, tray.plan)).find("cannot be reached with") !=
        std::string::npos);
}

TEST_CASE("tacks lie on their seams and come before the welds") {
  spoilt(kLocker, [](BoxPlan& p) { p.tacks[0].at_mm = 1.0; }, {"does not lie on its seam"});
  // The tacks between the ends, drawn together at the first one.
  spoilt(kLocker,
         [](BoxPlan& p) {
           double at = 20.0;
           for (PlannedTack& tack : p.tacks)
             if (tack.seam == "S1" && tack.at_mm > 20.0 && tack.at_mm < 250.0) tack.at_mm = at += 8.0;
         },
         {"more than the pitch"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           for (PlannedTack& tack : p.tacks)
             if (tack.seam == "S1") tack.at_mm *= 0.5;
         },
         {"seam S1", "at an end are not tacked"});
  spoilt(kLocker, [](BoxPlan& p) { p.tacks[1].at_mm = p.tacks[0].at_mm, p.tacks[1].seam = p.tacks[0].seam; },
         {"lie on each other"});
  spoilt(kLocker, [](BoxPlan& p) { p.tacks[0].seam = "S9"; }, {"on seam S9"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           p.tacks.erase(std::remove_if(p.tacks.begin(), p.tacks.end(),
                                        [](const PlannedTack& t) { return t.seam == "S1"; }),
                         p.tacks.end());
         },
         {"seam S1 is not tacked"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           Step& weld = first_arc(p);
           const std::string seam = p.runs[0].seam;
           for (Step& step : p.steps)
             for (auto id = step.tacks.begin(); id != step.tacks.end(); ++id)
               if (id->rfind(seam + "@", 0) == 0) {
                 weld.tacks.push_back(*id);
                 step.tacks.erase(id);
                 return;
               }
         },
         {"has made tack"});
  spoilt(kLocker, [](BoxPlan& p) { drop(p, "step.hold-fit-up"); }, {"no diagonals are read between"});
  spoilt(kLocker, [](BoxPlan& p) { drop(p, "step.knock-down"); }, {"never knocked down"});
  spoilt(kLocker, [](BoxPlan& p) { p.tacks.back().round += 2; }, {"follows round"});
  spoilt(kFloat, [](BoxPlan& p) { move_to_end(p, "step.knock-down"); }, {"welded over tacks"});
}

TEST_CASE("nobody is in two places at once, and times add up") {
  spoilt(kLocker,
         [](BoxPlan& p) {
           Step& step = step_in(p, Phase::weld);
           (&step)[1].start_s = step.start_s;
           (&step)[1].end_s = step.start_s + (&step)[1].seconds;
         },
         {"the welder is in step", "at the same time"});
  spoilt(kLocker, [](BoxPlan& p) { (&first_arc(p))[1].alongside = true; }, {"not by the other one"});
  spoilt(kLocker, [](BoxPlan& p) { p.steps[3].end_s += 5.0; }, {"step 4 takes", "but lies from"});
  spoilt(kLocker, [](BoxPlan& p) { first_arc(p).seconds = 1.0; }, {"less than its"});
  spoilt(kLocker, [](BoxPlan& p) { p.first_off_s.value = 600.0; }, {"the first box takes 600 s"});
  spoilt(kLocker, [](BoxPlan& p) { p.repeat_s.value = 60.0; }, {"a further box takes 60 s"});
  spoilt(kLocker, [](BoxPlan& p) { p.repeat_s.value = p.first_off_s.value + 60.0; },
         {"longer than the first"});
  spoilt(kLocker, [](BoxPlan& p) { p.batch_s.value = p.first_off_s.value; }, {"less than their steps take"});
  spoilt(kLocker, [](BoxPlan& p) { p.grind_s.value += 60.0; }, {"the grinding steps take"});
  spoilt(kLocker, [](BoxPlan& p) { p.takt_s = 60.0; }, {"not the stated one"});
}

TEST_CASE("waits have a cause, and nothing is touched or ground before it is cool") {
  spoilt(kLocker, [](BoxPlan& p) { step_in(p, Phase::cool).until = {}; }, {"no step lets the box cool"});
  spoilt(kFloat,
         [](BoxPlan& p) {
           for (Step& step : p.steps)
             if (step.phase >= Phase::cool) step.until = {};
         },
         {"waits", "nothing says until when"});
  spoilt(kLocker, [](BoxPlan& p) { step_in(p, Phase::grind).start_s = first_arc(p).end_s; },
         {"grinds the box", "after the last arc"});
  spoilt(kLocker, [](BoxPlan& p) { move_to_end(p, "step.cool"); }, {"before it has cooled"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           p.steps.erase(std::remove_if(p.steps.begin(), p.steps.end(),
                                        [](const Step& s) { return s.phase == Phase::grind; }),
                         p.steps.end());
         },
         {"no step grinds"});
}

TEST_CASE("holds are few, numbered and signed by another") {
  spoilt(kLocker, [](BoxPlan& p) { step_where(p, [](const Step& s) { return s.hold == 2; }).second.reset(); },
         {"nobody else signs"});
  spoilt(kLocker, [](BoxPlan& p) { step_where(p, [](const Step& s) { return s.hold == 2; }).hold = 3; },
         {"is hold 3"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           p.steps.back().hold = 4;
           p.steps.back().second = Who::foreman;
         },
         {"has 4 holds"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           for (Step& step : p.steps)
             step.hold.reset();
         },
         {"has no hold"});
}

TEST_CASE("each check has a gauge, limits and a ladder") {
  spoilt(kLocker, [](BoxPlan& p) { first_check(p).checks[0].gauge = "eye"; }, {"names no gauge", "eye"});
  spoilt(kLocker, [](BoxPlan& p) { first_check(p).checks[0].ladder.clear(); }, {"how to put it right"});
  spoilt(kLocker, [](BoxPlan& p) { first_check(p).checks[0].readings = 0; }, {"takes no reading"});
  spoilt(kLocker, [](BoxPlan& p) { first_check(p).checks[0].accept_high_mm = -1.0; }, {"accepts nothing"});
  spoilt(kLocker, [](BoxPlan& p) { step_of(p, "step.hold-as-welded").checks[0].measures[0] = "nothing"; },
         {"measure nothing, which stands nowhere"});
  spoilt(kLocker, [](BoxPlan& p) { step_of(p, "step.hold-as-welded").checks[0].accept_high_mm += 1.0; },
         {"accepts other limits"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           auto& checks = step_of(p, "step.square-as-welded").checks;
           std::reverse(checks.begin(), checks.end());
         },
         {"reads diagonals before opposite sides"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           Check& check = step_of(p, "step.square-dry").checks[0];
           check.has_expected = true;
         },
         {"before there was any heat"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           Check& check = step_of(p, "step.sizes-final").checks[0];
           check.expected_mm.low = check.expected_mm.high = check.expected_mm.value =
               check.accept_low_mm - 5.0;
           check.has_expected = check.no_change_seen = true;
         },
         {"no change is seen, but the gauge reads"});
}

TEST_CASE("a closed box breathes until it is cold, and is finished inside before it is shut") {
  spoilt(kFloat, [](BoxPlan& p) { drop(p, "step.vent-open"); }, {"no step opens the vent"});
  spoilt(kFloat, [](BoxPlan& p) { drop(p, "step.plug-vent"); }, {"the vent in R is never plugged"});
  spoilt(kFloat, [](BoxPlan& p) { move_to_end(p, "step.record"); }, {"comes after a vent was plugged"});
  spoilt(kFloat, [](BoxPlan& p) { step_of(p, "step.plug-vent").until = {}; },
         {"without waiting for a cold box"});
  spoilt(kFloat, [](BoxPlan& p) { move_to_end(p, "step.tooling-out"); },
         {"step.tooling-out", "before the last face T"});
  spoilt(kFloat, [](BoxPlan& p) { drop(p, "step.inside-finished"); },
         {"step.inside-finished", "before the last face T"});
  spoilt(kFloat,
         [](BoxPlan& p) { std::swap(step_of(p, "step.tack-rim").tacks, step_of(p, "step.tack-lid").tacks); },
         {"comes after the last face T is on"});
}

TEST_CASE("figures have ordered bands and sources, limits are the stated ones, cautions own up") {
  spoilt(kLocker,
         [](BoxPlan& p) {
           std::swap(expected_measure(p).expected_mm.low, expected_measure(p).expected_mm.high);
         },
         {"expects a band that is not in order"});
  spoilt(kLocker, [](BoxPlan& p) { expected_measure(p).source.text.clear(); }, {"without a source"});
  spoilt(kLocker, [](BoxPlan& p) { p.repeat_s.high = 1.0; }, {"a band that is not in order"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].wire_g.low = 900.0; }, {"a band that is not in order"});
  spoilt(kLocker, [](BoxPlan& p) { p.seams[0].throat_mm.low = 9.0; }, {"a band that is not in order"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           p.figures[0].value.value = p.figures[0].value.high + 1.0;
           p.figures[0].has_band = true;
         },
         {"a band that is not in order"});
  spoilt(kLocker, [](BoxPlan& p) { p.measures[0].over_mm += 1.0; }, {"passes a box that the row does not"});
  spoilt(kLocker, [](BoxPlan& p) { p.measures[0].nominal_mm += 1.0; }, {"not taken over its nominal size"});
  spoilt(kLocker, [](BoxPlan& p) { p.measures[0].id = p.measures[1].id; }, {"stands twice"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           p.cautions.clear();
           expected_measure(p).chance_kept = 0.25;
         },
         {"more likely missed than kept"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           p.cautions.insert(p.cautions.end(), {{{"a", {}}, false}, {{"b", {}}, true}});
         },
         {"a red caution stands behind"});
  spoilt(kLocker,
         [](BoxPlan& p) {
           while (p.care.size() < 9)
             p.care.push_back({"care." + std::to_string(p.care.size()), {}});
         },
         {"has 9 lines of care"});
  spoilt(kLocker, [](BoxPlan& p) { p.care.push_back(p.care[0]); }, {"twice"});
  spoilt(kLocker, [](BoxPlan& p) { p.mass_kg += 1.0; }, {"weighs"});
  spoilt(kLocker, [](BoxPlan& p) { p.high.z += 1.0; }, {"not as large as planned"});
}

TEST_CASE("steps are numbered through, say what to do, and follow the phases of the sheet") {
  spoilt(kLocker, [](BoxPlan& p) { p.steps[4].number = 9; }, {"step 9 stands at place 5"});
  spoilt(kLocker, [](BoxPlan& p) { p.steps[4].what = {}; }, {"step 5 does not say what to do"});
  spoilt(kLocker, [](BoxPlan& p) { std::swap(p.steps.front().phase, p.steps.back().phase); },
         {"goes back to an earlier phase"});
  spoilt(kLocker, [](BoxPlan& p) { p.steps.clear(); }, {"has no steps"});
}
