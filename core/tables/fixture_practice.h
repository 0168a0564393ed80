// Defaults of the trade for what holds a part on the table, and for the room that torch and grinder need. All
// common practice without a source but for the friction; a job may state its own.
#pragma once

#include "base/band.h"
#include "base/units.h"
#include "tables/settings.h"

namespace tacksquare {

// Torch and grinder at a seam.
struct ToolPractice {
  Length nozzle;      // outside diameter
  Angle torch_lean;   // along the seam
  Length torch_reach; // of nozzle and neck
  Length disc;        // diameter
  Length grinder;     // head and hand above the disc
  Source source;
};
const ToolPractice& tool_practice(); // 20 mm, 15 deg, 120 mm, 115 mm, 90 mm

// Where things go on the table.
struct LocatorPractice {
  Length inset; // of stops and supports from the ends of a side
  Length up;    // a stop touches so far above the table: where a wall is still stiff
  Length slack; // what touches may stand so far off, or in, as drawn
  Length error; // 90 %: how true a stop is set, with a square and a steel rule
  Source source;
};
const LocatorPractice& locator_practice(); // 50 mm, 20 mm, 1 mm, 0.2 mm

struct ClampPractice {
  Span<Length> pitch;           // along what has to be held level: 50-150
  Length arm;                   // of a corner clamp, on each face
  Length foot;                  // side of the square that a jaw, a stop or a pad covers
  Length stands_off;            // of screw and frame, off the metal
  Length takes_up;              // its screw closes so much air before the metal
  Force hold_down, bar, corner; // by hand
  Source source;
};
const ClampPractice& clamp_practice(); // 50-150 mm, 60 mm, 40 mm, 60 mm, 5 mm, 1, 2 and 1 kN

// Where a clamp presses sheet against steel.
struct FrictionPractice {
  double steel_on_steel; // dry
  Source source;
};
const FrictionPractice& friction_practice(); // 0.2

// What a helper does without a tool.
struct HandPractice {
  Force push; // against a wall, while the other tacks
  Source source;
};
const HandPractice& hand_practice(); // 50 N

struct FormerPractice {
  Span<Length> under; // smaller than the box inside: 0.5-1, the wedge takes it up
  Length clip;        // off its corners, clear of the seams
  Length bar;         // its section, square
  Source source;
};
const FormerPractice& former_practice(); // 0.5-1 mm, 20 mm, 25 mm

} // namespace tacksquare
