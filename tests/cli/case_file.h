// One-file cases of the command line: tests/data/cli/*.case. A case states a small world of files in memory,
// runs the program in it and holds everything that comes out. Sections begin with "== "; what a section does
// not say must not happen: without "out" nothing may be printed there, without "written" no file may change.
//
//   == rule TEXT             what the case proves; first
//   == file NAME             a file, its text below
//   == sample NAME           samples/NAME of the project, as file NAME
//   == copies N NAME         a file of N bytes
//   == folder NAME           a folder, == refused NAME  a path that may be neither read nor written
//   == room BYTES            how much the disk holds
//   == broken WHERE          disk: each access throws; input: standard input cannot be read
//   == terminal              all three ends are one; == colour; == columns N
//   == arguments             one a line
//   == input [NAME]          standard input, below, or that file's text
//   == exit CODE
//   == out, == err           the whole text; "== out has", "== err has": each line below stands in it, in
//   this order;
//                            "== out lacks": no line below stands in it; "== out golden NAME":
//                            golden/cli/NAME
//   == written               paths of all files that changed, one a line
#pragma once

#include "base/files.h"

#include <string>
#include <vector>

namespace tacksquare::test {

struct Section {
  std::string head; // "out has"
  std::vector<std::string> lines;
  std::string text() const; // the lines, each with its end
};

// Fails the test when the file is none or does not begin with a rule.
std::vector<Section> read_case(const std::string& path);

// What follows "file " in "file NAME"; nothing when the head begins otherwise.
bool begins(const std::string& head, const std::string& word, std::string& rest);

} // namespace tacksquare::test
