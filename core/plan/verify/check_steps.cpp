// The steps as a list: numbered through, each tack and each run made once, phases in the order of the sheet.
#include "plan/verify/checking.h"

#include <algorithm>

namespace tacksquare::verify {
namespace {

// The steps make the listed things once each, in the listed order.
template <class T>
void check_made(const Checking& c, const std::vector<T>& listed, std::vector<std::string> Step::*made,
                const std::string& kind) {
  std::vector<std::string> ids, in_steps;
  for (const T& one : listed) {
    if (std::find(ids.begin(), ids.end(), one.id) != ids.end()) c.tell("{} {} is listed twice", kind, one.id);
    ids.push_back(one.id);
  }
  for (const Step& step : c.plan.steps)
    for (const std::string& id : step.*made) {
      if (std::find(ids.begin(), ids.end(), id) == ids.end())
        c.tell("step {} makes {} {}, which is not listed", step.number, kind, id);
      else if (std::find(in_steps.begin(), in_steps.end(), id) != in_steps.end())
        c.tell("step {} makes {} {} a second time", step.number, kind, id);
      in_steps.push_back(id);
    }
  for (const std::string& id : ids)
    if (std::find(in_steps.begin(), in_steps.end(), id) == in_steps.end())
      c.tell("no step makes {} {}", kind, id);
  if (std::is_permutation(ids.begin(), ids.end(), in_steps.begin(), in_steps.end()) && ids != in_steps)
    c.tell("the steps make the {}s in another order than they are listed in", kind);
}

} // namespace

void check_steps(const Checking& c) {
  const std::vector<Step>& steps = c.plan.steps;
  if (steps.empty()) c.tell("has no steps");
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (steps[i].number != static_cast<int>(i) + 1)
      c.tell("step {} stands at place {}", steps[i].number, i + 1);
    if (steps[i].what.empty()) c.tell("step {} does not say what to do", steps[i].number);
    // Inside a closed box is welded between two stretches of tacking.
    const bool inside =
        c.geometry.closed && i > 0 && steps[i - 1].phase == Phase::weld && steps[i].phase == Phase::tack;
    if (i > 0 && steps[i].phase < steps[i - 1].phase && !inside)
      c.tell("step {} goes back to an earlier phase than step {}", steps[i].number, steps[i - 1].number);
  }
  check_made(c, c.plan.tacks, &Step::tacks, "tack");
  check_made(c, c.plan.runs, &Step::runs, "run");
}

} // namespace tacksquare::verify
