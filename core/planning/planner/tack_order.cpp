#include "planning/planner/tack_order.h"

#include "base/at_once.h"
#include "base/random.h"
#include "physics/elastic/tacking.h"
#include "planning/planner/checks.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/fixing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare {
namespace {

using elastic::Event;
using Order = std::vector<std::size_t>; // tacks, in the order in which they are made
using Named = std::pair<const char*, Order>;

constexpr std::uint64_t kSeed = 20270519, kOtherSeed = 20270520;
constexpr elastic::Index kSearched = 32, kTold = 200; // draws: to search by, and others to tell by
constexpr std::size_t kFewest = 4, kMost = 150;
constexpr double kWork = 2.5e6; // of the search: springs squared, each time

// Tacks that may trade places stand together: first to last.
struct Block {
  std::size_t first = 0, last = 0;
};

struct Weighed {
  double worst = 0.0;             // mean of the worse of both, in parts of the limit
  double square = 0.0, gap = 0.0; // means of each alone
  Band gap_mm;                    // the largest
};

class Tacks {
 public:
  Tacks(const BoxCase& box, ElasticCase made) : box_(box), made_(std::move(made)) {
    for (std::size_t i = 0; i < made_.measure.size(); ++i) {
      const Measure& m = box.work.measures[made_.measure[i]];
      if (m.kind != MeasureKind::width && m.kind != MeasureKind::belly && m.over_mm > 0.0)
        limits_.push_back({static_cast<elastic::Index>(i), m.over_mm});
    }
  }

  bool any_limit() const { return !limits_.empty(); }

  bool make() {
    Diagnostics unused; // the same faults are told when the box is reckoned
    search_ = elastic::Tacking::make(box_.job, box_.box, box_.geometry, made_.making, made_.options,
                                     kSearched, kSeed, unused);
    if (!search_) return false;
    find_blocks();
    return true;
  }

  TackOrder choose() {
    std::vector<Named> tried = {
        {"planned", plain_}, {"round-about", round_about()}, {"seam-by-seam", seam_by_seam()}};
    const std::vector<Weighed> plain = weigh_all(*search_, tried);
    std::size_t first = 0;
    for (std::size_t i = 1; i < tried.size(); ++i)
      if (better(plain[i].worst, plain[first].worst)) first = i;
    Order best = tried[first].second;
    double least = plain[first].worst;
    tried.push_back({"searched", searched(std::move(best), least)});
    const elastic::Tacking told = search_->with_draws(kTold, kOtherSeed);
    TackOrder made;
    const std::vector<Weighed> weighed = weigh_all(told, tried);
    double best_told = 1e30;
    for (const Weighed& each : weighed)
      best_told = std::min(best_told, each.worst);
    bool chosen = false;
    for (std::size_t i = 0; i < tried.size(); ++i) {
      const Weighed& w = weighed[i];
      const bool takes = !chosen && w.worst <= best_told + kSameOrder;
      if (takes) made.order = tried[i].second;
      chosen = chosen || takes;
      made.compared.push_back({tried[i].first, w.worst, w.square, w.gap, w.gap_mm, takes});
    }
    made.trials = trials_;
    return made;
  }

 private:
  struct Limit {
    elastic::Index watched = 0;
    double mm = 0.0;
  };

  static bool better(double a, double b) {
    constexpr double kSteps = 1e5; // the same on every machine
    return std::round(a * kSteps) < std::round(b * kSteps);
  }

  // Walls, what stands in them, the last face.
  int stage(std::size_t tack) const {
    const std::vector<std::size_t> last = seams_of_last_face(box_);
    const std::size_t seam = box_.tacks[tack].seam;
    if (std::find(last.begin(), last.end(), seam) != last.end()) return 2;
    return box_.box.seams[box_.work.seams[seam].seam].joint == JointKind::tee ? 1 : 0;
  }

  void find_blocks() {
    bool go_on = false;
    for (const Event& e : search_->events()) {
      if (e.kind != Event::Kind::tack) {
        go_on = false;
        continue;
      }
      const std::size_t at = plain_.size();
      const bool apart =
          at > 0 && (stage(plain_.back()) != stage(e.which) ||
                     (box_.tacks[plain_.back()].round == 0) != (box_.tacks[e.which].round == 0));
      plain_.push_back(e.which);
      if (go_on && !apart)
        blocks_.back().last = at + 1;
      else
        blocks_.push_back({at, at + 1});
      go_on = true;
    }
  }

  std::vector<Event> events_of(const Order& order) const {
    std::vector<Event> events = search_->events();
    std::size_t next = 0;
    for (Event& e : events)
      if (e.kind == Event::Kind::tack) e.which = order[next++];
    return events;
  }

