// Where a box needs small elements and short cells, whatever its mesh: at the ends of seams. There shrinkage
// grows from nothing over 15 mm, the last tack melts, the rim's corners are read, and a rim's lips meet.
#pragma once

#include "geometry/box_geometry.h"
#include "physics/shell/mesh.h"

#include <vector>

namespace tacksquare::elastic {

class Fineness {
 public:
  // mesh_mm: what elements measure elsewhere; end_mm: at the ends of seams, nothing: as elsewhere.
  Fineness(const BoxGeometry& geometry, double mesh_mm, double end_mm);

  // Elements are no larger than that there.
  void put(Vec3 at, double size_mm);

  double mesh_mm() const { return mesh_mm_; }
  double size_at(Vec3 point) const;
  // Places on the straight line from start to end, from_mm to to_mm along it, that cut it into pieces of
  // about that size; the first and the last are its ends.
  std::vector<double> cut(Vec3 start, Vec3 end, double from_mm, double to_mm) const;
  // As a face has it, in the plate's frame; a place beside the face counts where the face is nearest to it.
  std::vector<shell::FinePlace> on_face(const Face& face, const Placement& frame) const;

 private:
  struct Place {
    Vec3 at;
    double size_mm = 0.0;
  };
  double mesh_mm_, least_mm_;
  std::vector<Place> places_;
};

} // namespace tacksquare::elastic
