#include "planning/planner/box_case.h"

#include "formulas/band_math.h"
#include "formulas/heat.h"

#include <algorithm>

namespace tacksquare {
namespace {

double rho_c(const Metal& metal) {
  return metal.density_kg_m3 * 1e-9 * metal.specific_heat_J_kgK; // J/(mm3 K)
}

double tau_s(const BoxCase& box, const Sheet& sheet, double film) {
  const auto sides = box.closed() ? formulas::CooledSides::one : formulas::CooledSides::both;
  return formulas::cooling_tau_s(rho_c(sheet.metal), in_mm(sheet.thickness), film, sides);
}

const Sheet& thinnest_welded_sheet(const BoxCase& box) {
  const Sheet* thinnest = nullptr;
  for (const Part& part : box.box.parts) {
    const Sheet& sheet = box.job.sheets[part.sheet];
    if (!part.loose && (!thinnest || sheet.thickness < thinnest->thickness)) thinnest = &sheet;
  }
  if (!thinnest) throw InternalError("a box without a welded part reached the planner");
  return *thinnest;
}

using End = double Band::*; // value, low or high

// Time for the hottest seam to fall to the touch limit, with one film coefficient and one end of the heat.
double touch_time_s(const BoxCase& box, double film, End heat) {
  const double touch_rise_K = box.work.rules.touch_limit_C.value - box.work.ambient_C;
  double worst_s = 0.0;
  for (const WorkSeam& seam : box.work.seams) {
    const Sheet& sheet =
        box.job.sheets[box.box.parts[box.box.faces[box.box.seams[seam.seam].face_a].part].sheet];
    const double heat_J_mm = box.work.settings[seam.settings].net_heat.*heat;
    const formulas::LineSource line{heat_J_mm, (seam.t_a_mm + seam.t_b_mm) / 2.0, rho_c(sheet.metal),
                                    sheet.metal.conductivity_W_mK, tau_s(box, sheet, film)};
    worst_s = std::max(worst_s, formulas::line_source_time_s(line, touch_rise_K));
  }
  return worst_s;
}

double measure_time_s(const BoxCase& box, double film, End heat) {
  constexpr double kMeasureRise_K = 5.0; // sizes are read within 5 K of the shop
  const double rise_K = box.mean_rise_K().*heat;
  if (rise_K <= kMeasureRise_K) return 0.0;
  return formulas::time_to_cool_s(rise_K, kMeasureRise_K, 0.0, tau_s(box, thinnest_welded_sheet(box), film))
      .value;
}

// Less film or more heat, more time; the room and the arc have nothing to do with each other.
template <class Time> Band cooling_band(Time time_s) {
  const double median_s = time_s(formulas::kStillAirFilm.value, &Band::value);
  const Band by_heat{0.0, time_s(formulas::kStillAirFilm.value, &Band::low) - median_s,
                     time_s(formulas::kStillAirFilm.value, &Band::high) - median_s};
  return formulas::sum_independent({{median_s, time_s(formulas::kStillAirFilm.high, &Band::value),
                                     time_s(formulas::kStillAirFilm.low, &Band::value)},
                                    by_heat});
}

} // namespace

double BoxCase::thinnest_mm() const {
  return in_mm(thinnest_welded_sheet(*this).thickness);
}

bool BoxCase::any_family(MetalFamily family) const {
  return std::any_of(box.parts.begin(), box.parts.end(),
                     [&](const Part& part) { return !part.loose && sheet_of(part).metal.family == family; });
}

bool BoxCase::any_process(Process process) const {
  return std::any_of(work.seams.begin(), work.seams.end(),
                     [&](const WorkSeam& seam) { return work.settings[seam.settings].process == process; });
}

bool BoxCase::folded() const {
  return std::any_of(box.parts.begin(), box.parts.end(),
                     [](const Part& part) { return !part.bends.empty(); });
}

bool BoxCase::sized() const {
  return box.width && box.depth && box.height;
}

Hold BoxCase::hold() const {
  if (closed()) return Hold::counted_squares;
  if (box.form == BoxForm::own_faces || box.open_side.empty() || !sized() || !geometry.opening)
    return Hold::blocks;
  const bool filled = std::any_of(box.seams.begin(), box.seams.end(), [](const Seam& seam) {
    return seam.joint == JointKind::tee || seam.side == WeldSide::inside;
  });
  if (filled) return Hold::corner_squares;
  // A lip that is turned in leaves less than the walls do.
  const Vec2 inside = inside_of_opening_mm();
  const bool faces_front = box.open_side == "F";
  Vec2 low{1e9, 1e9}, high{-1e9, -1e9};
  for (const Vec3 corner : geometry.opening->corners) {
    const Vec2 at{corner.x, faces_front ? corner.z : corner.y};
    low = {std::min(low.x, at.x), std::min(low.y, at.y)};
    high = {std::max(high.x, at.x), std::max(high.y, at.y)};
  }
  const Vec2 through = high - low;
  return through.x < inside.x || through.y < inside.y ? Hold::corner_squares : Hold::former;
}

const Fixing& BoxCase::fixed() const {
  if (!fixing) throw InternalError("a box that is planned without its fixture");
  return *fixing;
}

bool BoxCase::has_piece(ItemKind kind) const {
  const auto& pieces = fixed().fixture.pieces;
  return std::any_of(pieces.begin(), pieces.end(),
                     [&](const FixturePiece& piece) { return piece.kind == kind; });
}

Vec2 BoxCase::inside_of_opening_mm() const {
  const double walls_mm = 2.0 * thinnest_mm();
  return {in_mm(*box.width) - walls_mm, in_mm(box.open_side == "F" ? *box.height : *box.depth) - walls_mm};
}

const char* BoxCase::lift_word() const {
  switch (lift_for(kg(geometry.mass_kg))) {
  case Lift::one_person:
    return "one";
  case Lift::two_people:
    return "two";
  case Lift::hoist:
    return "hoist";
  }
  throw InternalError("unknown way to lift");
}

bool BoxCase::has_flush_seam() const {
  return std::any_of(box.seams.begin(), box.seams.end(),
                     [](const Seam& seam) { return seam.finish == Finish::flush; });
}

bool BoxCase::has_loose_part() const {
  return std::any_of(box.parts.begin(), box.parts.end(), [](const Part& part) { return part.loose; });
}

std::vector<std::string> BoxCase::seam_ids() const {
  std::vector<std::string> ids;
  for (const Seam& seam : box.seams)
    ids.push_back(seam.id);
  return ids;
}

double BoxCase::longest_seam_mm() const {
  double longest = 0.0;
  for (const WorkSeam& seam : work.seams)
    longest = std::max(longest, seam.length_mm);
  return longest;
}

double BoxCase::outside_mm(char axis) const {
  const Vec3 size = geometry.high - geometry.low;
  return axis == 'x' ? size.x : axis == 'y' ? size.y : size.z;
}

Band BoxCase::mean_rise_K() const {
  std::vector<Band> heats_J;
  for (const Run& run : work.runs) {
    const Band& heat = work.settings[work.seams[run.seam].settings].net_heat;
    heats_J.push_back(formulas::scaled(heat, run.heat_J / heat.value));
  }
  double capacity_J_K = 0.0;
  for (std::size_t i = 0; i < box.parts.size(); ++i)
    if (!box.parts[i].loose)
      capacity_J_K += geometry.blanks[i].mass_kg * sheet_of(box.parts[i]).metal.specific_heat_J_kgK;
  return formulas::scaled(formulas::sum_same_cause(heats_J), 1.0 / capacity_J_K);
}

CoolingTimes cooling_times(const BoxCase& box) {
  return {cooling_band([&](double film, End heat) { return touch_time_s(box, film, heat); }),
          cooling_band([&](double film, End heat) { return measure_time_s(box, film, heat); })};
}

Band arc_seconds(const BoxCase& box) {
  std::vector<Band> runs;
  for (const Run& run : box.work.runs)
    runs.push_back(
        formulas::scaled(box.work.settings[box.work.seams[run.seam].settings].slowness, run.arc_s));
  return formulas::sum_same_cause(runs);
}

Text simple(std::string key) {
  return {std::move(key), {}};
}

Text face_name(const std::string& face_id) {
  static const std::vector<std::string> letters = {"F", "B", "L", "R", "U", "T"};
  if (std::find(letters.begin(), letters.end(), face_id) == letters.end())
    return {"plain", {word("text", face_id)}};
  return simple("face." + face_id);
}

Text seam_list(const std::vector<std::string>& ids) {
  return {"seams", {words("seams", ids)}};
}

const ReceivingLimit* find_limit(const BoxCase& box, const std::string& kind, const std::string& where) {
  for (const ReceivingLimit& limit : box.receiving)
    if (limit.kind == kind && (where.empty() || limit.where == where)) return &limit;
  return nullptr;
}

const Measure* find_measure(const Work& work, MeasureKind kind, const std::string& where) {
  for (const Measure& measure : work.measures)
    if (measure.kind == kind && (where.empty() || measure.where == where)) return &measure;
  return nullptr;
}

} // namespace tacksquare