  Weighed weigh(const elastic::Tacking& by, const Order& order) const {
    const elastic::Tacking::Tacked tacked = by.tacked(events_of(order));
    std::vector<bool> has_one(box_.work.seams.size(), false);
    Order ahead; // tacks whose seam has one
    for (const std::size_t tack : order) {
      if (has_one[box_.tacks[tack].seam]) ahead.push_back(tack);
      has_one[box_.tacks[tack].seam] = true;
    }
    Weighed made;
    std::vector<double> gaps;
    const elastic::Index draws = tacked.mm.cols() - 1;
    for (elastic::Index d = 1; d <= draws; ++d) {
      double square = 0.0, gap_mm = 0.0;
      for (const Limit& limit : limits_)
        square = std::max(square, std::abs(tacked.mm(limit.watched, d)) / limit.mm);
      for (const std::size_t tack : ahead)
        gap_mm = std::max(gap_mm, std::abs(tacked.gap_mm(static_cast<elastic::Index>(tack), d)));
      const double gap = gap_mm / box_.work.rules.gap_go_mm.value;
      const double share = 1.0 / static_cast<double>(draws);
      made.worst += share * std::max(square, gap);
      made.square += share * square;
      made.gap += share * gap;
      gaps.push_back(gap_mm);
    }
    made.gap_mm = elastic::band_of(gaps);
    return made;
  }

  std::vector<Weighed> weigh_all(const elastic::Tacking& by, const std::vector<Named>& orders) const {
    std::vector<Weighed> all(orders.size());
    each_at_once(orders.size(), [&](std::size_t i) { all[i] = weigh(by, orders[i].second); });
    return all;
  }

  template <class Before> Order sorted(Before before) const {
    Order order = plain_;
    for (const Block& block : blocks_)
      std::stable_sort(order.begin() + static_cast<std::ptrdiff_t>(block.first),
                       order.begin() + static_cast<std::ptrdiff_t>(block.last),
                       [&](std::size_t a, std::size_t b) { return before(box_.tacks[a], box_.tacks[b]); });
    return order;
  }
  Order round_about() const {
    return sorted(
        [](const Tack& a, const Tack& b) { return std::pair(a.round, a.seam) < std::pair(b.round, b.seam); });
  }
  Order seam_by_seam() const {
    return sorted(
        [](const Tack& a, const Tack& b) { return std::pair(a.seam, a.at_mm) < std::pair(b.seam, b.at_mm); });
  }

  // Two tacks of a block trade places, or one of them is made in the other's.
  Order moved(Order order, const std::vector<Block>& of_place, bool all_between, Random& random) const {
    const Block& block = of_place[random.below(of_place.size())];
    const auto place = [&] {
      return order.begin() +
             static_cast<std::ptrdiff_t>(block.first + random.below(block.last - block.first));
    };
    const auto from = place();
    auto to = place();
    while (to == from)
      to = place();
    if (!all_between)
      std::iter_swap(from, to);
    else if (from < to)
      std::rotate(from, from + 1, to + 1);
    else
      std::rotate(to, from, from + 1);
    return order;
  }

  // Two trade places, or one is made earlier or later; only what is better is gone on from. Trials are made
  // two at once, from the same order: the first of the two that is better is taken.
  Order searched(Order best, double least) {
    std::vector<Block> of_place; // of each place that is in a block with others
    for (const Block& block : blocks_)
      if (block.last - block.first > 1) of_place.insert(of_place.end(), block.last - block.first, block);
    if (of_place.empty()) return best;
    const double springs = 6.0 * static_cast<double>(plain_.size());
    trials_ = 2 * static_cast<int>(0.5 * std::clamp(kWork / (springs * springs), 10.0, 300.0));
    Random random(kSeed);
    for (int trial = 0; trial < trials_; trial += 2) {
      const std::vector<Named> two{{"", moved(best, of_place, false, random)},
                                   {"", moved(best, of_place, true, random)}};
      const std::vector<Weighed> weighed = weigh_all(*search_, two);
      for (std::size_t i = 0; i < 2; ++i)
        if (better(weighed[i].worst, least)) {
          least = weighed[i].worst;
          best = two[i].second;
          break;
        }
    }
    return best;
  }

  const BoxCase& box_;
  ElasticCase made_;
  std::vector<Limit> limits_;
  std::optional<elastic::Tacking> search_;
  Order plain_;
  std::vector<Block> blocks_;
  int trials_ = 0;
};

} // namespace

std::optional<TackOrder> order_tacks(const BoxCase& box) {
  if (box.tacks.size() < kFewest || box.tacks.size() > kMost) return std::nullopt;
  ElasticCase made = coarse_case(box);
  made.making.put_back.clear(); // sizes are not looked at
  try {
    Tacks tacks(box, std::move(made));
    if (!tacks.any_limit() || !tacks.make()) return std::nullopt;
    return tacks.choose();
  } catch (const NumericalFailure&) { // told when the box is reckoned; the plain order stays
    return std::nullopt;
  }
}

void tack_by(const TackOrder& chosen, BoxCase& box) {
  box.tack_orders = chosen.compared;
  if (std::is_sorted(chosen.order.begin(), chosen.order.end())) return;
  std::vector<Tack> tacks;
  int round = 0;
  for (std::size_t i = 0; i < chosen.order.size(); ++i) {
    Tack tack = box.tacks[chosen.order[i]];
    const bool due = i > 0 && box.tacks[i].round > round;
    if (due && tacks.back().seam != tack.seam) ++round;
    tack.round = round;
    tacks.push_back(std::move(tack));
  }
  box.tacks = std::move(tacks);
  hold_again(box);
}

} // namespace tacksquare
