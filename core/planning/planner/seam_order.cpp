#include "planning/planner/seam_order.h"

#include "base/at_once.h"
#include "base/random.h"
#include "planning/planner/fixing.h"
#include "planning/planner/next_runs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace tacksquare {
namespace {

constexpr std::uint64_t kSeed = 20270611;
constexpr double kMostSprings = 3000.0;
constexpr double kWork = 2e10;      // of what is gone through: springs cubed, each time
constexpr double kWholeWork = 2e12; // the same of kept tacks alone
constexpr double kFewest = 10.0, kMost = 60.0;
constexpr double kWithin = 0.02;              // of a limit: to which the best is proven
constexpr long long kMostSteps = 400'000;     // of a proof over all draws
constexpr long long kMostNominal = 2'000'000; // and in the middle
constexpr double kSeen = 0.01;                // of a limit: a difference of orders below it is none

class Choice {
 public:
  Choice(const BoxCase& box, OrderModel model) : box_(box), model_(std::move(model)) {}

  SeamOrder choose() {
    const SeamOrders balanced = box_.order.seams;
    judge({balanced});
    std::vector<SeamOrders> plain;
    for (const NamedOrder& named : box_.order.compared)
      plain.push_back(named.seams);
    judge(plain);
    prove();
    go_through();
    look_at_whole();

    SeamOrder made;
    decide(made);
    proof_.squarest = made.whole.empty() ? of(squarest_).square : of(whole_).square;
    proof_.width = kSameSquare;
    proof_.tried = static_cast<int>(judged_.size());
    if (made.whole.empty()) {
      tell("planned", made.seams, made);
      tell_whole("whole", whole_, made);
    } else {
      tell_whole("planned", made.whole, made);
      tell("in-rounds", made.seams, made);
    }
    for (const NamedOrder& named : box_.order.compared)
      tell(named.key, named.seams, made);
    if (model_.laid_out(made.seams).figures.cost > box_.order.figures.cost) tell("balanced", balanced, made);
    if (!made.whole.empty() && made.whole != whole_)
      tell_whole("squarest", whole_, made);
    else if (made.whole.empty() && made.seams != squarest_)
      tell("squarest", squarest_, made);
    tell("worst", worst_, made);
    if (const Whole own = own_order(); !own.empty()) tell_whole("own", own, made);
    judge_difference(made);
    made.proof = proof_;
    made.next_runs = next_runs(made);
    return made;
  }

 private:
  struct Judged {
    double square = 0.0, chance = 0.0;
  };

  using Whole = std::vector<std::size_t>; // of Work::seams

  const Judged& of(const SeamOrders& seams) const { return judged_.at(seams); }
  const Judged& of(const Whole& seams) const { return whole_judged_.at(seams); }
  static bool better(double a, double b) {
    constexpr double kSteps = 1e5; // the same on every machine
    return std::round(a * kSteps) < std::round(b * kSteps);
  }

  Judged judged(const elastic::Ends& ends) const {
    return {mean(model_.worst(ends, kScenarios)), model_.chance(ends)};
  }
  static double mean(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values)
      sum += value;
    return sum / static_cast<double>(values.size());
  }

  // Two at once.
  void judge(const std::vector<SeamOrders>& orders) {
    std::vector<SeamOrders> fresh;
    for (const SeamOrders& seams : orders)
      if (judged_.count(seams) == 0 && std::find(fresh.begin(), fresh.end(), seams) == fresh.end())
        fresh.push_back(seams);
    std::vector<Judged> made(fresh.size());
    each_at_once(fresh.size(), [&](std::size_t i) { made[i] = judged(model_.ends(fresh[i])); });
    for (std::size_t i = 0; i < fresh.size(); ++i) {
      judged_.emplace(fresh[i], made[i]);
      if (squarest_.empty() || better(made[i].square, of(squarest_).square)) squarest_ = fresh[i];
      if (worst_.empty() || better(of(worst_).square, made[i].square)) worst_ = fresh[i];
    }
  }

