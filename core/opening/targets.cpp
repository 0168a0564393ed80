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

bool gives_way(const Stand& stand) {
  return !stand.measured && !stand.place->keep_size;
}

double as_it_is(const Stand& stand) {
  return stand.measured ? stand.width.nominal_mm : stand.nominal_mm;
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

// What is left to chance when every box has passed its gap gauge: paint and racks, and what was measured.
std::vector<SizeBudget> past_the_gauge(const std::vector<Stand>& stands) {
  std::vector<SizeBudget> all = budgets_of(stands);
  for (std::size_t i = 0; i < all.size(); ++i)
    if (!stands[i].measured)
      std::erase_if(all[i].causes, [](const SizeCause& c) { return c.key != "coating" && c.key != "rack"; });
  return all;
}

// Of one box before coating.
Band width_band(const SizeBudget& budget, double target_mm) {
  constexpr std::size_t kDraws = 20000;
  const auto of_the_box = [](const SizeCause& c) {
    return c.key != "coating" && c.key != "gauge" && c.key != "rack";
  };
  const std::vector<double> draws = draw_row(with_causes({budget}, of_the_box), kDraws, kRowSeed);
  return formulas::shifted({quantile_of(draws, 0.5), quantile_of(draws, 0.05), quantile_of(draws, 0.95)},
                           target_mm);
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
  if (first != stands.end()) r.target_mm = sizes[static_cast<std::size_t>(first - stands.begin())];
  return r;
}

void set_bands(const std::vector<Stand>& stands, RowFit& fit) {
  for (std::size_t i = 0; i < stands.size(); ++i) {
    std::size_t alike = 0;
    while (alike < i && !(stands[alike].width == stands[i].width))
      ++alike;
    fit.stands[i].width_mm = alike < i
                                 ? formulas::shifted(fit.stands[alike].width_mm,
                                                     fit.stands[i].target_mm - fit.stands[alike].target_mm)
                                 : width_band(stands[i].width, fit.stands[i].target_mm);
  }
}

} // namespace

void set_targets(const HardOpening& opening, const std::vector<Stand>& stands, const Reckoning& reckoning,
                 const std::optional<Length>& size_over, RowFit& fit) {
  double around = in_mm(opening.clearance), stated = 0.0;
  for (const Stand& stand : stands) {
    around += in_mm(stand.place->gap);
    stated += as_it_is(stand);
  }
  const double room = fit.clear.width.mm - around;
  const Excess& excess = reckoning.excess;
  fit.worst = reckoned(stands, room, excess.worst_mm, around, fit.clear.width.mm);
  fit.rss = reckoned(stands, room, excess.rss_mm, around, fit.clear.width.mm);
  fit.drawn = reckoned(stands, room, excess.drawn_mm, around, fit.clear.width.mm);

  std::vector<double> sizes = aimed(stands, room - excess.by(opening.by));
  const auto last = std::find_if(stands.begin(), stands.end(),
                                 [](const Stand& s) { return s.place->cut_last && !s.measured; });
  if (last != stands.end()) {
    double& size = sizes[static_cast<std::size_t>(last - stands.begin())];
    fit.last_mm = rounded_down(room - excess.by(opening.by) - (sum_of(sizes) - size));
    if (!last->place->keep_size) size = std::clamp(*fit.last_mm, last->smallest_mm, last->nominal_mm);
  }
  fit.as_stated = chance_of(reckoning.draws, room - stated);
  fit.as_aimed = chance_of(reckoning.draws, room - sum_of(sizes));
  const double mean = sum_of(reckoning.draws) / static_cast<double>(reckoning.draws.size());
  fit.packer_mm = std::max(0.0, room - sum_of(sizes) - mean);

  // What is over goes to all gap gauges alike.
  const auto open = static_cast<double>(
      std::count_if(stands.begin(), stands.end(), [](const Stand& s) { return !s.measured; }));
  const double rest = excess_of(past_the_gauge(stands), fit.wanted_chance).by(opening.by);
  const double over = open > 0.0 ? (room - rest - sum_of(sizes)) / open : 0.0;
  double largest = 0.0;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    StandFit& stand = fit.stands[i];
    stand.target_mm = sizes[i];
    stand.largest_mm = stands[i].measured ? sizes[i] : rounded_down(sizes[i] + over);
    if (!stands[i].measured && size_over)
      stand.largest_mm = std::min(stand.largest_mm, stands[i].nominal_mm + in_mm(*size_over));
    largest += stand.largest_mm;
  }
  const double stick = largest + rest + around + fit.clear.width.lost_to_plumb_mm;
  fit.go_stick_mm = std::min(-rounded_down(-stick), rounded_down(fit.clear.width.narrowest_mm));
  set_bands(stands, fit);
}

} // namespace tacksquare::opening
