// When the pair does what, over the boxes of one kind: one welds, the other grinds.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

struct Timeline {
  Band first_off_s; // first box, from count to signature, with nothing of the next box in between
  Band repeat_s;    // each further box once the pair is in the swing of it
  Band batch_s;     // all boxes
  Band arc_s;       // of one box
  Band grind_s;     // of one box
};

// Sets start and end of the steps (of the first box, nothing of the next in between) and what the other one
// does meanwhile.
Timeline make_timeline(const BoxCase& box, std::vector<Step>& steps);

} // namespace tacksquare
