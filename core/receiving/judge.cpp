#include "formulas/band_math.h"
#include "formulas/bends.h"
#include "formulas/wall.h"
#include "receiving/judging.h"
#include "receiving/verdicts.h"
#include "tables/bench_gauges.h"
#include "tables/practice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

using receiving::BentWall;

namespace {

struct Judge {
  const Job& job;
  const Box& box;
  const BoxGeometry& geometry;
  const Work& work;
  std::optional<double> room_mm;
  std::vector<BentWall> walls;
  std::vector<PartReading> all{};
  std::vector<int> axes{}; // as all: of the size that a reading moves, -1 none

  PartReading& add(const char* kind, std::string where, int copy, double reading_mm, PartVerdict verdict,
                   const char* why, int axis = -1) {
    PartReading made;
    made.kind = kind;
    made.where = std::move(where);
    made.copy = copy;
    made.reading_mm = reading_mm;
    made.verdict = verdict;
    made.why = why;
    all.push_back(std::move(made));
    axes.push_back(axis);
    return all.back();
  }
  static PartVerdict by(double off_mm, double go_mm, double dress_mm, PartVerdict beyond) {
    // Limits come out of products: a reading that is the limit is within.
    constexpr double kRound = 1e-9;
    return off_mm <= go_mm + kRound      ? PartVerdict::use
           : off_mm <= dress_mm + kRound ? PartVerdict::dress
                                         : beyond;
  }
  const BentWall* bent(std::size_t face) const {
    for (const BentWall& w : walls)
      if (w.face == face) return &w;
    return nullptr;
  }
  // Lips left out.
  const BentWall* wall(std::size_t face) const {
    const BentWall* w = bent(face);
    return w && !w->lip ? w : nullptr;
  }
  static Band springs(const BentWall& wall, double pulled_mm, BenchGauge gauge) {
    const formulas::Ranged back = formulas::springs_back_mm(wall.tall_mm, wall.t_mm, wall.metal->youngs_MPa,
                                                            wall.metal->yield_MPa, pulled_mm);
    const double read = in_mm(bench_gauge(gauge).resolution);
    if (back.in_range()) return formulas::band_plus_minus(back.value, std::min(read, back.value));
    // Past yield the rest grows with the load, to half as much again when the foot is plastic throughout.
    return {1.25 * back.value, back.value, 1.5 * back.value};
  }

  void lean(const WallLeanReading& read, int copy) {
    const std::string& id = box.faces[read.face].id;
    const double one = in_mm(read.one), other = in_mm(read.other);
    const double worst = std::fabs(one) >= std::fabs(other) ? one : other;
    const BentWall* w = bent(read.face);
    if (!w) throw InternalError("receiving: a lean of face " + id + ", which no bend turns");
    const double go = receiving::lean_mm(*w, in_rad(incoming_lean().go)),
                 dress = receiving::lean_mm(*w, in_rad(incoming_lean().dress));
    const PartVerdict verdict = by(std::fabs(worst), go, dress, PartVerdict::back_to_brake);
    PartReading& made =
        add("wall-lean", id, copy, worst, verdict, verdict == PartVerdict::use ? "within" : "lean", w->axis);
    if (!w->lip) { // a lip is bent over, not pulled
      made.force_N = receiving::pull_of(*w, one, other);
      made.springs_mm = springs(*w, worst, BenchGauge::try_square);
    }
    const double mean = 0.5 * (one + other);
    // Inward the widest place stays where it is: at the held ends.
    const Band belly = w->held ? receiving::belly_of(*w, std::atan(mean / w->tall_mm))
                               : formulas::band_plus_minus(worst, 0.0);
    if (w->axis == 0) made.size_mm = formulas::larger(belly, formulas::exactly(0.0));
    const double apart = std::fabs(one - other);
    const PartVerdict turned = by(apart, go, dress, PartVerdict::back_to_brake);
    PartReading& twist =
        add("wall-twist", id, copy, apart, turned, turned == PartVerdict::use ? "within" : "twist");
    if (w->lip) return;
    twist.force_N = receiving::pull_of(*w, 0.5 * apart, -0.5 * apart);
    twist.springs_mm = springs(*w, 0.5 * apart, BenchGauge::try_square);
  }

