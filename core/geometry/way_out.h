// Whether a rigid thing that sits in a box, a former say, can be taken out again, mm.
#pragma once

#include "geometry/metal.h"
#include "geometry/solid.h"

#include <cstddef>
#include <vector>

namespace tacksquare {

struct InTheWay {
  std::size_t face = 0;
  double after_mm = 0.0; // how far the thing moves until it stands against that face; 0: it does already
};

// The faces that a thing of blocks runs into when it is moved straight on, without end, nearest first, ties
// by face. Exact for flat plates: each is cut into convex pieces, and a moving block meets one of them while
// no direction of the 15 kinds parts them (as `depth`; Gottschalk and others 1996), which gives the distance
// in closed form. Cut-outs let a thing through; vents are taken as metal. What is cut no deeper than slack_mm
// is only touched. Precondition: `direction` is unit.
std::vector<InTheWay> in_the_way(const BoxMetal& metal, const std::vector<Solid>& thing, Vec3 direction,
                                 double slack_mm);

enum class Way { straight, turned, none };

struct WayOut {
  Way way = Way::none;
  std::vector<InTheWay> straight_on; // what is in the way of straight
  // Turned: first pushed in so far, then turned about so much round its middle; about that axis of its first
  // block, as a right-hand screw.
  double pushed_mm = 0.0, turned_rad = 0.0;
  std::size_t axis = 0;
};

// Tries straight along `outward`; then turned by 5, 10 to 90 degrees about one of the three axes of its first
// block, where it sits or pushed in by a quarter, a half, three quarters of the room behind it or all of it,
// and straight from there: the first that goes, with the least push. Turning is followed in steps that are
// shorter than the room left, but not under 0.2 mm: between two steps up to 0.1 mm more than the slack may be
// cut unseen. None says that these simple ways do not go; a hand that tilts and pulls at once may find
// another. Precondition: `outward` is unit; slack_mm is 0 or more.
WayOut way_out(const BoxMetal& metal, const std::vector<Solid>& thing, Vec3 outward, double slack_mm);

} // namespace tacksquare
