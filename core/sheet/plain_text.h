// UTF-8 text for a terminal or a page.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tacksquare {

// Valid UTF-8 that can do no harm where it is printed: bytes that are none, control characters and marks that
// turn the direction of text become U+FFFD; tab and line breaks become a space.
std::string cleaned(std::string_view text);

// Columns on a terminal: none for combining marks, two for wide signs. Precondition: cleaned.
int columns_of(std::string_view text);

// Lines of at most that many columns, broken at spaces; a longer word is broken where it must be. Runs of
// spaces become one. At least one line, which may be empty. Precondition: columns >= 2.
std::vector<std::string> wrapped(std::string_view text, int columns);

// Filled up with spaces to that many columns.
std::string padded(std::string text, int columns);

} // namespace tacksquare
