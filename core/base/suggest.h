// "did you mean": the nearest of the words that are allowed.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tacksquare {

// Edits between two words (insert, delete, replace, swap of neighbours: optimal string alignment), bytes
// compared without regard to ASCII case. Words longer than 64 bytes are compared by their first 64.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The nearest word, the earlier of equals; nothing when even that is more than a third of the letters away
// (one edit is always allowed, two from four letters on), or shares no letter.
std::optional<std::string> closest(std::string_view word, const std::vector<std::string>& among);

} // namespace tacksquare
