#include "planning/planner/elastic_case.h"

#include "formulas/band_math.h"
#include "formulas/shrinkage.h"
#include "planning/planner/checks.h"
#include "planning/planner/holding.h"
#include "planning/planner/steps.h"
#include "receiving/walls.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

using elastic::Misfit;

constexpr double kAlongBend = 0.3; // of a bend's error: half of what its ends differ by, common practice

Band in_radians(const Band& degrees) {
  return formulas::scaled(degrees, kPi / 180.0);
}

const MeasuredBox* first_copy(const BoxCase& box) {
  const auto index = static_cast<std::size_t>(&box.box - box.job.boxes.data());
  for (const MeasuredBox& m : box.job.measured)
    if (m.box == index && m.copy == 1) return &m;
  return nullptr;
}

// `one` of a reading is the end that lies left, or under.
bool start_is_one(const BendLine& bend) {
  const Vec3 d = bend.end - bend.start;
  if (std::abs(d.x) > 1e-6) return d.x > 0.0;
  return std::abs(d.z) > 1e-6 ? d.z > 0.0 : d.y > 0.0;
}

// The wall that stands on this bend: a lip on it has a bend of its own.
const receiving::BentWall* wall_on(const std::vector<receiving::BentWall>& walls, const BendLine& bend) {
  for (const receiving::BentWall& w : walls)
    if (w.foot_start == bend.start && w.foot_end == bend.end) return &w;
  return nullptr;
}

// A bend's lean: what is the same all along, and what one end has more than the other.
void add_leans(const BoxCase& box, elastic::Making& making) {
  const double usual = in_rad(box.job.incoming.bend.value_or(incoming_misfit().bend)) / kNinetyFive;
  const MeasuredBox* measured = first_copy(box);
  const std::vector<receiving::BentWall> walls = receiving::bent_walls(box.job, box.box, box.geometry);
  for (std::size_t b = 0; b < box.geometry.bends.size(); ++b) {
    const BendLine& line = box.geometry.bends[b];
    elastic::MisfitSpread all{{Misfit::Kind::lean, b, 0, {}}, 0.0, usual};
    elastic::MisfitSpread ends{{Misfit::Kind::lean, b, 1, {}}, 0.0, usual * kAlongBend};
    const receiving::BentWall* wall = wall_on(walls, line);
    if (measured && wall)
      for (const WallLeanReading& r : measured->leans) {
        if (r.face != wall->face) continue;
        const double gauge =
            in_mm(bench_gauge(BenchGauge::try_square).resolution) / kNinetyFive / wall->tall_mm;
        const double start = in_mm(start_is_one(line) ? r.one : r.other) / wall->tall_mm;
        const double end = in_mm(start_is_one(line) ? r.other : r.one) / wall->tall_mm;
        all = {all.misfit, 0.5 * (start + end), gauge};
        ends = {ends.misfit, 0.5 * (end - start), gauge};
      }
    making.misfits.push_back(all);
    making.misfits.push_back(ends);
  }
}

// Faces as the cutter makes them; gaps as they were read.
void add_blanks_and_gaps(const BoxCase& box, elastic::Making& making) {
  const double usual = in_mm(box.job.incoming.blank.value_or(incoming_misfit().blank)) / kNinetyFive;
  for (std::size_t f = 0; f < box.box.faces.size(); ++f) {
    const Face& face = box.box.faces[f];
    if (box.box.parts[face.part].loose) continue;
    for (const Vec3 direction : {face.placement.u, face.placement.v})
      making.misfits.push_back({{Misfit::Kind::stretch, f, 0, direction}, 0.0, usual});
  }
  if (const MeasuredBox* measured = first_copy(box))
    for (const FitReading& fit : measured->fits)
      for (std::size_t place = 0; place < fit.gaps.size() && place < 3; ++place)
        making.misfits.push_back(
            {{Misfit::Kind::gap, fit.seam, static_cast<int>(place), {}}, in_mm(fit.gaps[place]), 0.0});
}

void add_pieces(const BoxCase& box, ElasticCase& made) {
  made.pieces = holding_pieces(box);
  for (const HoldingPiece& p : made.pieces)
    made.making.pieces.push_back({p.at, p.out, p.stiffness_N_mm, p.off, p.untrue_mm / kNinetyFive});
}

