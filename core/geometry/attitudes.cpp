#include "geometry/parts_of_resolve.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kFlush_mm = 0.5;        // points this close to the lowest lie on the table
constexpr double kStableMargin_mm = 2.0; // of the centre of gravity inside the support
constexpr double kTorchRoom_mm =
    200.0; // a torch that points upward needs this below the seam; common practice
// Angles of the torch side above the horizontal, from the bands of ISO 6947 (from memory): PA flat is 90 +-
// 30 deg, PB and PC lie between, PD overhead starts half-way from PC (0) to PD (-45).
constexpr double kFlatFrom_rad = 60.0 * kPi / 180.0;
constexpr double kOverheadBelow_rad = -22.5 * kPi / 180.0;
constexpr double kUprightFrom_rad = 45.0 * kPi / 180.0; // a seam steeper than this is welded down- or uphill
constexpr double kSlightlyDown = 0.3; // sine: a torch side this far below level counts as from below
constexpr double kOpeningDown = 0.7;  // cosine: the opening faces the table

struct Frame {
  Vec3 x, y;
};
Frame frame_across(Vec3 n) {
  const Vec3 x = unit(std::abs(n.x) < 0.6 ? cross(n, {1, 0, 0}) : cross(n, {0, 1, 0}));
  return {x, cross(n, x)};
}

// All corners of the metal on both sides of the sheet.
std::vector<Vec3> corners_of_metal(const std::vector<Panel>& panels) {
  std::vector<Vec3> all;
  for (const Panel& p : panels)
    if (p.welded())
      for (const Vec3 q : p.cut_ring)
        for (const double side : {-0.5, 0.5})
          all.push_back(q + p.normal * (side * p.t_mm));
  return all;
}

double furthest(const std::vector<Vec3>& points, Vec3 down) {
  double most = dot(points.front(), down);
  for (const Vec3 p : points)
    most = std::max(most, dot(p, down));
  return most;
}

// The centre of gravity stands over what touches the table.
bool stands(const std::vector<Vec3>& points, Vec3 down, Vec3 centre) {
  const Frame f = frame_across(down);
  const double table = furthest(points, down);
  std::vector<Vec2> support;
  for (const Vec3 p : points)
    if (dot(p, down) > table - kFlush_mm) support.push_back({dot(p, f.x), dot(p, f.y)});
  const Ring hull = convex_hull(support);
  if (hull.size() < 3) return false;
  const Vec2 foot{dot(centre, f.x), dot(centre, f.y)};
  const Shape shape{hull, {}};
  return distance_to(shape, foot) <= 0.0 && distance_to_edges(shape, foot) >= kStableMargin_mm;
}

// Where one reaches inside from: the rim, or the last face while it is not on yet.
std::optional<Vec3> way_inside(const Box& box, const std::vector<Panel>& panels,
                               const BoxGeometry& geometry) {
  if (geometry.opening) return geometry.opening->outward;
  for (const Panel& p : panels)
    if (geometry.closed && box.last_face == p.face->id) return p.normal;
  return std::nullopt;
}

WeldPosition position_of(Vec3 along, Vec3 torch, Vec3 up) {
  const double slope = std::asin(std::clamp(dot(along, up), -1.0, 1.0));
  if (slope > kUprightFrom_rad) return WeldPosition::uphill;
  if (slope < -kUprightFrom_rad) return WeldPosition::downhill;
  const double elevation = std::asin(std::clamp(dot(torch, up), -1.0, 1.0));
  if (elevation >= kFlatFrom_rad - 1e-9) return WeldPosition::flat;
  return elevation >= kOverheadBelow_rad ? WeldPosition::horizontal : WeldPosition::overhead;
}

} // namespace

std::vector<Attitude> stable_attitudes(const std::vector<Panel>& panels, const BoxGeometry& geometry) {
  const std::vector<Vec3> metal = corners_of_metal(panels);
  const bool on_rim =
      geometry.opening && stands(metal, geometry.opening->outward, geometry.centre_of_gravity);
  std::vector<Attitude> all;
  std::vector<std::size_t> by_id;
  for (std::size_t f = 0; f < panels.size(); ++f)
    if (panels[f].welded()) by_id.push_back(f);
  std::sort(by_id.begin(), by_id.end(),
            [&](std::size_t a, std::size_t b) { return panels[a].face->id < panels[b].face->id; });
  for (const std::size_t f : by_id) {
    const Panel& p = panels[f];
    const auto same = [&](Vec3 d) { return dot(d, p.normal) > 0.9998; };
    if (on_rim && same(geometry.opening->outward)) continue;
    if (std::any_of(all.begin(), all.end(), [&](const Attitude& a) { return same(a.down_direction); }))
      continue;
    const double own = dot(p.ring.front(), p.normal) + 0.5 * p.t_mm;
    if (own < furthest(metal, p.normal) - kFlush_mm) continue; // something sticks out further
    if (stands(metal, p.normal, geometry.centre_of_gravity)) all.push_back({p.face->id, plain(p.normal)});
  }
  if (on_rim) all.push_back({"rim", geometry.opening->outward});
  return all;
}

void check_attitudes(const Box& box, const std::vector<Panel>& panels, const BoxGeometry& geometry,
                     Diagnostics& out) {
  if (!geometry.attitudes.empty() || box.seams.empty()) return; // what is not welded need not lie
  const std::vector<Vec3> metal = corners_of_metal(panels);
  std::vector<const Part*> turned;
  for (const Panel& p : panels) {
    if (!p.welded() || std::find(turned.begin(), turned.end(), p.part) != turned.end()) continue;
    const double own = dot(p.ring.front(), -p.normal) + 0.5 * p.t_mm;
    if (own < furthest(metal, -p.normal) - kFlush_mm) continue;
    turned.push_back(p.part);
    out.error("face-turned", p.face->where,
              fmt::format("the outward side of face {} looks at the rest of box {}, which has no way to lie",
                          p.face->id, box.id),
              fmt::format("turn {} over: exchange along with up, and x with y of each point and hole",
                          p.part->bends.empty() ? "it" : "all faces of part " + p.part->id));
  }
  if (!turned.empty()) return;
  out.error("no-way-to-lie", box.where,
            fmt::format("box {} can lie on none of its faces, nor on a rim", box.id),
            "add the face that it is to stand on while it is welded, or state as a box of its own what can "
            "be joined before");
}

SeamAccess access_to(const Box& box, const std::vector<Panel>& panels, const BoxGeometry& geometry,
                     std::size_t seam, Vec3 down) {
  const SeamLine& line = geometry.seams[seam];
  const Vec3 along = unit(line.end - line.start), up = -down;
  SeamAccess access;
  access.forward = position_of(along, line.towards_welder, up);
  access.backward = position_of(-along, line.towards_welder, up);
  const double table = furthest(corners_of_metal(panels), down);
  const double room = table - std::max(dot(line.start, down), dot(line.end, down));
  const bool from_below = dot(line.towards_welder, down) > kSlightlyDown && room < kTorchRoom_mm;
  const std::optional<Vec3> way_in = way_inside(box, panels, geometry);
  const bool shut_in =
      box.seams[seam].side == WeldSide::inside && way_in && dot(*way_in, down) > kOpeningDown;
  access.reachable = !from_below && !shut_in;
  return access;
}

} // namespace tacksquare