  void prove() {
    proof_.within = kWithin;
    const std::optional<SetSearch> nominal = model_.kept_search(0), robust = model_.kept_search(kScenarios);
    if (!nominal || !robust) {
      search_whole();
      return;
    }
    proof_.orders = robust->orders();
    const SeamOrders& start = box_.order.seams;
    const SetFound middle = nominal->least(start, 0.0, kMostNominal);
    const SetFound best = robust->least(middle.order, kWithin, kMostSteps);
    const SetFound worst = robust->most(start, kWithin, kMostSteps);
    proof_.nominal = middle.value;
    proof_.nominal_bound = middle.bound;
    proof_.least = best.value;
    proof_.least_bound = best.bound;
    proof_.most = worst.value;
    proof_.most_bound = worst.bound;
    proof_.proven = middle.proven && best.proven && worst.proven;
    judge({best.order, worst.order, middle.order});
    const bool few = proof_.orders <= trials();
    within_ = robust->all_up_to(few ? 1e9 : best.value + kSameSquare, static_cast<std::size_t>(trials()),
                                kMostSteps);
  }

  // One seam moved at a time, from the squarest of the plain ones; two tried at once.
  void search_whole() {
    const WholeSeams whole = model_.whole_seams();
    SeamOrders best = squarest_;
    const auto value = [&](const SeamOrders& seams) { return whole.value(model_.flattened(seams)); };
    double least = value(best);
    Random random(kSeed);
    const int trials = static_cast<int>(std::clamp(kWholeWork / std::pow(model_.springs(), 3), 20.0, 400.0));
    for (int trial = 0; trial < trials; trial += 2) {
      const std::array<SeamOrders, 2> two = {moved(best, random), moved(best, random)};
      std::array<double, 2> values{};
      each_at_once(2, [&](std::size_t i) { values[i] = value(two[i]); });
      for (std::size_t i = 0; i < two.size(); ++i)
        if (better(values[i], least)) {
          least = values[i];
          best = two[i];
          break;
        }
    }
    proof_.least = least;
    proof_.least_bound = std::min(least, whole.bound(box_.order.groups));
    judge({best});
  }

  // Seams each in one go, in whatever order and with whatever turns it takes, the shop's own among them. Not
  // searched where orders do nothing and whole seams are no better.
  void look_at_whole() {
    judge_whole(model_.flattened(box_.order.seams));
    if (const Whole own = own_order(); !own.empty()) judge_whole(own);
    std::optional<SetSearch> search;
    if (is_seen() || of(squarest_).square - of(whole_).square >= kSeen)
      search = model_.whole_seams().search();
    if (search) {
      const SetFound found = search->least({whole_}, kWithin, kMostSteps);
      proof_.whole = found.value;
      proof_.whole_bound = found.bound;
      judge_whole(found.order.front());
    }
    lighter_ = whole_;
    if (search && is_whole_squarer(chosen())) make_lighter(*search);
  }

  void judge_whole(const Whole& seams) {
    const auto [made, fresh] = whole_judged_.try_emplace(seams);
    if (fresh) made->second = judged(model_.ends_seam_by_seam(seams));
    if (whole_.empty() || better(made->second.square, of(whole_).square)) whole_ = seams;
  }

  bool is_whole_squarer(const SeamOrders& planned) const {
    return of(whole_).square < of(planned).square - kSameSquare;
  }

  // As square as the squarest, at less cost: one seam moved at a time, what saves most first. Where many are
  // as square by the tables, the one that is taken is gone through.
  void make_lighter(const SetSearch& search) {
    const double up_to = search.value({whole_}) + kSameSquare;
    for (Whole best;; lighter_ = best) {
      best = lighter_;
      long long cost = model_.laid_out_whole(best).figures.cost;
      for (std::size_t i = 0; i < lighter_.size(); ++i)
        for (std::size_t k = 0; k < lighter_.size(); ++k) {
          Whole other = lighter_;
          other.erase(other.begin() + static_cast<std::ptrdiff_t>(i));
          other.insert(other.begin() + static_cast<std::ptrdiff_t>(k), lighter_[i]);
          if (!is_legal(other) || search.value({other}) > up_to) continue;
          const long long its = model_.laid_out_whole(other).figures.cost;
          if (its >= cost) continue;
          cost = its;
          best = std::move(other);
        }
      if (best == lighter_) return;
      judge_whole(best);
      if (of(best).square > of(whole_).square + kSameSquare) return;
    }
  }

  bool is_legal(const Whole& seams) const {
    const auto place = [&](std::size_t seam) { return std::find(seams.begin(), seams.end(), seam); };
    return std::all_of(box_.work.before.begin(), box_.work.before.end(),
                       [&](const auto& pair) { return place(pair.first) < place(pair.second); });
  }

