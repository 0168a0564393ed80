#include "planning/search/set_search.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace tacksquare {
namespace {

using Set = std::uint32_t;

constexpr double kFar = std::numeric_limits<double>::infinity();

Set full_of(const SetGroup& group) {
  return (Set{1} << group.units) - 1;
}

// to += what `next` adds in each row and scenario.
void add_step(const SetProblem& p, const SetGroup& group, Set set, std::size_t next, double* to) {
  const double* step = &group.steps[(std::size_t{set} * group.units + next) * p.kinds * p.rows];
  const double* amounts = &group.amounts[next * p.kinds * p.scenarios];
  for (std::size_t row = 0; row < p.rows; ++row) {
    double* at = to + row * p.scenarios;
    for (std::size_t kind = 0; kind < p.kinds; ++kind) {
      const double by = step[kind * p.rows + row];
      const double* of = amounts + kind * p.scenarios;
      for (std::size_t s = 0; s < p.scenarios; ++s)
        at[s] += by * of[s];
    }
  }
}

// Of a single scenario: what all kinds of a unit add together.
SetProblem collapsed(SetProblem p) {
  if (p.scenarios != 1) return p;
  for (SetGroup& group : p.groups) {
    std::vector<double> steps((std::size_t{1} << group.units) * group.units * p.rows, 0.0);
    for (std::size_t at = 0; at < steps.size() / p.rows; ++at)
      for (std::size_t kind = 0; kind < p.kinds; ++kind)
        for (std::size_t row = 0; row < p.rows; ++row)
          steps[at * p.rows + row] += group.steps[(at * p.kinds + kind) * p.rows + row] *
                                      group.amounts[at % group.units * p.kinds + kind];
    group.steps = std::move(steps);
    group.amounts.assign(group.units, 1.0);
  }
  p.kinds = 1;
  return p;
}

} // namespace

SetSearch::SetSearch(SetProblem problem) : problem_(collapsed(std::move(problem))) {
  const std::size_t size = problem_.rows * problem_.scenarios;
  for (const SetGroup& group : problem_.groups) {
    if (group.units > kMostInSet) throw InternalError("set search: too many units for a table");
    needs_.emplace_back(group.units, 0);
    for (std::size_t unit = 0; unit < group.units; ++unit)
      for (const std::size_t earlier : group.after[unit])
        needs_.back()[unit] |= Set{1} << earlier;
  }
  least_.resize(problem_.groups.size());
  largest_.resize(problem_.groups.size());
  ways_.resize(problem_.groups.size());
  std::vector<double> low(size, 0.0), high(size, 0.0); // of the groups behind
  std::vector<double> step(size);
  for (std::size_t g = problem_.groups.size(); g-- > 0;) {
    const SetGroup& group = problem_.groups[g];
    const Set full = full_of(group);
    std::vector<double>&least = least_[g], &largest = largest_[g], &ways = ways_[g];
    least.assign((std::size_t{full} + 1) * size, kFar);
    largest.assign((std::size_t{full} + 1) * size, -kFar);
    ways.assign(std::size_t{full} + 1, 0.0);
    std::copy(low.begin(), low.end(), least.begin() + static_cast<long>(full * size));
    std::copy(high.begin(), high.end(), largest.begin() + static_cast<long>(full * size));
    ways[full] = 1.0;
    // A set that lacks what one of its units needs is reached by no order.
    const auto reached = [&](Set set) {
      for (std::size_t unit = 0; unit < group.units; ++unit)
        if ((set >> unit & 1u) && (needs_[g][unit] & ~set) != 0) return false;
      return true;
    };
    for (Set set = full; set-- > 0;) {
      if (!reached(set)) continue;
      double* to_low = &least[set * size];
      double* to_high = &largest[set * size];
      for (std::size_t next = 0; next < group.units; ++next) {
        if ((set >> next & 1u) || (needs_[g][next] & ~set) != 0) continue;
        const Set with = set | Set{1} << next;
        if (ways[with] == 0.0) continue;
        ways[set] += ways[with];
        std::fill(step.begin(), step.end(), 0.0);
        add_step(problem_, group, set, next, step.data());
        const double* from_low = &least[with * size];
        const double* from_high = &largest[with * size];
        for (std::size_t i = 0; i < size; ++i) {
          to_low[i] = std::min(to_low[i], step[i] + from_low[i]);
          to_high[i] = std::max(to_high[i], step[i] + from_high[i]);
        }
      }
    }
    if (ways[0] == 0.0) throw InternalError("set search: no order keeps the precedence");
    std::copy_n(least.begin(), size, low.begin());
    std::copy_n(largest.begin(), size, high.begin());
  }
}

