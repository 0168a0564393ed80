// The picture in docs/design.md and the sources say the same.
#include "structure/rules.h"
#include "support/catch.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

using namespace structure;

namespace {

const std::filesystem::path project = TACKSQUARE_SOURCE;

std::string read(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// The sources below a folder of the project, by path.
std::vector<SourceFile> sources_below(const std::string& folder) {
  std::vector<SourceFile> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(project / folder)) {
    const auto kind = entry.path().extension();
    if (kind == ".h" || kind == ".cpp")
      files.push_back(
          {std::filesystem::relative(entry.path(), project).generic_string(), read(entry.path())});
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

std::vector<SourceFile> sources() {
  auto files = sources_below("core");
  const auto cli = sources_below("cli");
  files.insert(files.end(), cli.begin(), cli.end());
  return files;
}

RoomTable design() {
  return read_room_table(read(project / "docs" / "design.md"));
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const auto& line : lines)
    text += line + "\n";
  return text;
}

const char* const small_table = "# Rooms\n"
                                "\n"
                                "| room | holds | may include | library |\n"
                                "|---|---|---|---|\n"
                                "| base | units | - | - |\n"
                                "| job | values | base | - |\n"
                                "| job/file | XML | base job | pugixml |\n"
                                "\n"
                                "| room | of another table |\n";

std::vector<std::string> broken(const std::string& path, const std::string& text) {
  return broken_rules({path, text}, read_room_table(small_table));
}

} // namespace

TEST_CASE("the table of rooms is read as it stands, and no other table with it") {
  const auto table = read_room_table(small_table);
  CHECK(table.order == std::vector<std::string>{"base", "job", "job/file"});
  CHECK(table.rooms.at("base") == Room{{}, ""});
  CHECK(table.rooms.at("job/file") == Room{{"base", "job"}, "pugixml"});
}

TEST_CASE("the rooms that a room links are read from CMake, packages left out") {
  const auto links =
      read_room_links("function(tacksquare_room folder)\nendfunction()\n"
                      "tacksquare_room(base fmt::fmt)\ntacksquare_room(job/file base\n  job)\n");
  CHECK(links == std::map<std::string, std::set<std::string>>{{"base", {}}, {"job/file", {"base", "job"}}});
}

TEST_CASE("each broken rule is found, with its line") {
  CHECK(broken("core/job/job.h", "#include \"base/units.h\"\n#include \"job/forms.h\"\n#include <vector>\n")
            .empty());
  CHECK(broken("core/base/units.h", "// first\n#include \"job/job.h\"\n") ==
        std::vector<std::string>{"core/base/units.h:2: base may not include job"});
  CHECK(broken("core/job/job.h", "#  include \"job/file/read_job.h\"\n") ==
        std::vector<std::string>{"core/job/job.h:1: job may not include job/file"});
  CHECK(broken("core/job/job.h", "#include \"forms.h\"\n") ==
        std::vector<std::string>{"core/job/job.h:1: \"forms.h\" is included without its room"});
  CHECK(broken("core/job/job.cpp", "#include <pugixml.hpp>\n") ==
        std::vector<std::string>{"core/job/job.cpp:1: job may not include the library pugixml"});
  CHECK(broken("core/job/file/read_job.cpp", "#include <pugixml.hpp>\n").empty());
  CHECK(broken("core/base/hash.h", "std::unordered_map<int, int> m;\n").size() == 1);
  CHECK(broken("core/attic/old.h", "").size() == 1);
}

TEST_CASE("a file may have 450 lines and no more") {
  std::string text;
  for (int i = 0; i < kMostLines; ++i)
    text += "\n";
  CHECK(broken("core/job/job.cpp", text).empty());
  CHECK(broken("core/job/job.cpp", text + "\n") ==
        std::vector<std::string>{"core/job/job.cpp: 451 lines, more than 450"});
}

TEST_CASE("core and cli keep the rules of docs/design.md") {
  const auto table = design();
  const auto files = sources();
  REQUIRE(files.size() > table.order.size()); // all of them were read
  std::vector<std::string> all;
  for (const auto& file : files) {
    const auto found = broken_rules(file, table);
    all.insert(all.end(), found.begin(), found.end());
  }
  INFO(joined(all));
  CHECK(all.empty());
}

TEST_CASE("a row of docs/design.md names only rooms above it, so no room includes itself in a circle") {
  const auto table = design();
  REQUIRE(table.order.size() > 2);
  std::set<std::string> above;
  for (const auto& name : table.order) {
    for (const auto& included : table.rooms.at(name).may_include) {
      INFO(name << " may include " << included);
      CHECK(above.count(included) == 1);
    }
    CHECK(above.insert(name).second);
  }
}

TEST_CASE("docs/design.md has each room that has files, and no other") {
  const auto table = design();
  std::set<std::string> with_files;
  for (const auto& file : sources())
    with_files.insert(room_of(file.path));
  CHECK(with_files == std::set<std::string>(table.order.begin(), table.order.end()));
}

TEST_CASE("core/CMakeLists.txt links each room to exactly what docs/design.md lets it include") {
  const auto links = read_room_links(read(project / "core" / "CMakeLists.txt"));
  const auto table = design();
  CHECK(links.size() + 1 == table.rooms.size()); // cli has a CMakeLists.txt of its own
  for (const auto& [name, linked] : links) {
    INFO(name);
    REQUIRE(table.rooms.count(name) == 1);
    CHECK(linked == table.rooms.at(name).may_include);
  }
}

TEST_CASE("cli/CMakeLists.txt links the program to exactly what docs/design.md lets it include") {
  std::istringstream words(read(project / "cli" / "CMakeLists.txt"));
  std::set<std::string> linked;
  for (std::string word; words >> word;)
    if (word.rfind("tacksquare_", 0) == 0 && word.rfind("tacksquare_cli", 0) != 0 &&
        word != "tacksquare_flags")
      linked.insert(word);
  const auto table = design();
  std::set<std::string> wanted;
  for (auto name : table.rooms.at("cli").may_include) {
    std::replace(name.begin(), name.end(), '/', '_');
    wanted.insert("tacksquare_" + name);
  }
  CHECK(linked == wanted);
}

TEST_CASE("tests keep to the same length of file") {
  for (const auto& file : sources_below("tests")) {
    INFO(file.path);
    CHECK(line_count(file.text) <= kMostLines);
  }
}
