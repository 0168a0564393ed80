#include "planning/planner/few_pieces.h"

#include <algorithm>
#include <utility>

namespace tacksquare {
namespace {

int pieces_in(const FewestSearch& search, const std::vector<char>& on) {
  int pieces = 0;
  for (std::size_t c = 0; c < on.size(); ++c)
    if (on[c]) pieces += search.candidates[c].pieces;
  return pieces;
}

// Both ways where they differ, throughout first.
std::vector<HeldBy> ways_of(const FewestSearch& search, const std::vector<char>& on) {
  std::vector<HeldBy> ways{{on, true}};
  for (std::size_t c = 0; c < on.size(); ++c)
    if (search.two_ways && on[c] && search.candidates[c].inside) return {{on, true}, {on, false}};
  return ways;
}

// Keeps what is better than what it has.
void weigh(const FewestSearch& search, const std::vector<char>& on, int least, std::optional<Fewest>& best) {
  for (HeldBy& held : ways_of(search, on)) {
    const int beyond = best ? std::max(least, best->kept + 1) : least;
    if (const std::optional<int> kept = search.kept(held, beyond))
      best = {std::move(held), *kept, std::nullopt};
  }
}

Fewest by_elimination(const FewestSearch& search, Fewest held, int least) {
  for (;;) {
    std::optional<Fewest> next;
    for (std::size_t c = 0; c < held.held.on.size(); ++c) {
      if (!held.held.on[c]) continue;
      std::vector<char> less = held.held.on;
      less[c] = false;
      if (search.sets(less)) weigh(search, less, least, next);
    }
    if (!next) return held;
    held = std::move(*next);
  }
}

} // namespace

Fewest fewest_pieces(const FewestSearch& search) {
  const std::size_t n = search.candidates.size();
  std::vector<char> inside, outside;
  for (const Candidate& candidate : search.candidates) {
    inside.push_back(candidate.inside);
    outside.push_back(!candidate.inside);
  }
  std::optional<Fewest> best;
  weigh(search, std::vector<char>(n, true), 0, best);
  const Fewest whole = *best;
  for (const std::vector<char>& some : {inside, outside, std::vector<char>(n, false)})
    if (search.sets(some)) weigh(search, some, 0, best);
  const int least = best->kept - search.lost;
  if (n > kMostExact) return by_elimination(search, whole.kept >= least ? whole : *best, least);
  // By number of pieces, then by id: the first candidates are the highest bits.
  std::vector<std::pair<int, std::vector<char>>> sets;
  for (std::size_t bits = 0; bits < std::size_t{1} << n; ++bits) {
    std::vector<char> on(n);
    for (std::size_t c = 0; c < n; ++c)
      on[c] = (bits >> (n - 1 - c) & 1U) == 0;
    if (bits == 0 || search.sets(on)) sets.emplace_back(pieces_in(search, on), std::move(on));
  }
  std::stable_sort(sets.begin(), sets.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::optional<Fewest> few;
  int smaller = 0;
  for (auto set = sets.begin(); !few;) {
    const auto first = set;
    for (; set != sets.end() && set->first == first->first; ++set)
      weigh(search, set->second, least, few);
    if (few)
      few->smaller = smaller;
    else
      smaller += static_cast<int>(set - first);
  }
  return *few;
}

} // namespace tacksquare
