#include "geometry/flat_pattern.h"

#include "formulas/bends.h"
#include "geometry/flat_marks.h"
#include "geometry/unfold.h"
#include "job/forms.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kIntoFlat_mm = 0.05; // zones reach over the tangent lines, so that sums leave no seam
constexpr double kCross_mm2 = 0.01;   // zones that share less do not cross

// Where u mm beyond the first tangent line meets v mm beyond the second; nothing when they run along each
// other.
std::optional<Vec2> crossing(const LaidBend& a, double u, const LaidBend& b, double v) {
  const double turn = cross(a.along, b.along);
  if (std::abs(turn) < 0.02) return {};
  const Vec2 p = a.tangent(0.0, u), q = b.tangent(0.0, v);
  return p + a.along * (cross(q - p, b.along) / turn);
}

class PatternMaker {
 public:
  PatternMaker(const Job& job, const Box& box, const std::vector<Panel>& panels, const UnfoldedPart& unfolded)
      : job_(job), box_(box), panels_(panels), unfolded_(unfolded) {}

  FlatPattern make(Diagnostics& out) {
    const Part& part = box_.parts[box_.faces[unfolded_.faces.front()].part];
    const Sheet& sheet = job_.sheets[part.sheet];
    made_.part = part.id;
    made_.sheet = sheet.id;
    made_.thickness_mm = in_mm(sheet.thickness);
    made_.tolerance_mm = in_mm(job_.incoming.blank.value_or(incoming_misfit().blank));
    for (const LaidBend& bend : unfolded_.bends)
      zones_.push_back(bent_zone(bend, 0.0));
    corners();
    slots();
    cut(part, out);
    holes(out);
    bends();
    faces();
    move_to_corner();
    const Shape shape{made_.outline, made_.holes};
    made_.area_mm2 = area(shape);
    made_.centroid = centroid(shape);
    made_.mass_kg = made_.area_mm2 * made_.thickness_mm * sheet.metal.density_kg_m3 * 1e-9;
    return std::move(made_);
  }

 private:
  void corners() {
    const auto& bends = unfolded_.bends;
    for (std::size_t i = 0; i < bends.size(); ++i)
      for (std::size_t j = i + 1; j < bends.size(); ++j) {
        if (common_area(zones_[i], zones_[j]) < kCross_mm2) continue;
        const LaidBend &a = bends[i], &b = bends[j];
        const double wide = std::max(a.take.depth_mm(), formulas::relief_width_mm(made_.thickness_mm)),
                     deep = std::max(b.take.depth_mm(), formulas::relief_width_mm(made_.thickness_mm));
        Ring ring;
        for (const auto& [u, v] : {std::pair{0.0, 0.0}, {wide, 0.0}, {wide, deep}, {0.0, deep}})
          if (const auto p = crossing(a, u, b, v)) ring.push_back(*p);
        if (ring.size() == 4) add_relief(ring, wide, deep);
      }
  }

  void slots() {
    for (const LaidBend& bend : unfolded_.bends)
      for (const std::size_t end : {std::size_t{0}, std::size_t{1}})
        for (const bool near : {true, false}) {
          const BendEnd& e = near ? bend.near_ends[end] : bend.far_ends[end];
          if (!e.flanked) continue;
          const double wide = formulas::relief_width_mm(made_.thickness_mm);
          const double deep = std::max(bend.take.depth_mm(), bend.take.tangent_mm + e.reach_mm);
          const double s0 = e.at, s1 = e.at + (end == 0 ? -wide : wide);
          const double u0 = near ? 0.0 : bend.take.flat_mm, u1 = near ? deep : bend.take.flat_mm - deep;
          add_relief({bend.tangent(s0, u0), bend.tangent(s1, u0), bend.tangent(s1, u1), bend.tangent(s0, u1)},
                     wide, deep);
        }
  }

  void add_relief(Ring ring, double wide, double deep) {
    if (signed_area(ring) < 0.0) std::reverse(ring.begin(), ring.end());
    made_.reliefs.push_back({(ring[0] + ring[2]) * 0.5, wide, deep, ring});
  }

