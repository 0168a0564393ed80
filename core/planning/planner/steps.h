// The steps of one box, written phase by phase in the order of the sheet.
#pragma once

#include "planning/planner/box_case.h"

#include <deque>
#include <vector>

namespace tacksquare {

// Collects steps; numbers them when all are in.
class StepWriter {
 public:
  explicit StepWriter(Phase phase) : phase_(phase) {}
  void phase(Phase phase) { phase_ = phase; }
  // The step stays valid while others are added.
  Step& add(Who who, std::string key, std::vector<Arg> args, double seconds);
  Step& last() { return steps_.back(); }
  std::vector<Step> take();

 private:
  Phase phase_;
  std::deque<Step> steps_;
};

void write_parts_and_preparation(const BoxCase& box, StepWriter& out); // check parts to coupon
void write_set_up_and_fit(const BoxCase& box, StepWriter& out);        // set up, dry fit
void write_tacking(const BoxCase& box, StepWriter& out);               // tack, knock down
void write_welding(const BoxCase& box, StepWriter& out);               // weld, cool, release
void write_checks_and_grinding(const BoxCase& box, StepWriter& out);   // check, grind
void write_final_check(const BoxCase& box, StepWriter& out);           // final check, sign

std::vector<Step> write_steps(const BoxCase& box); // all of them, but for what is expected

// Where the tacks of a round are: "at 150: S2, S4, S1, S3".
std::vector<Text> tack_places(const BoxCase& box, int round);

// Runs that are made inside a closed box before its last face goes on, and their steps.
std::vector<OrderedRun> inside_runs(const BoxCase& box);
// lies: the attitude in which the box is found.
void write_run_steps(const BoxCase& box, const std::vector<OrderedRun>& runs, std::size_t lies,
                     bool with_look, StepWriter& out);

// Attitude in which the box is tacked: the stated one, else where the first weld is made.
std::size_t tacking_attitude_index(const BoxCase& box);
const Attitude& tacking_attitude(const BoxCase& box);
Text attitude_name(const BoxCase& box, const Attitude& attitude);

} // namespace tacksquare
