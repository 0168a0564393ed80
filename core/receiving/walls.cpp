#include "receiving/walls.h"

#include "job/panels.h"
#include "tables/practice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace tacksquare::receiving {

namespace {

struct Fold {
  std::size_t face = 0, onto = 0; // onto: nearer to the largest face
  const BendLine* line = nullptr;
};

// From the largest face outward.
std::vector<Fold> folds_of(const Box& box, const BoxGeometry& geometry, std::size_t part) {
  std::vector<Fold> folds;
  const std::optional<std::size_t> root = base_faces(box)[part];
  if (!root) return folds;
  std::vector<std::size_t> reached{*root};
  for (std::size_t next = 0; next < reached.size(); ++next)
    for (const BendLine& line : geometry.bends) {
      if (line.part != part) continue;
      const Bend& bend = box.parts[part].bends[line.bend];
      if (bend.face_a != reached[next] && bend.face_b != reached[next]) continue;
      const std::size_t other = bend.face_a == reached[next] ? bend.face_b : bend.face_a;
      if (std::find(reached.begin(), reached.end(), other) != reached.end()) continue;
      reached.push_back(other);
      folds.push_back({other, reached[next], &line});
    }
  return folds;
}

double off_line(Vec3 point, const BendLine& line) {
  const Vec3 along = unit(line.end - line.start), to = point - line.start;
  return norm(to - along * dot(to, along));
}

double tall_of(const BoxGeometry& geometry, const Fold& fold) {
  double tall = 0.0;
  for (const Vec3 corner : geometry.faces[fold.face].ring)
    tall = std::max(tall, off_line(corner, *fold.line));
  return tall;
}

bool ends_held(const Box& box, const BoxGeometry& geometry, const Fold& fold) {
  const Vec3 along = unit(fold.line->end - fold.line->start);
  const double middle = 0.5 * norm(fold.line->end - fold.line->start);
  std::array<bool, 2> held{};
  for (std::size_t s = 0; s < box.seams.size(); ++s) {
    if (box.seams[s].face_a != fold.face && box.seams[s].face_b != fold.face) continue;
    const SeamLine& line = geometry.seams[s];
    if (std::fabs(dot(unit(line.end - line.start), along)) > 0.2) continue;
    const double at = dot((line.start + line.end) * 0.5 - fold.line->start, along);
    // A divider in between is no end.
    if (std::fabs(at - middle) > 0.8 * middle) held[at > middle] = true;
  }
  return held[0] && held[1];
}

} // namespace

int axis_of(Vec3 direction) {
  const Vec3 d = unit(direction);
  return std::fabs(d.x) > 0.99 ? 0 : std::fabs(d.y) > 0.99 ? 1 : std::fabs(d.z) > 0.99 ? 2 : -1;
}

std::vector<BentWall> bent_walls(const Job& job, const Box& box, const BoxGeometry& geometry) {
  std::vector<BentWall> walls;
  for (std::size_t part = 0; part < box.parts.size(); ++part)
    for (const Fold& fold : folds_of(box, geometry, part)) {
      const Sheet& sheet = job.sheets[box.parts[part].sheet];
      BentWall wall;
      wall.face = fold.face;
      wall.foot_start = fold.line->start;
      wall.foot_end = fold.line->end;
      wall.t_mm = in_mm(sheet.thickness);
      wall.metal = &sheet.metal;
      wall.tall_mm = tall_of(geometry, fold) + 0.5 * wall.t_mm;
      wall.deep_mm = norm(fold.line->end - fold.line->start);
      wall.held = ends_held(box, geometry, fold);
      wall.axis = axis_of(box.faces[fold.face].placement.normal());
      wall.lip = wall.tall_mm < in_mm(receiving_practice().lowest_wall);
      walls.push_back(wall);
    }
  std::sort(walls.begin(), walls.end(), [](const BentWall& a, const BentWall& b) { return a.face < b.face; });
  return walls;
}

BlankAxes blank_axes(const Box& box, std::size_t part) {
  const std::optional<std::size_t> base = base_faces(box)[part];
  if (!base) return {};
  const Placement& frame = box.faces[*base].placement;
  return {axis_of(frame.u), axis_of(frame.v)};
}

} // namespace tacksquare::receiving
