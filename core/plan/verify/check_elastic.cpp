// What the elastic model expects: every state whole and in the order of the making, the measures' figures its
// last, and each check's figure that of the state in which it is read.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

namespace tacksquare::verify {
namespace {

constexpr double kSame_mm = 1e-6;

void check_states(const Checking& c, const ElasticPlan& elastic) {
  const auto has_length = [&](const std::string& id) {
    return std::any_of(c.plan.runs.begin(), c.plan.runs.end(), [&](const PlannedRun& run) {
      return run.id == id && (!run.dab || run.from_mm != run.to_mm);
    });
  };
  std::vector<std::string> made, told;
  for (const HoldingPiece& piece : elastic.pieces)
    if (std::none_of(c.plan.steps.begin(), c.plan.steps.end(), [&](const Step& step) {
          return std::find(step.off.begin(), step.off.end(), piece.id) != step.off.end();
        }))
      c.tell("nobody takes {} off", piece.id);
  for (const Step& step : c.plan.steps) {
    made.insert(made.end(), step.tacks.begin(), step.tacks.end());
    std::copy_if(step.runs.begin(), step.runs.end(), std::back_inserter(made), has_length);
    // Stops, clamps and bars are in no state of the model.
    std::copy_if(step.off.begin(), step.off.end(), std::back_inserter(made), [&](const std::string& id) {
      return std::any_of(elastic.pieces.begin(), elastic.pieces.end(),
                         [&](const HoldingPiece& piece) { return piece.id == id; });
    });
  }
  for (const ElasticState& state : elastic.states)
    told.push_back(state.after);
  if (told != made) c.tell("the elastic states do not follow the steps");
  for (const ElasticState& state : elastic.states) {
    const std::size_t n = elastic.readings.size();
    if (state.value.size() != n || state.low.size() != n || state.high.size() != n) {
      c.tell("the state after {} has not one figure for each reading", state.after);
      continue;
    }
    for (std::size_t i = 0; i < n; ++i) {
      if (!(state.low[i] <= state.value[i] && state.value[i] <= state.high[i]))
        c.tell("after {} the band of {} is not in order", state.after, elastic.readings[i].id);
      if (elastic.readings[i].without_sign && state.low[i] < 0.0)
        c.tell("after {} {} is off by less than nothing", state.after, elastic.readings[i].id);
    }
    const bool tack = c.step_of_tack.count(state.after) > 0;
    if (state.gap_mm.has_value() != tack || state.closing_N.has_value() != tack)
      c.tell("after {} there is {} gap and what closes it", state.after, tack ? "no" : "a");
    if (state.gap_mm &&
        !(state.gap_mm->low <= state.gap_mm->value && state.gap_mm->value <= state.gap_mm->high))
      c.tell("before {} the band of the gap is not in order", state.after);
  }
}

const PlannedMeasure* measure_of(const Checking& c, const std::string& id) {
  for (const PlannedMeasure& measure : c.plan.measures)
    if (measure.id == id) return &measure;
  return nullptr;
}

std::size_t place_of(const ElasticPlan& elastic, const std::string& measure) {
  std::size_t i = 0;
  while (i < elastic.readings.size() &&
         (elastic.readings[i].kind != "measure" || elastic.readings[i].id != measure))
    ++i;
  return i;
}

// While the box is made: the furthest of the state that has all that is made by then. Nothing where it has
// more, or less.
const ElasticState* state_at(const ElasticPlan& elastic, const std::set<std::string>& made) {
  std::size_t n = 0, known = 0;
  while (n < elastic.states.size() && made.count(elastic.states[n].after) > 0)
    ++n;
  for (const ElasticState& state : elastic.states)
    known += made.count(state.after);
  return n > 0 && n == known ? &elastic.states[n - 1] : nullptr;
}

void check_while_making(const Checking& c, const ElasticPlan& elastic, const Step& step,
                        const ElasticState* state) {
  for (const Check& check : step.checks) {
    if (!check.has_expected) continue;
    if (!state) {
      c.tell("step {}: check {} expects a figure that no state has", step.number, check.what.key);
      continue;
    }
    double low = 1e9, high = -1e9;
    for (const std::string& id : check.measures) {
      const std::size_t at = place_of(elastic, id);
      const PlannedMeasure* measure = measure_of(c, id);
      if (at == elastic.readings.size() || !measure || !measure->has_expected) continue;
      const double nominal = measure->kind == "width" ? measure->nominal_mm : 0.0;
      low = std::min(low, nominal + state->low[at]);
      high = std::max(high, nominal + state->high[at]);
    }
    if (std::abs(low - check.expected_mm.low) > kSame_mm ||
        std::abs(high - check.expected_mm.high) > kSame_mm)
      c.tell("step {}: check {} expects other figures than the state after {}", step.number, check.what.key,
             state->after);
  }
}

void check_measures(const Checking& c, const ElasticPlan& elastic) {
  if (elastic.states.empty()) return;
  const ElasticState& last = elastic.states.back();
  std::set<std::string> buckled;
  for (const FaceBuckling& b : elastic.buckling)
    if (b.factor.value < 1.0) buckled.insert(b.face);
  for (const PlannedMeasure& measure : c.plan.measures) {
    const std::size_t at = place_of(elastic, measure.id);
    if (measure.kind == "belly" && buckled.count(measure.where) > 0 && measure.has_expected)
      c.tell("measure {} expects a figure for a face that buckles", measure.id);
    if (at == elastic.readings.size() || !measure.has_expected) continue;
    const double nominal = measure.kind == "width" ? measure.nominal_mm : 0.0;
    if (std::abs(measure.before_grinding_mm.value - nominal - last.value[at]) > kSame_mm)
      c.tell("measure {} expects another figure than the last state", measure.id);
  }
}

} // namespace

void check_elastic(const Checking& c) {
  if (!c.plan.elastic) return;
  const ElasticPlan& elastic = *c.plan.elastic;
  check_states(c, elastic);
  check_measures(c, elastic);
  std::set<std::string> made;
  for (const Step& step : c.plan.steps) {
    made.insert(step.tacks.begin(), step.tacks.end());
    made.insert(step.runs.begin(), step.runs.end());
    made.insert(step.off.begin(), step.off.end());
    if (step.phase < Phase::grind) check_while_making(c, elastic, step, state_at(elastic, made));
  }
}

} // namespace tacksquare::verify
