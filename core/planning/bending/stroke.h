// How the two halves of a sheet swing while a bend is made, and how near they come to the tooling.
#pragma once

#include "geometry/flat_pattern.h"
#include "planning/bending/folding.h"
#include "planning/bending/tooling.h"

namespace tacksquare {

// Air bending over the two upper edges of the die: at each angle the bent zone is an arc of constant
// curvature between halves that stay as they are, each turned by half of the angle; its inside rests on the
// tip of the punch, the outside of both halves on the edges of the die. The zone's length stays what it is in
// the flat.
class Stroke {
 public:
  Stroke(const FlatBend& bend, double thickness_mm, const Tooling& tooling);

  // How far a body is from a tool when the halves are turned by half_angle_rad each; exact up to enough_mm.
  double clearance_at(const Body& body, Tool tool, bool front, double half_angle_rad, double enough_mm) const;
  // The least that a body stays clear of a tool from flat to bent; overlap is negative. It is looked for to
  // 0.1 mm or a fiftieth of it; beyond enough_mm any figure over it may come.
  double least_clearance(const Body& body, Tool tool, bool front, double enough_mm) const;

  // How far the flat of a half must reach beyond the bent zone to lie on the die's edge to the end.
  double reach_mm() const;
  // The opening of die that a flat of that reach would do for.
  double opening_for(double reach_mm) const;

 private:
  struct Swing {
    Vec2 end;            // of the bent zone, middle of the sheet; zero at the tip of the punch
    double cosine, sine; // of half of the angle
    double die_mm;       // the die's top over the tip
  };
  Swing at(double half_angle_rad) const;
  double outside_at_end() const; // square to the stroke, where the outside of a half begins

  const Tooling* tooling_;
  double thickness_mm_, zone_mm_, angle_rad_;
  double zone_over_radius_mm_; // length of the zone per radian less the radius of the sheet's middle
};

} // namespace tacksquare
