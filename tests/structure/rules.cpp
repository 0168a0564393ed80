#include "structure/rules.h"

#include <algorithm>
#include <array>
#include <sstream>

namespace structure {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    lines.push_back(line);
  return lines;
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream in(text);
  for (std::string word; in >> word;)
    words.push_back(word);
  return words;
}

std::vector<std::string> cells_of(const std::string& row) {
  std::vector<std::string> cells;
  std::istringstream in(row);
  std::string cell;
  std::getline(in, cell, '|'); // before the first bar
  while (std::getline(in, cell, '|')) {
    std::string joined;
    for (const auto& word : words_of(cell))
      joined += (joined.empty() ? "" : " ") + word;
    cells.push_back(joined);
  }
  return cells;
}

// What stands between the quotes or angles of an #include; empty when the line is none.
std::string included_by(const std::string& line, char open, char close) {
  const auto hash = line.find_first_not_of(" \t");
  if (hash == std::string::npos || line[hash] != '#') return {};
  const auto word = line.find_first_not_of(" \t", hash + 1);
  if (word == std::string::npos || line.compare(word, 7, "include") != 0) return {};
  const auto from = line.find_first_not_of(" \t", word + 7);
  if (from == std::string::npos || line[from] != open) return {};
  const auto to = line.find(close, from + 1);
  return to == std::string::npos ? std::string() : line.substr(from + 1, to - from - 1);
}

// How the headers of a library begin, and its name in the table.
constexpr std::array<std::pair<const char*, const char*>, 4> kLibraries{
    {{"pugi", "pugixml"}, {"boost/", "boost"}, {"CGAL/", "CGAL"}, {"CLI/", "CLI"}}};

} // namespace

RoomTable read_room_table(const std::string& markdown) {
  const std::vector<std::string> head{"room", "holds", "may include", "library"};
  RoomTable table;
  bool inside = false;
  for (const auto& line : lines_of(markdown)) {
    const auto cells = cells_of(line);
    if (!inside) {
      inside = cells == head;
      continue;
    }
    if (cells.size() != head.size()) break;
    if (cells[0].rfind("---", 0) == 0) continue;
    Room room;
    if (cells[2] != "-")
      for (const auto& name : words_of(cells[2]))
        room.may_include.insert(name);
    if (cells[3] != "-") room.library = cells[3];
    table.order.push_back(cells[0]);
    table.rooms[cells[0]] = room;
  }
  return table;
}

std::map<std::string, std::set<std::string>> read_room_links(const std::string& cmake) {
  std::map<std::string, std::set<std::string>> links;
  const std::string call = "\ntacksquare_room(";
  for (auto at = cmake.find(call); at != std::string::npos; at = cmake.find(call, at + 1)) {
    const auto from = at + call.size();
    const auto words = words_of(cmake.substr(from, cmake.find(')', from) - from));
    if (words.empty()) continue;
    auto& rooms = links[words[0]];
    for (std::size_t i = 1; i < words.size(); ++i)
      if (words[i].find("::") == std::string::npos) rooms.insert(words[i]);
  }
  return links;
}

std::string room_of(const std::string& path) {
  const auto folder = path.substr(0, path.rfind('/'));
  return folder.rfind("core/", 0) == 0 ? folder.substr(5) : folder;
}

std::vector<std::string> broken_rules(const SourceFile& file, const RoomTable& table) {
  std::vector<std::string> broken;
  const auto here = room_of(file.path);
  const auto found = table.rooms.find(here);
  if (found == table.rooms.end()) return {file.path + ": the folder is no room of docs/design.md"};
  const Room& room = found->second;

  int number = 0;
  for (const auto& line : lines_of(file.text)) {
    const auto place = file.path + ":" + std::to_string(++number) + ": ";
    if (const auto own = included_by(line, '"', '"'); !own.empty()) {
      const auto slash = own.rfind('/');
      const auto there = slash == std::string::npos ? std::string() : own.substr(0, slash);
      if (there.empty())
        broken.push_back(place + "\"" + own + "\" is included without its room");
      else if (there != here && room.may_include.count(there) == 0)
        broken.push_back(place + here + " may not include " + there);
    }
    if (const auto foreign = included_by(line, '<', '>'); !foreign.empty())
      for (const auto& [begin, library] : kLibraries)
        if (foreign.rfind(begin, 0) == 0 && room.library != library)
          broken.push_back(place + here + " may not include the library " + library);
    if (line.find("std::unordered_") != std::string::npos)
      broken.push_back(place + "an unordered container: its order differs from machine to machine");
  }
  if (number > kMostLines)
    broken.push_back(file.path + ": " + std::to_string(number) + " lines, more than " +
                     std::to_string(kMostLines));
  return broken;
}

int line_count(const std::string& text) {
  return static_cast<int>(lines_of(text).size());
}

} // namespace structure
