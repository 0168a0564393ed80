// The command line does what its cases say: what is printed, what is written, and the exit code.
#include "cli/case_file.h"
#include "cli/run.h"
#include "support/catch.h"
#include "support/golden.h"

#include <filesystem>
#include <map>
#include <memory>
#include <set>
#include <sstream>
#include <stdexcept>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr std::size_t kCases = 74; // as many as there are files: an empty folder must fail

struct BrokenDisk : FileSystem {
  std::variant<std::string, FileFault> read(const std::string&, std::size_t) override { fail(); }
  bool exists(const std::string&) override { fail(); }
  std::vector<std::string> names_in(const std::string&) override { fail(); }
  std::optional<FileFault> write_all(const std::vector<FileToWrite>&) override { fail(); }
  [[noreturn]] static void fail() { throw std::runtime_error("the disk has a bug"); }
};

std::string sample(const std::string& name) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE) + "/samples/" + name, std::ios::binary);
  if (!in) FAIL("no sample " << name);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

struct Result {
  int exit = -1;
  std::string out, err;
  std::set<std::string> written; // new or changed
};

// Runs in the world that the sections state.
Result run_case(const std::vector<Section>& sections) {
  MemoryFiles files;
  BrokenDisk broken;
  bool disk_is_broken = false;
  bool input_is_broken = false;
  std::istringstream in;
  std::ostringstream out, err;
  Console console{in, out, err, files};
  std::vector<std::string> arguments;
  for (const Section& section : sections) {
    std::string rest;
    if (begins(section.head, "file", rest))
      files.files[rest] = section.text();
    else if (begins(section.head, "sample", rest))
      files.files[rest] = sample(rest);
    else if (begins(section.head, "copies", rest))
      files.files[rest.substr(rest.find(' ') + 1)] = std::string(std::stoul(rest), 'x');
    else if (begins(section.head, "folder", rest))
      files.folders.insert(rest);
    else if (begins(section.head, "refused", rest))
      files.refused.insert(rest);
    else if (begins(section.head, "room", rest))
      files.capacity_bytes = std::stoul(rest);
    else if (begins(section.head, "columns", rest))
      console.columns = std::stoi(rest);
    else if (section.head == "broken disk")
      disk_is_broken = true;
    else if (section.head == "broken input")
      input_is_broken = true;
    else if (section.head == "colour")
      console.colour = true;
    else if (section.head == "terminal")
      console.in_is_terminal = console.out_is_terminal = console.err_is_terminal = true;
    else if (section.head == "arguments")
      arguments = section.lines;
    else if (begins(section.head, "input", rest))
      in.str(files.files.at(rest));
    else if (section.head == "input")
      in.str(section.text());
    else if (section.head.rfind("rule ", 0) != 0 && section.head.rfind("exit ", 0) != 0 &&
             section.head.rfind("out", 0) != 0 && section.head.rfind("err", 0) != 0 &&
             section.head != "written")
      FAIL("no such section: " << section.head);
  }
  if (input_is_broken) in.setstate(std::ios::badbit);
  const auto before = files.files;
  Console end{in, out, err, disk_is_broken ? static_cast<FileSystem&>(broken) : files};
  end.in_is_terminal = console.in_is_terminal;
  end.out_is_terminal = console.out_is_terminal;
  end.err_is_terminal = console.err_is_terminal;
  end.colour = console.colour;
  end.columns = console.columns;
  Result result;
  result.exit = run(arguments, end);
  result.out = out.str();
  result.err = err.str();
  for (const auto& [path, bytes] : files.files) {
    const auto old = before.find(path);
    if (old == before.end() || old->second != bytes) result.written.insert(path);
  }
  return result;
}

// Each line stands in the text, one behind the other.
void check_has(const std::string& where, const std::string& text, const std::vector<std::string>& lines) {
  REQUIRE_FALSE(lines.empty());
  std::size_t from = 0;
  for (const std::string& line : lines) {
    const auto found = text.find(line, from);
    if (found == std::string::npos)
      FAIL_CHECK(where << " lacks, behind the lines before it: " << line << "\n--- it is\n"
                       << text.substr(0, 4000));
    else
      from = found + line.size();
  }
}

// True when the section says what the text must be.
bool judge(const Section& section, const std::string& where, const std::string& text) {
  std::string golden;
  if (section.head == where)
    CHECK(text == section.text());
  else if (section.head == where + " has")
    check_has(where, text, section.lines);
  else if (section.head == where + " lacks")
    for (const std::string& line : section.lines) {
      INFO(where << " must lack: " << line);
      CHECK(text.find(line) == std::string::npos);
    }
  else if (begins(section.head, where + " golden", golden))
    check_golden("cli/" + golden, text);
  else
    return false;
  return section.head != where + " lacks";
}

void check_case(const std::vector<Section>& sections) {
  const Result result = run_case(sections);
  int exits = 0;
  bool out_judged = false;
  bool err_judged = false;
  std::set<std::string> written;
  for (const Section& section : sections) {
    std::string rest;
    out_judged = judge(section, "out", result.out) || out_judged;
    err_judged = judge(section, "err", result.err) || err_judged;
    if (section.head == "written") written.insert(section.lines.begin(), section.lines.end());
    if (!begins(section.head, "exit", rest)) continue;
    ++exits;
    INFO("err: " << result.err.substr(0, 2000));
    CHECK(std::to_string(result.exit) == rest);
  }
  CHECK(exits == 1);
  CHECK(result.written == written);
  if (!out_judged) CHECK(result.out == "");
  if (!err_judged) CHECK(result.err == "");
}

} // namespace

TEST_CASE("each case of the command line holds") {
  std::set<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(TACKSQUARE_TEST_DATA) + "/cli"))
    if (entry.path().extension() == ".case") paths.insert(entry.path().string());
  REQUIRE(paths.size() == kCases);
  for (const std::string& path : paths) {
    const std::vector<Section> sections = read_case(path);
    DYNAMIC_SECTION(std::filesystem::path(path).stem().string() << ": " << sections.front().head.substr(5)) {
      check_case(sections);
    }
  }
}
