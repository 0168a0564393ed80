// Runs: every seam welded once over its stated length, in the order of their letters, dabs and tie-ins, arc
// time and heat by length, and the words of the steps that make them.
#include "plan/verify/checking.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr double kTouch_mm = 0.5;    // ends this close meet
constexpr double kPointDab_s = 10.0; // a hole that takes longer to fill is no dab

// The runs of one seam in the order in which they are made.
using Runs = std::vector<const PlannedRun*>;

bool is_point(const PlannedRun& run) {
  return run.from_mm == run.to_mm;
}
double low(const PlannedRun& run) {
  return std::min(run.from_mm, run.to_mm);
}
double high(const PlannedRun& run) {
  return std::max(run.from_mm, run.to_mm);
}
bool meet(const PlannedRun& a, const PlannedRun& b) {
  return low(a) <= high(b) + kTouch_mm && low(b) <= high(a) + kTouch_mm;
}

Runs along(Runs runs) {
  runs.erase(std::remove_if(runs.begin(), runs.end(), [](const PlannedRun* r) { return is_point(*r); }),
             runs.end());
  std::stable_sort(runs.begin(), runs.end(),
                   [](const PlannedRun* a, const PlannedRun* b) { return low(*a) < low(*b); });
  return runs;
}

void check_continuous(const Checking& c, const Seam& seam, double length, const Runs& runs) {
  double made = 0.0;
  for (const PlannedRun* run : along(runs)) {
    if (low(*run) > made + kTouch_mm)
      c.tell("seam {}: nothing welds it from {:.1f} to {:.1f} mm", seam.id, made, low(*run));
    else if (low(*run) < made - kTouch_mm)
      c.tell("seam {}: run {} welds again what is welded from {:.1f} to {:.1f} mm", seam.id, run->id,
             low(*run), std::min(made, high(*run)));
    made = std::max(made, high(*run));
  }
  if (made < length - kTouch_mm)
    c.tell("seam {}: nothing welds it from {:.1f} to {:.1f} mm", seam.id, made, length);
}

void check_stitches(const Checking& c, const Seam& seam, double length, const Runs& runs) {
  const double stitch = in_mm(seam.stitch->length), pitch = in_mm(seam.stitch->pitch);
  const Runs stitches = along(runs);
  if (stitches.empty()) {
    c.tell("seam {}: has no stitch", seam.id);
    return;
  }
  for (std::size_t i = 0; i < stitches.size(); ++i) {
    const double run = high(*stitches[i]) - low(*stitches[i]);
    if (std::abs(run - stitch) > kTouch_mm)
      c.tell("seam {}: stitch {} is {:.1f} mm long, not {:.1f}", seam.id, stitches[i]->id, run, stitch);
    if (i == 0) continue;
    const double apart = low(*stitches[i]) - low(*stitches[i - 1]);
    if (std::abs(apart - pitch) > kTouch_mm)
      c.tell("seam {}: stitches {} and {} are {:.1f} mm apart, not {:.1f}", seam.id, stitches[i - 1]->id,
             stitches[i]->id, apart, pitch);
  }
  const double bare = low(*stitches.front()) + length - high(*stitches.back());
  if (bare >= pitch + kTouch_mm) c.tell("seam {}: has room for one more stitch", seam.id);
}

void check_dabs_and_ties(const Checking& c, const Runs& runs, bool stitched) {
  const bool no_ties = c.job.rules.tie_in && in_mm(*c.job.rules.tie_in) == 0.0;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const PlannedRun& run = *runs[i];
    if (is_point(run) && !run.dab) c.tell("run {} has no length and is no dab", run.id);
    const auto met = [&](std::size_t from, std::size_t to) {
      return std::find_if(runs.begin() + static_cast<std::ptrdiff_t>(from),
                          runs.begin() + static_cast<std::ptrdiff_t>(to),
                          [&](const PlannedRun* other) { return !other->dab && meet(*other, run); });
    };
    if (run.dab) {
      const auto later = met(i + 1, runs.size());
      if (later != runs.end()) c.tell("dab {} is made before run {}, which ends there", run.id, (*later)->id);
      continue;
    }
    if (stitched) continue;
    const bool ties = met(0, i) != runs.begin() + static_cast<std::ptrdiff_t>(i);
    if (ties && !(run.tie_in_mm > 0.0) && !no_ties)
      c.tell("run {} meets an earlier run, but does not tie in over it", run.id);
    if (!ties && run.tie_in_mm > 0.0) c.tell("run {} ties in where no run was made before", run.id);
  }
}

// S1a, S1b, .. S1z, S1aa: as they are made, so that the welder finds the next one.
void check_letters(const Checking& c, const Runs& runs) {
  for (std::size_t i = 1; i < runs.size(); ++i) {
    const std::string &a = runs[i - 1]->id, &b = runs[i]->id;
    if (a.size() != b.size() ? a.size() > b.size() : a > b)
      c.tell("run {} is made before run {}, against their letters", a, b);
  }
}

