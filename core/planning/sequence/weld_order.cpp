#include "planning/sequence/weld_order.h"

#include "planning/sequence/rounds.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace tacksquare {
namespace {

using SeamOrder = std::vector<std::size_t>; // units of a group

constexpr int kLocalTrials = 20000;
constexpr std::uint64_t kSeed = 20240229;

// Lays the runs of an order out in time.
class Layer {
 public:
  Layer(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& directed,
        const WeldOrder& order)
      : job_(job), box_(box), geometry_(geometry), work_(directed), turns_(order.figures.turns),
        groups_(order.groups), problems_(order.problems), scale_(geometry, directed) {}

  std::vector<OrderedRun> lay_out(const SeamOrders& orders) const {
    FaceHeat heat(job_, box_, geometry_, work_);
    std::vector<OrderedRun> runs;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      if (g > 0 && groups_[g].attitude != groups_[g - 1].attitude) heat.pass(work_.crew.turn_s);
      heat.lie(groups_[g].attitude);
      for (const auto& round : groups_[g].rounds) {
        for (const std::size_t unit : orders[g]) {
          for (const std::size_t index : round[unit]) {
            const Run& run = work_.runs[index];
            heat.pass(work_.crew.weld_start_s);
            const double waited_s = cool_to_start(heat, run);
            runs.push_back({index, groups_[g].attitude,
                            run_position(geometry_, work_, groups_[g].attitude, run), heat.warmth_K(run),
                            waited_s});
            heat.pass(run.arc_s);
            heat.take(run);
          }
        }
      }
    }
    return runs;
  }

  OrderFigures figures_of(const SeamOrders& orders, const std::vector<OrderedRun>& runs) const {
    OrderFigures figures;
    figures.turns = turns_;
    figures.turning_s = figures.turns * work_.crew.turn_s;
    Load sum;
    for (const OrderedRun& ordered : runs) {
      sum = sum + scale_.load(work_.runs[ordered.run]);
      const double moment = scale_.moment(sum);
      figures.heat_moment = std::max(figures.heat_moment, moment);
      figures.mean_moment += moment / static_cast<double>(runs.size());
      figures.worst_warmth_K = std::max(figures.worst_warmth_K, ordered.warmth_K);
      figures.arc_s += work_.runs[ordered.run].arc_s;
    }
    OrderCost whole;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      const OrderCost cost = cost_of(problems_[g], orders[g]);
      whole.peak = std::max(whole.peak, cost.peak);
      whole.sum += cost.sum;
    }
    figures.cost = figures.turns * 1'000'000'000'000LL + whole.peak * 1'000'000'000LL + whole.sum;
    return figures;
  }

 private:
  // No arc above the start limit: the faces cool first, in whole steps.
  double cool_to_start(FaceHeat& heat, const Run& run) const {
    constexpr double kStep_s = 5.0;
    if (!work_.rules.start_limit_C) return 0.0;
    const double allowed_K = work_.rules.start_limit_C->value - work_.ambient_C;
    double waited_s = 0.0;
    while (heat.warmth_K(run) > allowed_K) {
      heat.pass(kStep_s);
      waited_s += kStep_s;
    }
    return waited_s;
  }

  const Job& job_;
  const Box& box_;
  const BoxGeometry& geometry_;
  const Work& work_;
  const int turns_;
  const std::vector<SeamGroup>& groups_;
  const std::vector<RoundProblem>& problems_;
  HeatScale scale_;
};

class Orderer {
 public:
  Orderer(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work)
      : job_(job), box_(box), geometry_(geometry), work_(work), scale_(geometry, work) {
    find_precedence();
    turns_ = plan_turns(box, geometry, work, before_);
    work_.runs = directed_runs(box, geometry, work, turns_);
    groups_ = make_groups(box, geometry, work_, turns_, before_, comes_first_);
    FaceHeat heat(job, box, geometry, work_);
    Load already;
    for (const SeamGroup& group : groups_) {
      heat.lie(group.attitude);
      problems_.push_back(make_problem(work_, group, before_, scale_, heat, already));
      already = already + total_load(problems_.back());
    }
  }

