#include "opening/rowing.h"

#include "base/numbers.h"
#include "tables/bench_gauges.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace opening {

SizeCause gauge_cause(double size_mm) {
  const BenchGaugeInfo& gauge = bench_gauge(size_mm <= 600.0 ? BenchGauge::steel_rule : BenchGauge::tape);
  const double reads = in_mm(gauge.resolution);
  return {"gauge", Spread::normal, 0.0, reads, reads, 0.0, "", gauge.source};
}

SizeBudget hole_budget(const ClearSpace& clear) {
  SizeBudget hole;
  hole.tall_mm = kSideOfHole;
  hole.causes.push_back(gauge_cause(clear.width.narrowest_mm));
  return hole;
}

} // namespace opening

namespace {

using namespace opening;

const char* word(WayIn way) {
  return way == WayIn::slide ? "slide" : way == WayIn::lower ? "lower" : "tip";
}

// The box's own limits for its width; none where it has no width that is measured.
const Measure* width_of(const BoxKnown& known) {
  for (const Measure& measure : known.work->measures)
    if (measure.kind == MeasureKind::width && measure.id.starts_with("width-")) return &measure;
  return nullptr;
}

Stand standing(const Job& job, const RowPlace& place, const BoxKnown& known) {
  Stand stand;
  stand.place = &place;
  stand.known = known;
  stand.width = size_budget(job, known, place.copy, 'x');
  stand.nominal_mm = outside_mm(known, 0);
  stand.smallest_mm = job.limits.size_under ? stand.nominal_mm - in_mm(*job.limits.size_under)
                                            : stand.nominal_mm * smallest_size().value;
  const Measure* width = width_of(known);
  stand.largest_mm = stand.nominal_mm + (width ? width->over_mm : 0.0);
  stand.under_mm = width ? width->under_mm : 0.0;
  const MeasuredBox* measured = readings_of(job, *known.box, place.copy);
  stand.measured = measured && latest_sizes(*measured, 0);
  stand.tall_mm = outside_mm(known, 2) + overhang_mm(known, 2);
  stand.deep_mm = outside_mm(known, 1) + overhang_mm(known, 1);
  stand.coating_mm = in_mm(place.coating.value_or(job.opening->coating));
  return stand;
}

StandFit as_it_stands(const HardOpening& opening, const Stand& stand) {
  StandFit made;
  made.box = stand.known.box->id;
  made.copy = stand.place->copy;
  made.nominal_mm = stand.nominal_mm;
  made.smallest_mm = stand.smallest_mm;
  made.gap_mm = in_mm(stand.place->gap);
  made.overhang_mm = overhang_mm(stand.known, 0);
  made.cut_last = stand.place->cut_last;
  made.measured = stand.measured;
  made.keeps_size = stand.place->keep_size;
  made.entry = word(way_in(opening, stand));
  made.sweep_mm = sweep_mm(opening, stand);
  if (made.entry == "tip" && opening.tip_from) made.lean_deg = in_deg(*opening.tip_from);
  return made;
}

// The largest box of the row along an axis, drawn.
std::vector<double> largest_of_row(const Job& job, const std::vector<Stand>& stands, char axis) {
  std::vector<SizeBudget> budgets;
  for (const Stand& stand : stands)
    budgets.push_back(size_budget(job, stand.known, stand.place->copy, axis));
  RowDraws row(budgets);
  Random random(kRowSeed);
  std::vector<double> all;
  all.reserve(kFewDraws);
  for (std::size_t i = 0; i < kFewDraws; ++i) {
    row.draw(random);
    double most = 0.0;
    for (std::size_t s = 0; s < budgets.size(); ++s)
      most = std::max(most, budgets[s].nominal_mm + row.size(s));
    all.push_back(most);
  }
  std::sort(all.begin(), all.end());
  return all;
}

void set_height_and_depth(const Job& job, const std::vector<Stand>& stands, RowFit& fit) {
  const HardOpening& opening = *job.opening;
  if (fit.clear.height) {
    const std::vector<double> heights = largest_of_row(job, stands, 'z');
    const double wanted = in_mm(opening.clearance_height);
    fit.height = chance_of(heights, fit.clear.height->mm - wanted);
    fit.go_stick_height_mm =
        std::min(fit.clear.height->narrowest_mm,
                 std::ceil((quantile_of(heights, fit.wanted_chance) + wanted) * 10.0 - 1e-6) / 10.0);
  }
  if (fit.clear.depth)
    fit.depth =
        chance_of(largest_of_row(job, stands, 'y'), fit.clear.depth->mm - in_mm(opening.clearance_depth));
}

// Which way racked boxes nest, when two or more were measured.
void set_nesting(const Job& job, const std::vector<Stand>& stands, RowFit& fit) {
  std::vector<double> lean, tall;
  double widths = 0.0;
  int known = 0;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const MeasuredBox* measured = readings_of(job, *stands[i].known.box, stands[i].place->copy);
    if (measured) fit.stands[i].rack_mm = measured_rack_mm(*measured, stands[i].known);
    known += fit.stands[i].rack_mm.has_value();
    lean.push_back(fit.stands[i].rack_mm.value_or(0.0) / stands[i].tall_mm);
    tall.push_back(stands[i].tall_mm);
    widths += fit.stands[i].overhang_mm +
              (stands[i].measured ? stands[i].width.nominal_mm : fit.stands[i].target_mm);
  }
  if (known < 2) return;
  fit.as_listed_row_mm = widths + contacts_mm(lean, tall);
  fit.nested = nesting_order(lean, tall);
  std::vector<double> nested_lean, nested_tall;
  for (const std::size_t i : fit.nested) {
    nested_lean.push_back(lean[i]);
    nested_tall.push_back(tall[i]);
  }
  fit.nested_row_mm = widths + contacts_mm(nested_lean, nested_tall);
}

