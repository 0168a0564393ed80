// When the pair does what, over the boxes of one kind: one welds, the other grinds.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

struct Timeline {
  double first_off_s = 0.0; // first box, from count to signature, with nothing of the next box in between
  double repeat_s = 0.0;    // each further box once the pair is in the swing of it
  double batch_s = 0.0;     // all boxes
  double arc_s = 0.0;       // of one box
  double grind_s = 0.0;     // of one box
  double waited_s = 0.0;    // of the batch, with a cause
};

// Sets start and end of the steps (of the first box, in the batch) and what the other one does meanwhile.
Timeline make_timeline(const BoxCase& box, std::vector<Step>& steps);

} // namespace tacksquare
