#include "geometry/metal.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare {
namespace {

using Piece = std::pair<double, double>; // from, to along the ray

constexpr double kNothing_mm = 1e-9; // a piece shorter than this only touches

// What is left of the pieces outside of a round hole; q + d s is the ray in the plate's plane, d not unit.
std::vector<Piece> without(const std::vector<Piece>& pieces, const Plate::Round& hole, Vec2 q, Vec2 d) {
  const double a = dot(d, d), b = dot(q - hole.at, d);
  const double c = dot(q - hole.at, q - hole.at) - hole.radius_mm * hole.radius_mm;
  if (a < kNothing_mm * kNothing_mm) return c < 0.0 ? std::vector<Piece>{} : pieces;
  const double root = b * b - a * c;
  if (root <= 0.0) return pieces;
  const double in = (-b - std::sqrt(root)) / a, out = (-b + std::sqrt(root)) / a;
  std::vector<Piece> left;
  for (const Piece& p : pieces) {
    const Piece before{p.first, std::min(p.second, in)}, after{std::max(p.first, out), p.second};
    for (const Piece& rest : {before, after})
      if (rest.second - rest.first > kNothing_mm) left.push_back(rest);
  }
  return left;
}

// From the piece of the ray between both surfaces, what lies in the shape.
std::vector<Piece> in_shape(const Plate& plate, Vec2 q, Vec2 d, Piece between) {
  const Vec2 p0 = q + d * between.first, p1 = q + d * between.second;
  const double in_plane_mm = norm(p1 - p0);
  std::vector<Piece> pieces;
  if (in_plane_mm < kNothing_mm) {
    if (distance_to(plate.shape, p0) <= 0.0) pieces.push_back(between);
  } else {
    const double scale = (between.second - between.first) / in_plane_mm;
    for (const Piece& p : pieces_within(plate.shape, p0, p1, 0.0))
      pieces.emplace_back(between.first + p.first * scale, between.first + p.second * scale);
  }
  for (const Plate::Round& hole : plate.vents)
    pieces = without(pieces, hole, q, d);
  return pieces;
}

void add_hits(const Plate& plate, Vec3 from, Vec3 direction, double reach_mm, std::vector<MetalHit>& out) {
  const Vec3 n = plate.placement.normal();
  const double height = dot(from - plate.placement.origin, n), climb = dot(direction, n);
  const double half = 0.5 * plate.t_mm;
  double at_surface = -1.0; // where the ray goes in between both surfaces; it starts there: never
  Piece between{0.0, reach_mm};
  if (std::abs(climb) * reach_mm > kNothing_mm) {
    const double to_outside = (half - height) / climb, to_inside = (-half - height) / climb;
    at_surface = std::min(to_outside, to_inside);
    between = {std::max(0.0, at_surface), std::min(reach_mm, std::max(to_outside, to_inside))};
  } else if (std::abs(height) >= half) {
    return;
  }
  if (between.second - between.first <= kNothing_mm) return;
  const Vec2 q = plate.placement.local(from);
  const Vec2 d{dot(direction, plate.placement.u), dot(direction, plate.placement.v)};
  for (const Piece& p : in_shape(plate, q, d, between)) {
    MetalHit hit{plate.face, Entry::edge, p.first, p.second};
    if (at_surface >= 0.0 && p.first - at_surface <= kNothing_mm)
      hit.entry = climb < 0.0 ? Entry::outside : Entry::inside;
    else if (p.first <= kNothing_mm)
      hit.entry = Entry::within;
    out.push_back(hit);
  }
}

double distance_to(const Plate& plate, Vec3 p) {
  const Vec2 q = plate.placement.local(p);
  const double height = std::abs(dot(p - plate.placement.origin, plate.placement.normal()));
  double aside = distance_to(plate.shape, q);
  for (const Plate::Round& hole : plate.vents)
    aside = std::max(aside, hole.radius_mm - norm(q - hole.at));
  return std::hypot(aside, std::max(0.0, height - 0.5 * plate.t_mm));
}

} // namespace

BoxMetal metal_of(const Job& job, const Box& box, const BoxGeometry& geometry) {
  BoxMetal metal;
  for (std::size_t f = 0; f < box.faces.size(); ++f) {
    const Face& face = box.faces[f];
    const Part& part = box.parts[face.part];
    if (part.loose) continue;
    Plate plate{f,
                face.placement,
                in_mm(job.sheets[part.sheet].thickness),
                {geometry.faces[f].cut_outline, face.cutouts},
                {}};
    for (const Vent& vent : box.vents)
      if (vent.face == f) plate.vents.push_back({vent.at, 0.5 * in_mm(vent.diameter)});
    metal.plates.push_back(std::move(plate));
  }
  return metal;
}

std::vector<MetalHit> hits(const BoxMetal& metal, Vec3 from, Vec3 direction, double reach_mm) {
  std::vector<MetalHit> found;
  for (const Plate& plate : metal.plates)
    add_hits(plate, from, direction, reach_mm, found);
  std::stable_sort(found.begin(), found.end(), [](const MetalHit& a, const MetalHit& b) {
    return ticks(a.enters_mm) < ticks(b.enters_mm);
  });
  return found;
}

std::optional<std::size_t> metal_at(const BoxMetal& metal, Vec3 p, double slack_mm) {
  std::optional<std::size_t> nearest;
  double least = std::numeric_limits<double>::infinity();
  for (const Plate& plate : metal.plates) {
    const double mm = distance_to(plate, p);
    if (mm > slack_mm || ticks(mm) >= ticks(least)) continue;
    least = mm;
    nearest = plate.face;
  }
  return nearest;
}

} // namespace tacksquare