  double trials() const {
    const double springs = model_.springs();
    return std::clamp(kWork / (springs * springs * springs), kFewest, kMost);
  }

  void go_through() {
    if (within_) {
      judge(*within_);
      proof_.all_within = true;
      return;
    }
    if (!is_seen()) return; // plain ones, the proven best and worst: all the same
    // Two from the same order; the squarest so far is gone on from.
    Random random(kSeed);
    for (int left = static_cast<int>(trials()) - static_cast<int>(judged_.size()); left > 0; left -= 2) {
      const std::vector<SeamOrders> two = {moved(squarest_, random), moved(squarest_, random)};
      judge(two);
    }
  }

  bool is_seen() const { return of(worst_).square - of(squarest_).square >= kSeen; }

  // A seam is made earlier or later among those of its group.
  SeamOrders moved(SeamOrders seams, Random& random) const {
    std::vector<std::size_t> groups;
    for (std::size_t g = 0; g < seams.size(); ++g)
      groups.insert(groups.end(), seams[g].size() > 1 ? seams[g].size() : 0, g);
    if (groups.empty()) return seams;
    const std::size_t g = groups[random.below(groups.size())];
    std::vector<std::size_t>& order = seams[g];
    const std::size_t from = random.below(order.size());
    std::size_t to = random.below(order.size() - 1);
    if (to >= from) ++to;
    const std::size_t seam = order[from];
    order.erase(order.begin() + static_cast<std::ptrdiff_t>(from));
    order.insert(order.begin() + static_cast<std::ptrdiff_t>(to), seam);
    order = made_legal(box_.order.problems[g], order);
    return seams;
  }

  // Of those as square as the squarest, whole seams among them, the one of least cost by heat; of equals the
  // balanced one, then the squarer.
  SeamOrders chosen() const {
    const double up_to =
        std::max(of(squarest_).square, std::min(of(squarest_).square, of(whole_).square) + kSameSquare);
    if (of(box_.order.seams).square <= up_to) return box_.order.seams; // none was found to cost less
    SeamOrders best = squarest_;
    long long cost = model_.laid_out(best).figures.cost;
    for (const auto& [seams, judged] : judged_) {
      if (judged.square > up_to) continue;
      const long long its = model_.laid_out(seams).figures.cost;
      if (its > cost || (its == cost && !better(judged.square, of(best).square))) continue;
      best = seams;
      cost = its;
    }
    return best;
  }

  void tell(const std::string& key, const SeamOrders& seams, SeamOrder& to) const {
    to.judged.push_back({key, seams, {}, of(seams).square, of(seams).chance});
  }
  void tell_whole(const std::string& key, const Whole& seams, SeamOrder& to) const {
    to.judged.push_back({key, {}, seams, of(seams).square, of(seams).chance});
  }

  Whole own_order() const {
    Whole own;
    for (const std::string& id : box_.box.weld_order)
      for (std::size_t s = 0; s < box_.work.seams.size(); ++s)
        if (box_.work.seams[s].id == id) own.push_back(s);
    return own;
  }

  // Against what differs from box to box anyhow.
  void judge_difference(const SeamOrder& planned) {
    const elastic::Ends ends =
        planned.whole.empty() ? model_.ends(planned.seams) : model_.ends_seam_by_seam(planned.whole);
    std::vector<double> worst = model_.worst(ends, elastic::kExpectDraws);
    const Band band = elastic::band_of(worst);
    proof_.scatter = 0.5 * (band.high - band.low);
    const double by_order = of(worst_).square - proof_.squarest;
    proof_.matters = by_order < kSeen                  ? "none"
                     : by_order < 0.5 * proof_.scatter ? "below"
                     : by_order < proof_.scatter       ? "at"
                                                       : "above";
  }

  std::vector<NextRun> next_runs(const SeamOrder& planned) const {
    BoxCase ordered = box_;
    weld_by(planned, ordered);
    return next_runs_of(ordered, model_);
  }

