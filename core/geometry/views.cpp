#include "geometry/views.h"

#include "geometry/polygon.h"
#include "geometry/segments.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace tacksquare {
namespace {

constexpr double kParallel = 0.9998; // cosine of about 1 degree
constexpr double kParallelSine = 0.02;
constexpr double kOutermost_mm = 0.5;
constexpr double kCornerSine = 0.087; // an outline turns by more than 5 degrees at a corner

double thickness_mm(const Job& job, const Box& box, std::size_t face) {
  return in_mm(job.sheets[box.parts[box.faces[face].part].sheet].thickness);
}
bool welded(const Box& box, std::size_t face) {
  return !box.parts[box.faces[face].part].loose;
}
Vec3 normal_of(const Box& box, std::size_t face) {
  return unit(box.faces[face].placement.normal());
}

Ring seen_in(const Placement& frame, const std::vector<Vec3>& ring) {
  Ring flat;
  for (const Vec3 p : ring)
    flat.push_back(frame.local(p));
  return flat;
}

bool over_each_other(const Box& box, const BoxGeometry& g, std::size_t a, std::size_t b) {
  return common_area(box.faces[a].outline, seen_in(box.faces[a].placement, g.faces[b].ring)) > 1.0;
}

// No parallel face covers this one from outside, as a wall covers a divider.
bool outermost(const Box& box, const BoxGeometry& g, std::size_t face) {
  const Vec3 n = normal_of(box, face);
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    if (f != face && welded(box, f) && norm(cross(normal_of(box, f), n)) < kParallelSine &&
        dot(g.faces[f].centroid - g.faces[face].centroid, n) > kOutermost_mm &&
        over_each_other(box, g, face, f))
      return false;
  return true;
}

// Points to the right, to the back or up, by its largest component.
bool points_onward(Vec3 d) {
  const double x = std::abs(d.x), y = std::abs(d.y), z = std::abs(d.z);
  if (x >= y && x >= z) return d.x > 0.0;
  return y >= z ? d.y > 0.0 : d.z > 0.0;
}

struct Range {
  double low = 0.0, high = 0.0;
};
Range extent(const std::vector<Vec3>& ring, Vec3 d) {
  Range r{dot(ring.front(), d), dot(ring.front(), d)};
  for (const Vec3 p : ring) {
    r.low = std::min(r.low, dot(p, d));
    r.high = std::max(r.high, dot(p, d));
  }
  return r;
}
Range common(Range a, Range b) {
  return {std::max(a.low, b.low), std::min(a.high, b.high)};
}

// From the rim inward, square to `across`; without a rim backward, else upward.
Vec3 depth_direction(const BoxGeometry& g, Vec3 across) {
  std::vector<Vec3> wanted{{0, 1, 0}, {0, 0, 1}, {1, 0, 0}};
  if (g.opening) wanted.insert(wanted.begin(), -g.opening->outward);
  for (const Vec3 d : wanted) {
    const Vec3 flat = d - across * dot(d, across);
    if (norm(flat) > 0.7) return unit(flat);
  }
  return unit(cross(across, wanted.back()));
}

bool on_face(const Box& box, std::size_t face, Vec3 p) {
  const Face& f = box.faces[face];
  return distance_to({f.outline, f.cutouts}, f.placement.local(p)) < 1e-6;
}

// How far inside the loop's edge the inside of the sheet lies there, in the plane of the opening.
double inset_at(const Job& job, const Box& box, const BoxGeometry& g, const Segment& edge) {
  for (std::size_t k = 0; k < g.rim.size(); ++k) {
    if (!common_part(edge, {g.rim[k].first, g.rim[k].second}, kOutermost_mm)) continue;
    const double sine = norm(cross(normal_of(box, g.rim_face[k]), g.opening->outward));
    return sine < 0.1 ? 0.0 : 0.5 * thickness_mm(job, box, g.rim_face[k]) / sine;
  }
  return 0.0;
}

} // namespace

std::vector<OppositeFaces> opposite_faces(const Job& job, const Box& box, const BoxGeometry& geometry) {
  std::vector<OppositeFaces> pairs;
  for (std::size_t i = 0; i < box.faces.size(); ++i) {
    if (!welded(box, i) || !outermost(box, geometry, i)) continue;
    for (std::size_t j = i + 1; j < box.faces.size(); ++j) {
      if (!welded(box, j) || dot(normal_of(box, i), normal_of(box, j)) > -kParallel) continue;
      if (!outermost(box, geometry, j)) continue;
      const Vec3 n = normal_of(box, i);
      if (!over_each_other(box, geometry, i, j)) continue;
      const double middle_mm = dot(geometry.faces[i].centroid - geometry.faces[j].centroid, n);
      const double outside_mm = middle_mm + 0.5 * (thickness_mm(job, box, i) + thickness_mm(job, box, j));
      pairs.push_back(points_onward(n) ? OppositeFaces{j, i, n, outside_mm}
                                       : OppositeFaces{i, j, -n, outside_mm});
    }
  }
  return pairs;
}

