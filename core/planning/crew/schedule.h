// Two people, given tasks: who does what when. A list rule on fixed times; waits only with a cause.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tacksquare {

enum class Person { welder, grinder, both };

// A task that must have ended, and how long ago at least.
struct After {
  std::size_t task = 0;
  double lag_s = 0.0;
  std::string cause; // of the lag: "touch", "final-measure", "start-limit"; empty when there is none
};

// A piece of work of the pair; it comes after the tasks it waits for.
struct Task {
  Person who = Person::both;
  double seconds = 0.0;
  std::vector<After> after;
};

struct Slot {
  double start_s = 0.0, end_s = 0.0;
  double waited_s = 0.0;  // how long a lag alone holds the task up: all else is ready
  std::string wait_cause; // of the lag that holds it up longest
};

struct Schedule {
  std::vector<Slot> slots; // as tasks
  double finish_s = 0.0;
  double no_sooner_than_s = 0.0; // no schedule of these tasks ends earlier, in whatever order
  double welder_busy_s = 0.0, grinder_busy_s = 0.0;
};

// The tasks of one person are done in the order given, that of the list when none is. Each task starts as
// soon as its people are free, the tasks before it have ended and their lags have passed. The bound: the
// longest chain of tasks and lags, and per person the work that is his with the least that must come before
// and after it. Preconditions: times finite and >= 0, `after` names earlier tasks of the list only, the order
// holds each task once and after those it waits for (InternalError).
Schedule schedule(const std::vector<Task>& tasks);
Schedule schedule(const std::vector<Task>& tasks, const std::vector<std::size_t>& order);

} // namespace tacksquare
