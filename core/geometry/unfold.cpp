#include "geometry/unfold.h"

#include "formulas/bends.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kOverlap_mm2 = 25.0;   // less than this is no fault of the drawing
constexpr double kRadiusSpare_mm = 0.1; // of a radius that a deduction was measured with
constexpr double kBeside_mm = 0.5;      // over the side of a face, where there is no metal
constexpr double kAlong = 0.02;         // sine: a side closer to the bend line runs along it
constexpr int kChords = 8;              // of the side of a bent zone

Vec2 direction_in(const Face& face, Vec3 d) {
  return {dot(d, face.placement.u), dot(d, face.placement.v)};
}

// How the face's outline goes on where the bend on `line` ends: at its start, or at its end.
BendEnd bend_end(const Panel& panel, const Segment& line, Vec3 into, bool at_start) {
  const Face& face = *panel.face;
  const Vec2 corner = face.placement.local(at_start ? line.start : line.end);
  const Vec2 along = direction_in(face, unit(line.end - line.start)), in = direction_in(face, into);
  const double length_mm = length(line), onward = at_start ? 1.0 : -1.0; // towards the other end
  BendEnd end;
  end.at = at_start ? 0.0 : length_mm;
  end.flanked = true;
  const Ring& ring = face.outline;
  const std::size_t n = ring.size();
  for (std::size_t v = 0; v < n; ++v) {
    if (norm(ring[v] - corner) > meet_slack_mm(panel, panel)) continue;
    const std::size_t before = (v + n - 1) % n;
    for (const bool leaves :
         {true, false}) { // the bend is on the edge that leaves the corner, or comes to it
      const Vec2 on = leaves ? ring[(v + 1) % n] - ring[v] : ring[before] - ring[v];
      const Vec2 side = leaves ? ring[before] - ring[v] : ring[(v + 1) % n] - ring[v];
      if (dot(on, along) * onward < 0.9998 * norm(on)) continue;
      const double rise = dot(side, in) / norm(side), run = dot(side, along) / norm(side);
      end.at += dot(ring[v] - corner, along);
      if (rise > kAlong) {
        end.slope = run / rise;
        end.at += onward * panel.inset_mm[leaves ? before : v] / rise;
        end.flanked = false;
      } else if (rise < -kAlong) {
        end.reach_mm = -dot(side, in);
      }
      return end;
    }
  }
  return end;
}

// Lays the far face beside the near one over their bend: the sharp lines on each other, then moved outward by
// what the bend gives.
Laid laid_over(const LaidBend& bend, const Panel& far, const Segment& line, Vec3 into_far) {
  const Vec2 s = direction_in(*far.face, unit(line.end - line.start)), in = direction_in(*far.face, into_far);
  Laid laid;
  laid.x = bend.along * s.x + bend.out * in.x;
  laid.y = bend.along * s.y + bend.out * in.y;
  const Vec2 foot = bend.start + bend.out * (bend.take.flat_mm - 2.0 * bend.take.tangent_mm);
  laid.origin = foot - laid.turned(far.face->placement.local(line.start));
  return laid;
}

// What of a face the bend takes, laid: from over the sharp line to the tangent line.
Ring taken(const LaidBend& bend, bool near) {
  const auto& ends = near ? bend.near_ends : bend.far_ends;
  const double T = bend.take.tangent_mm;
  const auto point = [&](std::size_t end, double into_mm) {
    const double beside = ends[end].flanked ? 0.5 * bend.take.t_mm : kBeside_mm;
    const double s = ends[end].at + ends[end].slope * into_mm + (end == 0 ? -beside : beside);
    return bend.tangent(s, near ? T - into_mm : bend.take.flat_mm - T + into_mm);
  };
  return {point(0, -kBeside_mm), point(0, T), point(1, T), point(1, -kBeside_mm)};
}

class Unfolder {
 public:
  Unfolder(const Job& job, const Box& box, const std::vector<Panel>& panels,
           const std::vector<BendMeeting>& meetings, Diagnostics& out)
      : job_(job), box_(box), panels_(panels), meetings_(meetings), out_(out) {}

