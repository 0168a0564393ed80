// Files that a job refers to.
#pragma once

#include "job/file/read_job.h"
#include "job/file/reading.h"
#include "job/file/scan.h"

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

namespace tacksquare {

// Each is opened once, and read as often as it is referred to.
class FurtherFiles {
 public:
  explicit FurtherFiles(const OpenFile& open) : open_(open) {}

  // Gives the root of the file that the attribute "file" of the element names to the reader. What cannot be
  // opened is told at the attribute, what is wrong in the file at its place there, the same fault once. All
  // that is read is together no longer than the largest job file.
  void read(Element& element, const FileKind& kind, const std::function<void(Element& root)>& reader);

  std::vector<FileRead> take() { return std::move(files_); }

 private:
  std::optional<std::size_t> open(const Element& element, const std::string& path);

  const OpenFile& open_;
  std::vector<FileRead> files_;
  std::map<std::string, std::size_t> by_path_; // index in files_
  std::size_t bytes_ = 0;                      // read so far
  // File, offset, message, and the offset of the second place.
  std::set<std::tuple<std::size_t, std::size_t, std::string, std::size_t>> told_;
};

} // namespace tacksquare
