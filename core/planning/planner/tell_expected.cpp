#include "planning/planner/tell_expected.h"

#include "formulas/band_math.h"
#include "plan/furthest.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace tacksquare {
namespace {

double resolution_mm(const std::string& gauge_id) {
  for (const BenchGaugeInfo& gauge : bench_gauges())
    if (gauge.id == gauge_id) return in_mm(gauge.resolution);
  throw InternalError("a measure names a gauge that the bench does not have: " + gauge_id);
}

// How far the box is while its steps are walked through.
class Making {
 public:
  explicit Making(const BoxCase& box) : box_(box) {}

  void make(const Step& step) {
    made_.insert(step.tacks.begin(), step.tacks.end());
    made_.insert(step.runs.begin(), step.runs.end());
    made_.insert(step.off.begin(), step.off.end());
    if (!step.runs.empty()) warm_ = true;
    if (step.phase == Phase::grind || step.phase == Phase::final_check) ground_ = true;
  }

  std::optional<Band> expected(const std::string& measure) const {
    const Expected* end = nullptr;
    for (const Expected& e : box_.expected)
      if (box_.work.measures[e.measure].id == measure) end = &e;
    if (!end || end->bound_only) return std::nullopt; // bounds are for the foreman's pages
    if (ground_) return end->mm;
    const Measure& m = box_.work.measures[end->measure];
    if (!box_.elastic) return warm_ ? std::optional(end->before_grinding_mm) : std::nullopt;
    const ElasticState* state = latest();
    if (!state) return std::nullopt;
    for (std::size_t i = 0; i < box_.elastic->readings.size(); ++i)
      if (box_.elastic->readings[i].id == measure)
        return formulas::shifted({state->value[i], state->low[i], state->high[i]},
                                 m.kind == MeasureKind::width ? m.nominal_mm : 0.0);
    return std::nullopt;
  }

 private:
  // The state in which all that is made by now is made, and nothing else.
  const ElasticState* latest() const {
    const ElasticState* last = nullptr;
    for (const ElasticState& state : box_.elastic->states) {
      if (made_.count(state.after) == 0) break;
      last = &state;
    }
    const auto known = std::count_if(box_.elastic->states.begin(), box_.elastic->states.end(),
                                     [&](const ElasticState& state) { return made_.count(state.after) > 0; });
    return last && last - box_.elastic->states.data() + 1 == known ? last : nullptr;
  }

  const BoxCase& box_;
  std::set<std::string> made_;
  bool warm_ = false, ground_ = false;
};

void tell(const BoxCase& box, const Making& making, Check& check) {
  const auto measure = [&](const std::string& id) {
    return std::find_if(box.work.measures.begin(), box.work.measures.end(),
                        [&](const Measure& m) { return m.id == id; });
  };
  double nominal_mm = 0.0;
  for (const std::string& id : check.measures) {
    const std::optional<Band> mm = making.expected(id);
    if (!mm) continue;
    nominal_mm = measure(id)->nominal_mm;
    check.expected_mm = check.has_expected ? furthest(check.expected_mm, *mm, nominal_mm) : *mm;
    check.has_expected = true;
  }
  if (!check.has_expected) return;
  const double furthest =
      std::max(std::abs(check.expected_mm.low - nominal_mm), std::abs(check.expected_mm.high - nominal_mm));
  check.no_change_seen = furthest < resolution_mm(check.gauge);
}

} // namespace

namespace {

// The most that the seam may stand open where a tack of this step goes, where that can be read.
void tell_gap(const BoxCase& box, Step& step) {
  if (!box.elastic || step.tacks.empty() || !step.odd.empty()) return;
  double open_mm = 0.0;
  for (const ElasticState& state : box.elastic->states)
    if (state.gap_mm && std::find(step.tacks.begin(), step.tacks.end(), state.after) != step.tacks.end())
      open_mm = std::max(open_mm, state.gap_mm->high);
  if (open_mm >= 2.0 * resolution_mm("feeler"))
    step.odd = {"why.gap-ahead", {length("open", open_mm, "feeler")}};
}

} // namespace

void tell_expected(const BoxCase& box, std::vector<Step>& steps) {
  Making making(box);
  for (Step& step : steps) {
    making.make(step);
    tell_gap(box, step);
    for (Check& check : step.checks)
      tell(box, making, check);
  }
}

} // namespace tacksquare
