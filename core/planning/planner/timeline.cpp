#include "planning/planner/timeline.h"

#include "planning/crew/schedule.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace tacksquare {
namespace {

Person person(Who who) {
  switch (who) {
  case Who::welder:
    return Person::welder;
  case Who::grinder:
  case Who::foreman: // the grinder shows the box to the foreman
    return Person::grinder;
  case Who::both:
    return Person::both;
  }
  throw InternalError("unknown person");
}

// Settings are proven, and the table is set up, once for all boxes of a kind.
bool first_off_only(const Step& step) {
  return step.phase == Phase::coupon || step.what.key == "step.table";
}

// What the next step of a box waits for. A step that goes on beside the one before it waits for what that one
// waited for; the step after both waits for both.
struct Waiting {
  std::vector<std::size_t> before, last; // tasks
  std::optional<std::size_t> last_arc;
};

// Boxes 1 to n by two people. The older box goes first; a younger one fills what would be waiting, where its
// step ends before the older box can go on: the table has room for the next box while one cools. The first
// box is signed before others are welded: its sizes decide.
class Batch {
 public:
  Batch(const BoxCase& box, const std::vector<Step>& steps, int n, double patience_s)
      : steps_(steps), cooling_(cooling_times(box)), patience_s_(patience_s) {
    boxes_.resize(static_cast<std::size_t>(n));
    for (std::size_t left = count_steps(); left > 0; --left)
      take(choose());
    result_ = schedule(tasks_);
  }

  double finish_s() const { return result_.finish_s; }
  double waited_s() const {
    double sum_s = 0.0;
    for (const Slot& slot : result_.slots)
      sum_s += slot.waited_s;
    return sum_s;
  }
  // Slots of the first box, by step.
  const Slot& slot_of_first_box(std::size_t step) const {
    return result_.slots[boxes_.front().task_of_step.at(step)];
  }

 private:
  struct BoxState {
    std::size_t next = 0; // step
    Waiting waiting;
    std::map<std::size_t, std::size_t> task_of_step;
  };
  struct Choice {
    std::size_t box = 0;
    double start_s = 0.0, end_s = 0.0;
  };

  bool wanted(std::size_t box, std::size_t step) const { return box == 0 || !first_off_only(steps_[step]); }
  std::size_t count_steps() const {
    std::size_t sum = 0;
    for (std::size_t box = 0; box < boxes_.size(); ++box)
      for (std::size_t step = 0; step < steps_.size(); ++step)
        sum += wanted(box, step) ? 1 : 0;
    return sum;
  }
  void skip_unwanted(std::size_t box) {
    while (boxes_[box].next < steps_.size() && !wanted(box, boxes_[box].next))
      ++boxes_[box].next;
  }

  std::vector<After> waits_for(std::size_t box, const Step& step) const {
    const Waiting& waiting = boxes_[box].waiting;
    std::vector<After> after;
    for (const std::size_t task : step.alongside ? waiting.before : waiting.last)
      after.push_back({task, 0.0, {}});
    if (waiting.last_arc && step.phase == Phase::release)
      after.push_back({*waiting.last_arc, cooling_.touch_s.value, "touch"});
    if (waiting.last_arc && step.phase == Phase::check && step.until.key == "until.measure")
      after.push_back({*waiting.last_arc, cooling_.measure_s.value, "final-measure"});
    if (box > 0 && step.phase == Phase::weld) after.push_back({*first_signed_, 0.0, {}});
    return after;
  }

  // Whether anything but time stands in the way.
  bool can_start(std::size_t box, const Step& step) const {
    return box == 0 || step.phase != Phase::weld || first_signed_.has_value();
  }

  double earliest_s(std::size_t box, const Step& step) const {
    double start_s = 0.0;
    for (const After& after : waits_for(box, step))
      start_s = std::max(start_s, end_s_[after.task] + after.lag_s);
    if (step.who != Who::grinder && step.who != Who::foreman) start_s = std::max(start_s, welder_free_s_);
    if (step.who != Who::welder) start_s = std::max(start_s, grinder_free_s_);
    return start_s;
  }