double SetSearch::orders() const {
  double all = 1.0;
  for (const std::vector<double>& ways : ways_)
    all *= ways[0];
  return all;
}

double SetSearch::value(const GroupOrders& order) const {
  double sum = 0.0;
  for (std::size_t s = 0; s < problem_.scenarios; ++s)
    sum += value(order, s);
  return sum / static_cast<double>(problem_.scenarios);
}

double SetSearch::value(const GroupOrders& order, std::size_t scenario) const {
  const SetProblem& p = problem_;
  std::vector<double> sums(p.rows);
  for (std::size_t row = 0; row < p.rows; ++row)
    sums[row] = p.start[row * p.scenarios + scenario];
  for (std::size_t g = 0; g < p.groups.size(); ++g) {
    const SetGroup& group = p.groups[g];
    Set set = 0;
    for (const std::size_t next : order[g]) {
      const double* step = &group.steps[(std::size_t{set} * group.units + next) * p.kinds * p.rows];
      for (std::size_t kind = 0; kind < p.kinds; ++kind, step += p.rows) {
        const double amount = group.amounts[(next * p.kinds + kind) * p.scenarios + scenario];
        for (std::size_t row = 0; row < p.rows; ++row)
          sums[row] += amount * step[row];
      }
      set |= Set{1} << next;
    }
  }
  double worst = 0.0;
  for (const double sum : sums)
    worst = std::max(worst, std::abs(sum));
  return worst;
}

// Depth first; of each set's next steps the one with the best bound first.
class SetSearch::Walk {
 public:
  Walk(const SetSearch& search, bool most) : s_(search), p_(search.problem_), most_(most) {
    std::size_t depth = 0;
    for (const SetGroup& group : p_.groups) {
      order_.emplace_back();
      depth += group.units;
    }
    sums_.assign(depth + 1, {});
    for (std::vector<double>& sum : sums_)
      sum.resize(p_.rows * p_.scenarios);
    sums_[0] = p_.start;
  }

  SetFound best(const GroupOrders& start, double within, long long most_steps) {
    within_ = within;
    steps_left_ = most_steps;
    best_ = start;
    value_ = s_.value(start);
    descend();
    open_ = value_;
    walk(0, 0, 0);
    const double bound = worse(value_, open_) < 0.0 ? value_ : open_;
    return {best_, value_, bound, worse(value_, bound) <= within, most_steps - steps_left_};
  }

  std::optional<std::vector<GroupOrders>> all_up_to(double value, std::size_t cap, long long most_steps) {
    listing_ = true;
    cap_ = cap;
    value_ = value;
    steps_left_ = most_steps;
    walk(0, 0, 0);
    if (listed_.size() > cap || steps_left_ <= 0) return std::nullopt;
    return std::move(listed_);
  }

 private:
  struct Child {
    double bound = 0.0;
    std::size_t next = 0;
  };

  // By how much a is worse than b, as the search goes.
  double worse(double a, double b) const { return most_ ? b - a : a - b; }

  // Units taken out and put in elsewhere, while that is better.
  void descend() {
    for (bool better = true; better;) {
      better = false;
      for (std::size_t g = 0; g < p_.groups.size(); ++g)
        for (std::size_t from = 0; from < best_[g].size(); ++from)
          for (std::size_t to = 0; to < best_[g].size(); ++to) {
            if (from == to) continue;
            GroupOrders tried = best_;
            const std::size_t unit = tried[g][from];
            tried[g].erase(tried[g].begin() + static_cast<long>(from));
            tried[g].insert(tried[g].begin() + static_cast<long>(to), unit);
            if (!keeps_precedence(g, tried[g])) continue;
            const double value = s_.value(tried);
            if (worse(value, value_) >= -kGain) continue;
            best_ = std::move(tried);
            value_ = value;
            better = true;
          }
    }
  }

