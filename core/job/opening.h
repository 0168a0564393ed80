// The hard opening that the boxes go into, side by side, as the job states it. Lengths as measured on site.
#pragma once

#include "base/diagnostic.h"
#include "base/units.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// Readings of one size at up to three lines of up to three places. Widths: lines top, middle, under, each
// from front to back. Heights: left, middle, right, each from front to back. Depths: left, middle, right,
// each from top to under.
using NineReadings = std::array<std::vector<Length>, 3>;

enum class OpeningSide { left, right, top, floor, back };

// Something that stands into the opening: rivet or weld heads, a door, a pipe. Its place along a side is a
// span; absent: all of it.
struct Obstacle {
  std::string name; // "rivet heads"
  OpeningSide side = OpeningSide::left;
  Length proud;               // how far it stands in
  std::optional<Length> from; // from the floor on, for left, right and back; from the left on, for top and
                              // floor
  std::optional<Length> to;
  Origin where;
};

// How a box gets to its place.
enum class WayIn {
  slide, // from the front, upright
  lower, // from above
  tip    // foot first, leaning to the front, then swung upright
};

// One box of the row.
struct RowPlace {
  std::size_t box = 0;           // index in Job::boxes
  int copy = 1;                  // 1 to Box::count
  Length gap;                    // wanted between it and the one on its left (the first: the left side)
  bool keep_size = false;        // is made as stated: others give way
  bool cut_last = false;         // is cut when the others stand: to suit what is left
  std::optional<Length> coating; // per face, where it is not the opening's
  std::optional<WayIn> entry;    // where it is not the opening's
  Origin where;
};

// What the target sizes are reckoned by.
enum class TargetRule { chance, root_sum_square, worst_case };

struct HardOpening {
  std::string name;                     // "ALCOVE 2"
  NineReadings widths, heights, depths; // at least one width
  Origin widths_where, heights_where, depths_where;
  std::optional<Length> diagonal_up_right; // of the front face, from the left foot to the right top
  std::optional<Length> diagonal_up_left;  // from the right foot to the left top
  std::optional<Length> plumb_left,
      plumb_right;                  // how far the top of the side stands into the opening against
                                    // its foot, by the plumb line; away from it: negative
  std::optional<Length> floor_rise; // right end of the floor above its left end; below: negative
  std::vector<Obstacle> obstacles;
  WayIn entry = WayIn::slide;
  std::optional<Angle> tip_from;            // lean at which a tipped box goes in; absent: as far as it takes
  std::vector<RowPlace> row;                // from left to right, as seen from the front
  Length clearance;                         // wanted over the whole width when all stand in it
  Length clearance_height, clearance_depth; // the same over one box
  Length coating;                           // paint or powder per face of a box, put on after the last check
  std::optional<Length> coating_least, coating_most;
  std::optional<Length> allowance; // per box, for belly and proud corners; absent: computed
  double chance = 0.95;            // wanted, that the row goes in
  TargetRule by = TargetRule::chance;
  Origin where;
};

} // namespace tacksquare
