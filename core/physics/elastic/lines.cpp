#include "physics/elastic/lines.h"

#include "base/diagnostic.h"
#include "geometry/segments.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

constexpr double kSnap_mm = 1.0; // an end of a line nearer to an edge than this ends on it

Segment edge_of(const std::vector<Vec3>& ring, std::size_t i) {
  return {ring[i], ring[(i + 1) % ring.size()]};
}

std::vector<Vec3> in_space(const Face& face, const std::vector<Vec2>& ring) {
  std::vector<Vec3> points;
  for (const Vec2 p : ring)
    points.push_back(face.placement.at(p));
  return points;
}

// The part of an edge that runs along the line, as long as it is most of the line.
struct Found {
  Segment part; // from the line's start to its end
  double distance_mm = 0.0;
};
std::optional<Found> along_edge(const Segment& edge, const Segment& line, double slack_mm) {
  const auto common = common_part(edge, line, slack_mm);
  if (!common) return std::nullopt;
  const double from = common->first, to = common->second;
  const Vec3 d = edge.end - edge.start;
  if ((to - from) * norm(d) < 0.5 * length(line)) return std::nullopt;
  Segment part{edge.start + d * from, edge.start + d * to};
  if (dot(d, line.end - line.start) < 0.0) std::swap(part.start, part.end);
  return Found{part, distance(line, middle(part))};
}

Vec2 snapped(const std::vector<Vec2>& ring, Vec2 p) {
  const Vec2 q = nearest_on(ring, p);
  return norm(q - p) < kSnap_mm ? q : p;
}

LineSide side_of(const Box& box, std::size_t f, const Segment& line, double slack_mm) {
  const Face& face = box.faces[f];
  const Placement frame = plate_frame(face);
  LineSide side;
  side.face = f;
  std::optional<Found> best;
  const auto look = [&](const std::vector<Vec2>& ring, bool outline) {
    const std::vector<Vec3> points = in_space(face, ring);
    for (std::size_t i = 0; i < points.size(); ++i) {
      const auto found = along_edge(edge_of(points, i), line, slack_mm);
      if (!found || (best && found->distance_mm >= best->distance_mm - 1e-9)) continue;
      best = found;
      side.edge = outline ? std::optional(i) : std::nullopt;
    }
  };
  look(face.outline, true);
  for (const auto& ring : face.cutouts)
    look(ring, false);

  const Vec3 along = unit(line.end - line.start);
  if (best) {
    side.start = frame.local(best->part.start);
    side.end = frame.local(best->part.end);
  } else {
    std::vector<Vec2> ring;
    for (const Vec2 p : face.outline)
      ring.push_back(frame.local(face.placement.at(p)));
    side.start = snapped(ring, frame.local(line.start));
    side.end = snapped(ring, frame.local(line.end));
    side.inside = true;
  }
  const Vec3 start = frame.at(side.start);
  side.shift_mm = dot(start - line.start, along);
  side.arm = line.start + along * side.shift_mm - start;
  return side;
}

} // namespace

Vec2 nearest_on(const std::vector<Vec2>& ring, Vec2 p) {
  Vec2 best = ring.front();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], d = ring[(i + 1) % ring.size()] - a;
    const Vec2 q = a + d * std::clamp(dot(p - a, d) / dot(d, d), 0.0, 1.0);
    if (norm(q - p) < norm(best - p) - 1e-9) best = q;
  }
  return best;
}

Placement plate_frame(const Face& face) {
  // Sides and turns from each corner on, in a millionth; the least in order of reading is where the frame
  // starts.
  const std::vector<Vec2>& ring = face.outline;
  const std::size_t n = ring.size();
  std::vector<long long> shape;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 side = ring[(i + 1) % n] - ring[i], next = ring[(i + 2) % n] - ring[(i + 1) % n];
    shape.push_back(std::llround(norm(side) * 1e6));
    shape.push_back(std::llround(std::atan2(cross(side, next), dot(side, next)) * 1e6));
  }
  std::size_t best = 0;
  const auto read = [&](std::size_t from, std::size_t i) { return shape[(2 * from + i) % (2 * n)]; };
  for (std::size_t k = 1; k < n; ++k)
    for (std::size_t i = 0; i < 2 * n; ++i) {
      if (read(k, i) == read(best, i)) continue;
      if (read(k, i) < read(best, i)) best = k;
      break;
    }
  const Vec3 start = face.placement.at(ring[best]), along = face.placement.at(ring[(best + 1) % n]) - start;
  return {start, unit(along), cross(face.placement.normal(), unit(along))};
}

JointLine joint_line(const Box& box, std::size_t face_a, std::size_t face_b, Vec3 start, Vec3 end,
                     Vec3 into_a, double slack_mm) {
  JointLine made;
  made.start = start;
  made.end = end;
  made.length_mm = norm(end - start);
  made.along = unit(end - start);
  made.first = unit(into_a - made.along * dot(into_a, made.along));
  made.second = cross(made.along, made.first);
  made.a = side_of(box, face_a, {start, end}, slack_mm);
  made.b = side_of(box, face_b, {start, end}, slack_mm);
  return made;
}

} // namespace tacksquare::elastic
