// The parts of check_plan. Not for others.
#pragma once

#include "geometry/box_geometry.h"
#include "job/job.h"
#include "plan/plan.h"

#include <fmt/format.h>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tacksquare::verify {

// One planned box beside what the job states of it, and the lines that tell what it does not keep.
class Checking {
 public:
  // stand: the place in the row that the card is written for; null where there is none.
  Checking(const Job& job, const Box& box, const BoxGeometry& geometry, const BoxPlan& plan,
           const StandFit* stand, std::vector<std::string>& lines);

  const Job& job;
  const Box& box;
  const BoxGeometry& geometry;
  const BoxPlan& plan;
  const StandFit* stand;
  // Index in plan.steps of the step that makes it; what no step makes is not in here.
  std::map<std::string, std::size_t> step_of_run, step_of_tack;

  template <class... Args> void tell(fmt::format_string<Args...> format, Args&&... args) const {
    lines_.push_back("box " + plan.id + ": " + fmt::format(format, std::forward<Args>(args)...));
  }

  // Index in Box; the size of the list when there is none of that id.
  std::size_t seam_index(std::string_view id) const;
  std::size_t face_index(std::string_view id) const;
  double thickness_mm(std::size_t face) const;
  double thinnest_mm() const; // of the welded sheets
  bool on_face(const Seam& seam, std::size_t face) const {
    return seam.face_a == face || seam.face_b == face;
  }

  // First step and last step, as indices, for which the test holds; the number of steps when there is none.
  template <class F> std::size_t first_step(F test) const {
    std::size_t i = 0;
    while (i < plan.steps.size() && !test(plan.steps[i]))
      ++i;
    return i;
  }
  template <class F> std::size_t last_step(F test) const {
    for (std::size_t i = plan.steps.size(); i-- > 0;)
      if (test(plan.steps[i])) return i;
    return plan.steps.size();
  }
  bool has(std::size_t step) const { return step < plan.steps.size(); }

 private:
  std::vector<std::string>& lines_;
};

// low <= value <= high, all finite.
bool in_order(const Band& band);

// The argument of a text; nothing when it has none of that name.
const Arg* argument(const Text& text, std::string_view name);

// By the settings that the seam is welded with; nothing when they stand nowhere.
std::optional<double> travel_mm_s(const Checking& c, const PlannedSeam& seam);

// A red caution of the plan names the seam.
bool owned_up(const Checking& c, const std::string& seam_id);

// The face that the steps put on last, as an index; the number of faces when they name none.
std::size_t last_face(const Checking& c);
// The first step that tacks that face, as an index; the number of steps when none does.
std::size_t step_that_shuts(const Checking& c, std::size_t face);

void check_steps(const Checking& c);     // numbered, made once, phases in order
void check_seams(const Checking& c);     // as the job and the geometry have them
void check_runs(const Checking& c);      // coverage, dabs, tie-ins, arc time, heat
void check_settings(const Checking& c);  // what a procedure states, heat from volts, amps and travel
void check_order(const Checking& c);     // precedence, the orders compared
void check_positions(const Checking& c); // turns, reach, position by gravity
void check_tacks(const Checking& c);
void check_orders_of_seams(const Checking& c);
void check_people(const Checking& c);  // nobody in two places, times that add up
void check_waits(const Checking& c);   // a cause for each, cool before touched
void check_holds(const Checking& c);   // at most three, with another's name
void check_gauges(const Checking& c);  // each check with gauge, limits, ladder
void check_elastic(const Checking& c); // states, and the figures that checks take from them
void check_levers(const Checking& c);  // chances, in order of gain, advised what helps
void check_fixture(const Checking& c); // pieces on and off in time, on metal, locating, bill
void check_locating(const Checking& c, const FixturePlan& fixture); // its part: recomputed from the places
void check_friction(const Checking& c, const FixturePlan& fixture); // what clamps hold along the walls
void check_stands(const Checking& c, const FixturePlan& fixture);   // what carries the box
void check_closed(const Checking& c);                               // vent, inside work, last face
void check_figures(const Checking& c); // bands ordered, with a source; care, cautions
void check_measures(const Checking& c);
void check_patterns(const Checking& c); // cut lines that close, areas, masses, bent zones
void check_bends(const Checking& c);    // each once, or told red
void check_readings(const Checking& c); // parts as they come
void check_first_off(const Checking& c, const Plan& plan);
void check_row(const Job& job, const Plan& plan, std::vector<std::string>& lines);

} // namespace tacksquare::verify
