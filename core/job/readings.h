// What was measured on parts and boxes, and what to reckon with where nothing was.
#pragma once

#include "base/diagnostic.h"
#include "base/units.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// Misfit to reckon with, plus or minus; what is left out takes the default of tables/practice.h.
struct Incoming {
  std::optional<Angle> bend;        // angle of a bend against drawn
  std::optional<Length> bend_place; // a bend line against drawn
  std::optional<Length> blank;      // a cut edge to edge size
  Origin where;
};

// A wall's free edge off square to the face that it stands on, by a try square at both ends of the wall.
struct WallLeanReading {
  std::size_t face = 0; // index in Box::faces
  Length one, other;    // outward positive; the end that is left, or under, and the other
  Origin where;
};

struct FitReading {
  std::size_t seam = 0;            // index in Box::seams
  std::vector<Length> gaps, steps; // at 0 mm, the middle and the end of the seam: three, or none
  Origin where;
};

// A part flat as it came from the cutter: against the blank that was ordered.
struct BlankReading {
  std::size_t part = 0;                        // index in Box::parts
  std::optional<Length> length_off, width_off; // larger than ordered: positive
  Origin where;
};

struct ThicknessReading {
  std::size_t sheet = 0;
  Length is;
  Origin where;
};

// Two opposite panels laid on each other: the most that their edges are apart.
struct StackReading {
  std::size_t face_a = 0, face_b = 0;
  Length off;
  Origin where;
};

enum class BuildStage { dry_fit, as_welded, ground };

// The finished or half-finished box, cold. Up to nine widths, heights and depths.
struct SizeReading {
  BuildStage stage = BuildStage::ground;
  std::vector<Length> widths, heights, depths;
  std::optional<Length> diagonal_up_right, diagonal_up_left; // of the opening's face, as seen from the front
  Origin where;
};

// All that was measured on one copy of a box.
struct MeasuredBox {
  std::size_t box = 0; // index in Job::boxes
  int copy = 1;
  std::vector<WallLeanReading> leans;
  std::vector<FitReading> fits;
  std::vector<BlankReading> blanks;
  std::vector<ThicknessReading> thicknesses;
  std::vector<StackReading> stacks;
  std::vector<SizeReading> sizes; // by stage
  Origin where;
};

} // namespace tacksquare