  Choice choose() {
    std::optional<Choice> best;
    for (std::size_t box = 0; box < boxes_.size(); ++box) {
      skip_unwanted(box);
      if (boxes_[box].next >= steps_.size()) continue;
      const Step& step = steps_[boxes_[box].next];
      if (!can_start(box, step)) continue;
      const double start_s = earliest_s(box, step), end_s = start_s + step.seconds;
      if (!best || end_s <= best->start_s + patience_s_) best = Choice{box, start_s, end_s};
      if (boxes_[box].next == 0) break; // boxes beyond have not been begun either
    }
    if (!best) throw InternalError("the pair's schedule stands still");
    return *best;
  }

  void take(const Choice& choice) {
    BoxState& state = boxes_[choice.box];
    const Step& step = steps_[state.next];
    const std::size_t task = tasks_.size();
    tasks_.push_back({person(step.who), step.seconds, waits_for(choice.box, step)});
    end_s_.push_back(choice.end_s);
    if (step.who != Who::grinder && step.who != Who::foreman) welder_free_s_ = end_s_.back();
    if (step.who != Who::welder) grinder_free_s_ = end_s_.back();

    if (step.alongside)
      state.waiting.last.push_back(task);
    else
      state.waiting.before = std::exchange(state.waiting.last, {task});
    if (step.phase == Phase::weld && step.arc_s > 0.0) state.waiting.last_arc = task;
    state.task_of_step[state.next] = task;
    if (choice.box == 0 && step.hold == 3) first_signed_ = task;
    ++state.next;
  }

  const std::vector<Step>& steps_;
  CoolingTimes cooling_;
  double patience_s_; // how long a younger box may hold up an older one
  std::vector<BoxState> boxes_;
  std::vector<Task> tasks_;
  std::vector<double> end_s_; // as tasks
  double welder_free_s_ = 0.0, grinder_free_s_ = 0.0;
  std::optional<std::size_t> first_signed_;
  Schedule result_;
};

std::string early_steps(const std::vector<Step>& steps) {
  int first = 0, last = 0;
  for (const Step& step : steps) {
    if (step.phase > Phase::knock_down || first_off_only(step)) continue;
    if (first == 0) first = step.number;
    last = step.number;
  }
  return fmt::format("{}-{}", first, last);
}

// The other box's work that fills what would be waiting, on the steps where it starts.
void set_meanwhile(const BoxCase& box, std::vector<Step>& steps) {
  const bool batch = box.box.count > 1;
  bool welding_seen = false;
  for (Step& step : steps) {
    if (step.phase == Phase::weld && step.who == Who::welder && !welding_seen) {
      welding_seen = true;
      step.meanwhile = simple(batch ? "meanwhile.next-parts" : "meanwhile.grinder-ready");
    }
    if (step.phase == Phase::cool)
      step.meanwhile =
          batch ? Text{"meanwhile.next-box", {word("steps", early_steps(steps))}} : simple("meanwhile.tidy");
  }
}

// The quickest of a few rules of thumb for when a younger box may hold up an older one.
Batch quickest(const BoxCase& box, const std::vector<Step>& steps, int n) {
  std::optional<Batch> best;
  for (const double patience_s : {0.0, 60.0, 120.0, 240.0, 480.0, 960.0}) {
    Batch batch(box, steps, n, patience_s);
    if (!best || batch.finish_s() < best->finish_s()) best.emplace(std::move(batch));
    if (n == 1) break;
  }
  return std::move(*best);
}

} // namespace

Timeline make_timeline(const BoxCase& box, std::vector<Step>& steps) {
  set_meanwhile(box, steps);
  Timeline line;
  for (const Step& step : steps) {
    line.arc_s += step.arc_s;
    if (step.phase == Phase::grind) line.grind_s += step.seconds;
  }
  line.first_off_s = quickest(box, steps, 1).finish_s();

  // The swing of a batch: what each further box adds once the first is signed.
  constexpr int kFew = 2, kMany = 6;
  line.repeat_s =
      (quickest(box, steps, kMany).finish_s() - quickest(box, steps, kFew).finish_s()) / (kMany - kFew);

  const int shown = std::min(box.box.count, kMany);
  const Batch batch = quickest(box, steps, shown);
  line.batch_s = batch.finish_s() + line.repeat_s * (box.box.count - shown);
  line.waited_s = batch.waited_s();
  for (std::size_t i = 0; i < steps.size(); ++i) {
    steps[i].start_s = batch.slot_of_first_box(i).start_s;
    steps[i].end_s = batch.slot_of_first_box(i).end_s;
  }
  return line;
}

} // namespace tacksquare
