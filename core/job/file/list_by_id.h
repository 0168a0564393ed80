// "As listed" means by id, whatever the order of the file.
#pragma once

#include "job/job.h"

namespace tacksquare {

// Sorts sheets, procedures, boxes, parts, faces, seams and pieces of a fixture by id, and what has no id
// (bends, vents, holes, deductions, obstacles, readings, what the shop owns) by what it says; indices follow.
// The row of an opening stays as it is. Precondition: ids of one kind differ.
void list_by_id(Job& job);

} // namespace tacksquare
