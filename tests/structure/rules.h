// The rules of docs/design.md that can be read off the sources.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace structure {

// path: from the project's folder, "core/job/job.h".
struct SourceFile {
  std::string path;
  std::string text;
};

struct Room {
  std::set<std::string> may_include;
  std::string library; // empty: none of its own
  bool operator==(const Room&) const = default;
};

struct RoomTable {
  std::vector<std::string> order; // as the rows stand
  std::map<std::string, Room> rooms;
};

// The table headed "| room | holds | may include | library |" of a Markdown text; empty when there is none.
RoomTable read_room_table(const std::string& markdown);

// The calls tacksquare_room(<room> <room | package::target>...) of a CMakeLists.txt: room to rooms that it
// links.
std::map<std::string, std::set<std::string>> read_room_links(const std::string& cmake);

// "core/job/file/read_job.cpp" is in the room "job/file", "cli/main.cpp" in "cli".
std::string room_of(const std::string& path);

// One line for each thing that a file of core/ or cli/ does against the rules, with file and line.
std::vector<std::string> broken_rules(const SourceFile& file, const RoomTable& table);

constexpr int kMostLines = 450;
int line_count(const std::string& text);

} // namespace structure
