// The welded faces of a box as plates, mm: where a ray meets metal, and whose metal holds a point.
#pragma once

#include "geometry/box_geometry.h"
#include "geometry/polygon.h"

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace tacksquare {

// A face as cut, half of its thickness to each side of its middle surface. Bends are taken as sharp: both
// faces end on their common line, so beyond it the outer edge of half a thickness is missing, which the
// radius of a true bend takes away, too.
struct Plate {
  struct Round {
    Vec2 at;
    double radius_mm = 0.0;
  };
  std::size_t face = 0; // index in Box::faces
  Placement placement;  // normal points out of the box
  double t_mm = 0.0;
  Shape shape;              // as cut, with its cut-outs
  std::vector<Round> vents; // holes, too; exact circles
};

// All plates of a box, in order of faces. Loose parts are no metal.
struct BoxMetal {
  std::vector<Plate> plates;
};
BoxMetal metal_of(const Job& job, const Box& box, const BoxGeometry& geometry);

// Where a ray goes into metal: through the surface that looks out of the box, through the other one, or
// through an edge of the outline, a cut-out or a vent; or it starts in the metal.
enum class Entry { outside, inside, edge, within };

struct MetalHit {
  std::size_t face = 0;
  Entry entry = Entry::outside;
  double enters_mm = 0.0, leaves_mm = 0.0; // along the ray; it leaves at its reach when it ends in the metal
};

// What distances are put in order by: those that differ by rounding alone are ties.
inline double ticks(double mm) {
  return std::round(mm * 1e6);
}

// All metal on a ray that starts at `from`, in order of enters_mm, ties by face. Exact for flat plates; what
// is touched only in a point is no hit. Precondition: `direction` is unit.
std::vector<MetalHit> hits(const BoxMetal& metal, Vec3 from, Vec3 direction, double reach_mm);

// The face whose metal holds the point, or is nearest to it and not more than slack_mm away; ties by face.
std::optional<std::size_t> metal_at(const BoxMetal& metal, Vec3 p, double slack_mm);

} // namespace tacksquare
