// A set of files is written whole or not at all; a fault says which file and why.
#include "support/folder.h"

#include "base/files.h"

#include <algorithm>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace tacksquare;
namespace fs = std::filesystem;

namespace {

class Folder : public test::Folder {
 public:
  std::string at(const std::string& name) const { return (path() / name).string(); }
  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(path())) {
      all.push_back(entry.path().lexically_relative(path()).string());
    }
    std::sort(all.begin(), all.end());
    return all;
  }
};

std::string text_of(FileSystem& files, const std::string& path) {
  const auto result = files.read(path, 1000000);
  if (const auto* fault = std::get_if<FileFault>(&result)) return "fault: " + fault->message;
  return std::get<std::string>(result);
}

std::string fault_of(FileSystem& files, const std::string& path, std::size_t limit) {
  const auto result = files.read(path, limit);
  const auto* fault = std::get_if<FileFault>(&result);
  return fault == nullptr ? "no fault" : fault->message;
}

using Names = std::vector<std::string>;

} // namespace

TEST_CASE("the disk gives back what was written, and missing folders are made") {
  const Folder folder;
  DiskFiles disk;
  const std::string bytes("a\0b\n\xff", 5);
  REQUIRE_FALSE(disk.write_all({{folder.at("out/deep/plan.xml"), bytes}, {folder.at("out/sheet.txt"), ""}}));
  CHECK(text_of(disk, folder.at("out/deep/plan.xml")) == bytes);
  CHECK(text_of(disk, folder.at("out/sheet.txt")).empty());
  CHECK(folder.names() == Names{"out", "out/deep", "out/deep/plan.xml", "out/sheet.txt"});
}

TEST_CASE("files that stand there are replaced and leave nothing beside them") {
  const Folder folder;
  DiskFiles disk;
  REQUIRE_FALSE(disk.write_all({{folder.at("a"), "old"}, {folder.at("b"), "old"}}));
  REQUIRE_FALSE(disk.write_all({{folder.at("a"), "new"}, {folder.at("b"), "new"}}));
  CHECK(text_of(disk, folder.at("a")) == "new");
  CHECK(text_of(disk, folder.at("b")) == "new");
  CHECK(folder.names() == Names{"a", "b"});
}

TEST_CASE("a failure at the last file takes back all that came before, replaced files too") {
  const Folder folder;
  DiskFiles disk;
  REQUIRE_FALSE(disk.write_all({{folder.at("kept"), "old"}}));
  fs::create_directory(folder.at("taken"));
  const auto fault = disk.write_all(
      {{folder.at("kept"), "new"}, {folder.at("made/fresh"), "new"}, {folder.at("taken"), "new"}});
  REQUIRE(fault);
  CHECK(fault->path == folder.at("taken"));
  CHECK(fault->message == "cannot write " + folder.at("taken") + ": it is a folder");
  CHECK(fault->remedy == "name a file");
  CHECK(text_of(disk, folder.at("kept")) == "old");
  CHECK(folder.names() == Names{"kept", "taken"});
}

TEST_CASE("a path through a file, a folder of the kernel and a name that is too long cannot be written") {
  const Folder folder;
  DiskFiles disk;
  REQUIRE_FALSE(disk.write_all({{folder.at("file"), "old"}}));
  const auto through = disk.write_all({{folder.at("first"), "x"}, {folder.at("file/sheet.txt"), "x"}});
  REQUIRE(through);
  CHECK(through->message.find("a part of the path is a file, not a folder") != std::string::npos);
  CHECK(
      disk.write_all({{folder.at("first"), "x"}, {"/proc/tacksquare/sheet.txt", "x"}})); // root cannot either
  const auto long_name = disk.write_all({{folder.at("first"), "x"}, {folder.at(std::string(300, 'n')), "x"}});
  REQUIRE(long_name);
  CHECK(long_name->message.find("the path is too long") != std::string::npos);
  CHECK(folder.names() == Names{"file"});
}

TEST_CASE("a folder without permission to write is refused and stays empty") {
  const Folder folder;
  DiskFiles disk;
  fs::create_directory(folder.at("shut"));
  fs::permissions(folder.at("shut"), fs::perms::owner_read | fs::perms::owner_exec);
  // Root may write everywhere: be nobody for a moment.
  constexpr uid_t nobody = 65534;
  const bool root = ::geteuid() == 0;
  if (root) {
    REQUIRE(::chown(folder.at("").c_str(), nobody, nobody) == 0);
    REQUIRE(::chown(folder.at("shut").c_str(), nobody, nobody) == 0);
    REQUIRE(::seteuid(nobody) == 0);
  }
  const auto fault = disk.write_all({{folder.at("first"), "x"}, {folder.at("shut/sheet.txt"), "x"}});
  const bool back = !root || ::seteuid(0) == 0;
  REQUIRE(back);
  REQUIRE(fault);
  CHECK(fault->message == "cannot write " + folder.at("shut/sheet.txt") + ": permission denied");
  CHECK(folder.names() == Names{"shut"});
}

