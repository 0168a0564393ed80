#include "physics/elastic/sequence.h"

#include "base/diagnostic.h"
#include "physics/shell/dense.h"

#include <cmath>
#include <map>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// Springs made so far, as a Cholesky factor that grows by a block of rows a step, together with what measures
// see of them: reach = factor^-1 (compliance of springs to measures).
class Made {
 public:
  Made(const TackedBox& box, Index most)
      : c_(box.structure.compliance), measures_(box.measures), factor_(MatrixXd::Zero(most, most)),
        reach_(MatrixXd::Zero(most, static_cast<Index>(box.measures.size()))) {}

  void weld(const Joint& joint) {
    const auto n = static_cast<Index>(springs_.size()), k = static_cast<Index>(joint.readings.size());
    MatrixXd beside = c_(springs_, joint.readings);
    if (n > 0) shell::solve_lower(factor_.topLeftCorner(n, n), beside);
    MatrixXd own = c_(joint.readings, joint.readings);
    own.diagonal() += joint.stiffness.cwiseInverse();
    own.noalias() -= beside.transpose() * beside;
    const MatrixXd corner = shell::cholesky(own, "a weld's springs");
    factor_.block(n, 0, k, n) = beside.transpose();
    factor_.block(n, n, k, k) = corner;
    MatrixXd seen = c_(joint.readings, measures_);
    seen.noalias() -= beside.transpose() * reach_.topRows(n);
    shell::solve_lower(corner, seen);
    reach_.middleRows(n, k) = seen;
    springs_.insert(springs_.end(), joint.readings.begin(), joint.readings.end());
  }

  const Indices& springs() const { return springs_; }
  Index size() const { return static_cast<Index>(springs_.size()); }
  // off: where the springs would stand from rest. Comes back as factor^-1 off.
  void halve(MatrixXd& off) const { shell::solve_lower(factor_.topLeftCorner(size(), size()), off); }
  MatrixXd seen(const MatrixXd& half) const { return reach_.topRows(size()).transpose() * half; }
  MatrixXd forces(MatrixXd half) const {
    shell::solve_lower_transposed(factor_.topLeftCorner(size(), size()), half);
    return half;
  }

 private:
  const MatrixXd& c_;
  const Indices& measures_;
  Indices springs_;
  MatrixXd factor_, reach_;
};

// Step by step: what measures see, and the forces of all springs made so far where somebody asks for them.
template <class Visit>
void walk(const TackedBox& box, const std::vector<std::size_t>& order, bool with_forces, Visit visit) {
  const MatrixXd& c = box.structure.compliance;
  Index most = 0;
  std::map<std::size_t, std::vector<std::size_t>> later; // of each seam: its lengths still to come, in order
  for (const std::size_t w : order) {
    most += static_cast<Index>(box.welds[w].readings.size());
    later[box.welds[w].seam].push_back(w);
  }
  std::vector<MatrixXd> already(box.welds.size()); // what lengths of the same seam have done to these springs
  Made made(box, most);
  for (const std::size_t w : order) {
    const Joint& joint = box.welds[w];
    const Index before = made.size(), own = static_cast<Index>(joint.readings.size());
    made.weld(joint);
    auto& rest_of_seam = later[joint.seam];
    rest_of_seam.erase(rest_of_seam.begin());

    // What the step's own loads do to readings while nothing is welded: those in the base and along the seam,
    // and tacks that shrink under the bead.
    const auto loaded = [&](const Indices& readings) {
      MatrixXd q(static_cast<Index>(readings.size()), 3);
      const auto tack = static_cast<Index>(2 * w);
      q.col(0) = box.structure.free(readings, tack);
      if (joint.across_load >= 0) q.col(0) += c(readings, joint.across_load);
      q.col(1) = c(readings, joint.along_load);
      q.col(2) = box.structure.free(readings, tack + 1);
      return q;
    };
    MatrixXd off = loaded(made.springs());
    off.block(before, 0, own, 1) -= joint.across;
    off.block(before, 2, own, 1) -= joint.angle;
    if (already[w].size() > 0) off.bottomRows(own) += already[w];
    made.halve(off);

    Response step = loaded(box.measures) - made.seen(off);
    MatrixXd forces;
    if (with_forces || !rest_of_seam.empty()) {
      forces = made.forces(off);
      for (const std::size_t l : rest_of_seam) {
        const Indices& there = box.welds[l].readings;
        const MatrixXd moved = loaded(there) - c(there, made.springs()) * forces;
        if (already[l].size() == 0) already[l] = MatrixXd::Zero(moved.rows(), 3);
        already[l] += moved;
      }
    }
    if (!step.allFinite()) throw NumericalFailure("a weld's step gave no finite figures");
    visit(std::move(step), forces);
  }
}

} // namespace

std::vector<Response> weld_sequence(const TackedBox& box, const std::vector<std::size_t>& order) {
  std::vector<Response> steps;
  walk(box, order, false, [&](Response step, const MatrixXd&) { steps.push_back(std::move(step)); });
  return steps;
}

std::vector<MatrixXd> weld_forces(const TackedBox& box, const std::vector<std::size_t>& order) {
  std::vector<MatrixXd> steps;
  walk(box, order, true, [&](const Response&, const MatrixXd& forces) { steps.push_back(forces); });
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
