// Sizes to aim at, and the lengths of the gauges. docs/theory.md, "Target sizes".
#include "opening/rowing.h"

#include "formulas/band_math.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace tacksquare::opening {

namespace {

constexpr double kSteps_per_mm = 10.0; // what a gauge is made to

double rounded_down(double mm) {
  return std::floor(mm * kSteps_per_mm + 1e-6) / kSteps_per_mm;
}

double sum_of(const std::vector<double>& all) {
  return std::accumulate(all.begin(), all.end(), 0.0);
}

// The same off each that may give way, until it is the smallest that is still good; nothing above the stated
// size. `room`: what all boxes may take together before their spread.
std::vector<double> aimed(const std::vector<Stand>& stands, double room) {
  std::vector<double> sizes;
  std::vector<std::size_t> free;
  for (const Stand& stand : stands) {
    if (gives_way(stand)) free.push_back(sizes.size());
    sizes.push_back(as_it_is(stand));
  }
  double over = sum_of(sizes) - room;
  while (!free.empty() && over > 0.0) {
    const double each = over / static_cast<double>(free.size());
    const auto bound = std::find_if(free.begin(), free.end(),
                                    [&](std::size_t i) { return sizes[i] - each < stands[i].smallest_mm; });
    if (bound != free.end()) {
      over -= sizes[*bound] - stands[*bound].smallest_mm;
      sizes[*bound] = stands[*bound].smallest_mm;
      free.erase(bound);
      continue;
    }
    for (const std::size_t i : free)
      sizes[i] = std::max(stands[i].smallest_mm, rounded_down(sizes[i] - each));
    break;
  }
  return sizes;
}

std::vector<SizeBudget> budgets_of(const std::vector<Stand>& stands) {
  std::vector<SizeBudget> all;
  for (const Stand& stand : stands)
    all.push_back(stand.width);
  return all;
}

// What is left to chance of boxes whose own size is known: paint, racks, lips, and the gauge where they were
// measured.
std::vector<SizeBudget> past_the_gauge(const std::vector<Stand>& stands) {
  std::vector<SizeBudget> all = budgets_of(stands);
  for (std::size_t i = 0; i < all.size(); ++i)
    if (!stands[i].measured)
      std::erase_if(all[i].causes, [](const SizeCause& c) { return of_the_box(c.key); });
  return all;
}

// Width that is left for one box when the others stand and were measured, those that are still to be made as
// wide as they are expected.
double left_for(std::size_t last, const std::vector<Stand>& stands, double room, const ClearSpace& clear,
                TargetRule by, const RowFit& fit) {
  std::vector<SizeBudget> others = past_the_gauge(stands);
  for (std::size_t i = 0; i < stands.size(); ++i) {
    if (i == last) continue;
    if (!stands[i].measured) others[i].causes.push_back(gauge_cause(stands[i].nominal_mm));
    room -= stands[i].measured ? stands[i].width.nominal_mm : fit.stands[i].width_mm.value;
  }
  others[last] = stands[last].width;
  others.push_back(hole_budget(clear));
  return rounded_down(room - excess_of(others, fit.wanted_chance).by(by));
}

// One box by itself, before coating.
void set_own_width(const SizeBudget& budget, double chance, StandFit& stand) {
  const auto own = [](const SizeCause& c) { return of_the_box(c.key); };
  const std::vector<SizeBudget> alone = with_causes({budget}, own);
  const std::vector<double> draws = draw_row(alone, kFewDraws, kRowSeed);
  const BySums sums = by_sums(alone.front(), chance);
  const double target = stand.target_mm;
  stand.width_mm = formulas::shifted(
      {quantile_of(draws, 0.5), quantile_of(draws, 0.05), quantile_of(draws, 0.95)}, target);
  stand.worst_mm = target + sums.worst_mm;
  stand.rss_mm = target + sums.rss_mm;
  stand.drawn_mm = target + quantile_of(draws, chance);
  stand.dearest = sums.dearest;
}

double around_mm(const HardOpening& opening, const std::vector<Stand>& stands) {
  double around = in_mm(opening.clearance);
  for (const Stand& stand : stands)
    around += in_mm(stand.place->gap);
  return around;
}

Reckoned reckoned(const std::vector<Stand>& stands, double room, double excess, double around, double clear) {
  Reckoned r;
  double sum = 0.0;
  for (const Stand& stand : stands)
    sum += as_it_is(stand);
  r.row_mm = sum + excess + around;
  r.left_mm = clear - r.row_mm;
  const std::vector<double> sizes = aimed(stands, room - excess);
  const auto first = std::find_if(stands.begin(), stands.end(), gives_way);
  const bool good = sum_of(sizes) <= room - excess + 1e-6;
  if (good && first != stands.end()) r.target_mm = sizes[static_cast<std::size_t>(first - stands.begin())];
  return r;
}

void set_own_widths(const std::vector<Stand>& stands, RowFit& fit) {
  for (std::size_t i = 0; i < stands.size(); ++i) {
    StandFit& stand = fit.stands[i];
    std::size_t alike = 0;
    while (alike < i && !(stands[alike].width == stands[i].width))
      ++alike;
    if (alike == i) {
      set_own_width(stands[i].width, fit.wanted_chance, stand);
      continue;
    }
    const StandFit& same = fit.stands[alike];
    const double by = stand.target_mm - same.target_mm;
    stand.width_mm = formulas::shifted(same.width_mm, by);
    stand.worst_mm = same.worst_mm + by;
    stand.rss_mm = same.rss_mm + by;
    stand.drawn_mm = same.drawn_mm + by;
    stand.dearest = same.dearest;
  }
}

} // namespace

