#include "physics/elastic/sequence.h"

#include "base/diagnostic.h"
#include "physics/shell/dense.h"

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// What is known of springs, measures and loads, springs first and in the order in which they are made: a
// Cholesky factor that grows by a block of columns a step. Its rows below the springs made so far are
// factor^-1 (their compliance, or where a unit load moves them): what springs yet to come, measures and loads
// share with those made.
class Made {
 public:
  Made(const TackedBox& box, const std::vector<std::size_t>& order) : box_(box), order_(order) {
    for (const std::size_t w : order) {
      first_.push_back(static_cast<Index>(rows_.size()));
      rows_.insert(rows_.end(), box.welds[w].readings.begin(), box.welds[w].readings.end());
    }
    springs_ = static_cast<Index>(rows_.size());
    rows_.insert(rows_.end(), box.measures.begin(), box.measures.end());
    // The last step's loads come first: each step's are at the end of those still to come.
    factor_.resize(static_cast<Index>(rows_.size() + 3 * order.size()), springs_);
  }

  // Makes the springs of step k, with all before made.
  void make(std::size_t k) {
    const Joint& joint = box_.welds[order_[k]];
    made_ = first_[k];
    const Index own = static_cast<Index>(joint.readings.size()), rest = end_of_loads(k) - made_;
    auto panel = factor_.block(made_, made_, rest, own);
    const Indices readings(rows_.begin() + made_, rows_.end());
    const auto plain = static_cast<Index>(readings.size());
    panel.topRows(plain) = box_.structure.compliance(readings, joint.readings);
    panel.topRows(own).diagonal() += joint.stiffness.cwiseInverse();
    for (std::size_t later = k; later < order_.size(); ++later)
      panel.middleRows(end_of_loads(later) - 3 - made_, 3) = loaded(later, joint.readings).transpose();
    shell::eliminate(panel, factor_.block(made_, 0, rest, made_), "a weld's springs");
    made_ += own;
  }

  MatrixXd loaded(std::size_t k, const Indices& readings) const {
    return elastic::loaded(box_, order_[k], readings);
  }

  // factor^-1 (where step k's own loads and its own springs' rest would move the springs made). rest: own
  // x 3.
  MatrixXd half(std::size_t k, MatrixXd rest) const {
    MatrixXd all = factor_.block(end_of_loads(k) - 3, 0, 3, made_).transpose();
    const Index own = rest.rows();
    shell::solve_lower(factor_.block(first_[k], first_[k], own, own), rest);
    all.bottomRows(own) += rest;
    return all;
  }

  // What the springs made take from measures, or from the springs of a step to come.
  MatrixXd from_measures(const MatrixXd& half) const {
    return factor_.block(springs_, 0, static_cast<Index>(box_.measures.size()), made_) * half;
  }
  MatrixXd from_springs(std::size_t later, const MatrixXd& half) const {
    const auto own = static_cast<Index>(box_.welds[order_[later]].readings.size());
    return factor_.block(first_[later], 0, own, made_) * half;
  }
  MatrixXd forces(MatrixXd half) const {
    shell::solve_lower_transposed(factor_.topLeftCorner(made_, made_), half);
    return half;
  }

 private:
  Index end_of_loads(std::size_t k) const {
    return static_cast<Index>(rows_.size() + 3 * (order_.size() - k));
  }

  const TackedBox& box_;
  const std::vector<std::size_t>& order_;
  std::vector<Index> first_; // of each step's springs
  Indices rows_;             // readings of springs and measures
  Index springs_ = 0, made_ = 0;
  MatrixXd factor_;
};

} // namespace

MatrixXd loaded(const TackedBox& box, std::size_t weld, const Indices& readings) {
  const Joint& joint = box.welds[weld];
  const MatrixXd& c = box.structure.compliance;
  MatrixXd q(static_cast<Index>(readings.size()), 3);
  const auto tack = static_cast<Index>(2 * weld);
  q.col(0) = box.structure.free(readings, tack);
  if (joint.shrunk.across_load >= 0) q.col(0) += c(readings, joint.shrunk.across_load);
  q.col(1) = c(readings, joint.along_load);
  q.col(2) = box.structure.free(readings, tack + 1);
  return q;
}

std::vector<Response> weld_sequence(const TackedBox& box, const std::vector<std::size_t>& order,
                                    std::vector<MatrixXd>* forces) {
  std::vector<Response> steps;
  // What lengths of the same seam have done to each step's springs.
  std::vector<MatrixXd> already;
  for (const std::size_t w : order)
    already.push_back(MatrixXd::Zero(static_cast<Index>(box.welds[w].readings.size()), 3));
  Made made(box, order);
  for (std::size_t k = 0; k < order.size(); ++k) {
    const Joint& joint = box.welds[order[k]];
    made.make(k);
    already[k].col(0) -= joint.shrunk.across;
    already[k].col(2) -= joint.shrunk.angle;
    const MatrixXd half = made.half(k, already[k]);
    steps.push_back(made.loaded(k, box.measures) - made.from_measures(half));
    if (!steps.back().allFinite()) throw NumericalFailure("a weld's step gave no finite figures");
    for (std::size_t later = k + 1; later < order.size(); ++later) {
      const Joint& other = box.welds[order[later]];
      if (other.seam == joint.seam)
        already[later] += made.loaded(k, other.readings) - made.from_springs(later, half);
    }
    if (forces) forces->push_back(made.forces(half));
  }
  return steps;
}

MatrixXd states(const TackedBox& box, const std::vector<std::size_t>& order,
                const std::vector<Response>& steps, const std::vector<Shrinkage>& of_seams) {
  MatrixXd all(static_cast<Index>(box.measures.size()), static_cast<Index>(steps.size()));
  VectorXd sum = VectorXd::Zero(all.rows());
  for (std::size_t k = 0; k < steps.size(); ++k) {
    const Shrinkage& s = of_seams.at(box.welds[order[k]].seam);
    sum += steps[k] * Eigen::Vector3d(s.across_mm, s.force_N, s.angle_rad);
    all.col(static_cast<Index>(k)) = sum;
  }
  return all;
}

} // namespace tacksquare::elastic