  void cut(const Part& part, Diagnostics& out) {
    std::vector<Ring> metal = unfolded_.flat, reliefs;
    for (const LaidBend& bend : unfolded_.bends)
      metal.push_back(bent_zone(bend, kIntoFlat_mm));
    for (const FlatRelief& relief : made_.reliefs)
      reliefs.push_back(relief.outline);
    std::vector<Shape> pieces = less(united(metal), reliefs);
    if (pieces.empty()) throw InternalError("a part without metal: " + part.id);
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Shape& a, const Shape& b) { return area(a) > area(b) + 1e-6; });
    if (pieces.size() > 1)
      out.error("blank-pieces", part.where,
                fmt::format("the flat pattern of part {} falls into {} pieces", part.id, pieces.size()),
                "make its bends longer or their inside radii smaller");
    made_.outline = std::move(pieces.front().outline);
    made_.holes = std::move(pieces.front().holes);
  }

  void holes(Diagnostics& out) {
    for (std::size_t i = 0; i < unfolded_.faces.size(); ++i) {
      const std::size_t f = unfolded_.faces[i];
      std::vector<Ring> own = box_.faces[f].cutouts;
      for (const Vent& vent : box_.vents)
        if (vent.face == f) own.push_back(round_hole(vent.at, vent.diameter));
      for (const Ring& hole : own) {
        made_.holes.push_back(unfolded_.laid[i].ring(hole));
        for (const Ring& zone : zones_)
          if (common_area(made_.holes.back(), zone) >= kCross_mm2)
            out.caution("hole-in-bend", box_.faces[f].where,
                        fmt::format("a hole of face {} lies in a bent zone and is drawn out of shape there",
                                    box_.faces[f].id),
                        "move it away from the bend, or cut it after bending");
      }
    }
  }

  void bends() {
    for (const LaidBend& bend : unfolded_.bends) {
      const BendTake& take = bend.take;
      FlatBend made;
      made.face_a = box_.faces[bend.near].id;
      made.face_b = box_.faces[bend.far].id;
      made.angle_rad = bend.inward ? take.angle_rad : -take.angle_rad;
      made.radius_mm = take.radius_mm;
      made.flat_mm = take.flat_mm;
      made.deduction_mm = take.deduction_mm;
      made.own_deduction = take.own;
      // Mitred lips widen the zone beyond the sharp line.
      const double beyond_mm = take.flat_mm + bend.length_mm;
      const Vec2 from = bend.tangent(-beyond_mm, 0.5 * take.flat_mm),
                 to = bend.tangent(bend.length_mm + beyond_mm, 0.5 * take.flat_mm);
      const Ring zone = zone_left(bend);
      const auto pieces =
          zone.empty() ? std::vector<std::pair<double, double>>{} : pieces_within({zone, {}}, from, to, 0.0);
      if (pieces.empty()) continue; // the pattern has fallen into pieces there: told
      made.start = from + bend.along * pieces.front().first;
      made.end = from + bend.along * pieces.back().second;
      if (cross(bend.along, bend.out) > 0.0) std::swap(made.start, made.end);
      made_.bends.push_back(made);
    }
  }

  // A bent zone less the reliefs.
  Ring zone_left(const LaidBend& bend) const {
    std::vector<Ring> reliefs;
    for (const FlatRelief& relief : made_.reliefs)
      reliefs.push_back(relief.outline);
    const std::vector<Shape> left = less({{bent_zone(bend, 0.0), {}}}, reliefs);
    return left.empty() ? Ring{} : left.front().outline;
  }

  void faces() {
    for (std::size_t i = 0; i < unfolded_.faces.size(); ++i) {
      const Laid& laid = unfolded_.laid[i];
      const Panel& panel = panels_[unfolded_.faces[i]];
      made_.faces.push_back(
          {panel.face->id, laid.origin, laid.x, laid.y, laid.ring(panel.cut.outline), unfolded_.flat[i]});
    }
  }

  void move_to_corner() {
    Vec2 low = made_.outline.front(), high = low;
    for (const Vec2 p : made_.outline) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    made_.length_mm = high.x - low.x;
    made_.width_mm = high.y - low.y;
    const auto move = [&](Vec2& p) { p = p - low; };
    const auto move_ring = [&](Ring& ring) { std::for_each(ring.begin(), ring.end(), move); };
    move_ring(made_.outline);
    std::for_each(made_.holes.begin(), made_.holes.end(), move_ring);
    for (FlatFace& face : made_.faces) {
      move(face.origin);
      move_ring(face.outline);
      move_ring(face.flat);
    }
    for (FlatBend& bend : made_.bends) {
      move(bend.start);
      move(bend.end);
    }
    for (FlatRelief& relief : made_.reliefs) {
      move(relief.at);
      move_ring(relief.outline);
    }
  }

  const Job& job_;
  const Box& box_;
  const std::vector<Panel>& panels_;
  const UnfoldedPart& unfolded_;
  std::vector<Ring> zones_;
  FlatPattern made_;
};

