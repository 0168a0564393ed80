#include "opening/first_box.h"

#include "opening/rowing.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::opening {

namespace {

constexpr double kBellyOfLean = 0.25;   // the plate's bounds about its belly, 90 %
constexpr std::size_t kEnoughSizes = 3; // with fewer readings the belly may not be among them

double error_of(BenchGauge gauge) {
  return in_mm(bench_gauge(gauge).resolution) / kNinetyFive;
}
double size_error(double size_mm) {
  return error_of(size_mm <= 600.0 ? BenchGauge::steel_rule : BenchGauge::tape);
}

const std::vector<Length>& sizes_along(const SizeReading& read, std::size_t axis) {
  return axis == 0 ? read.widths : axis == 1 ? read.depths : read.heights;
}

class Teacher {
 public:
  Teacher(const Job& bare, FirstBox& first, std::size_t axis, double aimed_mm, bool as_read)
      : bare_(bare), first_(first), axis_(axis), aimed_mm_(aimed_mm),
        bellies_(!as_read || read_between_ends()), prior_(budget({})), learning_(prior_) {}

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
    SizeBudget all = size_budget(job, *first_.known, first_.measured->copy, "xyz"[axis_]);
    if (!bellies_)
      std::erase_if(all.causes, [](const SizeCause& c) { return c.key == "belly" || c.key == "bend-lean"; });
    return all;
  }
  bool read_between_ends() const {
    return std::any_of(
        first_.measured->sizes.begin(), first_.measured->sizes.end(), [&](const SizeReading& r) {
          return r.stage != BuildStage::dry_fit && sizes_along(r, axis_).size() >= kEnoughSizes;
        });
  }
  void check(bool right, const std::string& reading) {
    if (right || !first_.mistake.empty()) return;
    first_.mistake = "contradicts-" + reading;
    first_.mistaken_axis = "xyz"[axis_];
  }
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
      if (!settled(cause) || settled(causes[i])) continue;
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
    const auto weld = [](const std::vector<SizeCause>& causes) {
      for (const SizeCause& cause : causes)
        if (cause.key == "weld") return cause.middle_mm;
      return 0.0;
    };
    MeasuredBox readings;
    readings.sizes = {dry};
    return weld(budget(readings).causes) - weld(prior_.causes);
  }

  const Job& bare_;
  FirstBox& first_;
  std::size_t axis_ = 0;
  double aimed_mm_ = 0.0;
  bool bellies_ = true;
  SizeBudget prior_;
  Learning learning_;
  Widest widest_{};
};

} // namespace

bool has_finished_sizes(const MeasuredBox& measured, std::size_t axis) {
  return std::any_of(measured.sizes.begin(), measured.sizes.end(), [&](const SizeReading& read) {
    return read.stage != BuildStage::dry_fit && !sizes_along(read, axis).empty();
  });
}

std::vector<FirstBox> first_boxes(const Job& job, const std::vector<BoxKnown>& boxes) {
  std::vector<FirstBox> firsts;
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

SizeFound learn_size(const Job& bare, FirstBox& first, std::size_t axis, double aimed_mm, bool as_read) {
  Teacher teacher(bare, first, axis, aimed_mm, as_read);
  teacher.teach();
  return teacher.found();
}

} // namespace tacksquare::opening
