#include "base/diagnostic.h"
#include "physics/shell/grading.h"
#include "physics/shell/mesh_parts.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::shell {

double ring_area_mm2(const std::vector<Vec2>& ring) {
  double twice = 0.0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += cross(ring[i] - ring[0], ring[(i + 1) % ring.size()] - ring[0]);
  return 0.5 * twice;
}

double shape_area_mm2(const PlateShape& shape) {
  double area = ring_area_mm2(shape.outline);
  for (const auto& cutout : shape.cutouts)
    area -= std::abs(ring_area_mm2(cutout));
  return area;
}

double size_at_mm(const PlateShape& shape, double size_mm, Vec2 at) {
  for (const FinePlace& fine : shape.fine)
    size_mm = std::min(size_mm, grown_mm(fine.size_mm, norm(at - fine.at)));
  return size_mm;
}

double least_size_mm(const PlateShape& shape, double size_mm) {
  for (const FinePlace& fine : shape.fine)
    size_mm = std::min(size_mm, fine.size_mm);
  return size_mm;
}

PlateMesh mesh_plate(const PlateShape& shape, double size_mm) {
  if (!(least_size_mm(shape, size_mm) > 0.0)) throw InternalError("mesh_plate: the size must be positive");
  if (shape.outline.size() < 3) throw InternalError("mesh_plate: an outline has three corners or more");
  const double area = shape_area_mm2(shape);
  if (!(area > 0.0)) throw InternalError("mesh_plate: the plate has no area");
  if (!(area / (size_mm * size_mm) < static_cast<double>(kMostNodes)))
    throw InternalError("mesh_plate: elements far too small for the plate");
  if (auto mesh = mapped_mesh(shape, size_mm)) return *std::move(mesh);
  return triangle_mesh(shape, size_mm);
}

} // namespace tacksquare::shell
