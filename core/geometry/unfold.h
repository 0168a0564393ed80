// Lays parts flat: the one unfolding that blanks and flat patterns share. Not for other rooms.
#pragma once

#include "geometry/polygon.h"
#include "geometry/scene.h"

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace tacksquare {

// A face laid flat in the plane of the part's first face: p of its frame -> origin + x p.x + y p.y.
struct Laid {
  Vec2 origin, x{1, 0}, y{0, 1};
  Vec2 at(Vec2 p) const { return origin + x * p.x + y * p.y; }
  Vec2 turned(Vec2 d) const { return x * d.x + y * d.y; }
  Ring ring(const Ring& own) const;
};

// What a bend takes up: in the flat the zone is flat_mm wide, in space the middle surface leaves each face
// tangent_mm short of the sharp line.
struct BendTake {
  double angle_rad = 0.0, radius_mm = 0.0, t_mm = 0.0; // radius: inside
  double tangent_mm = 0.0, flat_mm = 0.0;
  double deduction_mm = 0.0; // legs to the outer vertex less flat
  bool own = false;          // the brake's figure
  double depth_mm() const;   // of a relief, from the tangent line out
};

// An end of a bend on one of its faces: the side of the face runs through the sharp line at `at` mm along it
// and slopes by `slope` mm along it for each mm into the face. Flanked: metal of the face goes on beside it,
// reach_mm beyond the sharp line.
struct BendEnd {
  double at = 0.0, slope = 0.0;
  bool flanked = false;
  double reach_mm = 0.0;
};

// Along: unit, on the sharp line; out: from the near face to the far one; both in the flat. The near face's
// sharp line starts at `start`.
struct LaidBend {
  std::size_t bend = 0;          // in Part::bends
  std::size_t near = 0, far = 0; // faces; near: to the largest
  BendTake take;
  bool inward = true; // towards the inside of the box
  Vec2 start, along, out;
  double length_mm = 0.0;                     // of the sharp line
  std::array<BendEnd, 2> near_ends, far_ends; // at 0 and at the other end
  Vec2 tangent(double s, double u) const {    // u: from the near tangent line on
    return start + along * s + out * (u - take.tangent_mm);
  }
};

struct UnfoldedPart {
  std::vector<std::size_t> faces; // the largest first (of equals the one stated first), then as bent to it
  std::vector<Laid> laid;         // as faces
  std::vector<Ring> flat;         // as faces: what stays flat, laid
  std::vector<LaidBend> bends;    // as Part::bends
};

// As Box::parts; a part without faces is empty. Faults: a bend that the formula does not know (caution), a
// deduction that no bend can have, a face narrower than its bends, faces that lie on each other.
std::vector<UnfoldedPart> unfold(const Job& job, const Box& box, const std::vector<Panel>& panels,
                                 const std::vector<BendMeeting>& bends, Diagnostics& out);

// The bent metal of a bend in the flat. Its sides follow those of both faces; where one face is narrower it
// is the narrower one. overlap_mm: reaches so far into the flats.
Ring bent_zone(const LaidBend& bend, double overlap_mm);

} // namespace tacksquare
