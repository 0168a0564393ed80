#include "base/files.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <string_view>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace tacksquare {

namespace fs = std::filesystem;

namespace {

struct Reason {
  int code;
  std::string_view what;
  std::string_view remedy;
};

// The usual ones in our own words, so that no locale changes them.
constexpr std::array<Reason, 12> reasons{{
    {ENOENT, "there is no such file or folder", "check the spelling of the path"},
    {EACCES, "permission denied", "choose a place that you may read and write"},
    {EPERM, "permission denied", "choose a place that you may read and write"},
    {EROFS, "the disk is read-only", "choose a place that can be written"},
    {EISDIR, "it is a folder", "name a file"},
    {ENOTDIR, "a part of the path is a file, not a folder", "choose another folder"},
    {EEXIST, "it exists already", "choose another name"},
    {ENOSPC, "no space left on the disk", "free some space or choose another disk"},
    {EDQUOT, "your quota of the disk is used up", "free some space or choose another disk"},
    {EFBIG, "the file is larger than the system allows", "choose another disk"},
    {ENAMETOOLONG, "the path is too long", "choose a shorter name"},
    {ELOOP, "the links of the path run in a circle", "choose another path"},
}};

FileFault fault(std::string_view doing, const std::string& path, int code) {
  const std::string start = std::string(doing) + " " + path + ": ";
  for (const Reason& r : reasons) {
    if (r.code == code) return {path, start + std::string(r.what), std::string(r.remedy)};
  }
  return {path, start + std::generic_category().message(code), ""};
}

FileFault cannot_read(const std::string& path, int code) {
  return fault("cannot read", path, code);
}
FileFault cannot_write(const std::string& path, int code) {
  return fault("cannot write", path, code);
}

FileFault too_long(const std::string& path, std::size_t limit_bytes) {
  return {path, "cannot read " + path + ": it is longer than " + size_name(limit_bytes),
          "give a smaller file"};
}

// Closes what it holds.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close(); }
  int get() const { return number_; }
  bool close() {
    const int number = std::exchange(number_, -1);
    return number < 0 || ::close(number) == 0;
  }

 private:
  int number_;
};

// Writes all and flushes; the errno of a failure, 0 for none.
int write_flushed(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  // Some file systems and pipes cannot flush, which is no failure to write.
  if (::fsync(descriptor) != 0 && errno != EINVAL && errno != ENOTSUP) return errno;
  return 0;
}

bool has_name(const std::string& path) {
  struct stat status {};
  return ::lstat(path.c_str(), &status) == 0;
}

bool is_folder(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && S_ISDIR(status.st_mode);
}

// Also at the end of a link: /dev/null, a terminal, a pipe.
bool is_device(const std::string& path) {
  struct stat status {};
  return ::stat(path.c_str(), &status) == 0 && !S_ISREG(status.st_mode) && !S_ISDIR(status.st_mode);
}

// A name beside the path that nothing has yet.
std::string free_name(const std::string& path, std::string_view ending) {
  std::string name = path + std::string(ending);
  for (int n = 2; has_name(name); ++n)
    name = path + std::string(ending) + std::to_string(n);
  return name;
}

// A set of files on its way to the disk. Unless kept, its end puts everything back.
class Transaction {
 public:
  Transaction() = default;
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction() {
    if (kept_) return;
    for (auto s = staged_.rbegin(); s != staged_.rend(); ++s) {
      if (!s->old.empty()) {
        ::rename(s->old.c_str(), s->path.c_str());
        ::unlink(s->old.c_str()); // renaming one name of a file onto its other leaves both
      } else if (s->placed) {
        ::unlink(s->path.c_str());
      }
      if (!s->placed) ::unlink(s->temporary.c_str());
    }
    for (auto f = made_folders_.rbegin(); f != made_folders_.rend(); ++f)
      ::rmdir(f->c_str());
  }

  std::optional<FileFault> make_folders(const std::string& path) {
    std::vector<std::string> missing;
    for (fs::path p = fs::path(path).parent_path(); !p.empty() && !has_name(p.string());
         p = p.parent_path()) {
      missing.push_back(p.string());
    }
    for (auto folder = missing.rbegin(); folder != missing.rend(); ++folder) {
      if (::mkdir(folder->c_str(), 0777) == 0) {
        made_folders_.push_back(*folder);
      } else if (errno != EEXIST) {
        return fault("cannot make the folder", *folder, errno);
      }
    }
    return std::nullopt;
  }

