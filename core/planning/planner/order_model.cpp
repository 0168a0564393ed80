#include "planning/planner/order_model.h"

#include "planning/planner/fixing.h"

#include <algorithm>
#include <map>
#include <utility>

namespace tacksquare {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using elastic::Event;
using elastic::Index;

bool is_squareness(const Measure& m) {
  return m.kind != MeasureKind::width && m.kind != MeasureKind::belly && m.over_mm > 0.0;
}

} // namespace

OrderModel::OrderModel(const BoxCase& box, ElasticCase made, elastic::Ordering ordering)
    : box_(&box), made_(std::move(made)), ordering_(std::move(ordering)), springs_(springs_in(made_)) {
  for (const std::size_t measure : made_.measure)
    square_.push_back(is_squareness(box.work.measures[measure]));
  std::vector<double> limits;
  const std::vector<elastic::Limit>& all = ordering_.judging().limits();
  for (std::size_t i = 0; i < square_.size(); ++i)
    if (square_[i]) {
      rows_.push_back(static_cast<Index>(all[i].watched));
      limits.push_back(all[i].high_mm);
    }
  limit_mm_ = Eigen::Map<const VectorXd>(limits.data(), static_cast<Index>(limits.size()));
}

std::optional<OrderModel> OrderModel::make(const BoxCase& box, double most_springs) {
  ElasticCase made = coarse_case(box);
  const bool limited = std::any_of(made.measure.begin(), made.measure.end(), [&](std::size_t measure) {
    return is_squareness(box.work.measures[measure]);
  });
  if (!limited || springs_in(made) > most_springs) return std::nullopt;
  Diagnostics unused; // the same faults are told when the box is reckoned
  std::optional<elastic::Ordering> ordering = elastic::Ordering::make(
      box.job, box.box, box.geometry, made.making, made.options, kWeighingSeed, limits_of(box, made), unused);
  if (!ordering) return std::nullopt;
  OrderModel model(box, std::move(made), std::move(*ordering));
  model.kept_ = model.ordering_.kept(model.made_.making.events);
  std::vector<std::vector<std::size_t>> each;
  for (std::size_t run = 0; run < model.made_.making.welds.size(); ++run)
    each.push_back({run});
  model.additive_.emplace(model.ordering_.prepared(), model.made_.making, each);
  model.make_tables();
  model.tables_hold_ = !model.tables_.empty() && model.only_welds_between();
  return model;
}

std::optional<OrderModel> OrderModel::finer() const {
  ElasticCase made = made_;
  made.options.mesh_mm *= 0.5;
  Diagnostics unused;
  std::optional<elastic::Ordering> ordering =
      elastic::Ordering::make(box_->job, box_->box, box_->geometry, made.making, made.options, kWeighingSeed,
                              limits_of(*box_, made), unused);
  if (!ordering) return std::nullopt;
  return OrderModel(*box_, std::move(made), std::move(*ordering));
}

// Nothing comes or goes from the first weld to the last but welds: else the way matters.
bool OrderModel::only_welds_between() const {
  const std::vector<Event>& events = made_.making.events;
  const auto is_weld = [](const Event& e) { return e.kind == Event::Kind::weld; };
  const auto first = std::find_if(events.begin(), events.end(), is_weld);
  const auto last = std::find_if(events.rbegin(), events.rend(), is_weld).base();
  return std::all_of(first, last, is_weld);
}

std::map<std::string, std::size_t> OrderModel::run_numbers() const {
  std::map<std::string, std::size_t> all;
  for (std::size_t i = 0; i < made_.making.events.size(); ++i)
    if (made_.making.events[i].kind == Event::Kind::weld) all[made_.made[i]] = made_.making.events[i].which;
  return all;
}

