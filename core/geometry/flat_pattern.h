// The flat pattern of a part: what is cut, where it is bent, what is etched. Unfolding by DIN 6935, or the
// brake's own deduction where the job states one for this sheet, bend (within 0.5 deg) and radius (within
// 0.1 mm); of several the nearest. All mm; frame: the largest face lies as in its own frame, moved so that
// the pattern's lower left corner is (0, 0). Seen from the outside of the box.
//
// The outside of the box is up on the cutter, and the marks are etched there: who tacks, welds and measures
// stands outside, a closed box shows no other side, and the burr of the cut goes to the inside. Grinding
// takes the ticks when they have served; letters and numbers stand clear of it.
//
// A corner where the zones of two bends of one face cross is cut free: a notch with square corners over both
// zones, each way as deep as the zone and at least r + t, never narrower than t. Where a bend ends beside
// metal that stays flat a slot goes in, t wide and r + t deep, with a square end. Square, because each side
// then lies on the tangent line where the flat begins, and any cutter or corner punch makes it [common
// practice].
#pragma once

#include "base/diagnostic.h"
#include "base/vec.h"
#include "geometry/box_geometry.h"
#include "job/job.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare {

struct FlatBend {
  std::string face_a, face_b; // a is nearer to the largest face
  Vec2 start, end;            // middle of the bent zone, as far as it is bent metal; b lies to the right
  double angle_rad = 0.0;     // turned through; positive: towards the inside of the box
  double radius_mm = 0.0;     // inside
  double flat_mm = 0.0;       // width of the bent zone in the flat: theta (r + k t/2), or by the deduction
  double deduction_mm = 0.0;  // legs to the outer vertex less flat
  bool own_deduction = false; // stated by the job, else DIN 6935
  bool operator==(const FlatBend&) const = default;
};

// Where a face of the box lies in the flat: p of its frame at origin + x p.x + y p.y.
struct FlatFace {
  std::string id;
  Vec2 origin, x{1, 0}, y{0, 1};
  std::vector<Vec2> outline; // in the pattern's frame: as cut, but up to the sharp corner lines of its bends
  std::vector<Vec2> flat;    // in the pattern's frame: what of it stays flat
  Vec2 at(Vec2 p) const { return origin + x * p.x + y * p.y; }
  bool operator==(const FlatFace&) const = default;
};

// Corner of two bends: width is across the first bend of the part, depth across the other. Slot beside a
// bend's end: width along the bend, depth across it.
struct FlatRelief {
  Vec2 at; // middle
  double width_mm = 0.0, depth_mm = 0.0;
  std::vector<Vec2> outline;
  bool operator==(const FlatRelief&) const = default;
};

struct FlatMark {
  std::string kind;       // "face-letter", "seam-number", "tack-tick", "witness"
  std::string text;       // letter or number; the face of a witness mark; empty for a tick
  Vec2 from, to;          // ticks and witness marks: a line; texts: middle at from, read towards to
  double height_mm = 0.0; // of a text
  bool operator==(const FlatMark&) const = default;
};

struct FlatPattern {
  std::string part, sheet;
  double thickness_mm = 0.0;
  std::vector<Vec2> outline; // to cut, counter-clockwise
  std::vector<std::vector<Vec2>> holes;
  std::vector<FlatFace> faces; // the largest first, then as they are bent to it
  std::vector<FlatBend> bends; // as Part::bends
  std::vector<FlatRelief> reliefs;
  std::vector<FlatMark> marks;
  double length_mm = 0.0, width_mm = 0.0; // of the rectangle around it, length along x
  double area_mm2 = 0.0, mass_kg = 0.0;
  Vec2 centroid;
  double tolerance_mm = 0.0; // that the order should state, edge to edge
  bool operator==(const FlatPattern&) const = default;
};

// Where tacks go, for the ticks: seam id and mm along it.
using TackPlaces = std::vector<std::pair<std::string, double>>;

// As Box::parts. Precondition: resolve_geometry told no error of this box (its errors go to out again, and
// there are no patterns). Faults: a pattern that falls into pieces, and none is given; caution: a hole in a
// bent zone.
std::vector<FlatPattern> flat_patterns(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       const TackPlaces& tacks, Diagnostics& out);

// A size to cut or to look for, for a list: key says what it is, `of` whose.
struct FlatDimension {
  std::string key; // "length", "width", "face-along-x", "face-along-y", "bend-from-left", "bend-from-lower",
                   // "bend-zone", "bend-deduction", "relief-width", "relief-depth", "hole-diameter",
                   // "hole-along-x", "hole-along-y", "hole-from-left", "hole-from-lower", "witness-diagonal"
  std::string of;  // face, bend ("1 B-L"), number of relief or hole; empty: the pattern
  double mm = 0.0;
  bool operator==(const FlatDimension&) const = default;
};
std::vector<FlatDimension> flat_dimensions(const FlatPattern& pattern);

// Middle and diameter of a hole that stands for a round one (job/forms.h, round_hole).
std::optional<std::pair<Vec2, double>> circle_of(const std::vector<Vec2>& hole);

// The faces' outlines in space again, folded over the bends from the flat: the largest face where the box has
// it, all others from the pattern alone. For the check that unfolding loses nothing.
std::vector<std::vector<Vec3>> refolded(const Box& box, const FlatPattern& pattern); // as FlatPattern::faces

} // namespace tacksquare
