// The fewest pieces that do: a search that knows nothing of boxes.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// What can be left out by itself.
struct Candidate {
  std::string id;
  int pieces = 1; // with what goes with it
  bool inside = false;
};

// Some of the candidates on, in their order; those inside until the welds are cold, or for the tacks alone.
struct HeldBy {
  std::vector<char> on;
  bool throughout = true;
  bool operator==(const HeldBy&) const = default;
};

struct FewestSearch {
  std::vector<Candidate> candidates;
  bool two_ways = false; // it matters whether those inside stay for the welds
  int lost = 0;          // boxes that are nothing
  // Is the box set by these? Not asked of all of them.
  std::function<bool(const std::vector<char>& on)> sets;
  // Boxes that keep all limits; nothing where they are less than `least`.
  std::function<std::optional<int>(const HeldBy& held, int least)> kept;
};

struct Fewest {
  HeldBy held;
  int kept = 0;
  std::optional<int> smaller; // sets of fewer pieces, weighed each way that there is, that all lose more;
                              // nothing: by elimination
};

inline constexpr std::size_t kMostExact = 12; // candidates

// The fewest pieces with which not more than `lost` boxes are lost against the best of: all of them, those
// inside alone, the others alone, none, each way that there is and where they set the box. Of as many pieces
// the set that keeps most, for the welds rather than for the tacks, then by id. Exact up to kMostExact
// candidates, by number of pieces; beyond, all of them less one after the other, the one that is missed least
// (backward elimination).
Fewest fewest_pieces(const FewestSearch& search);

} // namespace tacksquare