void OrderModel::make_tables() {
  const std::vector<SeamGroup>& groups = box_->order.groups;
  if (std::any_of(groups.begin(), groups.end(),
                  [](const SeamGroup& g) { return g.seams.size() > elastic::kMostTabled; }))
    return;
  const auto run_of = run_numbers();
  std::vector<std::size_t> before;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    std::vector<elastic::RoundsOfSeam> seams(groups[g].seams.size());
    std::vector<std::size_t> all;
    for (std::size_t unit = 0; unit < seams.size(); ++unit) {
      for (const auto& round : groups[g].rounds) {
        std::vector<std::size_t> runs;
        for (const std::size_t run : round[unit])
          if (const auto place = run_of.find(box_->work.runs[run].id); place != run_of.end())
            runs.push_back(place->second);
        all.insert(all.end(), runs.begin(), runs.end());
        seams[unit].rounds.push_back(std::move(runs));
      }
      seams[unit].after = box_->order.problems[g].after[unit];
    }
    tables_.push_back(additive_->table(before, seams));
    before.insert(before.end(), all.begin(), all.end());
  }
}

// The making's events in another order. Names, not numbers, say which run and which piece it is.
std::vector<Event> OrderModel::events_of(WeldOrder order) const {
  BoxCase ordered = *box_;
  ordered.order = std::move(order);
  hold_again(ordered);
  const ElasticCase other = coarse_case(ordered);
  const auto number = [](const ElasticCase& made) {
    std::map<std::pair<bool, std::string>, std::size_t> all; // a run, or a piece
    for (std::size_t i = 0; i < made.making.events.size(); ++i) {
      const Event& e = made.making.events[i];
      if (e.kind != Event::Kind::tack) all[{e.kind == Event::Kind::weld, made.made[i]}] = e.which;
    }
    return all;
  };
  const auto numbers = number(made_);
  std::vector<Event> events = other.making.events;
  for (std::size_t i = 0; i < events.size(); ++i)
    if (events[i].kind != Event::Kind::tack)
      events[i].which = numbers.at({events[i].kind == Event::Kind::weld, other.made[i]});
  return events;
}

WeldOrder OrderModel::laid_out(const SeamOrders& seams) const {
  return with_seams(box_->job, box_->box, box_->geometry, box_->work, box_->order, seams);
}

WeldOrder OrderModel::laid_out_whole(const std::vector<std::size_t>& seams) const {
  return seam_by_seam(box_->job, box_->box, box_->geometry, box_->work, box_->order, seams);
}

elastic::Ends OrderModel::ends(const SeamOrders& seams) const {
  const std::vector<Event> events = events_of(laid_out(seams));
  return {tables_hold_ ? kept_by_table(seams) : ordering_.kept(events), ordering_.remelted(events)};
}

elastic::Ends OrderModel::ends_seam_by_seam(const std::vector<std::size_t>& seams) const {
  return ordering_.ends(events_of(laid_out_whole(seams)));
}

std::array<Index, 3> OrderModel::columns(std::size_t group, std::size_t unit) const {
  const elastic::Cases& cases = ordering_.prepared().cases;
  const std::size_t seam = box_->work.seams[box_->order.groups[group].seams[unit]].seam;
  return {cases.across(seam), cases.along(seam), cases.angle(seam)};
}

// Only what the seams' steps do is another.
MatrixXd OrderModel::kept_by_table(const SeamOrders& seams) const {
  MatrixXd made = kept_;
  for (std::size_t g = 0; g < seams.size(); ++g) {
    const elastic::StepTable& table = tables_[g];
    const auto add = [&](const std::vector<std::size_t>& order, double sign) {
      std::size_t set = 0;
      for (const std::size_t unit : order) {
        const elastic::Response& step = table.steps[set * table.seams + unit];
        const std::array<Index, 3> to = columns(g, unit);
        for (std::size_t kind = 0; kind < to.size(); ++kind)
          made.col(to[kind]) += sign * step.col(static_cast<Index>(kind));
        set |= std::size_t{1} << unit;
      }
    };
    add(seams[g], 1.0);
    add(box_->order.seams[g], -1.0);
  }
  return made;
}

