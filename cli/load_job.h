// A job from a file or from standard input, with its text, those of the files that it refers to and of the
// options that state a part of it, so that faults found later can be shown in place.
#pragma once

#include "cli/console.h"
#include "geometry/box_geometry.h"
#include "job/file/read_job.h"
#include "work/work.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

struct LoadedJob {
  std::string name; // as told in messages
  std::string text;
  std::vector<FileRead> files;
  std::optional<Job> job;
  Diagnostics diagnostics;
};

// Nothing when the file could not be read; that has been told on console.err. orders: as --order gives them,
// "S1 S3 S2" or "locker: S1 S3 S2"; they go before what the job states.
std::optional<LoadedJob> load_job(const std::string& path, Console& console,
                                  const std::vector<std::string>& orders = {});

// Of each box, as far as it can be made; nothing of a job with faults. What is wrong goes to its diagnostics.
struct Resolved {
  std::vector<BoxGeometry> geometry;
  std::vector<Work> work; // of the boxes without a fault
};
Resolved resolve(LoadedJob& loaded);

// All diagnostics in the order of the files, then how many.
void tell(const LoadedJob& loaded, Console& console);

} // namespace tacksquare
