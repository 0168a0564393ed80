#include "opening/first_off.h"

#include "base/numbers.h"
#include "opening/learning.h"
#include "opening/rowing.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace tacksquare {

using namespace opening;

namespace {

constexpr double kCut_mm = 0.1;         // what a cutter can be set to
constexpr double kBellyOfLean = 0.25;   // the plate's bounds about its belly, 90 %
constexpr std::size_t kEnoughSizes = 3; // with fewer readings the belly may not be among them
const std::string kOrder = "first-off";

double error_of(BenchGauge gauge) {
  return in_mm(bench_gauge(gauge).resolution) / kNinetyFive;
}
double size_error(double size_mm) {
  return error_of(size_mm <= 600.0 ? BenchGauge::steel_rule : BenchGauge::tape);
}

double rounded_down(double mm) {
  return std::floor(mm / kCut_mm + 1e-6) * kCut_mm;
}

const std::vector<Length>& sizes_along(const SizeReading& read, std::size_t axis) {
  return axis == 0 ? read.widths : axis == 1 ? read.depths : read.heights;
}

// One box of the batch, and what its readings tell.
struct First {
  std::size_t box = 0;
  const MeasuredBox* measured = nullptr;
  const BoxKnown* known = nullptr;
  std::array<std::optional<Learning>, 3> learnt{}; // by axis
  std::string mistake;                             // key of the reading that cannot be right
  double correction_mm = 0.0;                      // of the width
  FirstOff told{};
};

class Teacher {
 public:
  Teacher(const Job& bare, First& first, std::size_t axis, double aimed_mm)
      : bare_(bare), first_(first), axis_(axis), aimed_mm_(aimed_mm), prior_(budget({})), learning_(prior_) {}

  // What the readings of parts and sizes tell, in the order in which they are taken.
  void teach() {
    const MeasuredBox& all = *first_.measured;
    MeasuredBox sheet, parts;
    sheet.thicknesses = all.thicknesses;
    parts.leans = all.leans;
    parts.fits = all.fits;
    parts.blanks = all.blanks;
    take_known(budget(sheet));
    take_parts(budget(parts));
    for (const BuildStage stage : {BuildStage::dry_fit, BuildStage::as_welded, BuildStage::ground})
      for (const SizeReading& read : all.sizes)
        if (read.stage == stage && !sizes_along(read, axis_).empty()) take_sizes(read);
    first_.learnt[axis_] = learning_;
  }
  SizeFound found() const {
    SizeFound size;
    size.axis = "xyz"[axis_];
    size.aimed_mm = aimed_mm_;
    const double reach = kNinetyFive * widest_.error_mm;
    size.measured_mm = {widest_.mm, widest_.mm - reach, widest_.mm + reach};
    size.causes = learning_.found();
    const formulas::Weighed rest = learning_.rest();
    const double spread = kNinetyFive * std::sqrt(rest.variance);
    size.rest_mm = {aimed_mm_ + rest.mean, aimed_mm_ + rest.mean - spread, aimed_mm_ + rest.mean + spread};
    return size;
  }

 private:
  SizeBudget budget(MeasuredBox readings) const {
    Job job = bare_;
    readings.box = first_.box;
    readings.copy = first_.measured->copy;
    job.measured = {std::move(readings)};
    return size_budget(job, *first_.known, first_.measured->copy, "xyz"[axis_]);
  }
  void check(bool right, const std::string& reading) {
    if (!right && first_.mistake.empty()) first_.mistake = "contradicts-" + reading;
  }
  static bool fixed(const SizeCause& cause) { return cause.under_mm == 0.0 && cause.over_mm == 0.0; }