std::vector<double> set_targets(const HardOpening& opening, const std::vector<Stand>& stands,
                                const Excess& excess, RowFit& fit) {
  const double around = around_mm(opening, stands), room = fit.clear.width.mm - around;
  fit.worst = reckoned(stands, room, excess.worst_mm, around, fit.clear.width.mm);
  fit.rss = reckoned(stands, room, excess.rss_mm, around, fit.clear.width.mm);
  fit.drawn = reckoned(stands, room, excess.drawn_mm, around, fit.clear.width.mm);
  return aimed(stands, room - excess.by(opening.by));
}

void set_sizes(const HardOpening& opening, const std::vector<Stand>& stands, const Reckoning& reckoning,
               const std::vector<double>& sizes, RowFit& fit) {
  const double around = around_mm(opening, stands), room = fit.clear.width.mm - around;
  double stated = 0.0, open = 0.0;
  for (const Stand& stand : stands) {
    stated += as_it_is(stand);
    open += stand.measured ? 0.0 : 1.0;
  }
  fit.as_stated = chance_of(reckoning.draws, room - stated);
  fit.as_aimed = chance_of(reckoning.draws, room - sum_of(sizes));
  const double mean = sum_of(reckoning.draws) / static_cast<double>(reckoning.draws.size());
  fit.packer_mm = std::max(0.0, room - sum_of(sizes) - mean);

  // What is over goes to all gap gauges alike, as far as a box may be that large whatever the row has room
  // for. A row that has no room is told; its gauges pass boxes to size.
  const double rest = excess_of(past_the_gauge(stands), fit.wanted_chance).by(opening.by);
  const double over = open > 0.0 ? (room - rest - sum_of(sizes)) / open : 0.0;
  double largest = 0.0;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    StandFit& stand = fit.stands[i];
    stand.target_mm = sizes[i];
    stand.smallest_mm = std::max(stands[i].smallest_mm, sizes[i] - stands[i].under_mm);
    const double passes = std::min(rounded_down(sizes[i] + over), stands[i].largest_mm);
    stand.largest_mm = stands[i].measured ? sizes[i] : std::max(passes, sizes[i]);
    largest += stand.largest_mm;
  }
  const double stick = largest + rest + around + fit.clear.width.lost_to_plumb_mm;
  fit.go_stick_mm = std::min(-rounded_down(-stick), rounded_down(fit.clear.width.narrowest_mm));
  set_own_widths(stands, fit);
  const auto last = std::find_if(stands.begin(), stands.end(),
                                 [](const Stand& s) { return s.place->cut_last && !s.measured; });
  if (last != stands.end())
    fit.last_mm =
        left_for(static_cast<std::size_t>(last - stands.begin()), stands, room, fit.clear, opening.by, fit);
}

} // namespace tacksquare::opening
