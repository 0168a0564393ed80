#include "opening/row_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

namespace {

double part(Vec3 v, std::size_t axis) {
  return std::array{v.x, v.y, v.z}[axis];
}
Vec3 unit_along(std::size_t axis) {
  return {axis == 0 ? 1.0 : 0.0, axis == 1 ? 1.0 : 0.0, axis == 2 ? 1.0 : 0.0};
}

struct Extent {
  double low = 1e300, high = -1e300;
  double middle() const { return 0.5 * (low + high); }
};
Extent extent_of(const Box& box, std::size_t axis) {
  Extent e;
  for (const Face& face : box.faces) {
    if (box.parts[face.part].loose) continue;
    for (const Vec2 p : face.outline) {
      const double at = part(face.placement.at(p), axis);
      e.low = std::min(e.low, at);
      e.high = std::max(e.high, at);
    }
  }
  return e;
}

// From here on what belongs to a part moves. A flat panel goes along with the walls at the end of the axis
// only: a divider stays where it is, and so does its free edge.
double moves_from(const Box& box, const Face& face, const Extent& extent) {
  constexpr double kAtEnd_mm = 1.0;
  return box.parts[face.part].bends.empty() ? extent.high - kAtEnd_mm : extent.middle();
}

// A face that leans over the axis keeps the one of its directions that lies square to the axis; the other
// goes where its points went.
void lean(Face& face, std::size_t axis, const std::vector<Vec3>& points) {
  const bool keep_u = std::abs(part(face.placement.u, axis)) < std::abs(part(face.placement.v, axis));
  const Vec3 kept = keep_u ? face.placement.u : face.placement.v;
  Vec3& other = keep_u ? face.placement.v : face.placement.u;
  Vec3 farthest;
  for (const Vec3 p : points) {
    const Vec3 from = p - face.placement.origin, off = from - kept * dot(from, kept);
    if (norm(off) > norm(farthest)) farthest = off;
  }
  if (norm(farthest) > 0.0) other = unit(farthest) * (dot(farthest, other) < 0.0 ? -1.0 : 1.0);
  for (std::size_t i = 0; i < points.size(); ++i)
    face.outline[i] = face.placement.local(points[i]);
}

void stretch(Face& face, std::size_t axis, double from, double by) {
  const Vec3 e = unit_along(axis);
  const auto move = [&](Vec3 p) { return part(p, axis) > from ? by : 0.0; };
  const Placement was = face.placement;
  const double origin_by = move(was.origin), leans = std::abs(part(was.normal(), axis));
  std::vector<double> point_by;
  std::vector<Vec3> points;
  for (const Vec2 p : face.outline) {
    point_by.push_back(move(was.at(p)));
    points.push_back(was.at(p) + e * point_by.back());
  }
  face.placement.origin = was.origin + e * origin_by;
  const bool as_one = std::all_of(point_by.begin(), point_by.end(), [&](double d) { return d == origin_by; });
  if (as_one) return;
  if (leans > 1e-9) return lean(face, axis, points);
  for (std::size_t i = 0; i < points.size(); ++i)
    face.outline[i] =
        face.outline[i] + Vec2{part(was.u, axis), part(was.v, axis)} * (point_by[i] - origin_by);
}

} // namespace

Box enlarged(const Box& box, Vec3 by_mm) {
  Box larger = box;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double by = part(by_mm, axis);
    if (by == 0.0) continue;
    const Extent extent = extent_of(larger, axis);
    for (Face& face : larger.faces)
      stretch(face, axis, moves_from(box, face, extent), by);
    std::optional<Length>& stated = axis == 0 ? larger.width : axis == 1 ? larger.depth : larger.height;
    if (stated) stated = *stated + mm(by);
  }
  return larger;
}

Box resized(const Box& box, double width_mm, double depth_mm, double height_mm) {
  if (!box.width || !box.depth || !box.height) throw InternalError("resized: a box without sizes");
  return enlarged(
      box, {width_mm - in_mm(*box.width), depth_mm - in_mm(*box.depth), height_mm - in_mm(*box.height)});
}

} // namespace tacksquare