// By the rule of the trade: what belly and proud corners may take is stated, else the most that was computed.
void set_stated_target(const HardOpening& opening, const std::vector<Stand>& stands, RowFit& fit) {
  double room = fit.clear.width.mm - in_mm(opening.clearance);
  double sizes = 0.0, free = 0.0, first = 0.0;
  for (const Stand& stand : stands) {
    const bool free_to = gives_way(stand);
    if (free_to && free == 0.0) first = stand.nominal_mm;
    free += free_to ? 1.0 : 0.0;
    sizes += as_it_is(stand);
    room -= in_mm(stand.place->gap) + 2.0 * stand.coating_mm + overhang_mm(stand.known, 0);
    if (opening.allowance) {
      room -= in_mm(*opening.allowance);
      continue;
    }
    for (const SizeCause& c : stand.width.causes)
      if (c.key == "belly" || c.key == "bend-lean" || c.key == "grinding") room -= c.middle_mm + c.over_mm;
  }
  fit.stated_target_mm =
      free > 0.0 ? first + (room - sizes) / free : room / static_cast<double>(stands.size());
}

std::string written(double mm) {
  return rounded(mm, 0.1) + " mm";
}

// Boxes that can never stand in the opening are told before anything is cut; of boxes that are built it is
// told, too, and the row shows what to trim.
void check_room(const HardOpening& opening, const std::vector<Stand>& stands, RowFit& fit, Diagnostics& out) {
  double boxes = 0.0, coating = 0.0, over = 0.0, gaps = 0.0;
  bool measured = false;
  for (const Stand& stand : stands) {
    boxes += stand.measured ? stand.width.nominal_mm : std::min(stand.smallest_mm, stand.nominal_mm);
    coating += 2.0 * stand.coating_mm;
    over += overhang_mm(stand.known, 0);
    gaps += in_mm(stand.place->gap);
    measured = measured || stand.measured;
  }
  const ClearSize& clear = fit.clear.width;
  const double least = boxes + coating + over + gaps + in_mm(opening.clearance);
  fit.fits_never = least > clear.mm;
  if (!fit.fits_never) return;
  std::string takes = "boxes " + written(boxes), leaves = "narrowest " + written(clear.narrowest_mm);
  const auto add = [](std::string& to, const char* what, double mm) {
    if (mm != 0.0) to.append(", ").append(what).append(" ").append(written(mm));
  };
  add(takes, "lips and lids", over);
  add(takes, "coating", coating);
  add(takes, "gaps", gaps);
  add(takes, "clearance", in_mm(opening.clearance));
  add(leaves, "less plumb and floor", clear.lost_to_plumb_mm);
  add(leaves, "less what stands in the way", clear.lost_to_obstacles_mm);
  const std::string message = std::string(measured ? "the boxes as measured and the others" : "the boxes") +
                              " at their smallest take " + written(least) + " (" + takes +
                              "); the opening has " + written(clear.mm) + " (" + leaves +
                              "): " + written(least - clear.mm) + " too much";
  if (measured)
    out.caution("row-never", opening.where, message,
                "trim or rebuild the widest, leave one out, or measure again: nothing that is cut now helps");
  else
    out.error("row-never", opening.where, message,
              "one box less, smaller boxes, or less clearance; or measure the opening again");
}

} // namespace

