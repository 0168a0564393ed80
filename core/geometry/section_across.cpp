#include "formulas/section.h"
#include "geometry/parts_of_resolve.h"

#include <cmath>

namespace tacksquare {
namespace {

constexpr double kInPlane = 0.02; // sine: a face this close to the cutting plane is not cut by it

} // namespace

SeamSection section_across(const std::vector<Panel>& panels, const SeamLine& seam) {
  const Vec3 s = unit(seam.end - seam.start), mid = (seam.start + seam.end) * 0.5;
  SeamSection result;
  result.u = unit(seam.into_a - s * dot(seam.into_a, s));
  result.v = plain(cross(s, result.u));
  double reach_mm = 0.0; // no face lies further away
  for (const Panel& p : panels)
    for (const Vec3 q : p.ring)
      reach_mm = std::max(reach_mm, norm(q - mid));

  std::vector<formulas::Strip> strips;
  for (const Panel& p : panels) {
    if (!p.welded()) continue;
    const Vec3 along = cross(p.normal, s);
    const double sine = norm(along);
    if (sine < kInPlane) continue;
    const Vec3 d = along * (1.0 / sine), down_slope = cross(s, d); // square to d, in the cutting plane
    const double above = dot(mid - p.face->placement.origin, p.normal);
    const Vec3 on = mid - down_slope * (above / dot(down_slope, p.normal));
    const Vec3 from = on - d * (2.0 * reach_mm), to = on + d * (2.0 * reach_mm);
    const auto section_point = [&](double at) {
      const Vec3 q = from + d * at - mid;
      return Vec2{dot(q, result.u), dot(q, result.v)};
    };
    for (const auto& [a, b] :
         pieces_within(p.shape, p.face->placement.local(from), p.face->placement.local(to), 1e-6))
      strips.push_back({section_point(a), section_point(b), p.t_mm / sine});
  }
  const formulas::Section section = formulas::section_of(strips);
  result.area_mm2 = section.area_mm2;
  result.Iuu_mm4 = section.ixx_mm4;
  result.Ivv_mm4 = section.iyy_mm4;
  result.Iuv_mm4 = section.ixy_mm4;
  result.eu_mm = 0.0 - section.centroid.x;
  result.ev_mm = 0.0 - section.centroid.y;
  result.centroid = mid + result.u * section.centroid.x + result.v * section.centroid.y;
  return result;
}

} // namespace tacksquare
