#include "opening/rowing.h"

#include "base/diagnostic.h"
#include "formulas/chance.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare {

namespace opening {

namespace {

// Index of an item in a list, which grows when it is not there.
template <class T> std::size_t index_in(std::vector<T>& all, const T& item) {
  const auto found = std::find(all.begin(), all.end(), item);
  const auto index = static_cast<std::size_t>(found - all.begin());
  if (found == all.end()) all.push_back(item);
  return index;
}

// Triangular between -under and over, peak at 0, from an even draw. Without a jump that depends on the draw:
// half of those are guessed wrong.
double triangular(double u, double under, double over) {
  const double wide = under + over;
  const auto low = static_cast<double>(u * wide < under);
  const double root = std::sqrt((low * u * under + (1.0 - low) * (1.0 - u) * over) * wide);
  return low * (root - under) + (1.0 - low) * (over - root);
}

} // namespace

RowDraws::RowDraws(const std::vector<SizeBudget>& stands) {
  std::vector<std::pair<std::string, std::string>> groups;
  for (std::size_t s = 0; s < stands.size(); ++s) {
    tall_.push_back(stands[s].tall_mm);
    for (const SizeCause& c : stands[s].causes) {
      if (c.under_mm < 0.0 || c.over_mm < 0.0 || c.common < 0.0 || c.common > 1.0)
        throw InternalError("a cause of a size with a negative spread or a share beyond 0 to 1: " + c.key);
      Cause cause;
      cause.stand = s;
      cause.key = index_in(keys_, c.key);
      cause.spread = c.spread;
      cause.rack = c.key == "rack";
      cause.constant = c.under_mm == 0.0 && c.over_mm == 0.0;
      const double unit = c.spread == Spread::normal ? kNinetyFive : 1.0;
      cause.middle = c.middle_mm;
      cause.under = c.under_mm / unit;
      cause.over = c.over_mm / unit;
      cause.shared = std::sqrt(c.common);
      cause.own = std::sqrt(1.0 - c.common);
      if (c.common > 0.0 && !cause.constant) {
        cause.group = index_in(groups, {c.key, c.order});
        groups_.resize(groups.size());
        (c.spread == Spread::normal ? groups_[cause.group].normal : groups_[cause.group].even) = true;
      }
      causes_.push_back(cause);
    }
  }
  rack_key_ = index_in(keys_, std::string("rack"));
  sizes_.resize(stands.size());
  leans_.resize(stands.size());
  by_key_.resize(keys_.size());
}

void RowDraws::fill(const Cause& cause, Random& random, Block& mm) const {
  if (cause.constant) {
    mm.fill(cause.middle);
    return;
  }
  // As in triangular: no jumps that depend on a draw.
  const bool grouped = cause.shared > 0.0;
  if (cause.spread == Spread::normal) {
    if (cause.own > 0.0)
      for (double& z : mm)
        z = cause.own * random.normal();
    else
      mm.fill(0.0);
    for (std::size_t i = 0; grouped && i < kBlock; ++i)
      mm[i] += cause.shared * groups_[cause.group].z[i];
    for (double& z : mm)
      z = cause.middle + std::min(z, 0.0) * cause.under + std::max(z, 0.0) * cause.over;
    return;
  }
  for (double& u : mm)
    u = random.uniform01();
  for (std::size_t i = 0; grouped && i < kBlock; ++i)
    mm[i] += static_cast<double>(random.uniform01() < cause.shared) * (groups_[cause.group].u[i] - mm[i]);
  if (cause.spread == Spread::triangular)
    for (double& u : mm)
      u = cause.middle + triangular(u, cause.under, cause.over);
  else
    for (double& u : mm)
      u = cause.middle - cause.under + u * (cause.under + cause.over);
}

void RowDraws::refill(Random& random) {
  for (Group& group : groups_) {
    for (std::size_t i = 0; group.normal && i < kBlock; ++i)
      group.z[i] = random.normal();
    for (std::size_t i = 0; group.even && i < kBlock; ++i)
      group.u[i] = random.uniform01();
  }
  for (std::vector<Block>* blocks : {&sizes_, &leans_, &by_key_})
    std::fill(blocks->begin(), blocks->end(), Block{});
  Block mm;
  for (const Cause& cause : causes_) {
    fill(cause, random, mm);
    Block& to = cause.rack ? leans_[cause.stand] : sizes_[cause.stand];
    const double per = cause.rack ? 1.0 / tall_[cause.stand] : 1.0;
    for (std::size_t i = 0; i < kBlock; ++i)
      to[i] += mm[i] * per;
    for (std::size_t i = 0; !cause.rack && i < kBlock; ++i)
      by_key_[cause.key][i] += mm[i];
  }
  std::vector<double> lean(leans_.size());
  for (std::size_t i = 0; i < kBlock; ++i) {
    totals_[i] = 0.0;
    for (std::size_t s = 0; s < sizes_.size(); ++s) {
      totals_[i] += sizes_[s][i];
      lean[s] = leans_[s][i];
    }
    racks_[i] = by_key_[rack_key_][i] = contacts_mm(lean, tall_);
  }
}

double RowDraws::draw(Random& random) {
  if (++at_ == kBlock) {
    refill(random);
    at_ = 0;
  }
  return totals_[at_] + racks_[at_];
}

double contacts_mm(const std::vector<double>& lean, const std::vector<double>& tall) {
  double sum = 0.0, lean_before = 0.0, tall_before = kSideOfHole;
  const auto touch = [&](double next, double next_tall) {
    if (lean_before > next) sum += std::min(tall_before, next_tall) * (lean_before - next);
    lean_before = next;
    tall_before = next_tall;
  };
  for (std::size_t i = 0; i < lean.size(); ++i)
    touch(lean[i], tall[i]);
  touch(0.0, kSideOfHole);
  return sum;
}

double quantile_of(const std::vector<double>& sorted, double p) {
  const double rank = std::ceil(p * static_cast<double>(sorted.size()));
  const auto index = static_cast<std::size_t>(std::max(rank, 1.0)) - 1;
  return sorted[std::min(index, sorted.size() - 1)];
}

Chance chance_of(const std::vector<double>& sorted, double at_most) {
  const auto hits =
      static_cast<std::uint64_t>(std::upper_bound(sorted.begin(), sorted.end(), at_most) - sorted.begin());
  const Band band = formulas::clopper_pearson(hits, sorted.size(), 0.9);
  // Five figures: beyond them mathematics libraries may differ.
  const auto five = [](double v) { return std::round(v * 1e5) / 1e5; };
  return {five(band.value), five(band.low), five(band.high), sorted.size()};
}

} // namespace opening

Moments moments_of(const SizeCause& c) {
  const double u = c.under_mm, o = c.over_mm;
  switch (c.spread) {
  case Spread::normal: {
    const double off = (o - u) / kNinetyFive / std::sqrt(2.0 * kPi);
    return {c.middle_mm + off, (u * u + o * o) / (2.0 * kNinetyFive * kNinetyFive) - off * off};
  }
  case Spread::uniform:
    return {c.middle_mm + 0.5 * (o - u), (u + o) * (u + o) / 12.0};
  case Spread::triangular:
    return {c.middle_mm + (o - u) / 3.0, (u * u + o * o + u * o) / 18.0};
  }
  throw InternalError("unknown spread of a cause");
}

std::vector<double> draw_row(const std::vector<SizeBudget>& stands, std::size_t draws, std::uint64_t seed) {
  opening::RowDraws row(stands);
  Random random(seed);
  std::vector<double> all;
  all.reserve(draws);
  for (std::size_t i = 0; i < draws; ++i)
    all.push_back(row.draw(random));
  std::sort(all.begin(), all.end());
  return all;
}

} // namespace tacksquare