  UnfoldedPart unfold(std::size_t part) {
    UnfoldedPart made;
    std::optional<std::size_t> base; // the largest face stays where it is
    for (std::size_t f = 0; f < panels_.size(); ++f)
      if (box_.faces[f].part == part && (!base || area(panels_[f].shape) > area(panels_[*base].shape) + 1e-6))
        base = f;
    if (!base) return made;
    made.faces.push_back(*base);
    made.laid.push_back({});
    std::vector<std::optional<LaidBend>> bends(box_.parts[part].bends.size());
    for (std::size_t i = 0; i < made.faces.size(); ++i)
      for (const BendMeeting& m : meetings_) {
        if (m.part != part || bends[m.bend]) continue;
        const Bend& bend = box_.parts[part].bends[m.bend];
        if (bend.face_a != made.faces[i] && bend.face_b != made.faces[i]) continue;
        bends[m.bend] = laid_bend(m, made.faces[i], made.laid[i]);
        const std::size_t far = bends[m.bend]->far;
        const bool forward = bend.face_b == far;
        made.faces.push_back(far);
        made.laid.push_back(laid_over(*bends[m.bend], panels_[far], m.meeting.line,
                                      forward ? m.meeting.into_b : m.meeting.into_a));
      }
    for (std::optional<LaidBend>& bend : bends) {
      if (!bend) throw InternalError("a bend that joins no faces of part " + box_.parts[part].id);
      made.bends.push_back(*bend);
    }
    for (const LaidBend& bend : made.bends)
      check_metal(bend, box_.parts[part].bends[bend.bend]);
    for (std::size_t i = 0; i < made.faces.size(); ++i)
      made.flat.push_back(flat_of(made, i));
    check_overlap(made, part);
    return made;
  }

 private:
  BendTake take_of(const Part& part, const Bend& bend, double angle_rad) {
    BendTake take;
    take.angle_rad = angle_rad;
    take.radius_mm = in_mm(bend.inside_radius);
    take.t_mm = in_mm(job_.sheets[part.sheet].thickness);
    const double half = std::tan(0.5 * angle_rad), legs_mm = 2.0 * (take.radius_mm + take.t_mm) * half;
    take.tangent_mm = (take.radius_mm + 0.5 * take.t_mm) * half;
    const std::string faces =
        fmt::format("the bend of faces {} and {}", box_.faces[bend.face_a].id, box_.faces[bend.face_b].id);
    if (const Deduction* stated =
            job_.brake ? nearest_deduction(*job_.brake, part.sheet, angle_rad, take.radius_mm) : nullptr) {
      const double deduction_mm = in_mm(stated->deduction);
      // The neutral line lies in the sheet, whatever the die.
      const double least = legs_mm - angle_rad * (take.radius_mm + take.t_mm + kRadiusSpare_mm),
                   most = legs_mm - angle_rad * std::max(0.0, take.radius_mm - kRadiusSpare_mm);
      if (least <= deduction_mm && deduction_mm <= most) {
        take.own = true;
        take.deduction_mm = deduction_mm;
        take.flat_mm = legs_mm - deduction_mm;
        return take;
      }
      if (std::find(told_.begin(), told_.end(), stated) == told_.end()) {
        told_.push_back(stated);
        out_.error(
            "deduction", stated->where,
            fmt::format("no sheet of {:.2f} mm takes up {:.2f} mm in {}", take.t_mm, deduction_mm, faces),
            fmt::format("a deduction is two legs to the outer vertex less the flat length: here {:.2f} "
                        "to {:.2f} mm",
                        std::max(0.0, least), most));
      }
      // What follows goes by DIN 6935, so that nothing false follows.
    }
    const formulas::Ranged correction =
        formulas::middle_surface_correction_mm(angle_rad, take.radius_mm, take.t_mm);
    if (!correction.in_range())
      out_.caution("bend-formula", bend.where,
                   fmt::format("the flat length over {} lies outside DIN 6935: {}", faces, correction.note),
                   "take the bend deduction from the brake");
    take.flat_mm = correction.value + 2.0 * take.tangent_mm;
    take.deduction_mm = legs_mm - take.flat_mm;
    return take;
  }

  LaidBend laid_bend(const BendMeeting& m, std::size_t near, const Laid& laid) {
    const Part& part = box_.parts[m.part];
    const Bend& bend = part.bends[m.bend];
    const bool forward = bend.face_a == near;
    const Vec3 into_near = forward ? m.meeting.into_a : m.meeting.into_b,
               into_far = forward ? m.meeting.into_b : m.meeting.into_a;
    const Segment& line = m.meeting.line;
    const Face& face = box_.faces[near];
    LaidBend made;
    made.bend = m.bend;
    made.near = near;
    made.far = forward ? bend.face_b : bend.face_a;
    made.take = take_of(part, bend, m.angle_rad);
    made.inward = dot(into_far, panels_[near].normal) < 0.0;
    made.start = laid.at(face.placement.local(line.start));
    made.along = laid.turned(direction_in(face, unit(line.end - line.start)));
    made.out = laid.turned(direction_in(face, -into_near));
    made.length_mm = length(line);
    for (const bool at_start : {true, false}) {
      made.near_ends[at_start ? 0 : 1] = bend_end(panels_[near], line, into_near, at_start);
      made.far_ends[at_start ? 0 : 1] = bend_end(panels_[made.far], line, into_far, at_start);
    }
    return made;
  }

