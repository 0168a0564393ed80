// A word of a file with its place, and how messages show it.
#pragma once

#include "base/diagnostic.h"

#include <string>
#include <string_view>
#include <vector>

namespace tacksquare {

struct Word {
  std::string text;
  Origin where;
};

// Text of the file as a message shows it: in double quotes, clipped, control characters made visible.
std::string quoted(std::string_view text);

// "did you mean "S1"", or the list of what there is; empty when there is nothing.
std::string suggestion(std::string_view word, const std::vector<std::string>& known);

} // namespace tacksquare
