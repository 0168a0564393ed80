#include "opening/first_off.h"

#include "base/numbers.h"
#include "opening/first_box.h"
#include "opening/rowing.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

using namespace opening;

namespace {

constexpr double kCut_mm = 0.1; // what a cutter can be set to
const std::string kOrder = "first-off";

double rounded_down(double mm) {
  return std::floor(mm / kCut_mm + 1e-6) * kCut_mm;
}

const FirstBox* first_of(const std::vector<FirstBox>& firsts, std::size_t box) {
  const auto found =
      std::find_if(firsts.begin(), firsts.end(), [&](const FirstBox& first) { return first.box == box; });
  return found == firsts.end() ? nullptr : &*found;
}

// The row with what the first boxes taught: the measured as they are, their like from the blanks that the
// first ones came from, other kinds as the row now wants them.
class RowAhead {
 public:
  RowAhead(const Job& job, const std::vector<BoxKnown>& boxes, const std::vector<FirstBox>& firsts,
           const RowFit& bare)
      : opening_(*job.opening), places_(row_of(job)), stands_(stands_of(job, places_, boxes)) {
    for (Stand& stand : stands_)
      if (const FirstBox* first = first_of(firsts, stand.place->box);
          first && !stand.measured && first->learnt[0])
        stand.width = first->learnt[0]->rest_budget(stand.width, stand.width.nominal_mm, kOrder);
    Diagnostics told_before;
    fitted_ = fit_stands(job, stands_, told_before);
    room_mm_ = fitted_.fit.clear.width.mm - fitted_.fit.clearance_mm;
    for (std::size_t i = 0; i < stands_.size(); ++i) {
      const bool from_its_blank = !stands_[i].measured && first_of(firsts, stands_[i].place->box);
      sizes_.push_back((from_its_blank ? bare : fitted_.fit).stands[i].target_mm);
      room_mm_ -= in_mm(stands_[i].place->gap) + sizes_.back();
    }
  }

  const std::vector<Stand>& stands() const { return stands_; }
  double size_mm(std::size_t stand) const { return sizes_[stand]; }
  // All open boxes together larger by this.
  Chance chance(double larger_mm) const { return chance_of(fitted_.reckoning.draws, room_mm_ - larger_mm); }
  bool kept(double larger_mm) const { return chance(larger_mm).value >= fitted_.fit.wanted_chance; }
  // What the row has too much at the wanted chance.
  double over_mm() const {
    return quantile_of(fitted_.reckoning.draws, fitted_.fit.wanted_chance) - room_mm_;
  }
  void enlarge(std::size_t stand, double by_mm) {
    sizes_[stand] += by_mm;
    room_mm_ -= by_mm;
  }
  // The row with the boxes made so.
  RowFit decided() {
    set_sizes(opening_, stands_, fitted_.reckoning, sizes_, fitted_.fit);
    return std::move(fitted_.fit);
  }

