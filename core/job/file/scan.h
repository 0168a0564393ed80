// A first look at the bytes of a job or fixture file, before the XML parser sees them.
#pragma once

#include "base/diagnostic.h"

#include <cstddef>
#include <string_view>

namespace tacksquare {

inline constexpr std::size_t kDeepestNesting = 64;
inline constexpr std::size_t kMostElements = 200'000;

// What a file holds, for what is told of it.
struct FileKind {
  std::string_view what;    // "job"
  std::string_view root;    // name of the element that holds all
  std::string_view starter; // what to do about an empty file
};
inline constexpr FileKind kJobFile{"job", "tacksquare-job", "\"tacksquare start\" writes a starter job"};
inline constexpr FileKind kFixtureFile{"fixture", "tacksquare-fixture",
                                       "state <tacksquare-fixture down=\"B\" long-side=\"U\"> in it"};

// Refuses what the parser would take without a word or choke on: UTF-16, NUL bytes, a DOCTYPE (and with it
// entities of one's own), nesting deeper than kDeepestNesting, more than kMostElements; finds invalid UTF-8
// and unknown entities. True when the XML parser may go on.
bool scan_text(std::string_view text, const FileKind& kind, Diagnostics& out);

// Length of the UTF-8 sequence at the start of text, 0 when it is not valid (RFC 3629: no overlong forms, no
// surrogates, at most U+10FFFF). Precondition: text is not empty.
std::size_t utf8_length(std::string_view text);

} // namespace tacksquare
