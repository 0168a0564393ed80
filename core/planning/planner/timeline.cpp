#include "planning/planner/timeline.h"

#include "planning/crew/schedule.h"

#include <algorithm>
#include <map>
#include <optional>

namespace tacksquare {
namespace {

// Stretches of a box that move as one: what may overlap with another box does so by whole stretches.
enum class Stretch { early, weld, read, grind, late };

Stretch stretch_of(const Step& step) {
  switch (step.phase) {
  case Phase::weld:
  case Phase::cool:
    return Stretch::weld;
  case Phase::release:
  case Phase::check:
    return Stretch::read;
  case Phase::grind:
    return Stretch::grind;
  case Phase::final_check:
  case Phase::sign:
    return Stretch::late;
  default:
    return Stretch::early;
  }
}

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

// Settings are proven once, on the first box of a kind.
bool first_off_only(const Step& step) {
  return step.phase == Phase::coupon;
}

// Which task of the schedule a step of the first box became.
struct StepTask {
  std::size_t step = 0, task = 0;
};

struct BoxStretch {
  int number = 1;
  Stretch stretch = Stretch::early;
};

class Batch {
 public:
  Batch(const BoxCase& box, const std::vector<Step>& steps) : steps_(steps), cooling_(cooling_times(box)) {}

  // Next in the list; stretches given together run side by side.
  void add(const std::vector<BoxStretch>& together) {
    std::vector<std::vector<Item>> lists;
    for (const BoxStretch& one : together)
      lists.push_back(collect(one));
    merge(lists);
  }

  Schedule run() const { return schedule(tasks_); }
  const std::vector<StepTask>& first_box() const { return first_box_; }

 private:
  struct Item {
    int number;
    std::size_t step;
  };

  std::vector<Item> collect(const BoxStretch& one) const {
    std::vector<Item> items;
    for (std::size_t i = 0; i < steps_.size(); ++i)
      if (stretch_of(steps_[i]) == one.stretch && (one.number == 1 || !first_off_only(steps_[i])))
        items.push_back({one.number, i});
    return items;
  }

  // Interleaves by elapsed time, so that neither list's people stand waiting for the other's turn in the
  // list.
  void merge(const std::vector<std::vector<Item>>& lists) {
    std::vector<std::size_t> next(lists.size(), 0);
    std::vector<double> elapsed_s(lists.size(), 0.0);
    for (;;) {
      std::size_t pick = lists.size();
      for (std::size_t i = 0; i < lists.size(); ++i)
        if (next[i] < lists[i].size() && (pick == lists.size() || elapsed_s[i] < elapsed_s[pick])) pick = i;
      if (pick == lists.size()) return;
      const Item& item = lists[pick][next[pick]++];
      elapsed_s[pick] += steps_[item.step].seconds;
      push(item);
    }
  }

  void push(const Item& item) {
    const Step& step = steps_[item.step];
    BoxState& state = boxes_[item.number];
    Task task;
    task.who = person(step.who);
    task.seconds = step.seconds;
    if (state.last) task.after.push_back({*state.last, 0.0, {}});
    if (state.last_arc && step.phase == Phase::release)
      task.after.push_back({*state.last_arc, cooling_.touch_s.value, "touch"});
    if (state.last_arc && step.phase == Phase::check)
      task.after.push_back({*state.last_arc, cooling_.measure_s.value, "final-measure"});
    state.last = tasks_.size();
    if (step.phase == Phase::weld && step.arc_s > 0.0) state.last_arc = tasks_.size();
    if (item.number == 1) first_box_.push_back({item.step, tasks_.size()});
    tasks_.push_back(std::move(task));
  }

  // What the next task of a box waits for.
  struct BoxState {
    std::optional<std::size_t> last, last_arc;
  };

  const std::vector<Step>& steps_;
  CoolingTimes cooling_;
  std::vector<Task> tasks_;
  std::vector<StepTask> first_box_;
  std::map<int, BoxState> boxes_;
};

// Boxes 1 to n. The first is measured and released before the others are welded; from then on the next box is
// tacked while one cools, and welded while the one before is ground.
Schedule schedule_batch(const BoxCase& box, const std::vector<Step>& steps, int n,
                        std::vector<StepTask>* first_box) {
  Batch batch(box, steps);
  batch.add({{1, Stretch::early}});
  batch.add({{1, Stretch::weld}});
  for (int i = 1; i <= n; ++i) {
    const bool more = i < n;
    if (more) batch.add({{i + 1, Stretch::early}});
    batch.add({{i, Stretch::read}});
    if (more && i > 1)
      batch.add({{i, Stretch::grind}, {i + 1, Stretch::weld}});
    else
      batch.add({{i, Stretch::grind}});
    batch.add({{i, Stretch::late}});
    if (more && i == 1) batch.add({{i + 1, Stretch::weld}});
  }
  if (first_box) *first_box = batch.first_box();
  return batch.run();
}

std::string step_range(const std::vector<Step>& steps, Stretch stretch) {
  int first = 0, last = 0;
  for (const Step& step : steps) {
    if (stretch_of(step) != stretch || first_off_only(step)) continue;
    if (first == 0) first = step.number;
    last = step.number;
  }
  return first == last ? std::to_string(first) : std::to_string(first) + "-" + std::to_string(last);
}

// The other box's work that fills what would be waiting, on the steps where it starts.
void set_meanwhile(const BoxCase& box, std::vector<Step>& steps) {
  const bool batch = box.box.count > 1;
  bool welding_seen = false;
  for (Step& step : steps) {
    if (step.phase == Phase::weld && step.who == Who::welder && !welding_seen) {
      welding_seen = true;
      step.meanwhile = batch ? Text{"meanwhile.next-parts", {}} : Text{"meanwhile.grinder-ready", {}};
    }
    if (step.phase == Phase::cool)
      step.meanwhile = batch ? Text{"meanwhile.next-box", {word("steps", step_range(steps, Stretch::early))}}
                             : Text{"meanwhile.tidy", {}};
  }
}

} // namespace

Timeline make_timeline(const BoxCase& box, std::vector<Step>& steps) {
  set_meanwhile(box, steps);
  Timeline line;
  for (const Step& step : steps) {
    line.arc_s += step.arc_s;
    if (step.phase == Phase::grind) line.grind_s += step.seconds;
  }
  line.first_off_s = schedule_batch(box, steps, 1, nullptr).finish_s;

  // The swing of a long batch shows in the difference of two batches that differ by one box.
  constexpr int kSwing = 6;
  line.repeat_s = schedule_batch(box, steps, kSwing, nullptr).finish_s -
                  schedule_batch(box, steps, kSwing - 1, nullptr).finish_s;

  std::vector<StepTask> first_box;
  const int shown = std::min(box.box.count, kSwing);
  const Schedule batch = schedule_batch(box, steps, shown, &first_box);
  line.batch_s = batch.finish_s + line.repeat_s * (box.box.count - shown);
  for (const StepTask& pair : first_box) {
    steps[pair.step].start_s = batch.slots[pair.task].start_s;
    steps[pair.step].end_s = batch.slots[pair.task].end_s;
  }
  for (const Slot& slot : batch.slots)
    line.waited_s += slot.waited_s;
  return line;
}

} // namespace tacksquare