  // Thickness moves the middle of a cause, or adds one without spread.
  void take_known(const SizeBudget& with) {
    double sum = 0.0, before = 0.0;
    for (const SizeCause& cause : with.causes)
      if (of_the_box(cause.key)) sum += cause.middle_mm;
    for (const SizeCause& cause : prior_.causes)
      if (of_the_box(cause.key)) before += cause.middle_mm;
    if (std::fabs(sum - before) > 1e-9) learning_.shift("thickness", sum - before);
  }
  // A cause that was read has its value for a middle and no spread any more. Where the readings make another
  // place the widest they tell nothing of this one.
  void take_parts(const SizeBudget& with) {
    std::vector<SizeCause> read;
    for (const SizeCause& cause : with.causes)
      if (of_the_box(cause.key)) read.push_back(cause);
    const std::vector<SizeCause> causes = learning_.causes();
    std::size_t drawn = 0; // causes of the budget; what is known by thickness stands behind them
    while (drawn < causes.size() && causes[drawn].key != "thickness")
      ++drawn;
    if (read.size() != drawn) return;
    for (std::size_t i = 0; i < drawn; ++i)
      if (read[i].key != causes[i].key) return;
    for (std::size_t i = 0; i < drawn; ++i) {
      const SizeCause& cause = read[i];
      if (!fixed(cause) || fixed(causes[i])) continue;
      const double error =
          cause.key == "blank" ? size_error(aimed_mm_)
          : cause.key == "bend-lean"
              ? std::hypot(error_of(BenchGauge::try_square), kBellyOfLean * cause.middle_mm / kNinetyFive)
              : error_of(BenchGauge::feeler);
      check(learning_.read_cause(i, cause.middle_mm, error), cause.key);
    }
  }
  void take_sizes(const SizeReading& read) {
    static const std::array<const char*, 3> kStages = {"dry-fit", "as-welded", "ground"};
    std::vector<double> readings;
    for (const Length length : sizes_along(read, axis_))
      readings.push_back(in_mm(length));
    widest_ = widest_of(readings, size_error(aimed_mm_));
    const bool dry = read.stage == BuildStage::dry_fit, ground = read.stage == BuildStage::ground;
    const bool enough = readings.size() >= kEnoughSizes;
    const auto counts = [&](const std::string& key) {
      if (dry && (key == "weld" || key == "belly")) return false;
      if (!ground && key == "grinding") return false;
      return enough || (key != "belly" && key != "bend-lean");
    };
    // The weld's loss is put back into the blank: before it is welded the box is larger by it.
    const double to_lose = dry ? loss_to_come(read) : 0.0;
    check(learning_.read_sum(counts, widest_.mm - aimed_mm_ + to_lose, widest_.error_mm),
          kStages[static_cast<std::size_t>(read.stage)]);
  }
  double loss_to_come(const SizeReading& dry) const {
    MeasuredBox readings;
    readings.sizes = {dry};
    for (const SizeCause& cause : budget(readings).causes)
      if (cause.key == "weld") return cause.middle_mm;
    return 0.0;
  }

  const Job& bare_;
  First& first_;
  std::size_t axis_ = 0;
  double aimed_mm_ = 0.0;
  SizeBudget prior_;
  Learning learning_;
  Widest widest_{};
};

bool has_finished_sizes(const MeasuredBox& measured, std::size_t axis) {
  return std::any_of(measured.sizes.begin(), measured.sizes.end(), [&](const SizeReading& read) {
    return read.stage != BuildStage::dry_fit && !sizes_along(read, axis).empty();
  });
}

// Of each box the lowest copy.
std::vector<First> firsts_of(const Job& job, const std::vector<BoxKnown>& boxes) {
  std::vector<First> firsts;
  for (std::size_t box = 0; box < job.boxes.size(); ++box) {
    const MeasuredBox* first = nullptr;
    for (const MeasuredBox& measured : job.measured) {
      const bool any = has_finished_sizes(measured, 0) || has_finished_sizes(measured, 1) ||
                       has_finished_sizes(measured, 2);
      if (measured.box == box && any && (!first || measured.copy < first->copy)) first = &measured;
    }
    if (!first) continue;
    firsts.emplace_back();
    firsts.back().box = box;
    firsts.back().measured = first;
    firsts.back().known = &boxes[box];
  }
  return firsts;
}

// The row with what the first boxes taught: the measured as they are, their like as they come, the others as
// aimed at.
class RowAhead {
 public:
  RowAhead(const Job& job, const std::vector<BoxKnown>& boxes, const RowFit& row, const RowFit& bare,
           const std::vector<First>& firsts)
      : row_(row) {
    room_mm_ = row.clear.width.mm - row.clearance_mm;
    std::vector<SizeBudget> budgets;
    const std::vector<RowPlace> places = row_of(job);
    for (std::size_t i = 0; i < places.size(); ++i) {
      Place place;
      place.box = places[i].box;
      place.open = !row.stands[i].measured;
      place.cut_last = places[i].cut_last;
      place.smallest_mm = row.stands[i].smallest_mm;
      SizeBudget budget = size_budget(job, boxes[place.box], places[i].copy, 'x');
      const auto first =
          std::find_if(firsts.begin(), firsts.end(), [&](const First& f) { return f.box == place.box; });
      if (place.open && first != firsts.end() && first->learnt[0])
        budget = first->learnt[0]->rest_budget(bare.stands[i].target_mm, kOrder);
      else if (place.open)
        budget.nominal_mm = row.stands[i].target_mm;
      place.nominal_mm = budget.nominal_mm;
      room_mm_ -= row.stands[i].gap_mm + budget.nominal_mm;
      places_.push_back(place);
      budgets.push_back(std::move(budget));
    }
    budgets.push_back(hole_budget(row.clear));
    draws_ = draw_row(budgets, kRowDraws, kRowSeed);
  }

  struct Place {
    std::size_t box = 0;
    bool open = false, cut_last = false; // open: still to be made
    double nominal_mm = 0.0, smallest_mm = 0.0;
  };
  const std::vector<Place>& places() const { return places_; }
  // All open boxes together larger by this.
  Chance chance(double larger_mm) const { return chance_of(draws_, room_mm_ - larger_mm); }
  bool kept(double larger_mm) const { return chance(larger_mm).value >= row_.wanted_chance; }
  // What the row has too much at the wanted chance.
  double over_mm() const { return quantile_of(draws_, row_.wanted_chance) - room_mm_; }
  void enlarge(double by_mm) { room_mm_ -= by_mm; }