// In the order of the steps.
void add_events(const BoxCase& box, const std::vector<std::size_t>& welds, ElasticCase& made) {
  using Kind = elastic::Event::Kind;
  std::size_t at = 0; // step
  const auto add = [&](Kind kind, std::size_t which, const std::string& id) {
    made.making.events.push_back({kind, which});
    made.made.push_back(id);
    made.step.push_back(at);
  };
  // Whatever of these ids is of the list, as an event.
  const auto add_those = [&](Kind kind, const std::vector<std::string>& ids, std::size_t count, auto id_of) {
    for (const std::string& id : ids)
      for (std::size_t i = 0; i < count; ++i)
        if (id_of(i) == id) add(kind, i, id);
  };
  const auto piece = [&](std::size_t i) { return made.pieces[i].id; };
  for (const Step& step : write_steps(box)) {
    add_those(Kind::hold, step.on, made.pieces.size(), piece);
    add_those(Kind::let_go, step.off, made.pieces.size(), piece);
    add_those(Kind::tack, step.tacks, box.tacks.size(), [&](std::size_t i) { return box.tacks[i].id; });
    add_those(Kind::weld, step.runs, welds.size(), [&](std::size_t i) { return box.work.runs[welds[i]].id; });
    ++at;
  }
}

} // namespace

// Small boxes are not left with a handful of elements, very large ones not with tens of thousands; short ones
// at the ends of seams come on top.
double mesh_for_mm(const BoxCase& box) {
  constexpr double kFinest_mm = 10.0, kUsual_mm = 50.0, kStep_mm = 2.5, kFew = 400.0, kMany = 4000.0;
  constexpr double kCells = 200.0; // along all seams
  double area = 0.0, seams = 0.0;
  for (const WorkSeam& seam : box.work.seams)
    seams += seam.length_mm;
  for (std::size_t f = 0; f < box.box.faces.size(); ++f)
    if (!box.box.parts[box.box.faces[f].part].loose) area += box.geometry.faces[f].area_mm2;
  const double wanted = std::clamp(std::sqrt(area / kFew), kFinest_mm, kUsual_mm);
  const double least = std::max(std::sqrt(area / kMany), seams / kCells);
  return std::max(std::floor(wanted / kStep_mm), std::ceil(least / kStep_mm)) * kStep_mm;
}

double springs_in(const ElasticCase& made) {
  constexpr double kTack = 2.0 * 6.0, kCell = 4.0; // a tack comes, and goes again
  constexpr double kAtEnds = 9.0, kLeast = 2.0;    // short cells more of each seam; cells of a stitch
  double springs = kTack * static_cast<double>(made.making.tacks.size()) +
                   kCell * kAtEnds * static_cast<double>(made.making.seams.size());
  for (const elastic::WeldLength& w : made.making.welds)
    springs += kCell * std::max(kLeast, std::ceil((w.to_mm - w.from_mm) / made.options.mesh_mm));
  return springs;
}

ElasticCase elastic_case(const BoxCase& box) {
  ElasticCase made;
  elastic::Making& making = made.making;
  for (const Tack& t : box.tacks)
    making.tacks.push_back({box.work.seams[t.seam].seam, t.at_mm, t.length_mm});
  std::vector<std::size_t> welds;
  for (const OrderedRun& ordered : box.order.runs) {
    const Run& run = box.work.runs[ordered.run];
    if (run.length_mm() <= 0.0) continue; // a dab on a hole
    making.welds.push_back({box.work.seams[run.seam].seam, std::min(run.from_mm, run.to_mm),
                            std::max(run.from_mm, run.to_mm), run.to_mm < run.from_mm});
    welds.push_back(ordered.run);
  }
  add_pieces(box, made);
  add_events(box, welds, made);
  making.seams.resize(box.box.seams.size());
  for (std::size_t i = 0; i < box.work.seams.size(); ++i) {
    // Of a seam in stitches the closed forms spread what its stitches do over its whole length.
    const SeamShrinkage& s = box.prediction.seams[i];
    const WorkSeam& w = box.work.seams[i];
    const double whole = w.length_mm / w.welded_mm;
    making.seams[w.seam] = {formulas::scaled(s.across_mm, whole), formulas::scaled(s.force_N, whole),
                            formulas::scaled(in_radians(s.angle_deg), whole)};
  }
  making.seam_scatter = formulas::kSeamScatterRelative;
  add_leans(box, making);
  add_blanks_and_gaps(box, making);
  add_readings(box, made);
  made.options.of_seams = seam_springs(box);
  made.options.mesh_mm = mesh_for_mm(box);
  return made;
}

std::vector<elastic::Limit> limits_of(const BoxCase& box, const ElasticCase& made) {
  std::vector<elastic::Limit> limits;
  for (std::size_t i = 0; i < made.measure.size(); ++i) {
    const Measure& m = box.work.measures[made.measure[i]];
    limits.push_back({i, -m.under_mm, m.over_mm});
  }
  return limits;
}

ElasticCase coarse_case(const BoxCase& box) {
  constexpr double kTaper_mm = 30.0;
  ElasticCase made = elastic_case(box);
  made.options.end_mm = 0.0;
  made.options.jump_taper_mm = made.making.short_taper_mm = made.making.long_taper_mm = kTaper_mm;
  made.making.watched.resize(made.measure.size()); // they stand first, and put_back names no others
  made.making.pressed.clear();
  return made;
}

} // namespace tacksquare
