// Two people, given tasks: who does what when. A list rule on fixed times; waits only with a cause.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace tacksquare {

enum class Person { welder, grinder, both };

// A piece of work of the pair. Tasks come in step order; one person's tasks keep that order.
struct Task {
  Person who = Person::both;
  double seconds = 0.0;
  std::vector<std::size_t> after;     // tasks that must have ended: earlier ones
  double lag_s = 0.0;                 // and this long must have passed since the last of them
  std::string lag_cause;              // key: "touch", "grind", "final-measure", "start-limit"; empty when none
};

struct Slot {
  double start_s = 0.0, end_s = 0.0;
  double waited_s = 0.0;              // how long the lag alone holds the task up: all else is ready
  std::string wait_cause;             // the lag's cause, when it does
};

struct Schedule {
  std::vector<Slot> slots;            // as tasks
  double finish_s = 0.0;
  double no_sooner_than_s = 0.0;      // no schedule of these tasks ends earlier, in whatever order
  double welder_busy_s = 0.0, grinder_busy_s = 0.0;
  double arc_s = 0.0;                 // filled by the caller
};

// Each task starts as soon as its people are free, the tasks before it have ended and its lag has passed.
// The bound: the longest chain of tasks and lags, and per person the work that is his with the least that must come
// before and after it. Preconditions: times finite and >= 0, `after` names earlier tasks only (InternalError).
Schedule schedule(const std::vector<Task>& tasks);

} // namespace tacksquare
