// Whether the row goes into its opening, where the millimetres go, and the sizes to make the boxes.
// All values; keys of texts stand for words ("cause." before a cause in the catalogue). docs/theory.md.
#pragma once

#include "base/band.h"
#include "base/diagnostic.h"
#include "job/job.h"
#include "physics/shrinkage/expected.h"
#include "work/work.h"

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// What of a stated size is free for upright boxes that stand on the floor of the opening.
struct ClearSize {
  double mm = 0.0;
  double narrowest_mm = 0.0;     // of the readings
  std::string at;                // place of the narrowest: "top-front", "middle", ...
  double lost_to_plumb_mm = 0.0; // sides out of plumb, floor out of level
  double lost_to_obstacles_mm = 0.0;
  std::vector<std::string> obstacles; // those that govern
  bool operator==(const ClearSize&) const = default;
};

struct ClearSpace {
  ClearSize width;
  std::optional<ClearSize> height, depth; // where they are stated
  bool operator==(const ClearSpace&) const = default;
};
// Boxes are upright rectangles that stand on the floor: what plumb of both sides and the floor's slope take
// is lost over the height of the tallest; 0: unknown, then over that of the opening. Without plumb the
// diagonals tell how the opening is racked; without both the sides are square to the floor as far as it is
// known. Where readings contradict each other the smaller space counts. Obstacles above the tallest box take
// nothing.
ClearSpace clear_space(const HardOpening& opening, double tallest_mm);

enum class Spread { normal, uniform, triangular };

// One cause of one box's size being off, as a random figure: mean 0 at its middle.
// worst: middle - under to middle + over. normal: under and over are the 5 % and 95 % quantiles on either
// side of the middle (two halves); uniform: even between the ends; triangular: between the ends, peak at the
// middle.
struct SizeCause {
  std::string key; // "blank", "bend-place", "bend-lean", "fit-gap", "fit-step", "weld", "grinding",
                   // "coating", "belly", "rack", "gauge", "overhang"
  Spread spread = Spread::normal;
  double middle_mm = 0.0, under_mm = 0.0, over_mm = 0.0; // positive makes the box larger; under, over >= 0
  double common = 0.0; // 0..1: share of the variance that all boxes of one order have in common
  std::string order;   // boxes with the same key and order share it: "body@s2", "powder"
  Source source;
  bool operator==(const SizeCause&) const = default;
};

// The causes of one size of one copy of a box. What is measured has no cause any more.
struct SizeBudget {
  double nominal_mm = 0.0; // as stated, or aimed at; measured: the largest reading
  std::vector<SizeCause> causes;
  double tall_mm =
      1.0; // height over which a "rack" runs: the lean of its sides over it, to the right positive
  bool operator==(const SizeBudget&) const = default;
};

// Something that must be flush for the row to go in, on a side that meets a neighbour or the opening.
struct MustBeFlush {
  std::string box;
  std::string what;  // "seam-cap", "bend-bulge"
  std::string where; // seam id, or the faces of the bend "B-L"
  std::string side;  // face that it stands out of: "L"
  double proud_mm = 0.0;
  Source source;
  bool operator==(const MustBeFlush&) const = default;
};

struct StandFit {
  std::string box;
  int copy = 1;
  double nominal_mm = 0.0;  // width as stated
  double target_mm = 0.0;   // width to aim at, before coating: rounded down to what the rule reads
  double largest_mm = 0.0;  // the gap gauge: widest place anywhere, before coating
  double smallest_mm = 0.0; // still good
  double gap_mm = 0.0;      // wanted on its left
  double overhang_mm = 0.0; // what lips and a loose lid stand out beyond its walls, both sides together
  bool cut_last = false;
  bool measured = false;
  std::string entry;              // "slide", "lower", "tip"
  double sweep_mm = 0.0;          // height that its entry takes
  Band width_mm;                  // to expect when made to target, widest place, before coating
  std::optional<double> rack_mm;  // measured: lean of its sides over its height, top to the right positive
  bool keeps_size = false;        // as stated, the others give way
  std::optional<double> lean_deg; // tipped in: by no more than that, where the opening says so
  // Its widest place by itself when made to target, before coating: worst case, and at the wanted chance by
  // root-sum-square and by the draws; key of the cause that takes most of it.
  double worst_mm = 0.0, rss_mm = 0.0, drawn_mm = 0.0;
  std::string dearest;
  bool operator==(const StandFit&) const = default;
};

// One line of the budget: what a cause takes of the row's width.
struct BudgetLine {
  std::string key;
  double middle_mm = 0.0; // what it adds on the average
  double worst_mm = 0.0;  // worst case over the middle
  double rss_mm = 0.0;    // root-sum-square over the middle, common parts added before
  double share_mm = 0.0;  // of what the row needs at the wanted chance; shares add up to that
  Source source;
  bool operator==(const BudgetLine&) const = default;
};

// The row over one way of reckoning.
struct Reckoned {
  double row_mm = 0.0;    // what it takes, coated, gaps and clearance in
  double left_mm = 0.0;   // clear size less that; negative: does not go in
  double target_mm = 0.0; // by this rule, of the first box that may give way; 0: none that is still good
  bool operator==(const Reckoned&) const = default;
};

