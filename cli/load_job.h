// A job from a file or from standard input, with its text and those of the files that it refers to, so that
// faults found later can be shown in place.
#pragma once

#include "cli/console.h"
#include "job/file/read_job.h"

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

// Nothing when the file could not be read; that has been told on console.err.
std::optional<LoadedJob> load_job(const std::string& path, Console& console);

// All diagnostics in the order of the files, then how many.
void tell(const LoadedJob& loaded, Console& console);

} // namespace tacksquare
