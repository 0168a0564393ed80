// From the bytes of a job file to a Job, or to the whole list of what is wrong with it.
#pragma once

#include "base/diagnostic.h"
#include "job/job.h"

#include <optional>
#include <string>
#include <string_view>

namespace tacksquare {

inline constexpr std::size_t kLargestJobFile = 16u << 20; // bytes

struct JobReading {
  std::optional<Job> job; // absent when the diagnostics hold an error
  // Then, where only boxes have faults: the boxes without one, so that their further faults are told as well.
  std::optional<Job> sound;
  Diagnostics diagnostics;
};

// text: UTF-8 XML. Never throws on bad input. Origins in the result are byte offsets into text. Lists stand
// by id, whatever the order of the file.
JobReading read_job(std::string_view text);

// "locker.xml:12:9: error: ..." with the line, a caret and the remedy, for each diagnostic in the order of
// the file; also for diagnostics that later rooms found on the same job. colour: ANSI colours.
std::string print_diagnostics(const Diagnostics& diagnostics, std::string_view file_name,
                              std::string_view text, bool colour);

// The job as its file would say it in long form: every face, bend and seam written out. Reads back to the
// same boxes.
std::string write_job(const Job& job);

} // namespace tacksquare
