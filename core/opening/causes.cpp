// Where the millimetres of a size come from: docs/theory.md.
#include "opening/budgeting.h"

#include "formulas/shrinkage.h"
#include "tables/bench_gauges.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace opening {

namespace {

constexpr std::size_t kEnoughSizes = 3; // with fewer readings the belly may not be among them
// Of the weld's band the formula's part is the same for all boxes of a job, the scatter from seam to seam is
// not.
constexpr double kFormulaRelative = 0.25;

const Source kWeld{"seams across and along this size", Mark::derived};
const Source kPutBack{"seams across and along this size; the expected loss is put back into the blank",
                      Mark::derived};
const Source kElastic{
    "elastic box: the corner that grows most, by its welds alone; the mean loss of all corners is "
    "put back into the blank",
    Mark::derived};
const Source kCorners{"corners that lock apart, within the limit of the diagonals", Mark::derived};

const double kFormulaPart =
    kFormulaRelative * kFormulaRelative /
    (kFormulaRelative * kFormulaRelative + formulas::kSeamScatterRelative * formulas::kSeamScatterRelative);

void add_weld(const Budgeting& b, std::vector<SizeCause>& causes) {
  const bool to_come = b.latest.has_value();
  if (b.known.elastic && b.known.elastic->corner_mm[b.axis]) {
    const Band& w = *b.known.elastic->corner_mm[b.axis];
    const double middle = to_come ? w.value - b.known.elastic->put_back_mm[b.axis] : w.value;
    causes.push_back(
        {"weld", Spread::normal, middle, w.value - w.low, w.high - w.value, kFormulaPart, "weld", kElastic});
    return;
  }
  const Expected* most = nullptr;
  const auto wide = [](const Expected& e) { return e.weld_mm.high - e.weld_mm.low; };
  for (const Expected& e : b.known.prediction->measures) {
    const Measure& m = b.work().measures[e.measure];
    if (m.kind != MeasureKind::width) continue;
    if (std::abs(b.along(unit(m.points[1] - m.points[0]))) < kAlong) continue;
    if (!most || wide(e) > wide(*most)) most = &e;
  }
  if (!most || wide(*most) <= 0.0) return;
  const Band& w = most->weld_mm;
  causes.push_back({"weld", Spread::normal, to_come ? w.value : 0.0, w.value - w.low, w.high - w.value,
                    kFormulaPart, "weld", to_come ? kWeld : kPutBack});
}

// Ground corners may stand out by 0 to the limit, on either side of the box.
void add_grinding(const Budgeting& b, std::vector<SizeCause>& causes) {
  const Filled<double>& proud = b.work().rules.proud_mm;
  for (const int end : {0, 1}) {
    const std::vector<std::size_t> walls = b.walls_at(end);
    const auto on = [&](std::size_t face) {
      return std::find(walls.begin(), walls.end(), face) != walls.end();
    };
    const bool ground = std::any_of(b.box().seams.begin(), b.box().seams.end(), [&](const Seam& seam) {
      return seam.finish == Finish::flush && seam.side == WeldSide::outside &&
             (on(seam.face_a) || on(seam.face_b));
    });
    if (ground && proud.value > 0.0)
      causes.push_back(
          even_cause("grinding", 0.0, proud.value, common_shares().grinding, "grinding", proud.source));
  }
}

const RowPlace* place_of(const Budgeting& b) {
  for (const RowPlace& place : b.job.opening->row)
    if (b.job.boxes[place.box].id == b.box().id && place.copy == b.copy) return &place;
  return nullptr;
}

// Lips and a loose lid are cut or bent as any other part.
void add_overhang(const Budgeting& b, std::vector<SizeCause>& causes) {
  const double over = overhang_mm(b.known, b.axis);
  if (over <= 0.0) return;
  const double reach = in_mm(b.job.incoming.blank.value_or(incoming_misfit().blank));
  causes.push_back({"overhang",
                    Spread::normal,
                    over,
                    reach,
                    reach,
                    common_shares().blank,
                    b.box().id,
                    {"lips and loose parts as drawn, cut as blanks are", Mark::derived}});
}

// Two faces. Its range is stated, else as far about it as the usual powder coat lies about its middle.
void add_coating(const Budgeting& b, std::vector<SizeCause>& causes) {
  if (!b.job.opening) return;
  const HardOpening& opening = *b.job.opening;
  const RowPlace* place = place_of(b);
  const bool own = place && place->coating;
  const double c = in_mm(own ? *place->coating : opening.coating);
  if (c <= 0.0) return;
  const Span<Length> usual = powder_coat_per_face();
  const double middle = in_mm(usual.middle());
  const bool stated = !own && (opening.coating_least || opening.coating_most);
  const auto end = [&](const std::optional<Length>& said, Length usually) {
    return !own && said ? in_mm(*said) : c * in_mm(usually) / middle;
  };
  const double least = std::min(c, end(opening.coating_least, usual.low)),
               most = std::max(c, end(opening.coating_most, usual.high));
  causes.push_back({"coating", Spread::uniform, 2.0 * c, 2.0 * (c - least), 2.0 * (most - c),
                    common_shares().coating, "powder", stated ? kJobFile : powder_coat_source()});
}

// The box as a parallelogram in front view, of a box with its opening up in the view from above: the rim's
// diagonals, of a closed box those of its front.
void add_rack(const Budgeting& b, SizeBudget& budget, std::vector<SizeCause>& causes) {
  const Measure* read = nullptr;
  double reach = 0.0;
  for (const Measure& m : b.work().measures) {
    if (m.kind != MeasureKind::diagonals || m.points.size() != 4) continue;
    const Vec3 p = m.points[1] - m.points[0], q = m.points[2] - m.points[1];
    const bool p_wide = std::abs(unit(p).x) > kAlong, q_wide = std::abs(unit(q).x) > kAlong;
    const bool front = std::abs(unit(cross(p, q)).y) > kAlong;
    if (p_wide == q_wide || (read && !front)) continue;
    const double wide = norm(p_wide ? p : q), tall = norm(p_wide ? q : p);
    double off = m.over_mm;
    for (const Expected& e : b.known.prediction->measures)
      if (&b.work().measures[e.measure] == &m) off = std::min(off, e.mm.high);
    reach = off * std::hypot(wide, tall) / (2.0 * wide);
    budget.tall_mm = tall;
    read = &m;
    if (front) break;
  }
  if (const std::optional<double> known =
          b.measured ? measured_rack_mm(*b.measured, b.known) : std::nullopt) {
    const double wide = outside_mm(b.known, 0);
    budget.tall_mm = outside_mm(b.known, 2);
    const double reads = in_mm(bench_gauge(BenchGauge::pinch_sticks).resolution) *
                         std::hypot(wide, budget.tall_mm) / (2.0 * wide);
    causes.push_back({"rack", Spread::normal, *known, reads, reads, 0.0, "", kReading});
  } else if (reach > 0.0) {
    causes.push_back({"rack", Spread::normal, 0.0, reach, reach, common_shares().rack, b.box().id, kCorners});
  }
}

SizeBudget budget_of(const Budgeting& b) {
  SizeBudget budget;
  budget.nominal_mm = outside_mm(b.known, b.axis);
  std::vector<SizeCause>& causes = budget.causes;
  if (b.latest) {
    budget.nominal_mm = in_mm(*std::max_element(b.latest->readings.begin(), b.latest->readings.end()));
    causes.push_back(gauge_cause(budget.nominal_mm));
  } else {
    causes = widest_place(b);
  }
  const bool unwelded = !b.latest || b.latest->stage == BuildStage::dry_fit;
  const bool unground = unwelded || b.latest->stage == BuildStage::as_welded;
  if (unwelded) add_weld(b, causes);
  if (b.allowed() && unground && *b.job.opening->allowance > mm(0.0)) {
    causes.push_back(even_cause("belly", 0.0, in_mm(*b.job.opening->allowance), common_shares().belly,
                                b.box().id, kJobFile));
  } else if (!b.allowed()) {
    if (unground) add_grinding(b, causes);
    if (b.latest && (unwelded || b.latest->readings.size() < kEnoughSizes))
      for (const int end : {0, 1})
        for (const std::size_t wall : b.walls_at(end))
          add_belly(b, wall, causes);
  }
  add_overhang(b, causes);
  add_coating(b, causes);
  if (b.axis == 0) add_rack(b, budget, causes);
  return budget;
}

} // namespace

} // namespace opening

SizeBudget size_budget(const Job& job, const BoxKnown& known, int copy, char axis) {
  opening::Budgeting b{job,
                       known,
                       copy,
                       axis == 'x'   ? std::size_t{0}
                       : axis == 'y' ? std::size_t{1}
                                     : std::size_t{2},
                       opening::readings_of(job, *known.box, copy),
                       {}};
  if (b.measured) b.latest = opening::latest_sizes(*b.measured, b.axis);
  return opening::budget_of(b);
}

} // namespace tacksquare