  std::optional<FileFault> stage(const FileToWrite& file) {
    const std::string temporary = free_name(file.path, ".part");
    Descriptor out(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
    if (out.get() < 0) return cannot_write(file.path, errno);
    staged_.push_back({file.path, temporary, "", false});
    if (const int code = write_flushed(out.get(), file.bytes); code != 0)
      return cannot_write(file.path, code);
    if (!out.close()) return cannot_write(file.path, errno);
    return std::nullopt;
  }

  std::optional<FileFault> place_all() {
    for (Staged& s : staged_) {
      if (is_folder(s.path)) return cannot_write(s.path, EISDIR);
      if (is_device(s.path)) {
        return FileFault{s.path, "cannot write " + s.path + ": it is a device or a pipe, not a file",
                         "name a file, or - for standard output"};
      }
      if (has_name(s.path)) {
        // A second name keeps the old file; where the disk has no links, it is moved aside.
        const std::string old = free_name(s.path, ".old");
        if (::link(s.path.c_str(), old.c_str()) != 0 && ::rename(s.path.c_str(), old.c_str()) != 0) {
          return cannot_write(s.path, errno);
        }
        s.old = old;
      }
      if (::rename(s.temporary.c_str(), s.path.c_str()) != 0) return cannot_write(s.path, errno);
      s.placed = true;
    }
    for (const Staged& s : staged_) {
      if (!s.old.empty()) ::unlink(s.old.c_str());
    }
    kept_ = true;
    return std::nullopt;
  }

 private:
  struct Staged {
    std::string path, temporary, old;
    bool placed = false;
  };
  std::vector<Staged> staged_;
  std::vector<std::string> made_folders_;
  bool kept_ = false;
};

} // namespace

std::string size_name(std::size_t bytes) {
  constexpr std::size_t kMiB = std::size_t{1} << 20;
  if (bytes >= kMiB && bytes % kMiB == 0) return std::to_string(bytes / kMiB) + " MiB";
  return std::to_string(bytes) + " bytes";
}

std::variant<std::string, FileFault> DiskFiles::read(const std::string& path, std::size_t limit_bytes) {
  Descriptor in(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (in.get() < 0) return cannot_read(path, errno);
  struct stat status {};
  if (::fstat(in.get(), &status) != 0) return cannot_read(path, errno);
  if (S_ISDIR(status.st_mode)) return cannot_read(path, EISDIR);
  if (S_ISREG(status.st_mode) && static_cast<std::uintmax_t>(status.st_size) > limit_bytes) {
    return too_long(path, limit_bytes);
  }
  std::string bytes;
  std::array<char, 65536> piece{};
  for (;;) {
    const ssize_t got = ::read(in.get(), piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return cannot_read(path, errno);
    if (got == 0) return bytes;
    bytes.append(piece.data(), static_cast<std::size_t>(got));
    if (bytes.size() > limit_bytes) return too_long(path, limit_bytes);
  }
}

bool DiskFiles::exists(const std::string& path) {
  return has_name(path);
}

std::vector<std::string> DiskFiles::names_in(const std::string& folder) {
  std::vector<std::string> names;
  std::error_code none;
  for (fs::directory_iterator at(folder, none), end; !none && at != end; at.increment(none))
    names.push_back(at->path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::optional<FileFault> DiskFiles::write_all(const std::vector<FileToWrite>& files) {
  Transaction transaction;
  for (const FileToWrite& file : files) {
    if (auto failed = transaction.make_folders(file.path)) return failed;
    if (auto failed = transaction.stage(file)) return failed;
  }
  return transaction.place_all();
}

std::variant<std::string, FileFault> MemoryFiles::read(const std::string& path, std::size_t limit_bytes) {
  if (refused.count(path) != 0) return cannot_read(path, EACCES);
  if (folders.count(path) != 0) return cannot_read(path, EISDIR);
  const auto found = files.find(path);
  if (found == files.end()) return cannot_read(path, ENOENT);
  if (found->second.size() > limit_bytes) return too_long(path, limit_bytes);
  return found->second;
}

bool MemoryFiles::exists(const std::string& path) {
  return files.count(path) + folders.count(path) + refused.count(path) != 0;
}

std::vector<std::string> MemoryFiles::names_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& [path, bytes] : files)
    if (fs::path(path).parent_path() == fs::path(folder)) names.push_back(fs::path(path).filename().string());
  return names;
}

std::optional<FileFault> MemoryFiles::write_all(const std::vector<FileToWrite>& wanted) {
  std::map<std::string, std::string> after = files;
  for (const FileToWrite& file : wanted) {
    if (folders.count(file.path) != 0) return cannot_write(file.path, EISDIR);
    for (fs::path p = file.path; !p.empty() && p != p.root_path(); p = p.parent_path()) {
      if (refused.count(p.string()) != 0) return cannot_write(file.path, EACCES);
      if (p.string() != file.path && files.count(p.string()) != 0) return cannot_write(file.path, ENOTDIR);
    }
    after[file.path] = file.bytes;
    std::size_t total = 0;
    for (const auto& entry : after)
      total += entry.second.size();
    if (total > capacity_bytes) return cannot_write(file.path, ENOSPC);
  }
  files = std::move(after);
  return std::nullopt;
}

} // namespace tacksquare
