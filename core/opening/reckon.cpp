// The row by worst case, root-sum-square and chance, and what each cause takes of it. docs/theory.md.
#include "opening/rowing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace tacksquare::opening {

namespace {

// Draws as near to the wanted chance as this share of all of them tell what the causes add there.
constexpr double kNear = 0.02;

// What a key adds over all boxes.
struct Sums {
  double mean = 0.0, largest = 0.0, variance = 0.0, share = 0.0;
  Source source; // of the first box that has not settled it by a reading, else of the first
  bool settled = true;
};

// The leans that take most room: contacts are convex in each lean, so each is at one of its ends.
double worst_rack(const std::vector<SizeBudget>& stands) {
  struct End {
    double lean = 0.0, most = 0.0; // room up to here
  };
  std::vector<End> before = {{0.0, 0.0}};
  double tall_before = kSideOfHole;
  const auto touch = [&](const std::vector<double>& leans, double tall) {
    std::vector<End> next;
    for (const double lean : leans) {
      double most = 0.0;
      for (const End& e : before)
        most = std::max(most, e.most + (e.lean > lean ? std::min(tall_before, tall) * (e.lean - lean) : 0.0));
      next.push_back({lean, most});
    }
    before = std::move(next);
    tall_before = tall;
  };
  for (const SizeBudget& stand : stands) {
    double low = 0.0, high = 0.0;
    for (const SizeCause& c : stand.causes)
      if (c.key == "rack") {
        low += (c.middle_mm - c.under_mm) / stand.tall_mm;
        high += (c.middle_mm + c.over_mm) / stand.tall_mm;
      }
    touch({low, high}, stand.tall_mm);
  }
  touch({0.0}, kSideOfHole);
  return before.front().most;
}

// Means and variances by key: own parts add as squares, common parts of one order before squaring.
std::map<std::string, Sums> sums_of(const std::vector<SizeBudget>& stands) {
  std::map<std::string, Sums> by_key;
  std::map<std::pair<std::string, std::string>, double> common;
  for (const SizeBudget& stand : stands)
    for (const SizeCause& c : stand.causes) {
      Sums& sums = by_key[c.key];
      if (sums.source.text.empty() || (sums.settled && !settled(c))) {
        sums.source = c.source;
        sums.settled = settled(c);
      }
      if (c.key == "rack") continue;
      const Moments m = moments_of(c);
      sums.mean += m.mean_mm;
      sums.largest += c.middle_mm + c.over_mm;
      sums.variance += (1.0 - c.common) * m.variance_mm2;
      common[{c.key, c.order}] += std::sqrt(c.common * m.variance_mm2);
    }
  for (const auto& [key, deviation] : common)
    by_key[key.first].variance += deviation * deviation;
  return by_key;
}

struct Drawn {
  Excess excess;
  std::vector<double> totals, sorted; // as drawn, and in order of size
  std::vector<std::string> keys;
  std::vector<double> parts; // draw by draw what each key added
  std::map<std::string, Sums> by_key;
};

Drawn drawn(const std::vector<SizeBudget>& stands, double chance, std::size_t draws, bool with_parts) {
  RowDraws row(stands);
  Drawn d{{}, {}, {}, row.keys(), {}, sums_of(stands)};
  Random random(kRowSeed);
  d.totals.reserve(draws);
  if (with_parts) d.parts.reserve(draws * d.keys.size());
  double rack = 0.0, rack_squared = 0.0;
  for (std::size_t i = 0; i < draws; ++i) {
    d.totals.push_back(row.draw(random));
    for (std::size_t k = 0; with_parts && k < d.keys.size(); ++k)
      d.parts.push_back(row.by_key(k));
    rack += row.rack();
    rack_squared += row.rack() * row.rack();
  }
  d.sorted = d.totals;
  std::sort(d.sorted.begin(), d.sorted.end());
  if (const auto found = d.by_key.find("rack"); found != d.by_key.end()) {
    // What neighbours take by their racks is no sum: its mean and variance are those of the draws.
    const double n = static_cast<double>(draws), mean = rack / n;
    found->second.mean = mean;
    found->second.variance = std::max(0.0, rack_squared / n - mean * mean);
    found->second.largest = worst_rack(stands);
  }
  double mean = 0.0, variance = 0.0;
  for (const auto& [key, s] : d.by_key) {
    mean += s.mean;
    variance += s.variance;
    d.excess.worst_mm += s.largest;
  }
  d.excess.rss_mm = mean + normal_quantile(chance) * std::sqrt(variance);
  d.excess.drawn_mm = quantile_of(d.sorted, chance);
  return d;
}

// What each key adds, on the average, where the row takes about as much as at the wanted chance: Euler's
// allocation. What is missing to just that goes to the causes by their variance: they make the difference.
void share_out(Drawn& d, double chance) {
  const double low = quantile_of(d.sorted, std::max(0.0, chance - kNear)),
               high = quantile_of(d.sorted, std::min(1.0, chance + kNear));
  const std::size_t width = d.keys.size();
  std::vector<double> sums(width, 0.0);
  double count = 0.0, all = 0.0, variance = 0.0;
  for (std::size_t i = 0; i < d.totals.size(); ++i) {
    if (d.totals[i] < low || d.totals[i] > high) continue;
    count += 1.0;
    all += d.totals[i];
    for (std::size_t k = 0; k < width; ++k)
      sums[k] += d.parts[i * width + k];
  }
  for (const auto& [key, s] : d.by_key)
    variance += s.variance;
  const double off = d.excess.drawn_mm - all / count;
  for (std::size_t k = 0; k < width; ++k) {
    const auto found = d.by_key.find(d.keys[k]);
    if (found == d.by_key.end()) continue; // no rack
    Sums& s = found->second;
    s.share = sums[k] / count + (variance > 0.0 ? off * s.variance / variance : 0.0);
  }
}

} // namespace