void check_times(const Checking& c, const PlannedSeam& seam, const Runs& runs) {
  const std::optional<double> travel = travel_mm_s(c, seam);
  if (!travel) return; // told with the settings
  for (const PlannedRun* run : runs) {
    const double by_length = (high(*run) - low(*run)) / *travel;
    if (is_point(*run) ? !(run->arc_s > 0.0 && run->arc_s <= kPointDab_s)
                       : std::abs(run->arc_s - by_length) > 0.01 * by_length + 0.01)
      c.tell("run {}: {:.1f} s of arc over {:.1f} mm do not go with its travel", run->id, run->arc_s,
             high(*run) - low(*run));
    if (c.job.rules.start_limit &&
        run->warmth_K > in_celsius(*c.job.rules.start_limit) - in_celsius(c.job.ambient) + 1e-6)
      c.tell("run {} starts {:.0f} K above the shop, over the start limit", run->id, run->warmth_K);
    const double heat_J = seam.heat_J_mm.value * run->arc_s * *travel;
    if (std::abs(run->heat_J - heat_J) > 0.01 * heat_J + 0.1)
      c.tell("run {}: {:.0f} J of heat do not go with its arc time", run->id, run->heat_J);
  }
}

void check_runs_of(const Checking& c, const PlannedSeam& planned, std::size_t index) {
  const Seam& seam = c.box.seams[index];
  const double length = norm(c.geometry.seams[index].end - c.geometry.seams[index].start);
  const double longest = in_mm(c.job.rules.run_length.value_or(run_practice().longest_run));
  Runs runs;
  double welded = 0.0;
  for (const PlannedRun& run : c.plan.runs) {
    if (run.seam != planned.id) continue;
    runs.push_back(&run);
    welded += high(run) - low(run);
    if (low(run) < -kTouch_mm || high(run) > length + kTouch_mm)
      c.tell("run {} reaches beyond its seam", run.id);
    if (high(run) - low(run) > longest + kTouch_mm && !seam.stitch)
      c.tell("run {} is {:.1f} mm long, the longest allowed is {:.1f}", run.id, high(run) - low(run),
             longest);
  }
  if (std::abs(welded - planned.welded_mm) > kTouch_mm)
    c.tell("seam {}: its runs add up to {:.1f} mm, not to {:.1f}", planned.id, welded, planned.welded_mm);
  if (seam.stitch)
    check_stitches(c, seam, length, runs);
  else
    check_continuous(c, seam, length, runs);
  check_letters(c, runs);
  check_dabs_and_ties(c, runs, seam.stitch.has_value());
  check_times(c, planned, runs);
}

// Steps and box add up what their runs say.
void check_sums(const Checking& c) {
  std::map<std::string, double> arc_of;
  for (const PlannedRun& run : c.plan.runs)
    arc_of[run.id] = run.arc_s;
  double box_s = 0.0;
  for (const Step& step : c.plan.steps) {
    double arc_s = 0.0;
    for (const std::string& id : step.runs)
      if (const auto found = arc_of.find(id); found != arc_of.end()) arc_s += found->second;
    if (std::abs(arc_s - step.arc_s) > 1e-6 * std::max(1.0, arc_s))
      c.tell("step {}: its runs take {:.1f} s of arc, it says {:.1f}", step.number, arc_s, step.arc_s);
    if (!step.runs.empty() && step.who != Who::welder && step.who != Who::both)
      c.tell("step {} welds, but the welder is not in it", step.number);
    box_s += arc_s;
  }
  if (std::abs(box_s - c.plan.arc_s.value) > 1e-6 * std::max(1.0, box_s))
    c.tell("the runs take {:.1f} s of arc, the box says {:.1f}", box_s, c.plan.arc_s.value);
}

// What the words of a step say is welded, in the order in which they say it.
struct Said {
  std::vector<std::string> seams; // each once
  std::vector<std::pair<double, double>> stretches;
};

void name_once(const std::string& seam, std::vector<std::string>& seams) {
  if (std::find(seams.begin(), seams.end(), seam) == seams.end()) seams.push_back(seam);
}

void gather(const Text& text, Said& said) {
  const Arg *from = argument(text, "from"), *to = argument(text, "to");
  if (from && to) said.stretches.emplace_back(from->number, to->number);
  for (const Arg& arg : text.args) {
    if (arg.name == "seam") name_once(arg.word, said.seams);
    for (const Text& inner : arg.list) {
      const Arg* id = arg.name == "seams" ? argument(inner, "text") : nullptr;
      if (id) name_once(id->word, said.seams);
      gather(inner, said);
    }
  }
}

