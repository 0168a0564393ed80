// The flat pattern of a part: what is cut, where it is bent, what is etched. Unfolding by DIN 6935, or the
// brake's own deduction where the job states one. All mm; frame: the largest face lies as in its own frame,
// moved so that the pattern's lower left corner is (0, 0). Seen from the outside of the box.
#pragma once

#include "base/diagnostic.h"
#include "base/vec.h"
#include "geometry/box_geometry.h"
#include "job/job.h"

#include <string>
#include <utility>
#include <vector>

namespace tacksquare {

struct FlatBend {
  std::string face_a, face_b; // a is nearer to the largest face
  Vec2 start, end;            // middle of the bent zone
  double angle_rad = 0.0;     // turned through; positive: towards the inside of the box
  double radius_mm = 0.0;     // inside
  double flat_mm = 0.0;       // width of the bent zone in the flat: theta (r + k t/2)
  double deduction_mm = 0.0;  // legs to the outer vertex less flat
  bool own_deduction = false; // stated by the job, else DIN 6935
  bool operator==(const FlatBend&) const = default;
};

// Where a face of the box lies in the flat: p of its frame at origin + x p.x + y p.y.
struct FlatFace {
  std::string id;
  Vec2 origin, x{1, 0}, y{0, 1};
  std::vector<Vec2> outline; // as cut up to the sharp corner lines of its bends; the bent zones lie across
  std::vector<Vec2> flat;    // what of it stays flat
  Vec2 at(Vec2 p) const { return origin + x * p.x + y * p.y; }
  bool operator==(const FlatFace&) const = default;
};

struct FlatRelief {
  Vec2 at; // middle
  double width_mm = 0.0, depth_mm = 0.0;
  std::vector<Vec2> outline;
  bool operator==(const FlatRelief&) const = default;
};

struct FlatMark {
  std::string kind; // "face-letter", "seam-number", "tack-tick", "witness"
  std::string text; // letter or number; empty for a tick
  Vec2 from, to;    // ticks and witness marks: a line; texts: at from
  bool operator==(const FlatMark&) const = default;
};

struct FlatPattern {
  std::string part, sheet;
  double thickness_mm = 0.0;
  std::vector<Vec2> outline; // to cut, counter-clockwise
  std::vector<std::vector<Vec2>> holes;
  std::vector<FlatFace> faces;
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

// As Box::parts. Faults as resolve_geometry tells them; those of deductions: one that does not fit the bend.
std::vector<FlatPattern> flat_patterns(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       const TackPlaces& tacks, Diagnostics& out);

// The faces' outlines in space again, folded over the bends from the flat: as Box::faces of the part, the
// largest face where the box has it. For the check that unfolding loses nothing.
std::vector<std::vector<Vec3>> refolded(const Box& box, const FlatPattern& pattern);

} // namespace tacksquare
