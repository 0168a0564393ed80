#include "planning/crew/line_up.h"

#include "base/diagnostic.h"
#include "base/random.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare {
namespace {

using Turns = std::vector<std::size_t>; // boxes, each as often as it has tasks
using Tenths = long long;               // of a second

constexpr Tenths kChange = 100; // of box, by one person: ten seconds worth avoiding
constexpr Tenths kNever = std::numeric_limits<Tenths>::max() / 4;
constexpr std::size_t kNobody = std::numeric_limits<std::size_t>::max();

Tenths tenths(double seconds) {
  return std::llround(seconds * 10.0);
}

// The line while it is walked through, turn by turn.
class Walk {
 public:
  explicit Walk(const std::vector<LineTask>& line) : line_(line) {
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i].box + 1 > first_.size()) first_.resize(line[i].box + 1, i);
      seconds_.push_back(tenths(line[i].task.seconds));
      begin_.push_back(edges_.size());
      for (const After& after : line[i].task.after)
        edges_.push_back({after.task, tenths(after.lag_s)});
    }
    begin_.push_back(edges_.size());
    first_.push_back(line.size());
    restart();
  }

  void restart() {
    next_.assign(first_.begin(), first_.end() - 1);
    end_.assign(line_.size(), kNever);
    free_[0] = free_[1] = 0;
    at_[0] = at_[1] = stays_ = kNobody;
    finish_ = changes_ = 0;
  }

  std::size_t boxes() const { return next_.size(); }
  bool done(std::size_t box) const { return next_[box] == first_[box + 1]; }
  bool begun(std::size_t box) const { return next_[box] > first_[box]; }
  std::size_t next(std::size_t box) const { return next_[box]; }
  Tenths seconds(std::size_t box) const { return seconds_[next_[box]]; }

  // When the box's next task would start; kNever while something must be done before.
  Tenths start(std::size_t box) const {
    const std::size_t task = next_[box];
    if (works(task, 0) && stays_ != kNobody && stays_ != box) return kNever;
    Tenths start = 0;
    for (const std::size_t person : {std::size_t{0}, std::size_t{1}})
      if (works(task, person)) start = std::max(start, free_[person]);
    for (std::size_t e = begin_[task]; e < begin_[task + 1]; ++e) {
      if (end_[edges_[e].task] == kNever) return kNever;
      start = std::max(start, end_[edges_[e].task] + edges_[e].lag);
    }
    return start;
  }

  void take(std::size_t box, Tenths start) {
    const std::size_t task = next_[box]++;
    end_[task] = start + seconds_[task];
    finish_ = std::max(finish_, end_[task]);
    for (const std::size_t person : {std::size_t{0}, std::size_t{1}}) {
      if (!works(task, person)) continue;
      free_[person] = end_[task];
      changes_ += at_[person] != box && at_[person] != kNobody ? 1 : 0;
      at_[person] = box;
    }
    if (works(task, 0)) stays_ = line_[task].welder_stays ? box : kNobody;
  }

  Tenths cost() const { return finish_ + changes_ * kChange; }

  // What a whole line of turns costs; kNever when it cannot be walked.
  Tenths cost_of(const Turns& turns) {
    restart();
    for (const std::size_t box : turns) {
      const Tenths at = start(box);
      if (at >= kNever) return kNever;
      take(box, at);
    }
    return cost();
  }

 private:
  struct Edge {
    std::size_t task = 0;
    Tenths lag = 0;
  };

  bool works(std::size_t task, std::size_t person) const {
    return line_[task].task.who == Person::both || (line_[task].task.who == Person::welder) == (person == 0);
  }

  const std::vector<LineTask>& line_;
  std::vector<std::size_t> first_; // task of each box, and one past the last
  std::vector<Tenths> seconds_;
  std::vector<std::size_t> begin_; // edges of a task
  std::vector<Edge> edges_;

  std::vector<std::size_t> next_;          // task, by box
  std::vector<Tenths> end_;                // by task
  Tenths free_[2] = {0, 0};                // welder, grinder
  std::size_t at_[2] = {kNobody, kNobody}; // box
  std::size_t stays_ = kNobody;            // box that the welder stays with
  Tenths finish_ = 0, changes_ = 0;
};

// The older box goes first; a younger one whose task ends before the older one can go on, or holds it up by
// no more than the patience, goes in between.
Turns by_rule(Walk& walk, std::size_t tasks, Tenths patience) {
  walk.restart();
  Turns turns;
  while (turns.size() < tasks) {
    std::size_t best = kNobody;
    Tenths best_start = 0;
    for (std::size_t box = 0; box < walk.boxes(); ++box) {
      if (walk.done(box)) continue;
      const Tenths start = walk.start(box);
      if (start < kNever && (best == kNobody || start + walk.seconds(box) <= best_start + patience)) {
        best = box;
        best_start = start;
      }
      if (!walk.begun(box)) break; // boxes beyond have not been begun either
    }
    if (best == kNobody) throw InternalError("line up: the tasks wait for each other");
    walk.take(best, best_start);
    turns.push_back(best);
  }
  return turns;
}

// Takes up to four turns out and puts them in again not far away.
void move_at_random(Turns& turns, Random& random) {
  constexpr std::size_t kReach = 30;
  const std::size_t most = std::min<std::size_t>(4, turns.size() - 1);
  const std::size_t length = 1 + static_cast<std::size_t>(random.below(most));
  const std::size_t last = turns.size() - length;
  const std::size_t from = static_cast<std::size_t>(random.below(last + 1));
  const std::size_t low = from > kReach ? from - kReach : 0, high = std::min(last, from + kReach);
  const std::size_t to = low + static_cast<std::size_t>(random.below(high - low + 1));
  const auto at = [&](std::size_t place) { return turns.begin() + static_cast<std::ptrdiff_t>(place); };
  if (to < from)
    std::rotate(at(to), at(from), at(from + length));
  else
    std::rotate(at(from), at(from + length), at(to + length));
}

// Threshold accepting (Dueck and Scheuer 1990): a little worse is taken too, ever less.
Turns improved(Walk& walk, Turns turns, std::uint64_t seed, int trials) {
  constexpr Tenths kFirstThreshold = 300;
  Random random(seed);
  Tenths cost = walk.cost_of(turns), best_cost = cost;
  Turns best = turns, tried;
  for (int trial = 0; trial < trials; ++trial) {
    const Tenths threshold = kFirstThreshold * (trials - trial) / trials;
    tried = turns;
    move_at_random(tried, random);
    const Tenths tried_cost = walk.cost_of(tried);
    if (tried_cost > cost + threshold) continue;
    cost = tried_cost;
    turns.swap(tried);
    if (cost >= best_cost) continue;
    best_cost = cost;
    best = turns;
  }
  return best;
}

} // namespace

LinedUp line_up(const std::vector<LineTask>& line, std::uint64_t seed, int trials) {
  std::vector<Task> tasks;
  for (const LineTask& task : line)
    tasks.push_back(task.task);
  Walk walk(line);
  Turns best;
  for (const Tenths patience : {0, 600, 1200, 2400, 4800, 9600}) {
    Turns turns = by_rule(walk, line.size(), patience);
    if (best.empty() || walk.cost_of(turns) < walk.cost_of(best)) best = std::move(turns);
  }
  if (walk.boxes() > 1) best = improved(walk, std::move(best), seed, trials);

  LinedUp found;
  walk.restart();
  for (const std::size_t box : best) {
    found.order.push_back(walk.next(box));
    walk.take(box, walk.start(box));
  }
  found.schedule = schedule(tasks, found.order);
  return found;
}

} // namespace tacksquare