TEST_CASE("a write that breaks off half way leaves nothing") {
  // The limit on the size of a file stands in for a full disk: the same call fails in the same place.
  const Folder folder;
  DiskFiles disk;
  rlimit before{};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
  const auto old_handler = std::signal(SIGXFSZ, SIG_IGN);
  rlimit small = before;
  small.rlim_cur = 1000;
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
  const auto fault = disk.write_all({{folder.at("a"), "x"}, {folder.at("b"), std::string(5000, 'x')}});
  ::setrlimit(RLIMIT_FSIZE, &before);
  std::signal(SIGXFSZ, old_handler);
  REQUIRE(fault);
  CHECK(fault->message == "cannot write " + folder.at("b") + ": the file is larger than the system allows");
  CHECK(folder.names().empty());
}

TEST_CASE("what cannot be read is told: missing, a folder, too long") {
  const Folder folder;
  DiskFiles disk;
  REQUIRE_FALSE(disk.write_all({{folder.at("ten"), "0123456789"}}));
  CHECK(fault_of(disk, folder.at("none"), 10) ==
        "cannot read " + folder.at("none") + ": there is no such file or folder");
  CHECK(fault_of(disk, folder.at(""), 10).find("it is a folder") != std::string::npos);
  CHECK(fault_of(disk, folder.at("ten"), 9) ==
        "cannot read " + folder.at("ten") + ": it is longer than 9 bytes");
  CHECK(fault_of(disk, folder.at("ten"), 10) == "no fault");
  CHECK(fault_of(disk, "/dev/zero", 100000).find("longer than 100000 bytes") != std::string::npos);
}

TEST_CASE("files in memory fail as the disk does, and whole") {
  MemoryFiles memory;
  memory.files["job.xml"] = "<job/>";
  memory.folders.insert("samples");
  memory.refused.insert("shut");
  CHECK(text_of(memory, "job.xml") == "<job/>");
  CHECK(fault_of(memory, "none", 10) == "cannot read none: there is no such file or folder");
  CHECK(fault_of(memory, "samples", 10) == "cannot read samples: it is a folder");
  CHECK(fault_of(memory, "shut", 10) == "cannot read shut: permission denied");
  CHECK(fault_of(memory, "job.xml", 5) == "cannot read job.xml: it is longer than 5 bytes");

  const auto before = memory.files;
  const auto fails = [&memory](const std::string& path) {
    const auto fault = memory.write_all({{"job.xml", "new"}, {path, "new"}});
    return fault ? fault->message : "no fault";
  };
  CHECK(fails("samples") == "cannot write samples: it is a folder");
  CHECK(fails("shut/sheet.txt") == "cannot write shut/sheet.txt: permission denied");
  CHECK(fails("job.xml/sheet.txt") ==
        "cannot write job.xml/sheet.txt: a part of the path is a file, not a folder");
  memory.capacity_bytes = 5;
  CHECK(fails("sheet.txt") == "cannot write sheet.txt: no space left on the disk");
  CHECK(memory.files == before);
  memory.capacity_bytes = 6;
  CHECK(fails("sheet.txt") == "no fault");
  CHECK(text_of(memory, "sheet.txt") == "new");
}

TEST_CASE("names in a folder come in order, none of one that is not there, files of folders below not") {
  const Folder folder;
  DiskFiles disk;
  MemoryFiles memory;
  const std::string at = folder.at("a");
  for (FileSystem* files : {static_cast<FileSystem*>(&disk), static_cast<FileSystem*>(&memory)}) {
    CHECK_FALSE(files->write_all({{at + "/two", ""}, {at + "/one", ""}, {at + "2/three", ""}}));
    CHECK(files->names_in(at) == std::vector<std::string>{"one", "two"});
    CHECK(files->names_in(at + "/nothing").empty());
  }
}

TEST_CASE("whatever has a name exists, also what may not be read or leads nowhere") {
  const Folder folder;
  DiskFiles disk;
  CHECK_FALSE(disk.exists(folder.at("nothing")));
  CHECK(disk.exists(folder.at("")));
  fs::create_symlink(folder.at("nothing"), folder.at("link"));
  CHECK(disk.exists(folder.at("link")));
  MemoryFiles memory;
  memory.files["file"] = "";
  memory.folders = {"folder"};
  memory.refused = {"refused"};
  CHECK_FALSE(memory.exists("nothing"));
  for (const char* name : {"file", "folder", "refused"})
    CHECK(memory.exists(name));
}

TEST_CASE(
    "a device or a pipe, also behind a link, is not replaced by a file, nor is any other file of the set") {
  const Folder folder;
  REQUIRE(::mkfifo(folder.at("pipe").c_str(), 0600) == 0);
  fs::create_symlink(folder.at("pipe"), folder.at("link"));
  DiskFiles disk;
  for (const char* name : {"pipe", "link"}) {
    const auto fault = disk.write_all({{folder.at("a"), "text"}, {folder.at(name), "text"}});
    REQUIRE(fault);
    CHECK(fault->message == "cannot write " + folder.at(name) + ": it is a device or a pipe, not a file");
    CHECK(folder.names() == Names{"link", "pipe"});
  }
}
