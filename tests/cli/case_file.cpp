#include "cli/case_file.h"

#include "support/catch.h"

#include <fstream>

namespace tacksquare::test {

std::string Section::text() const {
  std::string all;
  for (const std::string& line : lines)
    all += line + "\n";
  return all;
}

std::vector<Section> read_case(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) FAIL("cannot read " << path);
  std::vector<Section> sections;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("== ", 0) == 0)
      sections.push_back({line.substr(3), {}});
    else if (!sections.empty())
      sections.back().lines.push_back(line);
    else
      FAIL(path << " does not begin with a section");
  }
  std::string rule;
  if (sections.empty() || !begins(sections.front().head, "rule", rule) || rule.empty())
    FAIL(path << " does not begin with its rule");
  return sections;
}

bool begins(const std::string& head, const std::string& word, std::string& rest) {
  if (head.rfind(word + " ", 0) != 0) return false;
  rest = head.substr(word.size() + 1);
  return true;
}

} // namespace tacksquare::test