// Where the flat sheet around a face is in space: its origin, the directions of x and y, and outward.
struct Folded {
  Vec3 origin, x, y, out;
  Vec3 at(Vec2 p) const { return origin + x * p.x + y * p.y; }
  Vec3 turned(Vec2 d) const { return x * d.x + y * d.y; }
};

// The sheet beyond the bend: it leaves the near tangent line, runs round the cylinder of the middle surface
// and goes on straight from the far one.
Folded folded(const Folded& near, const FlatBend& bend, double t_mm) {
  const double theta = std::abs(bend.angle_rad), R = bend.radius_mm + 0.5 * t_mm,
               sign = bend.angle_rad < 0.0 ? -1.0 : 1.0;
  const Vec2 along = (bend.end - bend.start) * (1.0 / norm(bend.end - bend.start));
  const Vec2 out{along.y, -along.x};
  const Vec2 near_tangent = bend.start - out * (0.5 * bend.flat_mm),
             far_tangent = bend.start + out * (0.5 * bend.flat_mm);
  const Vec3 along3 = near.turned(along), out3 = near.turned(out);
  const Vec3 onward = out3 * std::cos(theta) - near.out * (sign * std::sin(theta));
  const Vec3 foot =
      near.at(near_tangent) + out3 * (R * std::sin(theta)) - near.out * (sign * R * (1.0 - std::cos(theta)));
  Folded far;
  far.x = along3 * along.x + onward * out.x;
  far.y = along3 * along.y + onward * out.y;
  far.out = out3 * (sign * std::sin(theta)) + near.out * std::cos(theta);
  far.origin = foot - far.turned(far_tangent);
  return far;
}

} // namespace

std::vector<FlatPattern> flat_patterns(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       const TackPlaces& tacks, Diagnostics& out) {
  Diagnostics again; // resolve_geometry has told these; its cautions are not told twice
  const std::vector<Panel> panels = make_panels(job, box, again);
  const std::vector<BendMeeting> bends = find_bends(box, panels, again);
  std::vector<UnfoldedPart> parts;
  if (!again.has_errors()) parts = unfold(job, box, panels, bends, again);
  if (again.has_errors()) {
    out.append(again);
    return {};
  }
  Diagnostics told;
  std::vector<FlatPattern> patterns;
  for (const UnfoldedPart& part : parts)
    patterns.push_back(part.faces.empty() ? FlatPattern{} : PatternMaker(job, box, panels, part).make(told));
  out.append(told);
  if (told.has_errors()) return {};
  for (FlatPattern& pattern : patterns)
    pattern.marks = flat_marks(box, geometry, tacks, pattern);
  return patterns;
}

std::vector<std::vector<Vec3>> refolded(const Box& box, const FlatPattern& pattern) {
  std::vector<std::optional<Folded>> folds(pattern.faces.size());
  const auto index_of = [&](const std::string& id) {
    for (std::size_t i = 0; i < pattern.faces.size(); ++i)
      if (pattern.faces[i].id == id) return i;
    throw InternalError("a bend of a face that the pattern lacks: " + id);
  };
  const FlatFace& first = pattern.faces.at(0);
  const auto base =
      std::find_if(box.faces.begin(), box.faces.end(), [&](const Face& face) { return face.id == first.id; });
  if (base == box.faces.end()) throw InternalError("a pattern of another box");
  const Placement& place = base->placement;
  folds[0] = Folded{place.at(Vec2{} - first.origin), place.u, place.v, place.normal()};
  for (std::size_t i = 0; i < pattern.faces.size(); ++i) // a is nearer: laid before b
    for (const FlatBend& bend : pattern.bends)
      if (index_of(bend.face_a) == i)
        folds[index_of(bend.face_b)] = folded(folds[i].value(), bend, pattern.thickness_mm);
  std::vector<std::vector<Vec3>> rings;
  for (std::size_t i = 0; i < pattern.faces.size(); ++i) {
    std::vector<Vec3> ring;
    for (const Vec2 p : pattern.faces[i].outline)
      ring.push_back(folds[i].value().at(p));
    rings.push_back(std::move(ring));
  }
  return rings;
}

} // namespace tacksquare