const StandFit* stand_of(const std::optional<RowFit>& row, const std::string& box) {
  const auto rank = [](const StandFit& stand) { return 2 * stand.cut_last + stand.keeps_size; };
  const StandFit* found = nullptr;
  if (!row) return nullptr;
  for (const StandFit& stand : row->stands)
    if (stand.box == box && !stand.measured && (!found || rank(stand) < rank(*found))) found = &stand;
  return found;
}

namespace opening {

std::vector<Stand> stands_of(const Job& job, const std::vector<RowPlace>& places,
                             const std::vector<BoxKnown>& boxes) {
  std::vector<Stand> stands;
  for (const RowPlace& place : places)
    stands.push_back(standing(job, place, boxes[place.box]));
  return stands;
}

Fitted fit_stands(const Job& job, const std::vector<Stand>& stands, Diagnostics& out) {
  const HardOpening& opening = *job.opening;
  double tallest = 0.0;
  for (const Stand& stand : stands)
    tallest = std::max(tallest, stand.tall_mm);
  Fitted fitted;
  RowFit& fit = fitted.fit;
  fit.name = opening.name;
  fit.clear = clear_space(opening, tallest);
  fit.clearance_mm = in_mm(opening.clearance);
  fit.coating_mm = in_mm(opening.coating);
  fit.wanted_chance = opening.chance;
  fit.by = opening.by;
  if (opening.allowance) fit.allowance_mm = in_mm(*opening.allowance);
  std::vector<SizeBudget> budgets;
  for (const Stand& stand : stands) {
    budgets.push_back(stand.width);
    fit.stands.push_back(as_it_stands(opening, stand));
  }
  if (stands.empty()) return fitted;

  budgets.push_back(hole_budget(fit.clear));
  fitted.reckoning = reckon(budgets, opening.chance);
  fit.budget = fitted.reckoning.budget;
  set_sizes(opening, stands, fitted.reckoning, set_targets(opening, stands, fitted.reckoning.excess, fit),
            fit);
  set_stated_target(opening, stands, fit);
  set_height_and_depth(job, stands, fit);
  set_nesting(job, stands, fit);
  fit.flush = must_be_flush(job, stands);
  check_entries(opening, fit.clear, stands, out);
  check_room(opening, stands, fit, out);
  return fitted;
}

} // namespace opening

RowFit fit_row(const Job& job, const std::vector<BoxKnown>& boxes, Diagnostics& out) {
  if (!job.opening) throw InternalError("fit_row: a job without an opening");
  const std::vector<RowPlace> places = row_of(job);
  return fit_stands(job, stands_of(job, places, boxes), out).fit;
}

} // namespace tacksquare