std::vector<WidthPlace> width_places(const Job& job, const Box& box, const BoxGeometry& geometry,
                                     const OppositeFaces& pair, double inset_mm) {
  const Vec3 inward = depth_direction(geometry, pair.across);
  Vec3 aside = cross(pair.across, inward);
  if (!points_onward(aside)) aside = -aside;
  const auto &ring_a = geometry.faces[pair.a].ring, &ring_b = geometry.faces[pair.b].ring;
  const Range deep = common(extent(ring_a, inward), extent(ring_b, inward));
  const Range wide = common(extent(ring_a, aside), extent(ring_b, aside));
  const auto third = [&](Range r, int i) {
    const double inset = std::min(inset_mm, 0.25 * (r.high - r.low));
    return r.low + inset + 0.5 * i * (r.high - r.low - 2.0 * inset);
  };
  const double a_out = dot(ring_a.front(), pair.across) - 0.5 * thickness_mm(job, box, pair.a);
  const double b_out = dot(ring_b.front(), pair.across) + 0.5 * thickness_mm(job, box, pair.b);
  std::vector<WidthPlace> places;
  for (int depth = 0; depth < 3; ++depth)
    for (int place = 0; place < 3; ++place) {
      const Vec3 foot = inward * third(deep, depth) + aside * third(wide, place);
      const WidthPlace p{depth, place, foot + pair.across * a_out, foot + pair.across * b_out};
      if (on_face(box, pair.a, p.on_a) && on_face(box, pair.b, p.on_b)) places.push_back(p);
    }
  return places;
}

std::vector<Vec3> opening_corners_inside(const Job& job, const Box& box, const BoxGeometry& geometry) {
  if (!geometry.opening) return {};
  const std::vector<Vec3>& loop = geometry.opening->corners;
  const Vec3 n = geometry.opening->outward, x = unit(loop[1] - loop[0]);
  const Placement plane{loop[0], x, cross(n, x)};
  Ring ring;
  std::vector<double> inset;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    ring.push_back(plane.local(loop[i]));
    inset.push_back(inset_at(job, box, geometry, {loop[i], loop[(i + 1) % loop.size()]}));
  }
  if (signed_area(ring) < 0.0)
    for (double& mm : inset)
      mm = -mm; // inward lies on the other side of a clockwise ring
  std::vector<Vec3> corners;
  for (const Vec2 p : edges_moved(ring, inset))
    corners.push_back(plane.at(p));
  return corners;
}

std::vector<Vec3> face_corners(const BoxGeometry& geometry, std::size_t face) {
  const std::vector<Vec3>& ring = geometry.faces[face].ring;
  std::vector<Vec3> corners;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec3 before = unit(ring[i] - ring[(i + ring.size() - 1) % ring.size()]);
    const Vec3 after = unit(ring[(i + 1) % ring.size()] - ring[i]);
    if (norm(cross(before, after)) > kCornerSine) corners.push_back(ring[i]);
  }
  return corners;
}

std::vector<std::pair<Vec3, Vec3>> diagonals(const std::vector<Vec3>& corners) {
  if (corners.size() != 4) return {};
  return {{corners[0], corners[2]}, {corners[1], corners[3]}};
}

std::vector<Wall> walls(const Box& box, const BoxGeometry& geometry) {
  if (!geometry.opening) return {};
  std::vector<bool> base(box.faces.size());
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    base[f] = welded(box, f) && dot(normal_of(box, f), geometry.opening->outward) < -kParallel &&
              outermost(box, geometry, f);
  std::vector<std::optional<Wall>> by_face(box.faces.size());
  const auto offer = [&](std::size_t a, std::size_t b, Vec3 start, Vec3 end) {
    if (base[a] == base[b]) return;
    const std::size_t f = base[a] ? b : a;
    if (norm(cross(normal_of(box, f), geometry.opening->outward)) < 0.1) return;
    const Vec3 along = unit(end - start);
    const Vec3 to_middle = geometry.faces[f].centroid - start;
    const Vec3 up = unit(to_middle - along * dot(to_middle, along));
    const Range height = extent(geometry.faces[f].ring, up);
    Wall wall{f, start, end, start, end};
    bool first = true;
    for (const Vec3 p : geometry.faces[f].ring) {
      if (dot(p, up) < height.high - kOutermost_mm) continue;
      if (first || dot(p - wall.top_start, along) < 0.0) wall.top_start = p;
      if (first || dot(p - wall.top_end, along) > 0.0) wall.top_end = p;
      first = false;
    }
    by_face[f] = wall;
  };
  for (const BendLine& line : geometry.bends) {
    const Bend& bend = box.parts[line.part].bends[line.bend];
    offer(bend.face_a, bend.face_b, line.start, line.end);
  }
  for (std::size_t s = 0; s < box.seams.size(); ++s)
    if (box.seams[s].joint == JointKind::corner)
      offer(box.seams[s].face_a, box.seams[s].face_b, geometry.seams[s].start, geometry.seams[s].end);
  std::vector<Wall> all;
  for (const auto& wall : by_face)
    if (wall) all.push_back(*wall);
  return all;
}

} // namespace tacksquare