  WeldOrder order() {
    const std::vector<std::pair<std::string, SeamOrders>> plain = {
        {"by-id", plain_order([](std::size_t, std::size_t) { return 0.0; })},
        {"round-and-round", plain_order([&](std::size_t g, std::size_t unit) { return angle(g, unit); })},
        {"longest-first", plain_order([&](std::size_t g, std::size_t unit) {
           return -work_.seams[groups_[g].seams[unit]].welded_mm;
         })}};

    // The largest moment of the whole order comes first: no group need stay below that of the worst one.
    WeldOrder result;
    result.first_attitude = turns_.visits.front().attitude;
    result.directed = work_.runs;
    result.proven_best = turns_.fewest;
    std::vector<FoundOrder> found(groups_.size());
    long long peak = 0;
    for (const bool final_pass : {false, true}) {
      for (std::size_t g = 0; g < groups_.size(); ++g) {
        if (final_pass && found[g].cost.peak == peak) continue;
        if (problems_[g].units <= kExactUnits) {
          found[g] = exact_order(problems_[g], final_pass ? peak : 0);
        } else {
          std::vector<SeamOrder> starts;
          for (const auto& named : plain)
            starts.push_back(named.second[g]);
          if (final_pass) starts.push_back(found[g].order);
          found[g] = local_order(problems_[g], final_pass ? peak : 0, starts, kSeed, kLocalTrials);
        }
        if (final_pass) continue;
        peak = std::max(peak, found[g].cost.peak);
        result.proven_best = result.proven_best && found[g].proven;
      }
    }
    SeamOrders chosen;
    for (FoundOrder& f : found)
      chosen.push_back(std::move(f.order));
    result.groups = groups_;
    result.problems = problems_;
    result.figures.turns = static_cast<int>(turns_.visits.size()) - 1;
    const Layer layer(job_, box_, geometry_, work_, result);
    for (const auto& [key, orders] : plain) {
      const std::vector<OrderedRun> runs = layer.lay_out(orders);
      NamedOrder named{key, orders, {}, layer.figures_of(orders, runs)};
      for (const OrderedRun& ordered : runs)
        named.runs.push_back(work_.runs[ordered.run].id);
      result.compared.push_back(std::move(named));
    }
    result.runs = layer.lay_out(chosen);
    result.figures = layer.figures_of(chosen, result.runs);
    result.seams = std::move(chosen);
    return result;
  }

 private:
  // Seams to finish before the last face goes on come before all others, and so does what they wait for.
  void find_precedence() {
    before_ = work_.before;
    comes_first_.assign(work_.seams.size(), 0);
    if (!work_.last_face || work_.inside_first.empty()) return;
    for (const std::size_t seam : work_.inside_first)
      comes_first_[seam] = 1;
    for (bool grew = true; grew;) {
      grew = false;
      for (const auto& [a, b] : work_.before) {
        if (!comes_first_[b] || comes_first_[a]) continue;
        comes_first_[a] = 1;
        grew = true;
      }
    }
    for (std::size_t a = 0; a < work_.seams.size(); ++a)
      for (std::size_t b = 0; b < work_.seams.size(); ++b)
        if (comes_first_[a] && !comes_first_[b]) before_.emplace_back(a, b);
  }

  // Units by a key, ties by id, made legal.
  template <class Key> SeamOrders plain_order(Key key) const {
    SeamOrders orders;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      SeamOrder units(groups_[g].seams.size());
      for (std::size_t unit = 0; unit < units.size(); ++unit)
        units[unit] = unit;
      std::stable_sort(units.begin(), units.end(),
                       [&](std::size_t a, std::size_t b) { return key(g, a) < key(g, b); });
      orders.push_back(made_legal(problems_[g], units));
    }
    return orders;
  }

  // Where a seam stands for one who walks round the box as it lies, from the group's first seam on, in whole
  // microradians so that rounding does not part seams that stand above each other.
  double angle(std::size_t g, std::size_t unit) const {
    const Vec3 up = -geometry_.attitudes[groups_[g].attitude].down_direction;
    const Vec3 ahead = std::abs(up.x) < 0.5 ? Vec3{1, 0, 0} : Vec3{0, 1, 0};
    const Vec3 u = tacksquare::unit(ahead - up * dot(ahead, up));
    const Vec3 v = cross(up, u);
    const auto bearing = [&](std::size_t seam) {
      const SeamLine& line = geometry_.seams[work_.seams[seam].seam];
      const Vec3 out = (line.start + line.end) * 0.5 - scale_.centroid();
      return std::atan2(dot(out, v), dot(out, u));
    };
    const double turn = bearing(groups_[g].seams[unit]) - bearing(groups_[g].seams.front());
    const long long whole = std::llround(2e6 * kPi);
    return static_cast<double>(((std::llround(turn * 1e6) % whole) + whole) % whole);
  }

  const Job& job_;
  const Box& box_;
  const BoxGeometry& geometry_;
  Work work_; // its runs as they are directed
  HeatScale scale_;
  SeamPairs before_;
  std::vector<char> comes_first_;
  TurnPlan turns_;
  std::vector<SeamGroup> groups_;
  std::vector<RoundProblem> problems_;
};

} // namespace

WeldOrder order_welds(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work) {
  return Orderer(job, box, geometry, work).order();
}

WeldOrder with_seams(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work,
                     WeldOrder order, SeamOrders seams) {
  const Layer layer(job, box, geometry, work, order);
  order.runs = layer.lay_out(seams);
  order.figures = layer.figures_of(seams, order.runs);
  order.seams = std::move(seams);
  order.proven_best = false;
  return order;
}

} // namespace tacksquare