  // Walls that this seam runs up the end of: pulled at the seam's far end they close what widens towards it.
  void closing(const SeamLine& line, const Seam& seam, const std::vector<Length>& gaps,
               PartReading& to) const {
    for (const std::size_t face : {seam.face_a, seam.face_b}) {
      const BentWall* w = wall(face);
      if (!w) continue;
      const Vec3 along = unit(w->foot_end - w->foot_start);
      if (std::fabs(dot(unit(line.end - line.start), along)) > 0.2) continue;
      const auto off = [&](Vec3 p) {
        return norm(p - w->foot_start - along * dot(p - w->foot_start, along));
      };
      const bool foot_first = off(line.start) < off(line.end);
      const double foot = in_mm(foot_first ? gaps.front() : gaps.back()),
                   rim = in_mm(foot_first ? gaps.back() : gaps.front());
      if (rim <= foot) continue;
      const Band force = receiving::pull_of(*w, rim - foot, 0.0);
      if (to.force_N && to.force_N->value <= force.value) continue; // the softer one gives
      to.force_N = force;
      to.springs_mm = springs(*w, rim - foot, BenchGauge::feeler);
    }
  }

  void fit(const FitReading& read, int copy) {
    const Seam& seam = box.seams[read.seam];
    const PartVerdict beyond = receiving::beyond_hand(box, seam);
    if (!read.gaps.empty()) {
      const auto [least, most] = std::minmax_element(read.gaps.begin(), read.gaps.end());
      const double gap = in_mm(*most);
      PartVerdict verdict = by(gap, work.rules.gap_colder_mm.value, work.rules.gap_dress_mm.value, beyond);
      const bool colder = gap > work.rules.gap_go_mm.value + 1e-9;
      const char* why = verdict != PartVerdict::use ? "gap-rule" : colder ? "copper" : "within";
      // What is welded open stands out by it, in the direction that the covering face looks.
      const bool stands_out = seam.joint == JointKind::corner && seam.over;
      const int axis = stands_out ? receiving::axis_of(box.faces[*seam.over].placement.normal()) : -1;
      PartReading& made = add("gap", seam.id, copy, gap, verdict, why, axis);
      closing(geometry.seams[read.seam], seam, read.gaps, made);
      if (axis == 0) {
        double sum = 0.0;
        for (const Length g : read.gaps)
          sum += in_mm(g);
        made.size_mm = {sum / static_cast<double>(read.gaps.size()), in_mm(*least), gap};
      }
    }
    if (read.steps.empty()) return;
    double step = 0.0;
    for (const Length s : read.steps)
      step = std::max(step, std::fabs(in_mm(s)));
    const double go = work.rules.step_mm.value;
    const PartVerdict verdict = by(step, go, receiving::step_dress_mm(job, box, seam, go), beyond);
    add("step", seam.id, copy, step, verdict, verdict == PartVerdict::use ? "within" : "step");
  }

  // A blank is gauged from its edges: what it is off goes into the flat face in its middle.
  void blank(const char* kind, const BlankReading& read, Length off, int axis, int copy) {
    const double is = in_mm(off), go = receiving::blank_mm(job), trim = in_mm(receiving_practice().trim);
    PartVerdict verdict = PartVerdict::use;
    const char* why = "within";
    if (is > go + 1e-9) {
      verdict = is <= trim + 1e-9 ? PartVerdict::dress : PartVerdict::reject;
      why = "trim";
    } else if (is < -go - 1e-9) {
      // Metal cannot be put on: used as long as the size may be that small.
      verdict = -is <= under_mm(axis) + 1e-9 ? PartVerdict::use : PartVerdict::reject;
      why = "short";
    }
    PartReading& made = add(kind, box.parts[read.part].id, copy, is, verdict, why, axis);
    if (axis == 0)
      made.size_mm = formulas::band_plus_minus(is, in_mm(bench_gauge(BenchGauge::steel_rule).resolution));
  }
  double under_mm(int axis) const {
    constexpr std::array names = {"width-1", "depth-1", "height-1"};
    for (const Measure& measure : work.measures)
      if (axis >= 0 && measure.id == names[static_cast<std::size_t>(axis)]) return measure.under_mm;
    return receiving::blank_mm(job);
  }

