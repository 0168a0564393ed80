// How boxes go in, and what must not stand out of them. docs/theory.md.
#include "opening/rowing.h"

#include "base/numbers.h"
#include "formulas/deposit.h"
#include "formulas/tipping.h"
#include "tables/practice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare::opening {

namespace {

constexpr double kSquare = 0.99, kAlong = 0.95;
constexpr double kLeastLean_deg = 1.0; // less is no way in
const Source kCap{"bead of this seam: what stands over its notch, as a parabola", Mark::derived};

std::string text(double mm) {
  return rounded(mm, 0.1) + " mm";
}
std::string name_of(const Stand& stand) {
  return "box " + stand.known.box->id + ", copy " + std::to_string(stand.place->copy) + ",";
}
Origin place_of(const HardOpening& opening, const Stand& stand) {
  return stand.place->where.known() ? stand.place->where : opening.where;
}
double coated(double mm, const Stand& stand) {
  return mm + 2.0 * stand.coating_mm;
}

// Cap of a seam that is left as welded: what of its bead lies over the notch of a corner; of all else all.
double cap_height_mm(const Box& box, const WorkSeam& w) {
  const Seam& seam = box.seams[w.seam];
  const bool a_over = seam.over && *seam.over == seam.face_a;
  const double over = a_over ? w.t_a_mm : w.t_b_mm, under = a_over ? w.t_b_mm : w.t_a_mm;
  double notch = 0.0;
  if (seam.joint == JointKind::corner && seam.corner != CornerStyle::lapped)
    notch = formulas::corner_area_mm2(seam.corner == CornerStyle::open ? formulas::CornerNotch::open
                                                                       : formulas::CornerNotch::half_open,
                                      over, under, 0.0, 0.0, 0.0)
                .value;
  const double wide = formulas::usual_cap_width_mm(std::min(w.t_a_mm, w.t_b_mm));
  return 1.5 * std::max(0.0, w.bead_mm2 - notch) / wide;
}

class Standing {
 public:
  Standing(const Job& job, const BoxKnown& known)
      : job_(job), box_(*known.box), geometry_(*known.geometry), work_(*known.work) {}

  std::vector<MustBeFlush> all() {
    for (std::size_t f = 0; f < box_.faces.size(); ++f) {
      const double out = box_.faces[f].placement.normal().x;
      if (box_.parts[box_.faces[f].part].loose || std::abs(out) < kSquare) continue;
      // Outward coordinate. Beside a lip or a lid that stands out further nothing has to be flush.
      const double side = out > 0.0 ? geometry_.overall_high.x : -geometry_.overall_low.x;
      if (std::abs(box_.faces[f].placement.origin.x * (out > 0.0 ? 1.0 : -1.0) - side) > thickness_mm(f))
        continue;
      caps(f);
      bulges(f, out > 0.0 ? 1.0 : -1.0, side);
    }
    return std::move(found_);
  }

