#include "planning/bending/folding.h"

#include "base/units.h"
#include "geometry/polygon.h"
#include "planning/bending/convex_pieces.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kOneLineMm = 0.05;           // bends, radii and zones that differ by less are alike
constexpr double kStraight = 1e-4;            // rad: lines that differ by less are parallel
constexpr double kSquare = 0.5 * kPi / 180.0; // rad: an angle this near to 90 degrees is square
constexpr double kLargestSector = 0.25 * kPi; // rad: of one convex piece of a bent zone

std::size_t index_of(const FlatPattern& pattern, const std::string& id) {
  for (std::size_t i = 0; i < pattern.faces.size(); ++i)
    if (pattern.faces[i].id == id) return i;
  throw InternalError("a bend of part " + pattern.part + " names a face that its flat pattern lacks");
}

} // namespace

Folding::Folding(const FlatPattern& pattern) : pattern_(&pattern) {
  for (const FlatFace& face : pattern.faces)
    pieces_.push_back(convex_pieces(face.flat));
  for (const FlatBend& bend : pattern.bends) {
    Joint joint;
    joint.face_a = index_of(pattern, bend.face_a);
    joint.face_b = index_of(pattern, bend.face_b);
    joint.middle = (bend.start + bend.end) * 0.5;
    joint.length_mm = norm(bend.end - bend.start);
    const Vec2 along = (bend.end - bend.start) * (1.0 / joint.length_mm);
    joint.across = {along.y, -along.x}; // b lies to the right
    joint.middle_radius_mm = bend.radius_mm + 0.5 * pattern.thickness_mm;
    joints_.push_back(joint);
  }
  if (bends() + 1 != faces())
    throw InternalError("the bends of part " + pattern.part + " do not join its faces to a tree");
  find_lines();
  ways_.resize(lines_.size() * faces());
  for (std::size_t line = 0; line < lines_.size(); ++line)
    find_ways(line);
}

// Neighbours on a line of one face: alike in angle, side and bent zone.
void Folding::find_lines() {
  const auto add = [&](const std::vector<std::size_t>& members) {
    StrokeLine line;
    line.members = members;
    line.leader = *std::min_element(members.begin(), members.end());
    const Joint& lead = joints_[line.leader];
    line.across = lead.across;
    line.along = {-lead.across.y, lead.across.x};
    Stretch whole{kFar, -kFar};
    for (const std::size_t b : members) {
      line.bends |= BendSet{1} << b;
      const double at = dot(joints_[b].middle - lead.middle, line.along), half = 0.5 * joints_[b].length_mm;
      line.parts.push_back({at - half, at + half});
      whole = {std::min(whole.from, at - half), std::max(whole.to, at + half)};
    }
    const double middle = 0.5 * (whole.from + whole.to);
    line.middle = lead.middle + line.along * middle;
    line.length_mm = whole.to - whole.from;
    for (Stretch& part : line.parts)
      part = {part.from - middle, part.to - middle};
    lines_.push_back(std::move(line));
  };
  for (std::size_t b = 0; b < bends(); ++b)
    add({b});
  for (std::size_t face = 0; face < faces(); ++face) {
    std::vector<char> placed(bends(), 0);
    const auto out_of = [&](std::size_t b) {
      return joints_[b].across * (joints_[b].face_a == face ? 1.0 : -1.0);
    };
    for (std::size_t b = 0; b < bends(); ++b) {
      const FlatBend& bend = pattern_->bends[b];
      const auto alike = [&](std::size_t c) {
        const FlatBend& other = pattern_->bends[c];
        return (joints_[c].face_a == face || joints_[c].face_b == face) &&
               dot(out_of(b), out_of(c)) > 1.0 - kStraight * kStraight &&
               std::abs(dot(joints_[c].middle - joints_[b].middle, out_of(b))) < kOneLineMm &&
               std::abs(other.angle_rad - bend.angle_rad) < kStraight &&
               std::abs(other.radius_mm - bend.radius_mm) < kOneLineMm &&
               std::abs(other.flat_mm - bend.flat_mm) < kOneLineMm;
      };
      if (placed[b]) continue;
      std::vector<std::size_t> members;
      for (std::size_t c = b; c < bends(); ++c)
        if (!placed[c] && alike(c)) members.push_back(c);
      for (const std::size_t c : members)
        placed[c] = 1;
      const Vec2 along{-out_of(b).y, out_of(b).x};
      std::stable_sort(members.begin(), members.end(), [&](std::size_t c, std::size_t d) {
        return dot(joints_[c].middle, along) < dot(joints_[d].middle, along);
      });
      for (std::size_t from = 0; from < members.size(); ++from)
        for (std::size_t to = from + 2; to <= members.size(); ++to)
          add({members.begin() + static_cast<std::ptrdiff_t>(from),
               members.begin() + static_cast<std::ptrdiff_t>(to)});
    }
  }
}

