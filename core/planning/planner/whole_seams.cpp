#include "planning/planner/whole_seams.h"

#include <algorithm>

namespace tacksquare {
namespace {

using Eigen::MatrixXd;
using elastic::Index;

std::vector<std::vector<std::size_t>> runs_of_seams(const BoxCase& box,
                                                    const std::map<std::string, std::size_t>& runs) {
  std::vector<std::vector<std::size_t>> together(box.work.seams.size());
  for (const Run& run : box.work.runs)
    if (const auto place = runs.find(run.id); place != runs.end())
      together[run.seam].push_back(place->second);
  return together;
}

} // namespace

WholeSeams::WholeSeams(const BoxCase& box, const elastic::Ordering& ordering,
                       const std::map<std::string, std::size_t>& runs, const elastic::Indices& rows,
                       const Eigen::VectorXd& limit_mm, const std::vector<std::size_t>& order,
                       const MatrixXd& kept)
    : box_(box), cases_(ordering.prepared().cases),
      additive_(ordering.prepared(), ordering.making(), runs_of_seams(box, runs)), rows_(rows),
      limit_mm_(limit_mm), draws_(ordering.judging().amounts().middleCols(1, kScenarios)),
      start_(kept(rows, Eigen::all) * draws_) {
  const std::vector<elastic::Response> steps = additive_.sequence(order);
  for (std::size_t k = 0; k < order.size(); ++k)
    start_ -= steps[k](rows_, Eigen::all) * amounts(order[k]);
}

std::array<Index, 3> WholeSeams::columns(std::size_t seam) const {
  const std::size_t of_box = box_.work.seams[seam].seam;
  return {cases_.across(of_box), cases_.along(of_box), cases_.angle(of_box)};
}

MatrixXd WholeSeams::amounts(std::size_t seam) const {
  return draws_(columns(seam), Eigen::all);
}

double WholeSeams::value(const std::vector<std::size_t>& order) const {
  MatrixXd sum = start_;
  const std::vector<elastic::Response> steps = additive_.sequence(order);
  for (std::size_t k = 0; k < order.size(); ++k)
    sum += steps[k](rows_, Eigen::all) * amounts(order[k]);
  return (limit_mm_.cwiseInverse().asDiagonal() * sum).cwiseAbs().colwise().maxCoeff().mean();
}

// Every seam at its best for every reading: no order is that good.
double WholeSeams::bound(const std::vector<SeamGroup>& groups) const {
  MatrixXd middle = start_, reach = MatrixXd::Zero(middle.rows(), middle.cols());
  std::vector<std::size_t> before;
  for (const SeamGroup& group : groups) {
    const std::vector<elastic::StepRange> ranges = additive_.ranges(before, group.seams);
    for (std::size_t i = 0; i < ranges.size(); ++i) {
      const MatrixXd of = amounts(group.seams[i]);
      middle += ranges[i].middle(rows_, Eigen::all) * of;
      const Eigen::RowVectorXd size = of.cwiseProduct(ranges[i].spread * of).colwise().sum();
      reach += ranges[i].reach(rows_) * size.cwiseMax(0.0).cwiseSqrt();
    }
    before.insert(before.end(), group.seams.begin(), group.seams.end());
  }
  const MatrixXd nearest = (middle.cwiseAbs() - reach).cwiseMax(0.0);
  return (limit_mm_.cwiseInverse().asDiagonal() * nearest).colwise().maxCoeff().mean();
}

std::optional<SetSearch> WholeSeams::search() const {
  const std::size_t n = box_.work.seams.size();
  if (n > elastic::kMostTabled) return std::nullopt;
  std::vector<elastic::RoundsOfSeam> seams(n);
  for (std::size_t seam = 0; seam < n; ++seam)
    seams[seam].rounds = {{seam}};
  for (const auto& [first, then] : box_.work.before)
    seams[then].after.push_back(first);
  const elastic::StepTable table = additive_.table({}, seams);
  SetProblem p;
  p.rows = rows_.size();
  p.kinds = 3;
  p.scenarios = kScenarios;
  for (std::size_t row = 0; row < p.rows; ++row)
    for (Index s = 0; s < kScenarios; ++s)
      p.start.push_back(start_(static_cast<Index>(row), s) / limit_mm_(static_cast<Index>(row)));
  SetGroup group;
  group.units = n;
  for (std::size_t seam = 0; seam < n; ++seam) {
    group.after.push_back(seams[seam].after);
    const MatrixXd of = amounts(seam);
    for (Index kind = 0; kind < 3; ++kind)
      group.amounts.insert(group.amounts.end(), of.row(kind).begin(), of.row(kind).end());
  }
  group.steps = steps_in_parts(table, rows_, limit_mm_);
  p.groups.push_back(std::move(group));
  return SetSearch(std::move(p));
}

std::vector<double> steps_in_parts(const elastic::StepTable& table, const elastic::Indices& rows,
                                   const Eigen::VectorXd& limit_mm) {
  std::vector<double> steps(table.steps.size() * 3 * rows.size(), 0.0);
  for (std::size_t i = 0; i < table.steps.size(); ++i) {
    if (table.steps[i].size() == 0) continue;
    double* to = &steps[i * 3 * rows.size()];
    for (Index kind = 0; kind < 3; ++kind)
      for (std::size_t row = 0; row < rows.size(); ++row)
        *to++ = table.steps[i](rows[row], kind) / limit_mm(static_cast<Index>(row));
  }
  return steps;
}

} // namespace tacksquare
