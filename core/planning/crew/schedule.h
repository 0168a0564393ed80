// Two people, given tasks: who does what when. A list rule on fixed times; waits only with a cause.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

enum class Person { welder, grinder, both };

// A piece of work of the pair. Tasks come in step order; one person's tasks keep that order.
struct Task {
  Person who = Person::both;
  double seconds = 0.0;
  std::vector<std::size_t> after;     // tasks that must have ended
  double lag_s = 0.0;                 // and this long must have passed since the last of them
  std::string lag_cause;              // key: "touch", "grind", "final-measure", "start-limit"; empty when none
};

struct Slot {
  double start_s = 0.0, end_s = 0.0;
  double waited_s = 0.0;              // of the person who waited longest, for the lag
  std::string wait_cause;
};

struct Schedule {
  std::vector<Slot> slots;            // as tasks
  double finish_s = 0.0;
  double welder_busy_s = 0.0, grinder_busy_s = 0.0;
  double arc_s = 0.0;                 // filled by the caller
};

Schedule schedule(const std::vector<Task>& tasks);

} // namespace tacksquare
