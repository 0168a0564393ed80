// The fixture of a box as the plan holds it: what goes where on the table, on which metal, and whether the
// shop has it. Points of `table` are in the fixture's frame (job/fixture.h), those of `at` in the box's, mm.
#pragma once

#include "base/band.h"
#include "base/vec.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// A piece in its place. Numbers that a kind does not have are 0.
struct PlannedPiece {
  std::string id, kind;           // kind: word of the job file, "bar-clamp"
  std::vector<Vec3> table, at;    // where it touches metal, or the corner that it sits in
  std::vector<std::string> faces; // that it touches; of a bar clamp as `table`
  Vec3 towards;     // stop, support, hold-down: unit, from the piece to the part; fixture's frame
  std::string seam; // backing bar: behind it
  double from_mm = 0.0, to_mm = 0.0;      // along that seam
  double width_mm = 0.0, height_mm = 0.0; // former
  double below_mm = 0.0;                  // former: below the rim
  double clip_mm = 0.0;                   // former: off its corners
  double size_mm = 0.0;                   // square, corner clamp: arm; backing bar: width
  double foot_mm = 0.0;                   // side of the square that it covers on the metal or table
  double force_N = 0.0;                   // clamps: pressed with
  double needs_N = 0.0;                   // clamps: so much at least, or a wall comes off what holds it
  // Hold-downs that press the box onto the table: what it carries under them beside the box's weight.
  std::optional<Band> table_N;
  // Clamps, at the worst of their places: how far the wall slides along the piece if nothing holds it, what
  // would stop that, and that over force_N: sticks up to FrictionPractice::steel_on_steel.
  double slide_mm = 0.0, stops_N = 0.0, friction = 0.0;
  std::string leaves;        // why it goes before the rest: "torch", "grinder", "turn"; empty: it stays
  std::string leaves_before; // id of the run that it would be in the way of; empty: stays
  bool operator==(const PlannedPiece&) const = default;
};

// How well stops and supports fix the box on the table.
struct PlannedLocating {
  std::vector<std::string> six; // of the pieces: three supports (or "table"), two stops, one stop
  int rank = 0;
  double determinant_mm3 = 0.0;
  double error_mm = 0.0; // of each place
  double worst_mm = 0.0; // what a corner of the box moves by then, at worst
  double turn_deg = 0.0; // what the two stops turn it by then, at worst
  bool operator==(const PlannedLocating&) const = default;
};

// So many of one kind are needed; owned: nothing when the job does not say what the shop owns.
struct BillLine {
  std::string kind;
  double size_mm = 0.0; // bar clamp: to open so wide; square: arm; spreader, backing bar: length; else 0
  int wanted = 0;
  std::optional<int> owned;
  bool operator==(const BillLine&) const = default;
};

// The box held by more or by less: how many of a hundred keep all limits, by a coarser net than the figures.
struct FixtureCompared {
  // "throughout": by all that could be left out; "for-tacks": the same, what is inside out before the first
  // weld; "none": by nothing of it; "rim-alone": by what is inside alone, told where that is worse than none;
  // "as-planned", "as-planned-for-tacks": by what is planned, where that is none of these; "without": by what
  // is planned, one piece less.
  std::string key;
  std::string without; // its id
  int pieces = 0;
  double kept = 0.0;
  bool chosen = false;
  bool operator==(const FixtureCompared&) const = default;
};

struct FixturePlan {
  std::string name;
  bool stated = false;                     // by the job or a file of its own; else the planner's
  std::string down, long_side, short_side; // faces; down may be "rim"
  Vec3 origin, x, y, z;                    // of its frame, in the box's frame
  Vec3 size_mm;                            // of the box as it lies, along x, y, z
  std::optional<Vec2> table_mm;            // where the job states a table
  std::vector<PlannedPiece> pieces;        // in the order in which they go on
  PlannedLocating locating;
  std::vector<BillLine> bill;            // what is missing first
  std::vector<FixtureCompared> compared; // none where it was stated, or not weighed
  std::optional<int> smaller_weighed{};  // sets of fewer pieces, all weighed, none of which keeps as much;
                                         // nothing where pieces were left out one after the other
  bool operator==(const FixturePlan&) const = default;
};

} // namespace tacksquare
