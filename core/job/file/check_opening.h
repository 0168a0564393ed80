// Readings of an opening, or of a box, against each other.
#pragma once

#include "job/file/reading.h"
#include "job/opening.h"

#include <array>
#include <string>
#include <vector>

namespace tacksquare {

// Readings of one size with their places.
struct SaidLines {
  std::array<std::vector<Said<Length>>, 3> lines;
  Origin where; // of their element
};

struct OpeningSaid {
  SaidLines widths, heights, depths;
  Origin diagonals, plumb;
};

// What is to be done about a reading that cannot be right.
inline constexpr const char* kMeasureAgain = "a slip of the tape or the pen? Measure again";

// Reports readings that are further than 5 % off the others, slips of the tape or the pen, and returns them.
// what: "width".
std::vector<Said<Length>> check_alike(const std::vector<Said<Length>>& readings, const std::string& what,
                                      Severity severity, Diagnostics& out);

// Widths, plumb, floor and diagonals that no opening can have all at once.
void check_opening(const HardOpening& opening, const OpeningSaid& said, Diagnostics& out);

} // namespace tacksquare