void check_words(const Checking& c, const Step& step, const Runs& runs) {
  Said said;
  gather(step.what, said);
  std::vector<std::string> seams;
  bool dabs = false;
  for (const PlannedRun* run : runs) {
    name_once(run->seam, seams);
    dabs = dabs || run->dab;
  }
  if (said.seams.empty()) {
    c.tell("step {} makes runs of {}, but does not say so", step.number, fmt::join(seams, " "));
    return;
  }
  if (said.seams != seams)
    c.tell("step {} says to weld {}, but makes runs of {}", step.number, fmt::join(said.seams, " "),
           fmt::join(seams, " "));
  if (dabs) return; // nobody measures where they are
  if (said.stretches.size() != runs.size()) {
    c.tell("step {} tells where {} of the runs of {} go, but makes {}", step.number, said.stretches.size(),
           fmt::join(seams, " "), runs.size());
    return;
  }
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const auto& [from, to] = said.stretches[i];
    if (std::abs(from - runs[i]->from_mm) > kTouch_mm || std::abs(to - runs[i]->to_mm) > kTouch_mm)
      c.tell("step {} says to weld from {:.1f} to {:.1f} mm, but makes run {} from {:.1f} to {:.1f}",
             step.number, from, to, runs[i]->id, runs[i]->from_mm, runs[i]->to_mm);
  }
}

void check_words(const Checking& c) {
  for (const Step& step : c.plan.steps) {
    Runs runs;
    for (const std::string& id : step.runs)
      for (const PlannedRun& run : c.plan.runs)
        if (run.id == id) runs.push_back(&run);
    if (!runs.empty() && runs.size() == step.runs.size())
      check_words(c, step, runs); // else told with the steps
  }
}

} // namespace

void check_runs(const Checking& c) {
  for (const PlannedSeam& seam : c.plan.seams) {
    const std::size_t index = c.seam_index(seam.id);
    if (index < c.box.seams.size()) check_runs_of(c, seam, index);
  }
  for (const PlannedRun& run : c.plan.runs)
    if (c.seam_index(run.seam) == c.box.seams.size())
      c.tell("run {} lies on seam {}, which the job does not state", run.id, run.seam);
  check_sums(c);
  check_words(c);
}

void check_order(const Checking& c) {
  // A dab is a repair of an end, not the seam: it may come later.
  for (const Seam& seam : c.box.seams)
    for (const std::string& before : seam.after) {
      const PlannedRun* first = nullptr;
      for (const PlannedRun& run : c.plan.runs) {
        if (run.seam == seam.id && !first) first = &run;
        if (run.seam == before && !run.dab && first) {
          c.tell("run {} of seam {} comes after run {}, but seam {} is to be welded before seam {}", run.id,
                 before, first->id, before, seam.id);
          break;
        }
      }
    }
  if (c.plan.orders.empty() || c.plan.orders.front().key != "planned") {
    c.tell("the planned order is not the first of those compared");
    return;
  }
  std::vector<std::string> planned;
  for (const PlannedRun& run : c.plan.runs)
    planned.push_back(run.id);
  const OrderCompared& first = c.plan.orders.front();
  if (first.runs != planned) c.tell("the order compared as planned is not the order of the runs");
  std::optional<double> squarest;
  if (c.plan.order_proof) squarest = c.plan.order_proof->squarest;
  for (const OrderCompared& order : c.plan.orders)
    if (squarest && order.key == "whole") squarest = std::min(*squarest, order.square.value_or(*squarest));
  for (const OrderCompared& order : c.plan.orders) {
    if (!std::is_permutation(order.runs.begin(), order.runs.end(), planned.begin(), planned.end()))
      c.tell("order {} does not hold every run once", order.key);
    // Another may balance heat better only if the box comes out less square by it.
    const bool less_square =
        order.square && squarest && *order.square > *squarest + c.plan.order_proof->width;
    if (order.cost < first.cost && order.key != "own" && !less_square &&
        !(c.plan.order_proof && c.plan.order_proof->passed_over_finer))
      c.tell("order {} costs less than the planned one", order.key);
    if (order.square.has_value() != c.plan.order_proof.has_value() ||
        order.chance.has_value() != order.square.has_value())
      c.tell("order {} is weighed by squareness and the others are not, or the reverse", order.key);
    for (const double figure : {order.heat_moment, order.mean_moment, order.worst_warmth_K, order.turning_s})
      if (!std::isfinite(figure) || figure < 0.0) c.tell("order {} has a figure below zero", order.key);
    if (order.mean_moment > order.heat_moment * (1.0 + 1e-6))
      c.tell("order {}: the mean moment is above the largest", order.key);
  }
  const bool warm = std::any_of(c.plan.runs.begin(), c.plan.runs.end(), [&](const PlannedRun& run) {
    return run.warmth_K > first.worst_warmth_K * (1.0 + 1e-6) || run.warmth_K < 0.0;
  });
  if (warm) c.tell("a run starts warmer than the worst that the order owns up to");
}

} // namespace tacksquare::verify
