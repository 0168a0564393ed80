// The order in which a shop is used to weld the seams of a box, from the job or from the command line.
#pragma once

#include "job/file/word.h"
#include "job/job.h"

namespace tacksquare {

// Into Box::weld_order, which stays as it was where something is wrong: a word that is no seam of the box, a
// seam that stands twice, seams that are left out. What must come first is judged by make_work.
// where: of the whole list. Precondition: the seams of the box are read, each id once.
void state_weld_order(Box& box, const std::vector<Word>& seams, Origin where, Diagnostics& out);

} // namespace tacksquare