  // The chosen order, where orders differ by what is seen once more on the finer net: of it, the squarest
  // and, where they are squarer, whole seams the one of least cost that is as square there as the squarest
  // there.
  void decide(SeamOrder& to) {
    to.seams = chosen();
    const bool by_whole = is_whole_squarer(to.seams);
    if (by_whole) to.whole = lighter_;
    if (!is_seen() && !by_whole) return;
    finer_ = model_.finer();
    if (!finer_) return;
    std::vector<std::pair<SeamOrders, Whole>> last = {{to.seams, {}}}; // of growing cost
    if (to.seams != squarest_) last.push_back({squarest_, {}});
    if (by_whole) last.push_back({to.seams, lighter_});
    if (by_whole && lighter_ != whole_) last.push_back({to.seams, whole_});
    const std::vector<double> square = squares_finer(last);
    proof_.finer_mesh_mm = finer_->mesh_mm();
    proof_.squarest_finer = *std::min_element(square.begin(), square.end());
    std::size_t taken = 0;
    while (square[taken] > proof_.squarest_finer + kSameSquare)
      ++taken;
    proof_.planned_finer = square[taken];
    for (std::size_t i = 0; i < last.size(); ++i)
      if (i != taken && last[i].second == to.whole && last[i].first == to.seams)
        proof_.passed_over_finer = square[i];
    std::tie(to.seams, to.whole) = last[taken];
  }

  std::vector<double> squares_finer(const std::vector<std::pair<SeamOrders, Whole>>& orders) const {
    std::vector<double> square(orders.size());
    each_at_once(orders.size(), [&](std::size_t i) {
      const auto& [seams, whole] = orders[i];
      const elastic::Ends ends = whole.empty() ? finer_->ends(seams) : finer_->ends_seam_by_seam(whole);
      square[i] = mean(finer_->worst(ends, kScenarios));
    });
    return square;
  }

  const BoxCase& box_;
  OrderModel model_;
  std::map<SeamOrders, Judged> judged_;
  SeamOrders squarest_, worst_; // of those
  std::map<Whole, Judged> whole_judged_;
  Whole whole_, lighter_; // the squarest of those, and one as square of less cost
  std::optional<OrderModel> finer_;
  std::optional<std::vector<SeamOrders>> within_;
  OrderProof proof_;
};

OrderCompared compared(const JudgedOrder& judged, const WeldOrder& order, const Work& work) {
  const OrderFigures& f = order.figures;
  OrderCompared made{judged.key,       {},          f.turns, f.heat_moment, f.mean_moment,
                     f.worst_warmth_K, f.turning_s, f.cost,  judged.square, judged.chance};
  for (const OrderedRun& ordered : order.runs)
    made.runs.push_back(work.runs[ordered.run].id);
  return made;
}

} // namespace

std::optional<SeamOrder> order_seams(const BoxCase& box) {
  if (box.work.seams.size() < 2 || box.tacks.empty()) return std::nullopt;
  try {
    std::optional<OrderModel> model = OrderModel::make(box, kMostSprings);
    if (!model) return std::nullopt;
    return Choice(box, std::move(*model)).choose();
  } catch (const NumericalFailure&) { // told when the box is reckoned; the balanced order stays
    return std::nullopt;
  }
}

void weld_by(const SeamOrder& chosen, BoxCase& box) {
  box.judged_orders = chosen.judged;
  box.order_proof = chosen.proof;
  box.next_runs = chosen.next_runs;
  if (!chosen.whole.empty()) {
    box.order_in_rounds = box.order;
    box.order = seam_by_seam(box.job, box.box, box.geometry, box.work, box.order, chosen.whole);
  } else if (chosen.seams != box.order.seams) {
    box.order = with_seams(box.job, box.box, box.geometry, box.work, box.order, chosen.seams);
  } else {
    return;
  }
  hold_again(box);
}

std::vector<OrderCompared> orders_of(const BoxCase& box) {
  const WeldOrder& rounds = box.order_in_rounds ? *box.order_in_rounds : box.order;
  std::vector<JudgedOrder> judged = box.judged_orders;
  if (judged.empty()) {
    judged.push_back({"planned", rounds.seams, {}, {}, {}});
    for (const NamedOrder& named : rounds.compared)
      judged.push_back({named.key, named.seams, {}, {}, {}});
  }
  std::vector<OrderCompared> orders;
  for (const JudgedOrder& each : judged) {
    const bool whole = each.seams.empty();
    orders.push_back(
        compared(each,
                 whole ? seam_by_seam(box.job, box.box, box.geometry, box.work, rounds, each.seam_by_seam)
                       : with_seams(box.job, box.box, box.geometry, box.work, rounds, each.seams),
                 box.work));
  }
  return orders;
}

} // namespace tacksquare
