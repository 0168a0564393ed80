#include "planning/planner/timeline.h"

#include "formulas/band_math.h"
#include "planning/crew/line_up.h"
#include "tables/practice.h"

#include <fmt/format.h>

#include <algorithm>
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
  return step.phase == Phase::coupon || step.what.key.starts_with("step.table");
}

// How long things take: the pair's hand, the arc, and how the box cools.
struct Clock {
  double hand = 1.0, arc = 1.0; // in parts of what the steps say
  double touch_s = 0.0, measure_s = 0.0;
  double start = 1.0; // in parts of what the steps say that faces need to cool below the start limit
};

// What the next step of a box waits for. A step that goes on beside the one before it waits for what that one
// waited for; the step after both waits for both.
struct Waiting {
  std::vector<std::size_t> before, last; // tasks
  std::optional<std::size_t> last_arc;
};

bool waits_for_cold(const Step& step) {
  return step.phase == Phase::check && step.until.key == "until.measure";
}

double start_wait_s(const Step& step) {
  for (const Arg& arg : step.until.args)
    if (arg.name == "time") return arg.number;
  return 0.0;
}

// Runs, and what stands between them: the welder does not leave a box half welded.
bool welding_goes_on(const std::vector<Step>& steps, std::size_t i) {
  return steps[i].phase == Phase::weld && i + 1 < steps.size() && steps[i + 1].phase == Phase::weld;
}

// Boxes 1 to n by two people, box by box. The first box is signed before others are welded: its sizes decide.
class LineWriter {
 public:
  LineWriter(const std::vector<Step>& steps, const Clock& clock) : steps_(steps), clock_(clock) {}

  std::vector<LineTask> write(int n) {
    for (int box = 0; box < n; ++box)
      add_box(static_cast<std::size_t>(box));
    return std::move(line_);
  }

 private:
  void add_box(std::size_t box) {
    Waiting waiting;
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const Step& step = steps_[i];
      if (box > 0 && first_off_only(step)) continue;
      const std::size_t task = line_.size();
      const double seconds = clock_.hand * (step.seconds - step.arc_s) + clock_.arc * step.arc_s;
      line_.push_back(
          {{person(step.who), seconds, needs(box, step, waiting)}, box, welding_goes_on(steps_, i)});
      if (step.alongside)
        waiting.last.push_back(task);
      else
        waiting.before = std::exchange(waiting.last, {task});
      if (step.phase == Phase::weld && step.arc_s > 0.0) waiting.last_arc = task;
      if (box == 0 && step.hold == 3) first_signed_ = task;
    }
  }

  std::vector<After> needs(std::size_t box, const Step& step, const Waiting& waiting) const {
    std::vector<After> after;
    for (const std::size_t task : step.alongside ? waiting.before : waiting.last)
      after.push_back({task, 0.0, {}});
    if (waiting.last_arc && step.until.key == "until.start")
      after.push_back({*waiting.last_arc, clock_.start * start_wait_s(step), "start-limit"});
    if (waiting.last_arc && step.phase == Phase::release)
      after.push_back({*waiting.last_arc, clock_.touch_s, "touch"});
    if (waiting.last_arc && waits_for_cold(step))
      after.push_back({*waiting.last_arc, clock_.measure_s, "final-measure"});
    if (box > 0 && step.phase == Phase::weld) after.push_back({first_signed_, 0.0, {}});
    return after;
  }

  const std::vector<Step>& steps_;
  const Clock& clock_;
  std::vector<LineTask> line_;
  std::size_t first_signed_ = 0; // task
};

// Until all of a number of boxes are signed, as a 90 % interval: the turns are those of the median, the hand
// and the cooling vary on their own.
class Batch {
 public:
  Batch(const BoxCase& box, const std::vector<Step>& steps, int n)
      : steps_(steps), n_(n), cooling_(cooling_times(box)), arc_(arc_seconds(box)) {
    constexpr int kTrials = 4000;
    constexpr std::uint64_t kSeed = 20270331;
    found_ = line_up(LineWriter(steps, median()).write(n), kSeed, kTrials);
  }

