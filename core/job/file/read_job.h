// From the bytes of a job file to a Job, or to the whole list of what is wrong with it.
#pragma once

#include "base/diagnostic.h"
#include "base/files.h"
#include "job/job.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tacksquare {

inline constexpr std::size_t kLargestJobFile = 16u << 20; // bytes

// A file as messages name it, and its text.
struct FileRead {
  std::string name;
  std::string text;
};

// Opens a file that the job refers to, by the path that stands there: relative to the job's own folder. A
// file longer than kLargestJobFile is a fault.
using OpenFile = std::function<std::variant<FileRead, FileFault>(const std::string& path)>;

struct JobReading {
  std::optional<Job> job; // absent when the diagnostics hold an error
  // Then, where only boxes have faults: the boxes without one, so that their further faults are told as well.
  std::optional<Job> sound;
  std::vector<std::string> boxes; // ids of all that are stated, with faults or without
  std::vector<FileRead> files;    // that the job refers to: Origin::file counts them from 1 on
  Diagnostics diagnostics;        // by file and place
};

// text: UTF-8 XML. Never throws on bad input. Origins in the result are byte offsets into text, or into one
// of the further files. Lists stand by id, whatever the order of the file. open: without it a reference to
// another file is an error; called once for each path.
JobReading read_job(std::string_view text, const OpenFile& open = {});

// "locker.xml:12:9: error: ..." with the line, a caret and the remedy, for each diagnostic in the order of
// the files and of the text; also for diagnostics that later rooms found on the same job. further: of the
// reading. colour: ANSI colours.
std::string print_diagnostics(const Diagnostics& diagnostics, std::string_view file_name,
                              std::string_view text, bool colour, const std::vector<FileRead>& further = {});

// The job as its file would say it in long form: every face, bend and seam written out. Reads back to the
// same boxes.
std::string write_job(const Job& job);

// A fixture as a file of its own, with a comment that tells of its box and of its frame. Reads back to the
// same fixture; what no file states (z of a support, x and y of a former) reads back as 0.
std::string write_fixture(const Fixture& fixture, const Box& box);

} // namespace tacksquare
