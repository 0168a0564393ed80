// Outside rows: every row of a table names a function, its arguments, the value that a source outside the
// project gives, the tolerance of that source and its mark.
#pragma once

#include "support/table.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace tacksquare::test {

using Arguments = std::vector<double>;
using Functions = std::map<std::string, std::function<double(const Arguments&)>>;

inline Arguments numbers_in(const std::string& text) {
  Arguments all;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    if (*at == ' ') {
      ++at;
      continue;
    }
    double value = 0.0;
    const auto [next, fault] = std::from_chars(at, end, value);
    if (fault != std::errc{}) FAIL("no number in: " << text);
    all.push_back(value);
    at = next;
  }
  return all;
}

inline void check_rows(const std::string& file, std::size_t count, const Functions& functions) {
  const std::set<std::string> marks = {"published", "standard", "derived", "from memory", "common practice"};
  const Table table(file, {"function", "arguments", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == count);
  std::set<std::string> used;
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const auto function = functions.find(row.text("function"));
    REQUIRE(function != functions.end());
    used.insert(function->first);
    REQUIRE_FALSE(row.empty("source"));
    REQUIRE(marks.count(row.text("mark")) == 1);
    REQUIRE(row.number("tolerance") > 0.0);
    const double got = function->second(numbers_in(row.text("arguments")));
    CAPTURE(got);
    CHECK(std::fabs(got - row.number("value")) <= row.number("tolerance"));
  }
  CHECK(used.size() == functions.size()); // no function without a row
}

} // namespace tacksquare::test
