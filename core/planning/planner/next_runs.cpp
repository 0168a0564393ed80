#include "planning/planner/next_runs.h"

#include "base/ids.h"
#include "planning/planner/steps.h"

#include <algorithm>
#include <set>

namespace tacksquare {
namespace {

using Runs = std::vector<std::size_t>; // indices in Work::runs

struct HalfWay {
  std::set<std::string> made; // runs
  std::string diagonals;      // id of what is read
};

std::optional<HalfWay> half_way_of(const BoxCase& box) {
  HalfWay at;
  for (const Step& step : write_steps(box)) {
    if (step.what.key == "step.look-half-way")
      for (const Check& check : step.checks)
        for (const std::string& id : check.measures) {
          at.diagonals = id;
          return at;
        }
    at.made.insert(step.runs.begin(), step.runs.end());
  }
  return std::nullopt;
}

// The first that is left of each seam whose turn it could be.
Runs could_come_next(const BoxCase& box, const Runs& made, const std::vector<OrderedRun>& left) {
  std::set<std::size_t> unfinished;
  for (const OrderedRun& ordered : left)
    unfinished.insert(box.work.runs[ordered.run].seam);
  Runs next;
  std::set<std::size_t> seen;
  for (const OrderedRun& ordered : left) {
    const Run& run = box.work.runs[ordered.run];
    const bool first = seen.insert(run.seam).second;
    const bool waits = std::any_of(box.work.before.begin(), box.work.before.end(), [&](const auto& pair) {
      return pair.second == run.seam && unfinished.count(pair.first) > 0;
    });
    if (first && !waits && !run.dab && run.length_mm() > 0.0 && ordered.attitude == left.front().attitude &&
        !made.empty())
      next.push_back(ordered.run);
  }
  return next;
}

} // namespace

std::vector<NextRun> next_runs_of(const BoxCase& box, const OrderModel& model) {
  const std::optional<HalfWay> at = half_way_of(box);
  if (!at) return {};
  Runs made;
  std::vector<OrderedRun> left;
  for (const OrderedRun& ordered : box.order.runs)
    if (at->made.count(box.work.runs[ordered.run].id) == 0)
      left.push_back(ordered);
    else if (box.work.runs[ordered.run].length_mm() > 0.0)
      made.push_back(ordered.run);
  std::vector<NextRun> all;
  for (const std::size_t run : could_come_next(box, made, left))
    if (const std::optional<Band> mm = model.step_mm(made, run, at->diagonals))
      all.push_back({box.work.runs[run].id, box.work.seams[box.work.runs[run].seam].id, at->diagonals, *mm});
  std::sort(all.begin(), all.end(),
            [](const NextRun& a, const NextRun& b) { return id_before(a.run, b.run); });
  return all;
}

} // namespace tacksquare
