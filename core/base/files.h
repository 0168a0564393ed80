// Files behind an interface, so that tests can use memory and break it on purpose. Nothing is thrown.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <variant>
#include <vector>

namespace tacksquare {

struct FileFault {
  std::string path;
  std::string message; // "cannot write out/sheet.txt: no space left on the disk"
  std::string remedy;
};

struct FileToWrite {
  std::string path;
  std::string bytes;
};

// "16 MiB", "9 bytes": in whole MiB where it is.
std::string size_name(std::size_t bytes);

class FileSystem {
 public:
  virtual ~FileSystem() = default;

  // The whole file. A fault when it is missing, a folder, unreadable or longer than limit_bytes.
  virtual std::variant<std::string, FileFault> read(const std::string& path, std::size_t limit_bytes) = 0;

  // Whether anything has that name: a file, also one that may not be read, a folder, a link, a device.
  virtual bool exists(const std::string& path) = 0;

  // Names in a folder, in order of name; none where it cannot be read.
  virtual std::vector<std::string> names_in(const std::string& folder) = 0;

  // All files or none: a failure leaves every file and folder as it was before. Missing folders are made;
  // existing files are replaced, but neither folders nor devices. Precondition: the paths differ.
  virtual std::optional<FileFault> write_all(const std::vector<FileToWrite>& files) = 0;
};

// The disk: each file is written beside its place, flushed, and renamed when all are written.
class DiskFiles : public FileSystem {
 public:
  std::variant<std::string, FileFault> read(const std::string& path, std::size_t limit_bytes) override;
  bool exists(const std::string& path) override;
  std::vector<std::string> names_in(const std::string& folder) override;
  std::optional<FileFault> write_all(const std::vector<FileToWrite>& files) override;
};

// For tests: any folder exists unless it stands in refused.
class MemoryFiles : public FileSystem {
 public:
  std::map<std::string, std::string> files;
  std::set<std::string> folders;                             // reading or writing one as a file is a fault
  std::set<std::string> refused;                             // paths that cannot be read or written
  std::size_t capacity_bytes = static_cast<std::size_t>(-1); // of all files together: disk full beyond

  std::variant<std::string, FileFault> read(const std::string& path, std::size_t limit_bytes) override;
  bool exists(const std::string& path) override;
  std::vector<std::string> names_in(const std::string& folder) override;
  std::optional<FileFault> write_all(const std::vector<FileToWrite>& wanted) override;
};

} // namespace tacksquare