std::optional<Band> OrderModel::step_mm(std::vector<std::size_t> made, std::size_t run,
                                        const std::string& measure) const {
  const auto watched = std::find_if(made_.measure.begin(), made_.measure.end(),
                                    [&](std::size_t m) { return box_->work.measures[m].id == measure; });
  if (watched == made_.measure.end() || !additive_) return std::nullopt;
  const auto numbers = run_numbers();
  made.push_back(run);
  for (std::size_t& each : made)
    each = numbers.at(box_->work.runs[each].id);
  const elastic::Response step = additive_->sequence(made).back();
  const elastic::Cases& cases = ordering_.prepared().cases;
  const std::size_t seam = box_->work.seams[box_->work.runs[run].seam].seam;
  const auto row = watched - made_.measure.begin();
  std::vector<double> mm;
  for (Index d = 1; d <= elastic::kStepDraws; ++d)
    mm.push_back(step(row, 0) * amounts()(cases.across(seam), d) +
                 step(row, 1) * amounts()(cases.along(seam), d) +
                 step(row, 2) * amounts()(cases.angle(seam), d));
  return elastic::band_of(mm);
}

std::vector<double> OrderModel::worst(const elastic::Ends& ends, int draws) const {
  return ordering_.judging().worst(ends, square_, draws);
}

double OrderModel::chance(const elastic::Ends& ends) const {
  const elastic::Judging& judging = ordering_.judging();
  return static_cast<double>(*judging.kept(ends)) / judging.draws();
}

std::vector<std::size_t> OrderModel::flattened(const SeamOrders& seams) const {
  std::vector<std::size_t> order;
  for (std::size_t g = 0; g < seams.size(); ++g)
    for (const std::size_t unit : seams[g])
      order.push_back(box_->order.groups[g].seams[unit]);
  return order;
}

WholeSeams OrderModel::whole_seams() const {
  const std::vector<std::size_t> order = flattened(box_->order.seams);
  const MatrixXd kept = ordering_.kept(events_of(laid_out_whole(order)));
  return WholeSeams(*box_, ordering_, run_numbers(), rows_, limit_mm_, order, kept);
}

std::optional<SetSearch> OrderModel::kept_search(int draws) const {
  if (tables_.empty()) return std::nullopt;
  const MatrixXd of_draws = draws == 0 ? amounts().leftCols(1) : amounts().middleCols(1, draws);
  SetProblem p;
  p.rows = rows_.size();
  p.kinds = 3;
  p.scenarios = static_cast<std::size_t>(of_draws.cols());
  MatrixXd start = kept_(rows_, Eigen::all) * of_draws;
  for (std::size_t g = 0; g < tables_.size(); ++g) {
    const elastic::StepTable& table = tables_[g];
    SetGroup group;
    group.units = table.seams;
    group.after = box_->order.problems[g].after;
    group.steps = steps_in_parts(table, rows_, limit_mm_);
    for (std::size_t unit = 0; unit < group.units; ++unit)
      for (const Index column : columns(g, unit))
        for (Index s = 0; s < of_draws.cols(); ++s)
          group.amounts.push_back(of_draws(column, s));
    std::size_t set = 0;
    for (const std::size_t unit : box_->order.seams[g]) {
      const elastic::Response& step = table.steps[set * table.seams + unit];
      const std::array<Index, 3> of = columns(g, unit);
      for (std::size_t kind = 0; kind < of.size(); ++kind)
        start -= step(rows_, static_cast<Index>(kind)) * of_draws.row(of[kind]);
      set |= std::size_t{1} << unit;
    }
    p.groups.push_back(std::move(group));
  }
  for (std::size_t row = 0; row < p.rows; ++row)
    for (Index s = 0; s < of_draws.cols(); ++s)
      p.start.push_back(start(static_cast<Index>(row), s) / limit_mm_(static_cast<Index>(row)));
  return SetSearch(std::move(p));
}

} // namespace tacksquare