BySums by_sums(const SizeBudget& box, double chance) {
  BySums all;
  const double z = normal_quantile(chance);
  double mean = 0.0, variance = 0.0, most = -1e300;
  for (const auto& [key, s] : sums_of({box})) {
    all.worst_mm += s.largest;
    mean += s.mean;
    variance += s.variance;
    const double adds = s.mean + z * std::sqrt(s.variance);
    if (adds <= most) continue;
    most = adds;
    all.dearest = key;
  }
  all.rss_mm = mean + z * std::sqrt(variance);
  return all;
}

Excess excess_of(const std::vector<SizeBudget>& stands, double chance) {
  return drawn(stands, chance, kFewDraws, false).excess;
}

Reckoning reckon(const std::vector<SizeBudget>& stands, double chance) {
  Drawn d = drawn(stands, chance, kRowDraws, true);
  share_out(d, chance);
  Reckoning result{d.excess, std::move(d.sorted), {}};
  const double z = normal_quantile(chance);
  for (const auto& [key, s] : d.by_key)
    result.budget.push_back({key, s.mean, s.largest - s.mean, z * std::sqrt(s.variance), s.share, s.source});
  std::sort(result.budget.begin(), result.budget.end(), [](const BudgetLine& a, const BudgetLine& b) {
    return a.share_mm != b.share_mm ? a.share_mm > b.share_mm : a.key < b.key;
  });
  return result;
}

std::vector<std::size_t> nesting_order(const std::vector<double>& lean, const std::vector<double>& tall) {
  constexpr std::size_t kMostExact = 12;
  const std::size_t n = lean.size();
  std::vector<std::size_t> order(n);
  for (std::size_t i = 0; i < n; ++i)
    order[i] = i;
  // Of boxes of one height no order needs less: the leans rise from the least to the greatest without a step
  // back.
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return lean[a] < lean[b]; });
  const bool alike = std::all_of(tall.begin(), tall.end(), [&](double t) { return t == tall.front(); });
  if (n > kMostExact || n == 0 || alike) return order;

  // least[set][last]: room of the stands of a set with that one on the right.
  const std::size_t sets = std::size_t{1} << n;
  std::vector<std::vector<double>> least(sets, std::vector<double>(n, 1e300));
  std::vector<std::vector<std::size_t>> before(sets, std::vector<std::size_t>(n, n));
  const auto touch = [&](std::size_t a, std::size_t b) {
    return lean[a] > lean[b] ? std::min(tall[a], tall[b]) * (lean[a] - lean[b]) : 0.0;
  };
  for (std::size_t i = 0; i < n; ++i)
    least[std::size_t{1} << i][i] = lean[i] < 0.0 ? -lean[i] * tall[i] : 0.0;
  for (std::size_t set = 1; set < sets; ++set)
    for (std::size_t last = 0; last < n; ++last) {
      if (least[set][last] >= 1e300) continue;
      for (std::size_t next = 0; next < n; ++next) {
        const std::size_t bit = std::size_t{1} << next;
        if (set & bit) continue;
        const double room = least[set][last] + touch(last, next);
        if (room >= least[set | bit][next]) continue;
        least[set | bit][next] = room;
        before[set | bit][next] = last;
      }
    }
  std::size_t set = sets - 1, last = 0;
  const auto whole = [&](std::size_t i) { return least[set][i] + (lean[i] > 0.0 ? lean[i] * tall[i] : 0.0); };
  for (std::size_t i = 1; i < n; ++i)
    if (whole(i) < whole(last)) last = i;
  for (std::size_t i = n; i-- > 0;) {
    order[i] = last;
    const std::size_t from = before[set][last];
    set ^= std::size_t{1} << last;
    last = from;
  }
  return order;
}

} // namespace tacksquare::opening
