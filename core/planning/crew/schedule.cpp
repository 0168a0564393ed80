#include "planning/crew/schedule.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace tacksquare {
namespace {

bool works(Person who, Person lane) {
  return who == lane || who == Person::both;
}

void check(const std::vector<Task>& tasks, const std::vector<std::size_t>& order) {
  const auto is_time = [](double seconds) { return seconds >= 0.0 && std::isfinite(seconds); };
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    if (!is_time(tasks[i].seconds)) throw InternalError("schedule: a time that is negative or not finite");
    for (const After& earlier : tasks[i].after) {
      if (earlier.task >= i) throw InternalError("schedule: a task after a later one");
      if (!is_time(earlier.lag_s)) throw InternalError("schedule: a lag that is negative or not finite");
    }
  }
  std::vector<char> taken(tasks.size(), 0);
  for (const std::size_t index : order) {
    if (index >= tasks.size() || taken[index])
      throw InternalError("schedule: an order that names no task, or one twice");
    for (const After& earlier : tasks[index].after)
      if (!taken[earlier.task]) throw InternalError("schedule: a task before one that it waits for");
    taken[index] = 1;
  }
  if (order.size() != tasks.size()) throw InternalError("schedule: an order that leaves a task out");
}

double bound(const std::vector<Task>& tasks) {
  std::vector<double> head(tasks.size(), 0.0), tail(tasks.size(), 0.0); // what must come before and after
  for (std::size_t i = 0; i < tasks.size(); ++i)
    for (const After& earlier : tasks[i].after)
      head[i] = std::max(head[i], head[earlier.task] + tasks[earlier.task].seconds + earlier.lag_s);
  double least = 0.0;
  for (std::size_t i = tasks.size(); i-- > 0;) {
    least = std::max(least, head[i] + tasks[i].seconds + tail[i]);
    for (const After& earlier : tasks[i].after)
      tail[earlier.task] = std::max(tail[earlier.task], earlier.lag_s + tasks[i].seconds + tail[i]);
  }
  for (const Person lane : {Person::welder, Person::grinder}) {
    double busy = 0.0, least_head = std::numeric_limits<double>::infinity(), least_tail = least_head;
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      if (!works(tasks[i].who, lane)) continue;
      busy += tasks[i].seconds;
      least_head = std::min(least_head, head[i]);
      least_tail = std::min(least_tail, tail[i]);
    }
    if (std::isfinite(least_head)) least = std::max(least, least_head + busy + least_tail);
  }
  return least;
}

} // namespace

Schedule schedule(const std::vector<Task>& tasks) {
  std::vector<std::size_t> order(tasks.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  return schedule(tasks, order);
}

Schedule schedule(const std::vector<Task>& tasks, const std::vector<std::size_t>& order) {
  check(tasks, order);
  Schedule result;
  result.no_sooner_than_s = bound(tasks);
  result.slots.resize(tasks.size());
  double welder_free = 0.0, grinder_free = 0.0;
  for (const std::size_t index : order) {
    const Task& task = tasks[index];
    const bool welder = works(task.who, Person::welder), grinder = works(task.who, Person::grinder);
    double ready = std::max(welder ? welder_free : 0.0, grinder ? grinder_free : 0.0);
    for (const After& earlier : task.after)
      ready = std::max(ready, result.slots[earlier.task].end_s);
    Slot& slot = result.slots[index];
    slot.start_s = ready;
    for (const After& earlier : task.after) {
      const double cooled = result.slots[earlier.task].end_s + earlier.lag_s;
      if (cooled <= slot.start_s) continue;
      slot.start_s = cooled;
      slot.wait_cause = earlier.cause;
    }
    slot.waited_s = slot.start_s - ready;
    slot.end_s = slot.start_s + task.seconds;
    if (welder) {
      welder_free = slot.end_s;
      result.welder_busy_s += task.seconds;
    }
    if (grinder) {
      grinder_free = slot.end_s;
      result.grinder_busy_s += task.seconds;
    }
    result.finish_s = std::max(result.finish_s, slot.end_s);
  }
  return result;
}

} // namespace tacksquare