  // Outside width of thicker or thinner sheet from the same blank: what the bends take, and the covering
  // walls.
  double width_change_mm(std::size_t sheet, double nominal_mm, double is_mm) const {
    double change = 0.0;
    for (const BentWall& w : walls) {
      const Part& part = box.parts[box.faces[w.face].part];
      if (w.lip || w.axis != 0 || part.sheet != sheet || part.bends.empty()) continue;
      const double r = in_mm(part.bends.front().inside_radius);
      change += 0.5 * (formulas::din6935_v_mm(kPi / 2.0, r, nominal_mm).value -
                       formulas::din6935_v_mm(kPi / 2.0, r, is_mm).value);
    }
    std::vector<std::size_t> covers;
    for (const Seam& seam : box.seams)
      if (seam.over && box.parts[box.faces[*seam.over].part].sheet == sheet && !wall(*seam.over) &&
          receiving::axis_of(box.faces[*seam.over].placement.normal()) == 0 &&
          std::find(covers.begin(), covers.end(), *seam.over) == covers.end()) {
        covers.push_back(*seam.over);
        change += is_mm - nominal_mm;
      }
    return change;
  }
  void thickness(const ThicknessReading& read, int copy) {
    const Sheet& sheet = job.sheets[read.sheet];
    const double nominal = in_mm(sheet.thickness), is = in_mm(read.is), off = is - nominal;
    const ReceivingPractice& rule = receiving_practice();
    const PartVerdict verdict = by(std::fabs(off), rule.other_sheet * nominal, 0.0, PartVerdict::reject);
    const char* why = verdict == PartVerdict::reject                      ? "other-sheet"
                      : std::fabs(off) <= rule.thickness * nominal + 1e-9 ? "within"
                      : off < 0.0                                         ? "thin"
                                                                          : "thick";
    PartReading& made = add("thickness", sheet.id, copy, off, verdict, why, 0);
    const double read_mm = in_mm(bench_gauge(BenchGauge::calliper).resolution);
    made.size_mm =
        Band{width_change_mm(read.sheet, nominal, is), width_change_mm(read.sheet, nominal, is - read_mm),
             width_change_mm(read.sheet, nominal, is + read_mm)};
  }

  void stack(const StackReading& read, int copy) {
    const double off = std::fabs(in_mm(read.off));
    const PartVerdict verdict =
        by(off, in_mm(receiving_practice().stack), in_mm(receiving_practice().trim), PartVerdict::reject);
    add("stack", box.faces[read.face_a].id + "-" + box.faces[read.face_b].id, copy, off, verdict,
        verdict == PartVerdict::use ? "within" : "stack");
  }

  // What the row has no room for is dressed although each for itself may pass: the largest first.
  void make_room(std::size_t from) {
    if (!room_mm) return;
    const auto takes = [&](std::size_t i) {
      const bool counts = axes[i] == 0 && all[i].verdict == PartVerdict::use && all[i].size_mm;
      return counts ? all[i].size_mm->value : 0.0;
    };
    for (;;) {
      double sum = 0.0;
      std::optional<std::size_t> largest;
      for (std::size_t i = from; i < all.size(); ++i) {
        sum += takes(i);
        const bool by_hand = all[i].kind != "thickness"; // no hand takes that off
        if (by_hand && takes(i) > (largest ? takes(*largest) : 0.0)) largest = i;
      }
      if (sum <= *room_mm || !largest) return;
      all[*largest].verdict = PartVerdict::dress;
      all[*largest].why = "fit";
    }
  }
};

} // namespace

std::vector<PartReading> judge_parts(const Job& job, std::size_t box, const BoxGeometry& geometry,
                                     const Work& work, std::optional<double> width_room_mm) {
  Judge judge{job,  job.boxes[box], geometry,
              work, width_room_mm,  receiving::bent_walls(job, job.boxes[box], geometry)};
  for (const MeasuredBox& measured : job.measured) {
    if (measured.box != box) continue;
    const std::size_t from = judge.all.size();
    for (const ThicknessReading& read : measured.thicknesses)
      judge.thickness(read, measured.copy);
    for (const BlankReading& read : measured.blanks) {
      const receiving::BlankAxes axes = receiving::blank_axes(judge.box, read.part);
      if (read.length_off) judge.blank("blank-length", read, *read.length_off, axes.length, measured.copy);
      if (read.width_off) judge.blank("blank-width", read, *read.width_off, axes.width, measured.copy);
    }
    for (const WallLeanReading& read : measured.leans)
      judge.lean(read, measured.copy);
    for (const StackReading& read : measured.stacks)
      judge.stack(read, measured.copy);
    for (const FitReading& read : measured.fits)
      judge.fit(read, measured.copy);
    judge.make_room(from);
  }
  return std::move(judge.all);
}

} // namespace tacksquare
