// Holds and checks: few holds with another's name; a gauge, limits and a ladder for every check.
#include "plan/verify/checking.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr int kMostHolds = 3;

const BenchGaugeInfo* gauge_of(const std::string& id) {
  for (const BenchGaugeInfo& gauge : bench_gauges())
    if (gauge.id == id) return &gauge;
  return nullptr;
}

const PlannedMeasure* measure_of(const Checking& c, const std::string& id) {
  for (const PlannedMeasure& measure : c.plan.measures)
    if (measure.id == id) return &measure;
  return nullptr;
}

void check_ladder(const Checking& c, const Step& step, const Check& check) {
  if (check.ladder.empty())
    c.tell("step {}: check {} does not say how to put it right", step.number, check.what.key);
  for (const Remedy& rung : check.ladder)
    if (rung.what.empty() || !(rung.seconds > 0.0))
      c.tell("step {}: check {} has a rung without words or time", step.number, check.what.key);
}

void check_against_measures(const Checking& c, const Step& step, const Check& check) {
  for (const std::string& id : check.measures) {
    const PlannedMeasure* measure = measure_of(c, id);
    if (!measure) {
      c.tell("step {}: check {} names measure {}, which stands nowhere", step.number, check.what.key, id);
      continue;
    }
    if (measure->gauge != check.gauge)
      c.tell("step {}: check {} reads {} with another gauge", step.number, check.what.key, id);
    // Parts may come further off than the finished box may be: fitting closes it.
    const double low_mm = measure->nominal_mm - measure->under_mm,
                 high_mm = measure->nominal_mm + measure->over_mm;
    const bool looser = step.phase == Phase::check_parts && check.accept_low_mm <= low_mm + 1e-6 &&
                        check.accept_high_mm >= high_mm - 1e-6;
    if (!looser &&
        (std::abs(check.accept_low_mm - low_mm) > 1e-6 || std::abs(check.accept_high_mm - high_mm) > 1e-6))
      c.tell("step {}: check {} accepts other limits than {} has", step.number, check.what.key, id);
    if (c.plan.elastic && step.phase < Phase::check) continue; // check_elastic has the states
    const Band& expected = step.phase == Phase::check ? measure->before_grinding_mm : measure->expected_mm;
    if (check.has_expected && measure->has_expected && !measure->bound_only &&
        (expected.low < check.expected_mm.low - 1e-6 || expected.high > check.expected_mm.high + 1e-6))
      c.tell("step {}: check {} expects less spread than {} has", step.number, check.what.key, id);
  }
}

void check_check(const Checking& c, const Step& step, const Check& check, bool after_heat) {
  const BenchGaugeInfo* gauge = gauge_of(check.gauge);
  if (!gauge)
    c.tell("step {}: check {} names no gauge of the bench, but '{}'", step.number, check.what.key,
           check.gauge);
  if (check.readings < 1) c.tell("step {}: check {} takes no reading", step.number, check.what.key);
  if (!(check.accept_low_mm <= check.accept_high_mm))
    c.tell("step {}: check {} accepts nothing", step.number, check.what.key);
  check_ladder(c, step, check);
  check_against_measures(c, step, check);
  if (!check.has_expected) return;
  const Band& band = check.expected_mm;
  if (!(band.low <= band.value && band.value <= band.high))
    c.tell("step {}: check {} expects a band that is not in order", step.number, check.what.key);
  if (!after_heat)
    c.tell("step {}: check {} expects a change before there was any heat", step.number, check.what.key);
  const PlannedMeasure* measure = check.measures.empty() ? nullptr : measure_of(c, check.measures.front());
  if (!gauge || !measure || !check.no_change_seen) return;
  const double furthest =
      std::max(std::abs(band.low - measure->nominal_mm), std::abs(band.high - measure->nominal_mm));
  if (furthest >= in_mm(gauge->resolution))
    c.tell("step {}: check {} says no change is seen, but the gauge reads {:.2f} mm", step.number,
           check.what.key, furthest);
}

// Racking shows in the diagonals only when opposite sides are alike.
void check_sides_first(const Checking& c, const Step& step) {
  bool diagonals = false;
  for (const Check& check : step.checks)
    for (const std::string& id : check.measures)
      if (const PlannedMeasure* measure = measure_of(c, id)) {
        diagonals = diagonals || measure->kind == "diagonals";
        if (diagonals && measure->kind == "opposite-sides") {
          c.tell("step {} reads diagonals before opposite sides", step.number);
          return;
        }
      }
}

} // namespace

void check_holds(const Checking& c) {
  int holds = 0;
  const std::size_t last_arc = c.last_step([](const Step& s) { return !s.runs.empty(); });
  for (std::size_t i = 0; i < c.plan.steps.size(); ++i) {
    const Step& step = c.plan.steps[i];
    if (!step.hold) continue;
    ++holds;
    if (*step.hold != holds)
      c.tell("step {} is hold {}, but the {}. in order", step.number, *step.hold, holds);
    // The foreman's own name is another's name already.
    const bool another =
        step.who == Who::foreman || (step.second && *step.second != step.who && *step.second != Who::both &&
                                     (step.who != Who::both || *step.second == Who::foreman));
    if (!another) c.tell("step {} is a hold that nobody else signs", step.number);
    if (holds == 1 && c.has(last_arc) && i > last_arc)
      c.tell("step {} is the first hold, but all is welded by then", step.number);
  }
  if (holds > kMostHolds) c.tell("has {} holds, at most {} are wanted", holds, kMostHolds);
  if (holds == 0) c.tell("has no hold");
}

void check_gauges(const Checking& c) {
  // Of a tack the closed forms say nothing.
  const std::size_t first_arc =
      c.first_step([&](const Step& s) { return !s.runs.empty() || (c.plan.elastic && !s.tacks.empty()); });
  for (std::size_t i = 0; i < c.plan.steps.size(); ++i) {
    for (const Check& check : c.plan.steps[i].checks)
      check_check(c, c.plan.steps[i], check, i + (c.plan.elastic ? 1 : 0) > first_arc);
    check_sides_first(c, c.plan.steps[i]);
  }
}

} // namespace tacksquare::verify
