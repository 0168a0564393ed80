// planning/crew: several boxes on two people.
#include "base/diagnostic.h"
#include "base/random.h"
#include "planning/crew/line_up.h"
#include "support/catch.h"
#include "support/table.h"

#include <algorithm>
#include <sstream>

using namespace tacksquare;

namespace {

constexpr std::uint64_t kSeed = 7;
constexpr int kTrials = 2000;

Schedule scheduled(const std::vector<LineTask>& line, const std::vector<std::size_t>& order) {
  std::vector<Task> tasks;
  for (const LineTask& task : line)
    tasks.push_back(task.task);
  return schedule(tasks, order);
}

// What the search counts, counted the plain way: the end, and ten seconds for each change of box of a person.
double cost_of(const std::vector<LineTask>& line, const std::vector<std::size_t>& order) {
  double changes = 0.0;
  for (const Person person : {Person::welder, Person::grinder}) {
    const LineTask* last = nullptr;
    for (const std::size_t i : order) {
      if (line[i].task.who != person && line[i].task.who != Person::both) continue;
      changes += last && last->box != line[i].box ? 1.0 : 0.0;
      last = &line[i];
    }
  }
  return scheduled(line, order).finish_s + 10.0 * changes;
}

// Whether he who stays with a box is left there.
bool stays_kept(const std::vector<LineTask>& line, const std::vector<std::size_t>& order) {
  const LineTask* last = nullptr;
  for (const std::size_t i : order) {
    if (line[i].task.who == Person::grinder) continue;
    if (last && last->welder_stays && last->box != line[i].box) return false;
    last = &line[i];
  }
  return true;
}

// Two or three boxes of a few tasks each, in whole seconds; `after` within a box, the first box sometimes
// first.
std::vector<LineTask> random_line(Random& random, std::size_t boxes, std::size_t most) {
  std::vector<LineTask> line;
  for (std::size_t box = 0; box < boxes; ++box) {
    const std::size_t first = line.size(), count = 1 + static_cast<std::size_t>(random.below(most));
    for (std::size_t i = 0; i < count; ++i) {
      LineTask task;
      task.box = box;
      task.task.who = static_cast<Person>(random.below(3));
      task.task.seconds = static_cast<double>(random.below(200));
      if (i > 0) {
        const double lag = random.below(3) == 0 ? static_cast<double>(random.below(300)) : 0.0;
        task.task.after.push_back({line.size() - 1, lag, lag > 0.0 ? "touch" : ""});
        if (i > 1 && random.below(2) == 0) task.task.after.front() = {line.size() - 2, 0.0, {}};
      }
      if (box > 0 && random.below(4) == 0) task.task.after.push_back({0, 0.0, {}});
      task.welder_stays = task.task.who == Person::welder && i + 1 < count && random.below(3) == 0;
      line.push_back(task);
    }
    // The last of those who stay must let the welder go.
    for (std::size_t i = line.size(); i-- > first;) {
      if (line[i].task.who == Person::grinder) continue;
      line[i].welder_stays = false;
      break;
    }
  }
  return line;
}

} // namespace

TEST_CASE("Boxes that are welded and then ground end as soon as Johnson's rule has them") {
  const test::Table table("crew_two_machine.tsv",
                          {"jobs", "order", "value", "worst", "tolerance", "source", "mark"});
  int seen = 0;
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    std::vector<LineTask> line;
    std::istringstream words(row.text("jobs"));
    std::size_t box = 0;
    bool plain = true;
    for (std::string word; words >> word; ++box) {
      std::replace(word.begin(), word.end(), ',', ' ');
      std::istringstream numbers(word);
      double weld = 0, grind = 0, lag = 0;
      numbers >> weld >> grind;
      plain = plain && !(numbers >> lag);
      line.push_back({{Person::welder, weld, {}}, box, false});
      line.push_back({{Person::grinder, grind, {{line.size() - 1, 0.0, {}}}}, box, false});
    }
    if (!plain) continue;
    ++seen;
    CHECK(line_up(line, kSeed, 20 * kTrials).schedule.finish_s == row.number("value"));
  }
  CHECK(seen == 5);
}

TEST_CASE("Small lines: the turns are those that trying all of them finds") {
  Random random(11);
  int searched = 0;
  for (int job = 0; job < 300; ++job) {
    INFO("seed 11, job " << job);
    const std::vector<LineTask> line = random_line(random, 2, 5);
    std::vector<std::size_t> turns;
    for (const LineTask& task : line)
      turns.push_back(task.box);
    double best = 1e300;
    do {
      std::vector<std::size_t> order, next(2, 0);
      next[1] = static_cast<std::size_t>(std::count(turns.begin(), turns.end(), std::size_t{0}));
      for (const std::size_t box : turns)
        order.push_back(next[box]++);
      std::vector<char> done(line.size(), 0);
      bool legal = stays_kept(line, order);
      for (const std::size_t i : order) {
        for (const After& after : line[i].task.after)
          legal = legal && done[after.task];
        done[i] = 1;
      }
      if (!legal) continue;
      best = std::min(best, cost_of(line, order));
    } while (std::next_permutation(turns.begin(), turns.end()));
    REQUIRE(best < 1e300);
    const LinedUp found = line_up(line, kSeed, kTrials);
    REQUIRE(cost_of(line, found.order) == best);
    REQUIRE(found.schedule.finish_s >= found.schedule.no_sooner_than_s);
    ++searched;
  }
  CHECK(searched == 300);
}

TEST_CASE("Any line: each box keeps its order, who stays with a box is left there, and no bound is beaten") {
  Random random(12);
  for (int job = 0; job < 100; ++job) {
    INFO("seed 12, job " << job);
    const std::vector<LineTask> line = random_line(random, 4, 20);
    const LinedUp found = line_up(line, kSeed, 200);
    REQUIRE(stays_kept(line, found.order));
    REQUIRE(found.order.size() == line.size());
    std::vector<std::size_t> seen; // schedule() itself tells a task that is missing, or too early
    for (std::size_t box = 0; box < 4; ++box) {
      seen.clear();
      for (const std::size_t i : found.order)
        if (line[i].box == box) seen.push_back(i);
      REQUIRE(std::is_sorted(seen.begin(), seen.end()));
    }
    REQUIRE(found.schedule.finish_s >= found.schedule.no_sooner_than_s);
    // More trials, never a worse line.
    REQUIRE(cost_of(line, line_up(line, kSeed, 0).order) >= cost_of(line, found.order));
  }
}

TEST_CASE("A line that nobody can walk is a bug of ours") {
  std::vector<LineTask> ring = {{{Person::welder, 1.0, {}}, 0, true},
                                {{Person::welder, 1.0, {{0, 0.0, {}}}}, 1, false}};
  ring.push_back({{Person::welder, 1.0, {}}, 1, false});
  CHECK_NOTHROW(line_up({ring[0]}, kSeed, 1));
  CHECK_THROWS_AS(line_up(ring, kSeed, 1), InternalError);
}