 private:
  double thickness_mm(std::size_t face) const {
    return in_mm(job_.sheets[box_.parts[box_.faces[face].part].sheet].thickness);
  }
  void caps(std::size_t face) {
    for (const WorkSeam& w : work_.seams) {
      const Seam& seam = box_.seams[w.seam];
      if (seam.finish != Finish::left || seam.side != WeldSide::outside) continue;
      const bool stands_on_it = seam.joint == JointKind::tee && seam.face_b != face; // beside the wall
      if ((seam.face_a != face && seam.face_b != face) || stands_on_it) continue;
      const double cap = cap_height_mm(box_, w);
      if (cap > 0.0) found_.push_back({box_.id, "seam-cap", seam.id, box_.faces[face].id, cap, kCap});
    }
  }
  // A corner that is ground flush where the bend ends.
  bool ground_at(Vec3 p, double near_mm) const {
    for (std::size_t s = 0; s < box_.seams.size(); ++s)
      if (box_.seams[s].finish == Finish::flush && box_.seams[s].side == WeldSide::outside &&
          (norm(geometry_.seams[s].start - p) < near_mm || norm(geometry_.seams[s].end - p) < near_mm))
        return true;
    return false;
  }
  // How far the metal of a bend reaches outward: the cut edge of either of its faces.
  double reach_mm(const Bend& bend, double out) const {
    double most = -1e300;
    for (const std::size_t f : {bend.face_a, bend.face_b})
      for (const Vec2 p : geometry_.faces[f].cut_outline)
        most = std::max(most, out * box_.faces[f].placement.at(p).x);
    return most;
  }
  void bulges(std::size_t face, double out, double side) {
    for (const BendLine& line : geometry_.bends) {
      const Bend& bend = box_.parts[line.part].bends[line.bend];
      const Vec3 d = line.end - line.start;
      if (bend.face_a == face || bend.face_b == face || std::abs(unit(d).x) < kAlong) continue;
      const double t = thickness_mm(bend.face_a);
      const Vec3 end = d.x * out > 0.0 ? line.end : line.start;
      const SourcedLength bulge = bend_bulge(mm(t));
      const double proud = reach_mm(bend, out) + in_mm(bulge.value) - side;
      if (proud <= 1e-9 || ground_at(end, 2.0 * t)) continue;
      found_.push_back({box_.id, "bend-bulge", box_.faces[bend.face_a].id + "-" + box_.faces[bend.face_b].id,
                        box_.faces[face].id, proud, bulge.source});
    }
  }

  const Job& job_;
  const Box& box_;
  const BoxGeometry& geometry_;
  const Work& work_;
  std::vector<MustBeFlush> found_;
};

} // namespace

WayIn way_in(const HardOpening& opening, const Stand& stand) {
  return stand.place->entry.value_or(opening.entry);
}

double sweep_mm(const HardOpening& opening, const Stand& stand) {
  const double h = coated(stand.tall_mm, stand);
  if (way_in(opening, stand) != WayIn::tip) return h;
  return formulas::tip_sweep_mm(h, coated(stand.deep_mm, stand),
                                opening.tip_from ? in_rad(*opening.tip_from) : kPi / 2.0);
}

void check_entries(const HardOpening& opening, const ClearSpace& clear, const std::vector<Stand>& stands,
                   Diagnostics& out) {
  for (const Stand& stand : stands) {
    const double h = coated(stand.tall_mm, stand), d = coated(stand.deep_mm, stand);
    const Origin where = place_of(opening, stand);
    if (clear.depth && d > clear.depth->mm)
      out.error("row-deep", where,
                name_of(stand) + " is " + text(d) + " deep, coated, and the opening " + text(clear.depth->mm),
                "make the box less deep, or take away what stands in at the back");
    if (!clear.height) continue;
    const double room = clear.height->mm;
    if (h > room) {
      out.error("row-high", where,
                name_of(stand) + " is " + text(h) + " high, coated, and the opening " + text(room),
                "make the box lower, or take away what stands in from above or on the floor");
      continue;
    }
    const double sweep = sweep_mm(opening, stand), swing = room - in_mm(opening.clearance_height);
    if (way_in(opening, stand) != WayIn::tip || sweep <= swing) continue;
    const double lean = std::floor(formulas::tip_lean_rad(h, d, swing).value_or(0.0) * 1800.0 / kPi) / 10.0;
    out.error("row-tip", where,
              name_of(stand) + " takes " + text(sweep) +
                  " of height when it is tipped in, and the opening has " + text(swing),
              lean < kLeastLean_deg
                  ? "slide it in upright: there is no room to lean it"
                  : "slide it in upright, or lean it by no more than " + fixed(lean, 1) + " deg (tip-from)");
  }
}

std::vector<MustBeFlush> must_be_flush(const Job& job, const std::vector<Stand>& stands) {
  std::vector<MustBeFlush> all;
  std::vector<std::string> done;
  for (const Stand& stand : stands) {
    const std::string& id = stand.known.box->id;
    if (std::find(done.begin(), done.end(), id) != done.end()) continue;
    done.push_back(id);
    const std::vector<MustBeFlush> of_box = Standing(job, stand.known).all();
    all.insert(all.end(), of_box.begin(), of_box.end());
  }
  return all;
}

} // namespace tacksquare::opening