  Ring flat_of(const UnfoldedPart& made, std::size_t i) {
    const std::size_t f = made.faces[i];
    std::vector<Ring> strips;
    for (const LaidBend& bend : made.bends)
      if (bend.near == f || bend.far == f) strips.push_back(taken(bend, bend.near == f));
    const Ring whole = made.laid[i].ring(panels_[f].cut.outline);
    if (strips.empty()) return whole;
    const std::vector<Shape> left = less({{whole, {}}}, strips);
    if (left.size() != 1 || !left.front().holes.empty()) {
      out_.error("bend-narrow", box_.faces[f].where,
                 fmt::format("the bends of face {} leave {} of it flat", box_.faces[f].id,
                             left.empty() ? "nothing" : "no single piece"),
                 "make the face wider or the inside radius smaller");
      return {};
    }
    return left.front().outline;
  }

  // Sides that cross before the flat is reached leave nothing to bend.
  void check_metal(const LaidBend& bend, const Bend& stated) {
    constexpr double kShortest_mm = 0.1;
    const double T = bend.take.tangent_mm;
    const double start = std::max(bend.near_ends[0].at, bend.far_ends[0].at),
                 end = std::min(bend.near_ends[1].at, bend.far_ends[1].at);
    const double near_mm = end - start + T * (bend.near_ends[1].slope - bend.near_ends[0].slope),
                 far_mm = end - start + T * (bend.far_ends[1].slope - bend.far_ends[0].slope);
    if (std::min({near_mm, far_mm, end - start}) >= kShortest_mm) return;
    out_.error("bend-metal", stated.where,
               fmt::format("faces {} and {} have no metal in common along their bend",
                           box_.faces[bend.near].id, box_.faces[bend.far].id),
               "make their setbacks there smaller, or the inside radius");
  }

  void check_overlap(const UnfoldedPart& made, std::size_t part) {
    for (std::size_t i = 0; i < made.faces.size(); ++i)
      for (std::size_t j = i + 1; j < made.faces.size(); ++j) {
        const bool bent = std::any_of(made.bends.begin(), made.bends.end(), [&](const LaidBend& b) {
          return std::minmax(b.near, b.far) == std::minmax(made.faces[i], made.faces[j]);
        });
        if (bent || made.flat[i].empty() || made.flat[j].empty() ||
            common_area(made.flat[i], made.flat[j]) < kOverlap_mm2)
          continue;
        out_.error(
            "blank-overlap", box_.parts[part].where,
            fmt::format("faces {} and {} of part {} lie on each other in the flat pattern",
                        box_.faces[made.faces[i]].id, box_.faces[made.faces[j]].id, box_.parts[part].id),
            "the part cannot be cut from one sheet: make one of them a part of its own, or state a smaller "
            "inside radius");
      }
  }

  const Job& job_;
  const Box& box_;
  const std::vector<Panel>& panels_;
  const std::vector<BendMeeting>& meetings_;
  Diagnostics& out_;
  std::vector<const Deduction*> told_; // impossible ones, once each
};

} // namespace

Ring Laid::ring(const Ring& own) const {
  Ring laid;
  for (const Vec2 p : own)
    laid.push_back(at(p));
  return laid;
}

double BendTake::depth_mm() const {
  return std::max({flat_mm, formulas::relief_depth_mm(radius_mm, t_mm), tangent_mm});
}

Ring bent_zone(const LaidBend& bend, double overlap_mm) {
  const BendTake& take = bend.take;
  const double theta = take.angle_rad, T = take.tangent_mm;
  const auto at = [&](std::size_t end) {
    const double a = bend.near_ends[end].at, b = bend.far_ends[end].at;
    return end == 0 ? std::max(a, b) : std::min(a, b);
  };
  // Sides that slope are cut by a plane that leans, a mitre: on the round it is as far along as the sheet has
  // come out of the other face's plane, 1 - cos of the angle turned.
  const auto share = [&](double angle) { return (1.0 - std::cos(angle)) / (1.0 - std::cos(theta)); };
  const auto side = [&](std::size_t end) {
    const double near = bend.near_ends[end].slope, far = bend.far_ends[end].slope;
    Ring points;
    points.push_back(bend.tangent(at(end) + near * (T + overlap_mm), -overlap_mm));
    const int chords = near == 0.0 && far == 0.0 ? 1 : kChords;
    for (int i = 0; i <= chords; ++i) {
      const double f = static_cast<double>(i) / chords;
      points.push_back(bend.tangent(at(end) + T * (near * share(theta * (1.0 - f)) + far * share(theta * f)),
                                    f * take.flat_mm));
    }
    points.push_back(bend.tangent(at(end) + far * (T + overlap_mm), take.flat_mm + overlap_mm));
    return points;
  };
  Ring ring = side(0);
  const Ring back = side(1);
  ring.insert(ring.end(), back.rbegin(), back.rend());
  return ring;
}

std::vector<UnfoldedPart> unfold(const Job& job, const Box& box, const std::vector<Panel>& panels,
                                 const std::vector<BendMeeting>& bends, Diagnostics& out) {
  Unfolder unfolder(job, box, panels, bends, out);
  std::vector<UnfoldedPart> parts;
  for (std::size_t p = 0; p < box.parts.size(); ++p)
    parts.push_back(unfolder.unfold(p));
  return parts;
}

} // namespace tacksquare
