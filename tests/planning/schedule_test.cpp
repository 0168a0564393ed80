// planning/crew: the pair's lanes, lags and waits.
#include "base/diagnostic.h"
#include "base/random.h"
#include "planning/crew/schedule.h"
#include "support/catch.h"
#include "support/table.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <sstream>

using namespace tacksquare;

namespace {

struct LineJob {
  double weld = 0, grind = 0, start_lag = 0, stop_lag = 0;
};

std::vector<LineJob> jobs_in(const std::string& text) {
  std::vector<LineJob> jobs;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    std::replace(word.begin(), word.end(), ',', ' ');
    std::istringstream numbers(word);
    LineJob job;
    numbers >> job.weld >> job.grind >> job.start_lag >> job.stop_lag;
    jobs.push_back(job);
  }
  return jobs;
}

double finish_of(const std::vector<LineJob>& jobs, const std::vector<std::size_t>& order) {
  std::vector<Task> tasks;
  for (const std::size_t i : order) {
    const LineJob& job = jobs[i];
    const double lag = std::max({job.start_lag - job.weld, job.stop_lag - job.grind, 0.0});
    tasks.push_back({Person::welder, job.weld, {}});
    tasks.push_back({Person::grinder, job.grind, {{tasks.size() - 1, lag, lag > 0 ? "touch" : ""}}});
  }
  return schedule(tasks).finish_s;
}

std::vector<Task> random_tasks(Random& random) {
  std::vector<Task> tasks;
  const std::size_t count = 1 + static_cast<std::size_t>(random.below(30));
  for (std::size_t i = 0; i < count; ++i) {
    Task task;
    task.who = static_cast<Person>(random.below(3));
    task.seconds = static_cast<double>(random.below(50));
    for (std::size_t earlier = 0; earlier < i; ++earlier) {
      if (random.below(6) != 0) continue;
      After after{earlier, 0.0, {}};
      if (random.below(3) == 0) after = {earlier, static_cast<double>(1 + random.below(100)), "touch"};
      task.after.push_back(after);
    }
    tasks.push_back(task);
  }
  return tasks;
}

} // namespace

TEST_CASE("Published two-machine jobs finish when their textbooks, or a hand, say") {
  const test::Table table("crew_two_machine.tsv",
                          {"jobs", "order", "value", "worst", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 6);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const std::vector<LineJob> jobs = jobs_in(row.text("jobs"));
    std::vector<std::size_t> order;
    std::istringstream words(row.text("order"));
    for (std::size_t i = 0; words >> i;)
      order.push_back(i - 1);
    REQUIRE(order.size() == jobs.size());
    CHECK(finish_of(jobs, order) == row.number("value"));
    double best = std::numeric_limits<double>::infinity(), worst = 0.0;
    std::sort(order.begin(), order.end());
    do {
      const double finish = finish_of(jobs, order);
      best = std::min(best, finish);
      worst = std::max(worst, finish);
    } while (std::next_permutation(order.begin(), order.end()));
    CHECK(best == row.number("value"));
    CHECK(worst == row.number("worst"));
  }
}

TEST_CASE("Nobody is in two places at once, nothing starts before what it needs, and no bound is beaten") {
  Random random(41);
  int waits = 0;
  for (int job = 0; job < 400; ++job) {
    INFO("seed 41, job " << job);
    const std::vector<Task> tasks = random_tasks(random);
    const Schedule made = schedule(tasks);
    REQUIRE(made.slots.size() == tasks.size());
    double last = 0.0, welder = 0.0, grinder = 0.0;
    for (std::size_t i = 0; i < tasks.size(); ++i) {
      const Slot& slot = made.slots[i];
      REQUIRE(slot.end_s - slot.start_s == tasks[i].seconds);
      double longest = 0.0;
      for (const After& after : tasks[i].after) {
        REQUIRE(slot.start_s >= made.slots[after.task].end_s + after.lag_s);
        longest = std::max(longest, after.lag_s);
      }
      // One person's tasks keep their order, so it is enough that each ends before the next one of his.
      for (std::size_t k = 0; k < i; ++k)
        if (tasks[k].who == tasks[i].who || tasks[k].who == Person::both || tasks[i].who == Person::both)
          REQUIRE(made.slots[k].end_s <= slot.start_s);
      REQUIRE(slot.waited_s >= 0.0);
      REQUIRE(slot.waited_s <= longest);
      REQUIRE(slot.wait_cause == (slot.waited_s > 0.0 ? "touch" : ""));
      waits += slot.waited_s > 0.0;
      last = std::max(last, slot.end_s);
      welder += tasks[i].who != Person::grinder ? tasks[i].seconds : 0.0;
      grinder += tasks[i].who != Person::welder ? tasks[i].seconds : 0.0;
    }
    REQUIRE(made.finish_s == last);
    REQUIRE(made.welder_busy_s == welder);
    REQUIRE(made.grinder_busy_s == grinder);
    REQUIRE(made.no_sooner_than_s <= made.finish_s);
    REQUIRE(made.no_sooner_than_s >= std::max(welder, grinder));
  }
  CHECK(waits > 100);
}

TEST_CASE("Other work fills a wait: a lag holds up only the task that needs it") {
  // Weld 60, then the grinder may grind after 400; meanwhile the welder tacks the next box for 300.
  const Schedule made = schedule({{Person::welder, 60, {}},
                                  {Person::welder, 300, {}},
                                  {Person::grinder, 100, {{0, 400, "grind"}, {1, 0, ""}}},
                                  {Person::both, 20, {{2, 0, ""}}}});
  CHECK(made.slots[1].start_s == 60);
  CHECK(made.slots[2].start_s == 460);
  CHECK(made.slots[2].waited_s == 100); // the last of what it needs was ready at 360
  CHECK(made.slots[2].wait_cause == "grind");
  CHECK(made.slots[3].start_s == 560);
  CHECK(made.slots[3].waited_s == 0);
  CHECK(made.finish_s == 580);
  CHECK(made.no_sooner_than_s == 580);
}

TEST_CASE("A wait counts only while all else is ready") {
  // The grinder is busy until 50; the lag ends at 10 + 45: he waits 5, not 45.
  const Schedule made = schedule({{Person::welder, 10, {}},
                                  {Person::grinder, 50, {}},
                                  {Person::grinder, 1, {{0, 45, "touch"}, {0, 20, "start-limit"}}}});
  CHECK(made.slots[2].start_s == 55);
  CHECK(made.slots[2].waited_s == 5);
  CHECK(made.slots[2].wait_cause == "touch");
}

TEST_CASE("Tasks that cannot be meant are a bug of ours") {
  CHECK_THROWS_AS(schedule({{Person::welder, -1, {}}}), InternalError);
  CHECK_THROWS_AS(schedule({{Person::welder, std::nan(""), {}}}), InternalError);
  CHECK_THROWS_AS(schedule({{Person::welder, 1, {{0, 0, ""}}}}), InternalError);
  CHECK(schedule({}).finish_s == 0);
}