  Band finish_s() const {
    const double value = found_.schedule.finish_s;
    Clock quick = median(), slow = median(), soon = median(), late = median();
    quick.hand = pair_pace().quick;
    slow.hand = pair_pace().slow;
    if (arc_.value > 0.0) {
      quick.arc = arc_.low / arc_.value;
      slow.arc = arc_.high / arc_.value;
    }
    soon.touch_s = cooling_.touch_s.low;
    soon.measure_s = cooling_.measure_s.low;
    soon.start = formulas::kStillAirFilm.value / formulas::kStillAirFilm.high;
    late.touch_s = cooling_.touch_s.high;
    late.measure_s = cooling_.measure_s.high;
    late.start = formulas::kStillAirFilm.value / formulas::kStillAirFilm.low;
    return formulas::sum_independent(
        {{value, finish_s(quick), finish_s(slow)}, {0.0, finish_s(soon) - value, finish_s(late) - value}});
  }
  // Of the first box.
  const Slot& slot(std::size_t step) const { return found_.schedule.slots.at(step); }

 private:
  Clock median() const { return {1.0, 1.0, cooling_.touch_s.value, cooling_.measure_s.value, 1.0}; }
  double finish_s(const Clock& clock) const {
    std::vector<Task> tasks;
    for (LineTask& task : LineWriter(steps_, clock).write(n_))
      tasks.push_back(std::move(task.task));
    return schedule(tasks, found_.order).finish_s;
  }

  const std::vector<Step>& steps_;
  int n_;
  CoolingTimes cooling_;
  Band arc_;
  LinedUp found_;
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

// What one box asks of the one who has more to do, when it is not the first.
Band busier_of_the_two(const std::vector<Step>& steps) {
  double welder_s = 0.0, grinder_s = 0.0;
  for (const Step& step : steps) {
    if (first_off_only(step)) continue;
    const Person who = person(step.who);
    if (who != Person::grinder) welder_s += step.seconds;
    if (who != Person::welder) grinder_s += step.seconds;
  }
  const double busy_s = std::max(welder_s, grinder_s);
  return {busy_s, pair_pace().quick * busy_s, pair_pace().slow * busy_s};
}

// A box that follows others, once the pair is in the swing of it; on its own, all that is not for the first
// one only.
Band repeat_time(const BoxCase& box, const std::vector<Step>& steps) {
  if (box.box.count == 1) {
    std::vector<Step> again;
    for (const Step& step : steps)
      if (!first_off_only(step)) again.push_back(step);
    return Batch(box, again, 1).finish_s();
  }
  constexpr int kFew = 2, kMany = 5;
  const Band few = Batch(box, steps, kFew).finish_s(), many = Batch(box, steps, kMany).finish_s();
  constexpr double kBoxes = kMany - kFew;
  Band swing{(many.value - few.value) / kBoxes, (many.low - few.low) / kBoxes,
             (many.high - few.high) / kBoxes};
  swing.low = std::min(swing.low, swing.value); // turns that fit the median may not fit a quick pair
  swing.high = std::max(swing.high, swing.value);
  return formulas::larger(swing, busier_of_the_two(steps)); // no rhythm is quicker
}

} // namespace

Timeline make_timeline(const BoxCase& box, std::vector<Step>& steps) {
  set_meanwhile(box, steps);
  Timeline line;
  line.arc_s = arc_seconds(box);
  double grind_s = 0.0;
  for (const Step& step : steps)
    if (step.phase == Phase::grind) grind_s += step.seconds;
  line.grind_s = {grind_s, pair_pace().quick * grind_s, pair_pace().slow * grind_s};
  const Batch first(box, steps, 1);
  line.first_off_s = first.finish_s();
  line.repeat_s = repeat_time(box, steps);

  constexpr int kShown = 5; // boxes whose turns are looked for; more repeat them
  const int shown = std::min(box.box.count, kShown);
  line.batch_s =
      formulas::sum_same_cause({shown == 1 ? line.first_off_s : Batch(box, steps, shown).finish_s(),
                                formulas::scaled(line.repeat_s, box.box.count - shown)});
  for (std::size_t i = 0; i < steps.size(); ++i) {
    steps[i].start_s = first.slot(i).start_s;
    steps[i].end_s = first.slot(i).end_s;
  }
  return line;
}

} // namespace tacksquare
