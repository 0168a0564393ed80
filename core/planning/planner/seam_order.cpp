#include "planning/planner/seam_order.h"

#include "base/at_once.h"
#include "base/random.h"
#include "planning/planner/fixing.h"
#include "planning/planner/next_runs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
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

    SeamOrder made;
    look_at_whole();
    made.seams = looked_at_finer(chosen());
    proof_.squarest = of(squarest_).square;
    proof_.width = kSameSquare;
    proof_.tried = static_cast<int>(judged_.size());
    if (takes_whole(made.seams)) {
      made.whole = whole_;
      proof_.squarest = whole_judged_.square;
      made.judged.push_back({"planned", {}, whole_, whole_judged_.square, whole_judged_.chance});
      tell("in-rounds", made.seams, made);
    } else {
      tell("planned", made.seams, made);
      made.judged.push_back({"whole", {}, whole_, whole_judged_.square, whole_judged_.chance});
    }
    for (const NamedOrder& named : box_.order.compared)
      tell(named.key, named.seams, made);
    if (model_.laid_out(made.seams).figures.cost > box_.order.figures.cost) tell("balanced", balanced, made);
    if (made.seams != squarest_) tell("squarest", squarest_, made);
    tell("worst", worst_, made);
    if (own_) made.judged.push_back({"own", {}, own_order(), own_->square, own_->chance});
    judge_difference(made);
    made.proof = proof_;
    made.next_runs = next_runs(made);
    return made;
  }

 private:
  struct Judged {
    double square = 0.0, chance = 0.0;
  };

  const Judged& of(const SeamOrders& seams) const { return judged_.at(seams); }
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
    const auto every_other = [&](std::size_t from) {
      for (std::size_t i = from; i < fresh.size(); i += 2)
        made[i] = judged(model_.ends(fresh[i]));
    };
    at_once([&] { every_other(0); }, [&] { every_other(1); });
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
      at_once([&] { values[0] = value(two[0]); }, [&] { values[1] = value(two[1]); });
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
    whole_ = model_.flattened(box_.order.seams);
    whole_judged_ = judged(model_.ends_seam_by_seam(whole_));
    search_any();
    const std::vector<std::size_t> own = own_order();
    if (own.empty()) return;
    own_ = judged(model_.ends_seam_by_seam(own));
    if (!better(own_->square, whole_judged_.square)) return;
    whole_ = own;
    whole_judged_ = *own_;
  }

  void search_any() {
    if (!is_seen() && of(squarest_).square - whole_judged_.square < kSeen) return;
    const std::optional<SetSearch> search = model_.whole_seams().search();
    if (!search) return;
    const SetFound found = search->least({whole_}, kWithin, kMostSteps);
    proof_.whole = found.value;
    proof_.whole_bound = found.bound;
    if (found.order.front() == whole_) return;
    const Judged other = judged(model_.ends_seam_by_seam(found.order.front()));
    if (!better(other.square, whole_judged_.square)) return;
    whole_ = found.order.front();
    whole_judged_ = other;
  }

  // Each further turn has to make the box squarer by the width, on the finer net, too.
  bool takes_whole(const SeamOrders& planned) const {
    const int turns = model_.laid_out_whole(whole_).figures.turns - box_.order.figures.turns;
    const double gain = kSameSquare * std::max(turns, 1);
    if (whole_judged_.square >= of(planned).square - gain || !finer_) return false;
    const double by_whole = mean(finer_->worst(finer_->ends_seam_by_seam(whole_), kScenarios));
    return by_whole < proof_.planned_finer - gain;
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

  // Of those as square as the squarest the one of least cost by heat; of equals the balanced one, then the
  // squarer.
  SeamOrders chosen() const {
    const double up_to = of(squarest_).square + kSameSquare;
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

  std::vector<std::size_t> own_order() const {
    std::vector<std::size_t> own;
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

  // Of the chosen order and the squarest the one that is kept.
  SeamOrders looked_at_finer(SeamOrders planned) {
    if (!is_seen() && whole_judged_.square >= of(planned).square - kSameSquare) return planned;
    finer_ = model_.finer();
    if (!finer_) return planned;
    elastic::Ends of_planned, of_squarest;
    at_once([&] { of_planned = finer_->ends(planned); },
            [&] { of_squarest = planned == squarest_ ? elastic::Ends{} : finer_->ends(squarest_); });
    proof_.finer_mesh_mm = finer_->mesh_mm();
    proof_.planned_finer = mean(finer_->worst(of_planned, kScenarios));
    proof_.squarest_finer =
        planned == squarest_ ? proof_.planned_finer : mean(finer_->worst(of_squarest, kScenarios));
    if (proof_.planned_finer <= proof_.squarest_finer + kSameSquare) return planned;
    proof_.passed_over_finer = std::exchange(proof_.planned_finer, proof_.squarest_finer);
    return squarest_;
  }

  const BoxCase& box_;
  OrderModel model_;
  std::map<SeamOrders, Judged> judged_;
  SeamOrders squarest_, worst_;    // of those
  std::vector<std::size_t> whole_; // the squarest of whole seams, of Work::seams
  Judged whole_judged_;
  std::optional<Judged> own_; // the shop's
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