void Folding::find_ways(std::size_t line) {
  std::vector<char> seen(faces(), 0);
  std::vector<std::size_t> todo;
  for (const std::size_t b : lines_[line].members) {
    const bool along = dot(joints_[b].across, lines_[line].across) > 0.0;
    for (const std::size_t face : {joints_[b].face_a, joints_[b].face_b}) {
      if (seen[face]) continue;
      seen[face] = 1;
      todo.push_back(face);
      ways_[line * faces() + face].beyond = (face == joints_[b].face_b) == along;
    }
  }
  for (std::size_t next = 0; next < todo.size(); ++next) {
    const std::size_t face = todo[next];
    for (std::size_t c = 0; c < bends(); ++c) {
      const Joint& joint = joints_[c];
      if (joint.face_a != face && joint.face_b != face) continue;
      const std::size_t other = joint.face_a == face ? joint.face_b : joint.face_a;
      if (seen[other]) continue;
      seen[other] = 1;
      todo.push_back(other);
      Way& on = ways_[line * faces() + other];
      on = way(line, face);
      on.path.push_back(c);
    }
  }
  if (todo.size() != faces())
    throw InternalError("the bends of part " + pattern_->part + " do not join its faces to a tree");
}

Vec2 Folding::away_from(std::size_t line, std::size_t face) const {
  return lines_[line].across * (beyond(line, face) ? 1.0 : -1.0);
}

// The plane of the sheet at the bend: x along the bend, y away from it, z towards its inside.
Folding::Pose Folding::start(std::size_t line, std::size_t face) const {
  const FlatBend& stated = leader(line);
  const Vec2 middle = lines_[line].middle, along = lines_[line].along, away = away_from(line, face);
  const double zone = 0.5 * stated.flat_mm;
  return {{-dot(middle, along), -dot(middle, away) - zone, 0.0},
          {along.x, away.x, 0.0},
          {along.y, away.y, 0.0},
          {0.0, 0.0, stated.angle_rad > 0.0 ? -1.0 : 1.0}};
}

// What hangs on a bend, once it is made: the sheet leaves its plane where the bent zone begins, runs round an
// arc and on straight.
Folding::Pose Folding::folded(const Pose& before, std::size_t bend, Vec2 away) const {
  const Joint& joint = joints_[bend];
  const FlatBend& stated = pattern_->bends[bend];
  const double angle = std::abs(stated.angle_rad), inward = stated.angle_rad > 0.0 ? -1.0 : 1.0;
  const double sine = std::sin(angle), cosine = std::cos(angle), R = joint.middle_radius_mm;
  const Vec2 along{-away.y, away.x};
  // Of a point at `on` beyond the end of the zone and `side` along it, at a height `in` towards the inside.
  const Vec2 begin = joint.middle - away * (0.5 * stated.flat_mm);
  const Vec3 end = before.at(begin + away * (R * sine), inward * R * (1.0 - cosine));
  const Vec3 on = before.x * away.x + before.y * away.y, side = before.x * along.x + before.y * along.y;
  const Vec3 in = before.up * inward;
  const Vec3 new_on = on * cosine + in * sine, new_up = (in * cosine - on * sine) * inward;
  Pose pose;
  pose.x = new_on * away.x + side * along.x;
  pose.y = new_on * away.y + side * along.y;
  pose.up = new_up;
  const Vec2 zone_end = joint.middle + away * (0.5 * stated.flat_mm);
  pose.origin = end - pose.x * zone_end.x - pose.y * zone_end.y;
  return pose;
}

Body Folding::body(const std::vector<Vec3>& corners) const {
  Body body;
  body.along = {corners.front().x, corners.front().x};
  std::vector<Vec2> section;
  for (const Vec3 p : corners) {
    body.along = {std::min(body.along.from, p.x), std::max(body.along.to, p.x)};
    section.push_back({p.y, p.z});
  }
  body.section = convex(convex_hull(section));
  return body;
}

