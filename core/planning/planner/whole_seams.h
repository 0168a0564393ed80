// Orders of seams that are each welded in one go, all tacks kept: any order at all, whatever turns it takes.
#pragma once

#include "physics/elastic/additive.h"
#include "physics/elastic/ordering.h"
#include "planning/planner/elastic_case.h"
#include "planning/search/set_search.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

inline constexpr int kScenarios = 32; // draws by which orders are weighed

// Steps of readings in parts of their limits, as SetGroup::steps has them.
std::vector<double> steps_in_parts(const elastic::StepTable& table, const elastic::Indices& rows,
                                   const Eigen::VectorXd& limit_mm);

class WholeSeams {
 public:
  // runs: numbers in the making, by id. rows, limit_mm: watched readings that count, and their limits. kept:
  // what an order of whole seams comes to by going through it, watched x cases; all others differ from it by
  // their steps. The box must outlive it. Throws NumericalFailure.
  WholeSeams(const BoxCase& box, const elastic::Ordering& ordering,
             const std::map<std::string, std::size_t>& runs, const elastic::Indices& rows,
             const Eigen::VectorXd& limit_mm, const std::vector<std::size_t>& order,
             const Eigen::MatrixXd& kept);

  // Mean over kScenarios draws of the worst limit, in parts of it. order: of Work::seams.
  double value(const std::vector<std::size_t>& order) const;
  // No order that keeps the groups is below it (elastic/step_range.h).
  double bound(const std::vector<SeamGroup>& groups) const;
  // All orders that keep what must come first, as one group. Nothing where there are too many seams.
  std::optional<SetSearch> search() const;

 private:
  std::array<elastic::Index, 3> columns(std::size_t seam) const;
  Eigen::MatrixXd amounts(std::size_t seam) const; // 3 x draws

  const BoxCase& box_;
  elastic::Cases cases_;
  elastic::Additive additive_; // a run of it is a seam
  elastic::Indices rows_;
  Eigen::VectorXd limit_mm_;
  Eigen::MatrixXd draws_; // cases x kScenarios
  Eigen::MatrixXd start_; // rows x draws: all but what the seams' steps do
};

} // namespace tacksquare