  bool keeps_precedence(std::size_t g, const std::vector<std::size_t>& order) const {
    Set set = 0;
    for (const std::size_t unit : order) {
      if ((s_.needs_[g][unit] & ~set) != 0) return false;
      set |= Set{1} << unit;
    }
    return true;
  }

  // What no order from here on is better than.
  double bound(std::size_t g, Set set, const double* sum) const {
    const std::size_t size = p_.rows * p_.scenarios;
    const double* low = &s_.least_[g][set * size];
    const double* high = &s_.largest_[g][set * size];
    scenario_.assign(p_.scenarios, 0.0);
    for (std::size_t row = 0, i = 0; row < p_.rows; ++row)
      for (std::size_t s = 0; s < p_.scenarios; ++s, ++i) {
        const double from = sum[i] + low[i], to = sum[i] + high[i];
        const double at = most_ ? std::max(-from, to) : std::max(from, -to);
        scenario_[s] = std::max(scenario_[s], at);
      }
    double mean = 0.0;
    for (const double each : scenario_)
      mean += each;
    return mean / static_cast<double>(p_.scenarios);
  }

  void walk(std::size_t g, Set set, std::size_t depth) {
    while (g < p_.groups.size() && set == full_of(p_.groups[g])) {
      ++g;
      set = 0;
    }
    if (g == p_.groups.size()) {
      finish(sums_[depth]);
      return;
    }
    const SetGroup& group = p_.groups[g];
    std::vector<Child> children;
    std::vector<double>& sum = sums_[depth + 1];
    for (std::size_t next = 0; next < group.units; ++next) {
      if ((set >> next & 1u) || (s_.needs_[g][next] & ~set) != 0) continue;
      const Set with = set | Set{1} << next;
      if (s_.ways_[g][with] == 0.0) continue;
      sum = sums_[depth];
      add_step(p_, group, set, next, sum.data());
      children.push_back({bound(g, with, sum.data()), next});
      --steps_left_;
    }
    std::stable_sort(children.begin(), children.end(),
                     [&](const Child& a, const Child& b) { return worse(a.bound, b.bound) < 0.0; });
    for (const Child& child : children) {
      const bool over = steps_left_ <= 0 || (listing_ && listed_.size() > cap_);
      if (over || (listing_ ? child.bound > value_ : worse(child.bound, value_) >= -within_)) {
        if (worse(child.bound, open_) < 0.0) open_ = child.bound;
        continue;
      }
      sum = sums_[depth];
      add_step(p_, group, set, child.next, sum.data());
      order_[g].push_back(child.next);
      walk(g, set | Set{1} << child.next, depth + 1);
      order_[g].pop_back();
    }
  }

  void finish(const std::vector<double>& sum) {
    double mean = 0.0;
    for (std::size_t s = 0; s < p_.scenarios; ++s) {
      double worst = 0.0;
      for (std::size_t row = 0; row < p_.rows; ++row)
        worst = std::max(worst, std::abs(sum[row * p_.scenarios + s]));
      mean += worst;
    }
    mean /= static_cast<double>(p_.scenarios);
    if (listing_) {
      if (mean <= value_) listed_.push_back(order_);
    } else if (worse(mean, value_) < 0.0) {
      value_ = mean;
      best_ = order_;
    }
  }

  static constexpr double kGain = 1e-9; // below it is rounding

  const SetSearch& s_;
  const SetProblem& p_;
  const bool most_;
  bool listing_ = false;
  double within_ = 0.0, value_ = 0.0;
  double open_ = 0.0; // the best bound of all that was not followed
  long long steps_left_ = 0;
  std::size_t cap_ = 0;
  GroupOrders order_, best_;
  std::vector<GroupOrders> listed_;
  std::vector<std::vector<double>> sums_; // of each depth
  mutable std::vector<double> scenario_;
};

SetFound SetSearch::least(const GroupOrders& start, double within, long long most_steps) const {
  return Walk(*this, false).best(start, within, most_steps);
}

SetFound SetSearch::most(const GroupOrders& start, double within, long long most_steps) const {
  return Walk(*this, true).best(start, within, most_steps);
}

std::optional<std::vector<GroupOrders>> SetSearch::all_up_to(double value, std::size_t cap,
                                                             long long most_steps) const {
  return Walk(*this, false).all_up_to(value, cap, most_steps);
}

} // namespace tacksquare