void Folding::add_zone(std::vector<Body>& bodies, const Pose& pose, std::size_t bend, Vec2 away, bool made,
                       bool in_plane) const {
  const FlatBend& stated = pattern_->bends[bend];
  const Joint& joint = joints_[bend];
  const double t = pattern_->thickness_mm, R = joint.middle_radius_mm;
  const Vec2 shift = away * (-0.5 * stated.flat_mm), ends[2] = {stated.start + shift, stated.end + shift};
  const double angle = std::abs(stated.angle_rad), inward = stated.angle_rad > 0.0 ? -1.0 : 1.0;
  std::vector<Vec3> corners;
  if (!made) {
    for (const Vec2 end : ends)
      for (const double height : {-0.5 * t, 0.5 * t})
        for (const double on : {0.0, stated.flat_mm})
          corners.push_back(pose.at(end + away * on, height));
    bodies.push_back(body(corners));
    bodies.back().in_plane = in_plane;
    return;
  }
  const auto sectors = static_cast<int>(std::ceil(angle / kLargestSector - 1e-9));
  const double step = angle / sectors;
  for (int sector = 0; sector < sectors; ++sector) {
    corners.clear();
    const auto add = [&](double at, double radius) {
      for (const Vec2 end : ends)
        corners.push_back(
            pose.at(end + away * (radius * std::sin(at)), inward * (R - radius * std::cos(at))));
    };
    const double from = sector * step, outer = R + 0.5 * t;
    for (const double at : {from, from + step}) {
      add(at, R - 0.5 * t);
      add(at, outer);
    }
    // The arc bulges over the line between its ends: where the tangents at both ends meet.
    add(from + 0.5 * step, outer / std::cos(0.5 * step));
    bodies.push_back(body(corners));
    bodies.back().out_of_it = in_plane;
  }
}

std::vector<Body> Folding::bodies(std::size_t line, std::size_t face, BendSet done) const {
  std::vector<Body> bodies;
  Pose pose = start(line, face);
  bool in_plane = true;
  for (const std::size_t c : path(line, face)) {
    const bool made = (done >> c & 1u) != 0;
    const Vec2 away = away_from(c, face);
    if (c == path(line, face).back()) add_zone(bodies, pose, c, away, made, in_plane);
    if (made) {
      pose = folded(pose, c, away);
      in_plane = false;
    }
  }
  const double half = 0.5 * pattern_->thickness_mm;
  for (const std::vector<Vec2>& piece : pieces_[face]) {
    std::vector<Vec3> corners;
    for (const Vec2 p : piece)
      for (const double height : {-half, half})
        corners.push_back(pose.at(p, height));
    bodies.push_back(body(corners));
    bodies.back().in_plane = in_plane;
  }
  return bodies;
}

std::vector<GaugeEdge> Folding::cut_edges(std::size_t line, std::size_t face) const {
  const Pose pose = start(line, face);
  const Vec2 away = away_from(line, face);
  const std::vector<Vec2>& outline = pattern_->faces[face].flat;
  std::vector<GaugeEdge> edges;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 p = outline[i], q = outline[(i + 1) % outline.size()], side = q - p;
    if (std::abs(dot(side, away)) > kStraight * norm(side) || cross(away, side) <= 0.0) continue;
    const Vec3 from = pose.at(p, 0.0), to = pose.at(q, 0.0);
    edges.push_back({face, std::max(from.y, to.y), {std::min(from.x, to.x), std::max(from.x, to.x)}});
  }
  return edges;
}

std::optional<GaugeEdge> Folding::bent_edge(std::size_t line, std::size_t face) const {
  if (path(line, face).empty()) return {};
  const std::size_t last = path(line, face).back();
  const FlatBend& stated = pattern_->bends[last];
  const Vec2 away = away_from(line, face);
  if (dot(away_from(last, face), away) < 1.0 - kStraight * kStraight) return {};
  if (std::abs(std::abs(stated.angle_rad) - 0.5 * kPi) > kSquare) return {};
  const Pose pose = start(line, face);
  const Vec2 shift = away * (-0.5 * stated.flat_mm);
  const Vec3 from = pose.at(stated.start + shift, 0.0), to = pose.at(stated.end + shift, 0.0);
  const double outside = joints_[last].middle_radius_mm + 0.5 * pattern_->thickness_mm;
  return GaugeEdge{face, from.y + outside, {std::min(from.x, to.x), std::max(from.x, to.x)}};
}

} // namespace tacksquare