 private:
  const RowFit& row_;
  double room_mm_ = 0.0; // after the boxes' nominals
  std::vector<Place> places_;
  std::vector<double> draws_;
};

void decide_width(First& first, RowAhead& ahead) {
  FirstOff& told = first.told;
  const formulas::Weighed rest = first.learnt[0]->rest(), expected = first.learnt[0]->expected();
  double open = 0.0, least = -1e300; // the least correction that keeps them large enough
  const RowAhead::Place* last = nullptr;
  for (const RowAhead::Place& place : ahead.places()) {
    if (!place.open) continue;
    if (place.cut_last) last = &place;
    if (place.box != first.box) continue;
    open += 1.0;
    least = std::max(least, place.smallest_mm - place.nominal_mm - rest.mean);
  }
  told.uncorrected = told.corrected = ahead.chance(0.0);
  const auto correct = [&](double by_mm, const char* why) {
    told.release = Release::correct;
    told.why = why;
    told.corrected = ahead.chance(by_mm * open);
    first.correction_mm = by_mm;
    ahead.enlarge(by_mm * open);
  };
  const auto good = [&](double by_mm) { return by_mm >= least - 1e-9 && ahead.kept(by_mm * open); };
  if (good(0.0) || (open == 0.0 && ahead.kept(0.0))) {
    told.release = Release::release;
    told.why = "in-limits";
    return;
  }
  const double back = open > 0.0 ? -round_to(rest.mean - expected.mean, kCut_mm) : 0.0;
  const double over = std::max(0.0, ahead.over_mm());
  const bool only_last = last && open == 1.0 && last->box == first.box;
  if (only_last && good(rounded_down(-over))) return correct(rounded_down(-over), "last-trimmed");
  if (back != 0.0 && good(back)) return correct(back, "common-offset");
  if (last && !only_last && last->nominal_mm + rounded_down(-over) >= last->smallest_mm) {
    told.release = Release::correct;
    told.why = "last-trimmed";
    told.corrected = ahead.chance(rounded_down(-over));
    ahead.enlarge(rounded_down(-over));
    return;
  }
  const double smaller = open > 0.0 ? std::min(back, rounded_down(-over / open)) : 0.0;
  if (smaller < 0.0 && good(smaller)) return correct(smaller, back < 0.0 ? "common-offset" : "scatter");
  told.release = Release::hold;
  told.why = "no-chance";
  if (open > 0.0) told.corrected = ahead.chance(std::min(0.0, -rounded_down(-least)) * open);
}

// Heights and depths have limits of their own: blanks that make the rest miss them more likely than not are
// put right.
void decide_other(First& first, std::size_t axis, SizeFound& size) {
  static const std::array<const char*, 3> kNames = {"width-", "depth-", "height-"};
  for (const Measure& measure : first.known->work->measures) {
    if (measure.kind != MeasureKind::width || !measure.id.starts_with(kNames[axis])) continue;
    const double off = size.rest_mm.value - measure.nominal_mm;
    if (off > measure.over_mm || off < -measure.under_mm) size.correction_mm = -round_to(off, kCut_mm);
    break;
  }
  if (size.correction_mm == 0.0 || first.told.release != Release::release) return;
  first.told.release = Release::correct;
  first.told.why = "common-offset";
}

} // namespace

std::vector<FirstOff> judge_first_off(const Job& job, const std::vector<BoxKnown>& boxes, const RowFit& row) {
  std::vector<First> firsts = firsts_of(job, boxes);
  if (firsts.empty()) return {};
  Job bare = job;
  bare.measured.clear();
  Diagnostics told_before;
  const RowFit before = fit_row(bare, boxes, told_before);
  for (First& first : firsts) {
    first.told.box = job.boxes[first.box].id;
    first.told.copy = first.measured->copy;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      if (!has_finished_sizes(*first.measured, axis)) continue;
      double aimed = outside_mm(*first.known, axis);
      for (const StandFit& stand : before.stands)
        if (axis == 0 && stand.box == first.told.box && stand.copy == first.told.copy)
          aimed = stand.target_mm;
      Teacher teacher(bare, first, axis, aimed);
      teacher.teach();
      first.told.sizes.push_back(teacher.found());
    }
  }
  RowAhead ahead(job, boxes, row, before, firsts);
  std::vector<FirstOff> all;
  for (First& first : firsts) {
    if (!first.mistake.empty()) {
      first.told.release = Release::hold;
      first.told.why = first.mistake;
      first.told.uncorrected = first.told.corrected = ahead.chance(0.0);
    } else if (first.learnt[0]) {
      decide_width(first, ahead);
    } else {
      first.told.release = Release::release;
      first.told.why = "in-limits";
      first.told.uncorrected = first.told.corrected = ahead.chance(0.0);
    }
    for (SizeFound& size : first.told.sizes) {
      if (size.axis == 'x')
        size.correction_mm = first.correction_mm;
      else if (first.mistake.empty())
        decide_other(first, size.axis == 'y' ? 1 : 2, size);
    }
    all.push_back(std::move(first.told));
  }
  return all;
}

} // namespace tacksquare
