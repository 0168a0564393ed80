#include "formulas/section.h"

namespace tacksquare::formulas {

Section section_of(const std::vector<Strip>& strips) {
  Section s;
  for (const Strip& strip : strips) {
    const double area = norm(strip.b - strip.a) * strip.thickness_mm;
    s.area_mm2 += area;
    s.centroid = s.centroid + (strip.a + strip.b) * (0.5 * area);
  }
  if (!(s.area_mm2 > 0.0)) return {};
  s.centroid = s.centroid * (1.0 / s.area_mm2);
  for (const Strip& strip : strips) {
    const double length = norm(strip.b - strip.a), t = strip.thickness_mm;
    if (!(length > 0.0)) continue;
    const double area = length * t;
    const Vec2 along = (strip.b - strip.a) * (1.0 / length);
    const Vec2 off = (strip.a + strip.b) * 0.5 - s.centroid;
    // Own moments about the strip's axes: across it, and along it.
    const double far = area * length * length / 12.0, near = area * t * t / 12.0;
    s.ixx_mm4 += area * off.y * off.y + far * along.y * along.y + near * along.x * along.x;
    s.iyy_mm4 += area * off.x * off.x + far * along.x * along.x + near * along.y * along.y;
    s.ixy_mm4 += area * off.x * off.y + (far - near) * along.x * along.y;
  }
  return s;
}

Vec2 curvature_per_newton(const Section& section, Vec2 at, double E_mpa) {
  const Vec2 e = at - section.centroid;
  const double determinant = section.ixx_mm4 * section.iyy_mm4 - section.ixy_mm4 * section.ixy_mm4;
  return {(e.x * section.ixx_mm4 - e.y * section.ixy_mm4) / (E_mpa * determinant),
          (e.y * section.iyy_mm4 - e.x * section.ixy_mm4) / (E_mpa * determinant)};
}

} // namespace tacksquare::formulas
