#include "opening/learning.h"

#include "opening/rowing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace tacksquare::opening {

namespace {

Band band_of(const formulas::Weighed& w) {
  const double reach = kNinetyFive * std::sqrt(w.variance);
  return {w.mean, w.mean - reach, w.mean + reach};
}

} // namespace

bool of_the_box(const std::string& key) {
  return key != "coating" && key != "rack" && key != "gauge" && key != "overhang";
}

Widest widest_of(const std::vector<double>& readings_mm, double error_mm) {
  const auto n = static_cast<double>(readings_mm.size());
  double mean = 0.0, squares = 0.0;
  for (const double r : readings_mm)
    mean += r / n;
  for (const double r : readings_mm)
    squares += (r - mean) * (r - mean);
  const double seen = n > 1.0 ? squares / (n - 1.0) : 0.0, error = error_mm * error_mm;
  const double real = seen > error ? 1.0 - error / seen : 0.0; // share of the spread that is the box's
  const double most = *std::max_element(readings_mm.begin(), readings_mm.end());
  return {mean + real * (most - mean), error_mm * std::sqrt(real + (1.0 - real) / n)};
}

Learning::Learning(const SizeBudget& prior) {
  std::map<std::pair<std::string, std::string>, std::size_t> groups;
  for (const SizeCause& cause : prior.causes) {
    if (!of_the_box(cause.key)) continue;
    const Moments m = moments_of(cause);
    causes_.push_back(cause);
    mean_.push_back(m.mean_mm);
    deviation_.push_back(std::sqrt(m.variance_mm2));
    load_.push_back(std::sqrt(m.variance_mm2 * cause.common));
    group_.push_back(groups.try_emplace({cause.key, cause.order}, groups.size()).first->second);
  }
  groups_ = groups.size();
  std::vector<double> variances(groups_, 1.0);
  for (std::size_t i = 0; i < causes_.size(); ++i)
    variances.push_back(deviation_[i] * deviation_[i] * (1.0 - causes_[i].common));
  before_ = state_ = formulas::independent(std::vector<double>(variances.size()), variances);
}

void Learning::shift(const std::string& key, double by_mm) {
  SizeCause known;
  known.key = key;
  known.middle_mm = by_mm;
  known.common = 1.0;
  known.source = {"reading of this box", Mark::stated};
  causes_.push_back(known);
  mean_.push_back(by_mm);
  deviation_.push_back(0.0);
  load_.push_back(0.0);
  group_.push_back(0);
  for (formulas::Gaussian* state : {&before_, &state_}) {
    state->mean.push_back(0.0);
    for (std::vector<double>& row : state->covariance)
      row.push_back(0.0);
    state->covariance.emplace_back(state->mean.size());
  }
}

std::vector<double> Learning::weights(const std::vector<bool>& of, bool own) const {
  std::vector<double> w(state_.mean.size());
  for (std::size_t i = 0; i < causes_.size(); ++i) {
    if (!of[i]) continue;
    w[group_[i]] += load_[i];
    if (own) w[groups_ + i] = 1.0;
  }
  return w;
}

double Learning::constant(const std::vector<bool>& of) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < causes_.size(); ++i)
    if (of[i]) sum += mean_[i];
  return sum;
}

bool Learning::read(const std::vector<double>& weights, double constant_mm, double mm, double error_mm) {
  const double reading = mm - constant_mm, variance = error_mm * error_mm;
  if (std::fabs(formulas::surprise(state_, weights, reading, variance)) > kMistake) return false;
  formulas::observe(state_, weights, reading, variance);
  return true;
}

bool Learning::read_cause(std::size_t cause, double mm, double error_mm) {
  std::vector<bool> of(causes_.size());
  of[cause] = true;
  return read(weights(of, true), constant(of), mm, error_mm);
}

// Next: the own parts are drawn anew.
formulas::Weighed Learning::sum(const std::vector<bool>& of, const formulas::Gaussian& state,
                                bool next) const {
  formulas::Weighed sum = formulas::weighed(state, weights(of, !next));
  sum.mean += constant(of);
  for (std::size_t i = 0; next && i < causes_.size(); ++i)
    if (of[i]) sum.variance += deviation_[i] * deviation_[i] * (1.0 - causes_[i].common);
  return sum;
}

std::vector<CauseFound> Learning::found() const {
  std::vector<CauseFound> all;
  for (const SizeCause& cause : causes_) {
    if (std::any_of(all.begin(), all.end(), [&](const CauseFound& f) { return f.key == cause.key; }))
      continue;
    std::vector<bool> of;
    for (const SizeCause& other : causes_)
      of.push_back(other.key == cause.key);
    formulas::Weighed common = formulas::weighed(state_, weights(of, false));
    common.mean += constant(of);
    all.push_back(
        {cause.key, band_of(sum(of, before_, false)), band_of(sum(of, state_, false)), band_of(common)});
  }
  return all;
}

formulas::Weighed Learning::box() const {
  return sum(std::vector<bool>(causes_.size(), true), state_, false);
}
formulas::Weighed Learning::expected() const {
  return sum(std::vector<bool>(causes_.size(), true), before_, false);
}
formulas::Weighed Learning::rest() const {
  return sum(std::vector<bool>(causes_.size(), true), state_, true);
}

SizeBudget Learning::rest_budget(const SizeBudget& own, double nominal_mm, const std::string& order) const {
  SizeBudget rest = own;
  rest.nominal_mm = nominal_mm;
  rest.causes.clear();
  std::vector<SizeCause> read;
  for (const SizeCause& cause : own.causes)
    (of_the_box(cause.key) ? read : rest.causes).push_back(cause);
  std::vector<bool> open(causes_.size(), true);
  const bool alike =
      std::equal(read.begin(), read.end(), causes_.begin(),
                 causes_.begin() + static_cast<std::ptrdiff_t>(std::min(read.size(), causes_.size())),
                 [](const SizeCause& a, const SizeCause& b) { return a.key == b.key; });
  for (std::size_t i = 0; alike && i < read.size(); ++i) {
    if (!settled(read[i]) || settled(causes_[i])) continue;
    open[i] = false;
    rest.causes.push_back(read[i]);
  }
  const formulas::Weighed known = formulas::weighed(state_, weights(open, false));
  const double reach = kNinetyFive * std::sqrt(known.variance);
  rest.causes.push_back({"common",
                         Spread::normal,
                         known.mean + constant(open),
                         reach,
                         reach,
                         1.0,
                         order,
                         {"readings of the first box", Mark::derived}});
  for (std::size_t i = 0; i < causes_.size(); ++i) {
    const double share = std::sqrt(1.0 - causes_[i].common);
    SizeCause part = causes_[i];
    part.under_mm *= share;
    part.over_mm *= share;
    part.common = 0.0;
    part.middle_mm = 0.0;
    part.middle_mm = -moments_of(part).mean_mm; // its mean stands in the common part
    if (open[i] && !settled(part)) rest.causes.push_back(part);
  }
  return rest;
}

} // namespace tacksquare::opening
