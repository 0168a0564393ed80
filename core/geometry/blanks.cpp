#include "formulas/bends.h"
#include "geometry/parts_of_resolve.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kOverlap_mm2 = 25.0; // less than this is no fault of the drawing

// A face laid flat in the plane of the part's first face: p -> origin + x p.x + y p.y.
struct Flat {
  Vec2 origin, x{1, 0}, y{0, 1};
  Vec2 at(Vec2 p) const { return origin + x * p.x + y * p.y; }
  Vec2 turned(Vec2 d) const { return x * d.x + y * d.y; }
};

Vec2 direction_in(const Face& face, Vec3 d) {
  return {dot(d, face.placement.u), dot(d, face.placement.v)};
}

// Lays b flat beside a over their bend: the bend lines on each other, then moved outward by the correction.
Flat laid_flat(const Flat& flat_a, const Panel& a, const Panel& b, const Meeting& m, Vec3 into_a, Vec3 into_b,
               double correction_mm) {
  const Vec3 along = unit(m.line.end - m.line.start);
  const Vec2 s_a = flat_a.turned(direction_in(*a.face, along));
  const Vec2 out_a = flat_a.turned(direction_in(*a.face, -into_a));
  // In b's own frame the same two directions: along the bend, and into b, which continues the way out of a.
  const Vec2 s_b = direction_in(*b.face, along), in_b = direction_in(*b.face, into_b);
  Flat flat;
  flat.x = s_a * s_b.x + out_a * in_b.x;
  flat.y = s_a * s_b.y + out_a * in_b.y;
  const Vec2 foot = flat_a.at(a.face->placement.local(m.line.start)) + out_a * correction_mm;
  const Vec2 own = b.face->placement.local(m.line.start);
  flat.origin = foot - flat.x * own.x - flat.y * own.y;
  return flat;
}

struct Piece {
  std::size_t face = 0;
  Ring ring; // cut outline, laid flat
  Ring flat; // what of it stays flat: two walls share the zone of their bends at a corner, and the relief is
             // cut there; empty when all of it is bent
};

// The part of a face that its bends leave flat, in the face's frame.
Ring flat_part(const Box& box, const Panel& panel, std::size_t face, const std::vector<BendMeeting>& bends) {
  std::vector<double> inward = panel.face->setback_mm;
  for (const BendMeeting& m : bends) {
    const Bend& bend = box.parts[m.part].bends[m.bend];
    if (bend.face_a != face && bend.face_b != face) continue;
    const double tangent_mm =
        (in_mm(bend.inside_radius) + 0.5 * panel.t_mm) * std::tan(0.5 * m.angle_rad); // of the middle surface
    for (std::size_t i = 0; i < panel.ring.size(); ++i)
      if (common_part(panel.edge(i), m.meeting.line, kMeetSlack_mm)) inward[i] = tangent_mm;
  }
  Ring ring = edges_moved(panel.shape.outline, inward);
  if (!ring_fault(ring).empty() || signed_area(ring) <= 0.0) ring.clear();
  return ring;
}

void check_overlap(const Box& box, std::size_t part, const std::vector<Piece>& pieces,
                   const std::vector<BendMeeting>& bends, Diagnostics& out) {
  for (std::size_t i = 0; i < pieces.size(); ++i)
    for (std::size_t j = i + 1; j < pieces.size(); ++j) {
      const bool bent = std::any_of(bends.begin(), bends.end(), [&](const BendMeeting& m) {
        const Bend& b = box.parts[m.part].bends[m.bend];
        return std::minmax(b.face_a, b.face_b) == std::minmax(pieces[i].face, pieces[j].face);
      });
      if (bent || pieces[i].flat.empty() || pieces[j].flat.empty() ||
          common_area(pieces[i].flat, pieces[j].flat) < kOverlap_mm2)
        continue;
      out.error(
          "blank-overlap", box.parts[part].where,
          fmt::format("faces {} and {} of part {} lie on each other in the flat pattern",
                      box.faces[pieces[i].face].id, box.faces[pieces[j].face].id, box.parts[part].id),
          "the part cannot be cut from one sheet: make one of them a part of its own, or state a smaller "
          "inside radius");
    }
}

// The largest face stays where it is; ties go to the one stated first.
std::size_t base_of(const std::vector<Panel>& panels, const std::vector<std::size_t>& faces) {
  std::size_t base = faces.front();
  for (const std::size_t f : faces)
    if (area(panels[f].shape) > area(panels[base].shape) + 1e-6) base = f;
  return base;
}

Blank blank_of(const Box& box, std::size_t part, const std::vector<Panel>& panels,
               const std::vector<BendMeeting>& bends, Diagnostics& out) {
  Blank blank;
  blank.part = part;
  std::vector<std::size_t> faces;
  for (std::size_t f = 0; f < panels.size(); ++f)
    if (box.faces[f].part == part) faces.push_back(f);
  if (faces.empty()) return blank;

  std::vector<std::optional<Flat>> flat(panels.size());
  std::deque<std::size_t> open{base_of(panels, faces)};
  flat[open.front()] = Flat{};
  std::vector<Piece> pieces;
  while (!open.empty()) {
    const std::size_t f = open.front();
    open.pop_front();
    Piece piece{f, {}, flat_part(box, panels[f], f, bends)};
    for (const Vec2 p : panels[f].cut.outline)
      piece.ring.push_back(flat[f]->at(p));
    for (Vec2& p : piece.flat)
      p = flat[f]->at(p);
    pieces.push_back(std::move(piece));
    blank.area_mm2 += area(panels[f].cut);
    for (const BendMeeting& m : bends) {
      if (m.part != part) continue;
      const Bend& bend = box.parts[part].bends[m.bend];
      if (bend.face_a != f && bend.face_b != f) continue;
      const bool forward = bend.face_a == f;
      const std::size_t other = forward ? bend.face_b : bend.face_a;
      if (flat[other]) continue;
      const formulas::Ranged correction =
          formulas::middle_surface_correction_mm(m.angle_rad, in_mm(bend.inside_radius), panels[f].t_mm);
      if (!correction.in_range())
        out.caution("bend-formula", bend.where,
                    fmt::format("the flat length over the bend of faces {} and {} lies outside DIN 6935: {}",
                                box.faces[bend.face_a].id, box.faces[bend.face_b].id, correction.note),
                    "take the bend deduction from the brake");
      const Meeting& line = m.meeting;
      flat[other] = laid_flat(*flat[f], panels[f], panels[other], line, forward ? line.into_a : line.into_b,
                              forward ? line.into_b : line.into_a, correction.value);
      blank.area_mm2 += correction.value * length(line.line);
      open.push_back(other);
    }
  }
  check_overlap(box, part, pieces, bends, out);

  Vec2 low = pieces.front().ring.front(), high = low;
  for (const Piece& piece : pieces)
    for (const Vec2 p : piece.ring) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
  blank.length_mm = std::max(high.x - low.x, high.y - low.y);
  blank.width_mm = std::min(high.x - low.x, high.y - low.y);
  const Panel& any = panels[faces.front()];
  blank.mass_kg = blank.area_mm2 * any.t_mm * any.sheet->metal.density_kg_m3 * 1e-9;
  return blank;
}

} // namespace

std::vector<Blank> blanks(const Box& box, const std::vector<Panel>& panels,
                          const std::vector<BendMeeting>& bends, Diagnostics& out) {
  std::vector<Blank> all;
  for (std::size_t p = 0; p < box.parts.size(); ++p)
    all.push_back(blank_of(box, p, panels, bends, out));
  return all;
}

} // namespace tacksquare
