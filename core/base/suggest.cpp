#include "base/suggest.h"

#include <algorithm>
#include <array>

namespace tacksquare {

namespace {

constexpr std::size_t longest = 64;

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

} // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  a = a.substr(0, longest);
  b = b.substr(0, longest);
  // Three rows of the table of distances between the beginnings of a and b: this one, the last, the one
  // before.
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};
  auto* row = &rows[0];
  auto* last = &rows[1];
  auto* before = &rows[2];
  for (std::size_t j = 0; j <= b.size(); ++j)
    (*row)[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::swap(before, last);
    std::swap(last, row);
    (*row)[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const char x = lower(a[i - 1]);
      const char y = lower(b[j - 1]);
      (*row)[j] = std::min({(*last)[j] + 1, (*row)[j - 1] + 1, (*last)[j - 1] + (x == y ? 0u : 1u)});
      const bool swapped = i > 1 && j > 1 && x == lower(b[j - 2]) && y == lower(a[i - 2]);
      if (swapped) (*row)[j] = std::min((*row)[j], (*before)[j - 2] + 1);
    }
  }
  return (*row)[b.size()];
}

std::optional<std::string> closest(std::string_view word, const std::vector<std::string>& among) {
  const std::size_t least = word.size() >= 4 ? 2 : 1;
  const std::string* best = nullptr;
  std::size_t best_distance = std::max(least, word.size() / 3) + 1;
  for (const std::string& candidate : among) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best_distance && (distance == 0 || distance < word.size())) {
      best = &candidate;
      best_distance = distance;
    }
  }
  if (best == nullptr) return std::nullopt;
  return *best;
}

} // namespace tacksquare
