#include "job/panels.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare {

namespace {

constexpr double kLarger_mm2 = 1e-6;
constexpr double kAlike_mm = 0.5; // sides of two panels that are called alike

double area_mm2(const Face& face) {
  double area = std::abs(signed_area_mm2(face.outline));
  for (const auto& cutout : face.cutouts)
    area -= std::abs(signed_area_mm2(cutout));
  return area;
}

// Of the rectangle around it, the longer one first.
std::pair<double, double> sides_mm(const Face& face) {
  Vec2 low = face.outline.front(), high = low;
  for (const Vec2 p : face.outline) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  const double wide = high.x - low.x, tall = high.y - low.y;
  return {std::max(wide, tall), std::min(wide, tall)};
}

} // namespace

double signed_area_mm2(const std::vector<Vec2>& ring) {
  double twice = 0.0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += cross(ring[i], ring[(i + 1) % ring.size()]);
  return twice / 2.0;
}

std::vector<std::optional<std::size_t>> base_faces(const Box& box) {
  std::vector<std::optional<std::size_t>> bases(box.parts.size());
  std::vector<double> largest(box.parts.size(), 0.0);
  for (std::size_t f = 0; f < box.faces.size(); ++f) {
    const std::size_t part = box.faces[f].part;
    const double area = area_mm2(box.faces[f]);
    if (bases[part] && area <= largest[part] + kLarger_mm2) continue;
    bases[part] = f;
    largest[part] = area;
  }
  return bases;
}

bool opposite_panels(const Box& box, std::size_t face_a, std::size_t face_b) {
  const Face &a = box.faces[face_a], &b = box.faces[face_b];
  for (const Face* face : {&a, &b}) {
    const Part& part = box.parts[face->part];
    if (!part.bends.empty() || part.loose || face->outline.empty()) return false;
  }
  if (dot(a.placement.normal(), b.placement.normal()) > -0.99) return false;
  const auto [a_long, a_short] = sides_mm(a);
  const auto [b_long, b_short] = sides_mm(b);
  return std::abs(a_long - b_long) <= kAlike_mm && std::abs(a_short - b_short) <= kAlike_mm;
}

} // namespace tacksquare
