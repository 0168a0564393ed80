// The order of ids wherever "by id" decides.
#pragma once

#include <cstddef>
#include <string_view>

namespace tacksquare {

// Runs of digits compare as numbers, all else byte by byte: S2 before S10. A strict weak order in which only
// equal texts are equal.
inline bool id_before(std::string_view a, std::string_view b) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t i = 0, k = 0;
  while (i < a.size() && k < b.size()) {
    if (digit(a[i]) && digit(b[k])) {
      const auto number = [&](std::string_view text, std::size_t& at) {
        while (at + 1 < text.size() && text[at] == '0' && digit(text[at + 1]))
          ++at;
        const std::size_t from = at;
        while (at < text.size() && digit(text[at]))
          ++at;
        return text.substr(from, at - from);
      };
      const std::string_view x = number(a, i), y = number(b, k);
      if (x.size() != y.size()) return x.size() < y.size();
      if (x != y) return x < y;
    } else {
      const auto left = static_cast<unsigned char>(a[i]), right = static_cast<unsigned char>(b[k]);
      if (left != right) return left < right;
      ++i, ++k;
    }
  }
  if (i < a.size() || k < b.size()) return i == a.size();
  return a < b; // "S01" and "S1"
}

} // namespace tacksquare
