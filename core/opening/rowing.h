// What the parts of fit_row share. Not for other rooms.
#pragma once

#include "base/random.h"
#include "opening/row_fit.h"

#include <array>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace tacksquare::opening {

inline constexpr double kSideOfHole = std::numeric_limits<double>::infinity(); // as tall as any box

// A row made ready for many draws, which are made in blocks, cause by cause.
class RowDraws {
 public:
  explicit RowDraws(const std::vector<SizeBudget>& stands);

  // The next row; returns what it takes beyond the sum of nominals. The generator goes ahead by blocks.
  double draw(Random& random);

  // Of the last draw. Size beyond nominal without its rack; what racks add to the row.
  double size(std::size_t stand) const { return sizes_[stand][at_]; }
  double rack() const { return racks_[at_]; }
  // What each key added, in the order of keys(); a rack under "rack".
  const std::vector<std::string>& keys() const { return keys_; }
  double by_key(std::size_t key) const { return by_key_[key][at_]; }

 private:
  static constexpr std::size_t kBlock = 256;
  using Block = std::array<double, kBlock>;
  struct Cause {
    std::size_t stand = 0, key = 0, group = 0;
    Spread spread = Spread::normal;
    bool rack = false, constant = false;
    double middle = 0.0, under = 0.0, over = 0.0; // normal: deviations of the halves
    double shared = 0.0, own = 1.0;               // roots of the shares of the variance
  };
  struct Group {
    bool normal = false, even = false; // what it has to draw
    Block z{}, u{};
  };
  void refill(Random& random);
  void fill(const Cause& cause, Random& random, Block& mm) const;

  std::vector<Cause> causes_;
  std::vector<Group> groups_;
  std::vector<std::string> keys_;
  std::size_t rack_key_ = 0, at_ = kBlock - 1;
  std::vector<double> tall_;
  std::vector<Block> sizes_, leans_, by_key_; // by stand, stand, key
  Block totals_{}, racks_{};
};

// What the leans (per mm of height) of neighbours and of the upright sides add to the row.
double contacts_mm(const std::vector<double>& lean, const std::vector<double>& tall);

// Value below which the share p of the draws lies. Precondition: not empty, in order of size.
double quantile_of(const std::vector<double>& sorted, double p);
// The share of draws that are not larger, with its confidence.
Chance chance_of(const std::vector<double>& sorted, double at_most);

// The same stands with some of their causes.
template <class Keep> std::vector<SizeBudget> with_causes(const std::vector<SizeBudget>& stands, Keep keep) {
  std::vector<SizeBudget> some = stands;
  for (SizeBudget& stand : some)
    std::erase_if(stand.causes, [&](const SizeCause& cause) { return !keep(cause); });
  return some;
}

// Coating, rack, gauge and what stands out beyond the walls are no matter of the box's own size.
bool of_the_box(const std::string& key);

// By a reading: no spread is left.
inline bool settled(const SizeCause& cause) {
  return cause.under_mm == 0.0 && cause.over_mm == 0.0;
}

// Beyond the sum of nominals, gaps and clearance not in.
struct Excess {
  double worst_mm = 0.0, rss_mm = 0.0, drawn_mm = 0.0; // rss and drawn: at the wanted chance
  double by(TargetRule rule) const {
    return rule == TargetRule::worst_case ? worst_mm : rule == TargetRule::chance ? drawn_mm : rss_mm;
  }
};
struct Reckoning {
  Excess excess;
  std::vector<double> draws; // in order of size
  std::vector<BudgetLine> budget;
};
Reckoning reckon(const std::vector<SizeBudget>& stands, double chance);
// One box's own size by sums.
struct BySums {
  double worst_mm = 0.0, rss_mm = 0.0; // beyond its nominal; rss at the wanted chance
  std::string dearest;                 // key of the cause that adds most by root-sum-square
};
BySums by_sums(const SizeBudget& box, double chance);
Excess excess_of(const std::vector<SizeBudget>& stands, double chance);
// What a size of that length is read with: a rule, or a tape.
SizeCause gauge_cause(double size_mm);
// The hole itself was read with a gauge, too: the side of the row that does not move.
SizeBudget hole_budget(const ClearSpace& clear);

// One box of the row with what is known of it.
struct Stand {
  const RowPlace* place = nullptr;
  BoxKnown known;
  SizeBudget width;
  double nominal_mm = 0.0;  // as stated
  double smallest_mm = 0.0; // still good, before anything is aimed at
  double largest_mm = 0.0;  // the same
  double under_mm = 0.0;    // what it may come out under the size that it is made to
  bool measured = false;
  double tall_mm = 0.0, deep_mm = 0.0; // outside
  double coating_mm = 0.0;             // per face
};

inline bool gives_way(const Stand& stand) {
  return !stand.measured && !stand.place->keep_size;
}
inline double as_it_is(const Stand& stand) {
  return stand.measured ? stand.width.nominal_mm : stand.nominal_mm;
}

// Outside size of a box along an axis 0..2, mm: stated, else drawn.
double outside_mm(const BoxKnown& known, std::size_t axis);
// What lips and loose parts stand out beyond that, on both sides together.
double overhang_mm(const BoxKnown& known, std::size_t axis);
const MeasuredBox* readings_of(const Job& job, const Box& box, int copy);
// Readings of sizes along an axis at the latest stage that has some.
struct LatestSizes {
  BuildStage stage = BuildStage::ground;
  std::vector<Length> readings;
};
std::optional<LatestSizes> latest_sizes(const MeasuredBox& measured, std::size_t axis);
// Lean of a box's sides over its height by its latest diagonals.
std::optional<double> measured_rack_mm(const MeasuredBox& measured, const BoxKnown& known);

// How a box is put in, and the height that it takes.
WayIn way_in(const HardOpening& opening, const Stand& stand);
double sweep_mm(const HardOpening& opening, const Stand& stand);
void check_entries(const HardOpening& opening, const ClearSpace& clear, const std::vector<Stand>& stands,
                   Diagnostics& out);

std::vector<MustBeFlush> must_be_flush(const Job& job, const std::vector<Stand>& stands);

// Sizes to aim at by the three ways, and those that the job's rule says. Precondition: clear, wanted_chance
// and stands of the fit are set.
std::vector<double> set_targets(const HardOpening& opening, const std::vector<Stand>& stands,
                                const Excess& excess, RowFit& fit);
// What follows from the sizes that the boxes are made to: gauges, chance, expected widths, what is left.
void set_sizes(const HardOpening& opening, const std::vector<Stand>& stands, const Reckoning& reckoning,
               const std::vector<double>& sizes, RowFit& fit);

// As row_of.
std::vector<Stand> stands_of(const Job& job, const std::vector<RowPlace>& places,
                             const std::vector<BoxKnown>& boxes);
struct Fitted {
  RowFit fit;
  Reckoning reckoning;
};
Fitted fit_stands(const Job& job, const std::vector<Stand>& stands, Diagnostics& out);
// Stands in the order in which they nest best, by dynamic programming up to twelve, beyond by lean.
std::vector<std::size_t> nesting_order(const std::vector<double>& lean, const std::vector<double>& tall);

} // namespace tacksquare::opening