 private:
  const HardOpening& opening_;
  std::vector<RowPlace> places_;
  std::vector<Stand> stands_;
  Fitted fitted_;
  double room_mm_ = 0.0; // after the boxes' sizes
  std::vector<double> sizes_;
};

// The width by what the row can bear; returns what the next blanks are to be larger by.
double decide_width(const FirstBox& first, RowAhead& ahead, FirstOff& told) {
  const formulas::Weighed rest = first.learnt[0]->rest(), expected = first.learnt[0]->expected();
  std::vector<std::size_t> open; // its like
  std::optional<std::size_t> last;
  double least = -1e300; // the least correction that keeps them large enough
  for (std::size_t i = 0; i < ahead.stands().size(); ++i) {
    const Stand& stand = ahead.stands()[i];
    if (stand.measured) continue;
    if (stand.place->cut_last) last = i;
    if (stand.place->box != first.box) continue;
    open.push_back(i);
    least = std::max(least, stand.smallest_mm - ahead.size_mm(i) - rest.mean);
  }
  const auto many = static_cast<double>(open.size());
  told.uncorrected = told.corrected = ahead.chance(0.0);
  const auto correct = [&](double by_mm, const char* why) {
    told.release = Release::correct;
    told.why = why;
    told.corrected = ahead.chance(by_mm * many);
    for (const std::size_t i : open)
      ahead.enlarge(i, by_mm);
    return by_mm;
  };
  const auto good = [&](double by_mm) { return by_mm >= least - 1e-9 && ahead.kept(by_mm * many); };
  if (good(0.0) || (open.empty() && ahead.kept(0.0))) {
    told.release = Release::release;
    told.why = "in-limits";
    return 0.0;
  }
  const double back = open.empty() ? 0.0 : -round_to(rest.mean - expected.mean, kCut_mm);
  const double over = std::max(0.0, ahead.over_mm()), trimmed = rounded_down(-over);
  const bool only_last = last && open.size() == 1 && *last == open.front();
  if (only_last && good(trimmed)) return correct(trimmed, "last-trimmed");
  if (back != 0.0 && good(back)) return correct(back, "common-offset");
  if (last && !only_last && ahead.size_mm(*last) + trimmed >= ahead.stands()[*last].smallest_mm) {
    told.release = Release::correct;
    told.why = "last-trimmed";
    told.corrected = ahead.chance(trimmed);
    ahead.enlarge(*last, trimmed);
    return 0.0;
  }
  const double smaller = open.empty() ? 0.0 : std::min(back, rounded_down(-over / many));
  if (smaller < 0.0 && good(smaller)) return correct(smaller, back < 0.0 ? "common-offset" : "scatter");
  told.release = Release::hold;
  told.why = "no-chance";
  if (!open.empty()) told.corrected = ahead.chance(std::min(0.0, -rounded_down(-least)) * many);
  return 0.0;
}

const Measure* limit_of(const FirstBox& first, std::size_t axis) {
  static const std::array<const char*, 3> kNames = {"width-", "depth-", "height-"};
  for (const Measure& measure : first.known->work->measures)
    if (measure.kind == MeasureKind::width && measure.id.starts_with(kNames[axis])) return &measure;
  return nullptr;
}

// Sizes have limits of their own: blanks that make the rest miss them more likely than not are put right.
void decide_by_limits(const FirstBox& first, std::size_t axis, SizeFound& size, FirstOff& told) {
  const Measure* limit = limit_of(first, axis);
  if (!limit) return;
  const double off = size.rest_mm.value - limit->nominal_mm;
  if (off <= limit->over_mm && off >= -limit->under_mm) return;
  size.correction_mm = -round_to(off, kCut_mm);
  if (told.release != Release::release) return;
  told.release = Release::correct;
  told.why = "common-offset";
}

// Of boxes that stand in no row: how often all sizes that were read come out within their limits.
Chance within_limits(const FirstBox& first, const std::vector<SizeFound>& sizes, bool corrected) {
  struct Drawn {
    RowDraws draws;
    double low = 0.0, high = 0.0;
  };
  std::vector<Drawn> all;
  for (const SizeFound& size : sizes) {
    const std::size_t axis = size.axis == 'x' ? 0 : size.axis == 'y' ? 1 : 2;
    const Measure* limit = limit_of(first, axis);
    if (!limit) continue;
    const double aimed = size.aimed_mm + (corrected ? size.correction_mm : 0.0);
    const SizeBudget rest = first.learnt[axis]->rest_budget({}, aimed, kOrder);
    all.push_back({RowDraws({rest}), limit->nominal_mm - limit->under_mm - aimed,
                   limit->nominal_mm + limit->over_mm - aimed});
  }
  Random random(kRowSeed);
  std::vector<double> out; // 0: within, 1: not
  for (std::size_t i = 0; i < kFewDraws; ++i) {
    bool within = true;
    for (Drawn& one : all) {
      const double mm = one.draws.draw(random);
      within = within && mm >= one.low && mm <= one.high;
    }
    out.push_back(within ? 0.0 : 1.0);
  }
  std::sort(out.begin(), out.end());
  return chance_of(out, 0.5);
}

FirstOff judged(FirstBox& first, const Job& bare, const RowFit* before) {
  FirstOff told;
  told.box = bare.boxes[first.box].id;
  told.copy = first.measured->copy;
  told.release = Release::release;
  told.why = "in-limits";
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (!has_finished_sizes(*first.measured, axis)) continue;
    double aimed = outside_mm(*first.known, axis);
    if (axis == 0 && before)
      for (const StandFit& stand : before->stands)
        if (stand.box == told.box && stand.copy == told.copy) aimed = stand.target_mm;
    told.sizes.push_back(learn_size(bare, first, axis, aimed, axis != 0 || !before));
  }
  if (!first.mistake.empty()) {
    told.release = Release::hold;
    told.why = first.mistake;
    told.axis = first.mistaken_axis;
  }
  return told;
}

} // namespace

std::vector<FirstOff> judge_first_off(const Job& job, const std::vector<BoxKnown>& boxes,
                                      std::optional<RowFit>& row) {
  std::vector<FirstBox> firsts = first_boxes(job, boxes);
  std::vector<FirstOff> all;
  if (firsts.empty()) return all;
  Job bare = job;
  bare.measured.clear();
  Diagnostics told_before;
  std::optional<RowFit> before;
  if (row) before = fit_row(bare, boxes, told_before);
  for (FirstBox& first : firsts)
    all.push_back(judged(first, bare, before ? &*before : nullptr));
  std::optional<RowAhead> ahead;
  if (row) ahead.emplace(job, boxes, firsts, *before);
  for (std::size_t i = 0; i < firsts.size(); ++i) {
    FirstOff& told = all[i];
    if (ahead) told.uncorrected = told.corrected = ahead->chance(0.0);
    for (SizeFound& size : told.sizes) {
      if (!firsts[i].mistake.empty()) break;
      if (ahead && size.axis == 'x')
        size.correction_mm = decide_width(firsts[i], *ahead, told);
      else
        decide_by_limits(firsts[i], size.axis == 'x' ? 0 : size.axis == 'y' ? 1 : 2, size, told);
    }
    if (!ahead) {
      told.uncorrected = within_limits(firsts[i], told.sizes, false);
      told.corrected = within_limits(firsts[i], told.sizes, true);
    }
  }
  if (ahead) row = ahead->decided();
  return all;
}

} // namespace tacksquare
