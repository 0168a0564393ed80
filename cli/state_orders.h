// The shop's own order of the seams of boxes, from the command line.
#pragma once

#include "job/file/read_job.h"

#include <string>
#include <vector>

namespace tacksquare {

// Into Box::weld_order of the boxes that the options name. Each option becomes one more of the files, so that
// what is wrong with it can be shown in place, now and later. boxes: ids of all that the job states; job:
// those of them that can be judged, null where there are none.
void state_orders(const std::vector<std::string>& options, const std::vector<std::string>& boxes, Job* job,
                  std::vector<FileRead>& files, Diagnostics& out);

} // namespace tacksquare