struct Chance {
  double value = 0.0, low = 0.0,
         high = 0.0; // low..high: 90 % confidence of the estimate (Clopper and Pearson)
  std::uint64_t draws = 0;
  bool operator==(const Chance&) const = default;
};

struct RowFit {
  std::string name; // of the opening
  ClearSpace clear;
  double clearance_mm = 0.0, coating_mm = 0.0;
  double wanted_chance = 0.95;
  TargetRule by = TargetRule::chance;
  Reckoned worst, rss, drawn; // as stated, by each way; drawn: by chance
  // Of the first box that gives way, by hand: clear less clearance, gaps, two coatings a box and allowances,
  // what is missing taken off all that give way alike. Boxes of one size: that over their number.
  double stated_target_mm = 0.0;
  std::optional<double> allowance_mm;  // stated
  Chance as_stated;                    // goes in with the sizes as stated
  Chance as_aimed;                     // goes in with the target sizes, nothing sorted out
  std::optional<Chance> height, depth; // each box, with the target sizes
  std::vector<BudgetLine> budget;      // dearest first
  std::vector<StandFit> stands;        // left to right
  std::vector<std::size_t> nested;     // stands in the order in which racked boxes nest; empty: none measured
  double nested_row_mm = 0.0, as_listed_row_mm = 0.0; // what the measured boxes take in both orders
  std::optional<double>
      last_mm;              // cut-last box: width that is left for it; the others as measured or aimed at
  double go_stick_mm = 0.0; // must pass the hole everywhere: largest row and clearance
  std::optional<double> go_stick_height_mm; // the same for the height, where it is stated
  double packer_mm = 0.0;                   // to expect at the end of the row: fill with a trim
  std::vector<MustBeFlush> flush;
  bool fits_never = false; // even the smallest allowed boxes are too many
  bool operator==(const RowFit&) const = default;
};

// The place in the row that the card of a box is written for: of its copies that are still to be made the
// first that gives way, rather than one that keeps its size or is cut last. None: it stands in no row, or all
// of it is built.
const StandFit* stand_of(const std::optional<RowFit>& row, const std::string& box);

// What the elastic model says that welding does to a box, in place of the closed forms: against the drawing,
// of blanks that are cut larger by put_back_mm.
struct WeldEffect {
  std::array<std::optional<Band>, 3>
      corner_mm; // along x, y, z: the corner that grows most, where sizes are read at any
  std::array<double, 3> put_back_mm{};
  std::map<std::string, Band> belly_mm; // by face, outward; of one that buckles nothing
};

// What is known of each box when the row is reckoned; as Job::boxes.
struct BoxKnown {
  const Box* box = nullptr;
  const BoxGeometry* geometry = nullptr;
  const Work* work = nullptr;
  const Prediction* prediction = nullptr;
  const WeldEffect* elastic = nullptr; // where the elastic model was asked
};

// The row as stated; where none is: all copies of all boxes by id. Precondition: job.opening.
std::vector<RowPlace> row_of(const Job& job);

// axis: 'x' width, 'y' depth, 'z' height. copy: readings of that copy replace causes. Of the places that a
// size can be taken at the one that is likely the widest. The weld's expected loss is put back into the
// blank, so only its band counts; of a box measured at the dry fit its loss is still to come.
SizeBudget size_budget(const Job& job, const BoxKnown& known, int copy, char axis);

// What a cause adds on the average, and its variance.
struct Moments {
  double mean_mm = 0.0, variance_mm2 = 0.0;
};
Moments moments_of(const SizeCause& cause);

inline constexpr std::size_t kRowDraws = 100000;
inline constexpr std::size_t kFewDraws =
    20000; // of what is no row of all its causes: one box, a height, a gauge
inline constexpr std::uint64_t kRowSeed = 20270331;

// Draws of the row when the causes are given: what it takes beyond the sum of nominals, in order of size.
// Causes of one key and order share a draw: normal ones add their common and own part, the others take the
// common draw with the chance that makes the stated share of the variance common. Racks do not add to a
// width: neighbours touch by x[i+1] >= x[i] + w[i] + max(0, h (rho[i] - rho[i+1])), h the lower of both, and
// the sides of the opening stand upright. Same seed, same draws on every machine.
std::vector<double> draw_row(const std::vector<SizeBudget>& stands, std::size_t draws, std::uint64_t seed);

// Precondition: job.opening. Faults with origin: an opening that is too small for the boxes whatever their
// allowed sizes; a tipped box that cannot be swung in; a box deeper or higher than the opening.
RowFit fit_row(const Job& job, const std::vector<BoxKnown>& boxes, Diagnostics& out);

// Cautions where width, height or depth keep less than the wanted chance: of the row as it is aimed at in the
// end.
void tell_chances(const HardOpening& opening, const RowFit& fit, Diagnostics& out);

// The box larger by this on each axis (negative: smaller): what lies beyond the middle of an axis moves, of
// flat panels what lies at its end. Cut-outs and dividers keep their distance from the side that they are
// measured from.
Box enlarged(const Box& box, Vec3 by_mm);
// The same to stated outside sizes. Precondition: the box has the three of them.
Box resized(const Box& box, double width_mm, double depth_mm, double height_mm);

} // namespace tacksquare
