// The pair by the clock: nobody in two places at once, times that add up, waits with a cause.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr double kSame_s = 1e-3; // numbers of a plan are settled to nine digits

// The grinder shows the box to the foreman.
bool takes_part(Who person, Who who) {
  return who == person || who == Who::both || (who == Who::foreman && person == Who::grinder);
}

void check_lane(const Checking& c, Who person, const char* name) {
  std::vector<const Step*> own;
  for (const Step& step : c.plan.steps)
    if (takes_part(person, step.who) && step.end_s > step.start_s) own.push_back(&step);
  std::stable_sort(own.begin(), own.end(),
                   [](const Step* a, const Step* b) { return a->start_s < b->start_s; });
  for (std::size_t i = 0; i + 1 < own.size(); ++i)
    if (own[i + 1]->start_s < own[i]->end_s - kSame_s)
      c.tell("the {} is in step {} and step {} at the same time", name, own[i]->number, own[i + 1]->number);
}

void check_step_times(const Checking& c) {
  const Step* before = nullptr;
  for (const Step& step : c.plan.steps) {
    if (step.alongside && (!before || before->who == Who::both || step.who == Who::both ||
                           takes_part(Who::welder, before->who) == takes_part(Who::welder, step.who)))
      c.tell("step {} goes on beside the step before it, but not by the other one", step.number);
    before = &step;
    for (const double time : {step.seconds, step.arc_s, step.start_s, step.end_s})
      if (!std::isfinite(time) || time < 0.0) c.tell("step {} has a time below zero", step.number);
    if (std::abs(step.end_s - step.start_s - step.seconds) > kSame_s * std::max(1.0, step.end_s))
      c.tell("step {} takes {:.0f} s, but lies from {:.0f} to {:.0f} s", step.number, step.seconds,
             step.start_s, step.end_s);
    if (step.seconds < step.arc_s - kSame_s)
      c.tell("step {} takes {:.0f} s, less than its {:.0f} s of arc", step.number, step.seconds, step.arc_s);
  }
}

// What one box asks of the busier of the two. Coupons are welded, and the table is set up, for the first box
// only.
double busiest_s(const Checking& c, bool with_coupon) {
  double most = 0.0;
  for (const Who person : {Who::welder, Who::grinder}) {
    double busy = 0.0;
    for (const Step& step : c.plan.steps)
      if (takes_part(person, step.who) &&
          (with_coupon || (step.phase != Phase::coupon && !step.what.key.starts_with("step.table"))))
        busy += step.seconds;
    most = std::max(most, busy);
  }
  return most;
}

void check_box_times(const Checking& c) {
  const BoxPlan& plan = c.plan;
  double last_s = 0.0, grind_s = 0.0;
  for (const Step& step : plan.steps) {
    last_s = std::max(last_s, step.end_s);
    if (step.phase == Phase::grind) grind_s += step.seconds;
  }
  for (const Band* band : {&plan.first_off_s, &plan.repeat_s, &plan.batch_s, &plan.arc_s, &plan.grind_s,
                           &plan.wire_g, &plan.gas_l})
    if (!in_order(*band)) {
      c.tell("a time, or what is used up, has a band that is not in order");
      break;
    }
  if (std::abs(grind_s - plan.grind_s.value) > kSame_s * std::max(1.0, grind_s))
    c.tell("the grinding steps take {:.0f} s, the box says {:.0f}", grind_s, plan.grind_s.value);
  const double again_s = busiest_s(c, false), first_s = busiest_s(c, true);
  if (plan.first_off_s.value < first_s - 1.0)
    c.tell("the first box takes {:.0f} s, but one of the pair is busy for {:.0f}", plan.first_off_s.value,
           first_s);
  if (plan.repeat_s.value < again_s - 1.0)
    c.tell("a further box takes {:.0f} s, but one of the pair is busy for {:.0f}", plan.repeat_s.value,
           again_s);
  if (plan.repeat_s.value > plan.first_off_s.value + 1.0)
    c.tell("a further box takes longer than the first one");
  if (plan.batch_s.value < first_s + again_s * (plan.count - 1) - 1.0 || plan.batch_s.value < last_s - 1.0)
    c.tell("{:.0f} s for all boxes are less than their steps take", plan.batch_s.value);
  if (plan.count == 1 && std::abs(plan.batch_s.value - plan.first_off_s.value) > 1.0)
    c.tell("one box is planned, yet all boxes take other time than the first");
  const auto takt = c.job.crew.takt;
  if (plan.takt_s.has_value() != takt.has_value() || (takt && std::abs(*plan.takt_s - in_s(*takt)) > kSame_s))
    c.tell("the time that the pair has for a box is not the stated one");
}

// Seconds after the last arc that a wait names at least, else zero.
double least_wait_s(const Text& until) {
  const Arg* low = argument(until, "low");
  return low && low->kind == ArgKind::time_s ? low->number : 0.0;
}

} // namespace

void check_people(const Checking& c) {
  check_step_times(c);
  check_lane(c, Who::welder, "welder");
  check_lane(c, Who::grinder, "grinder");
  check_box_times(c);
}

void check_waits(const Checking& c) {
  const std::vector<Step>& steps = c.plan.steps;
  // A pause is told where it begins (let cool) or where it ends (not before). In a batch the pair may be at
  // another box, of which this plan says nothing.
  double ended_s = 0.0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const bool told = !steps[i].until.empty() || (i > 0 && !steps[i - 1].until.empty());
    if (c.plan.count == 1 && !told && steps[i].start_s > ended_s + 1.0)
      c.tell("step {} waits {:.0f} s, and nothing says until when", steps[i].number,
             steps[i].start_s - ended_s);
    ended_s = std::max(ended_s, steps[i].end_s);
  }

  const std::size_t last_arc = c.last_step([](const Step& s) { return !s.runs.empty(); });
  const std::size_t cool = c.last_step([](const Step& s) { return s.phase == Phase::cool; });
  if (!c.has(last_arc)) return;
  if (!c.has(cool) || cool < last_arc || steps[cool].until.empty()) {
    c.tell("no step lets the box cool after the last weld and says until when");
    return;
  }
  const double least_s = least_wait_s(steps[cool].until);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const Step& step = steps[i];
    if (step.phase != Phase::release && step.phase != Phase::grind) continue;
    const char* what = step.phase == Phase::grind ? "grinds" : "lets go of";
    if (i < cool)
      c.tell("step {} {} the box before it has cooled", step.number, what);
    else if (step.start_s < steps[last_arc].end_s + least_s - 1.0)
      c.tell("step {} {} the box {:.0f} s after the last arc, cooling takes at least {:.0f}", step.number,
             what, step.start_s - steps[last_arc].end_s, least_s);
  }
  const bool flush = std::any_of(c.box.seams.begin(), c.box.seams.end(),
                                 [](const Seam& seam) { return seam.finish == Finish::flush; });
  const bool ground = c.has(c.first_step([](const Step& s) { return s.phase == Phase::grind; }));
  if (flush && !ground) c.tell("seams are to be flush, but no step grinds");
}

} // namespace tacksquare::verify
