#include "physics/elastic/reduced.h"

#include "base/random.h"
#include "physics/shell/dense.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// Forces in the measure of the springs' energy, so that shapes come out orthogonal in it; columns side by
// side.
std::vector<MatrixXd> snapshots(const TackedBox& box, const Reduction& how) {
  std::vector<std::vector<VectorXd>> seen(box.welds.size());
  Random random(how.seed);
  std::vector<std::size_t> order(box.welds.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (int chain = 0; chain < how.chains; ++chain) {
    random.shuffle(order);
    for (const MatrixXd& forces : weld_forces(box, order)) {
      Index row = 0;
      for (std::size_t k = 0; k < order.size() && row < forces.rows(); ++k) {
        const Joint& w = box.welds[order[k]];
        const Index n = w.stiffness.size();
        for (Index c = 0; c < forces.cols(); ++c) {
          VectorXd own = forces.block(row, c, n, 1);
          own.array() /= w.stiffness.array().sqrt();
          // Each load by itself counts alike, whatever its unit.
          const double size = (forces.col(c).array().square()).sum();
          if (size > 0.0) seen[order[k]].push_back(own / std::sqrt(size));
        }
        row += n;
      }
    }
  }
  std::vector<MatrixXd> made;
  for (std::size_t w = 0; w < seen.size(); ++w) {
    MatrixXd m(box.welds[w].stiffness.size(), static_cast<Index>(seen[w].size()));
    for (std::size_t i = 0; i < seen[w].size(); ++i)
      m.col(static_cast<Index>(i)) = seen[w][i];
    made.push_back(std::move(m));
  }
  return made;
}

// Orthonormal columns, the most important first; the sign of each such that its largest part is positive.
MatrixXd shapes_of(const MatrixXd& seen, const Reduction& how) {
  const shell::SymmetricModes modes =
      shell::symmetric_modes(seen * seen.transpose(), "shapes of a weld's forces");
  const Index n = seen.rows();
  const double largest = std::max(modes.values(n - 1), 0.0);
  Index kept = 1;
  while (kept < n && kept < static_cast<Index>(how.most) &&
         modes.values(n - 1 - kept) > how.lost * how.lost * largest)
    ++kept;
  MatrixXd shapes = modes.vectors.rightCols(kept).rowwise().reverse();
  for (Index c = 0; c < kept; ++c) {
    Index at = 0;
    shapes.col(c).cwiseAbs().maxCoeff(&at);
    if (shapes(at, c) < 0.0) shapes.col(c) *= -1.0;
  }
  return shapes;
}

} // namespace

TackedBox reduced(const TackedBox& box, const Reduction& how) {
  const std::vector<MatrixXd> seen = snapshots(box, how);
  TackedBox made;
  std::vector<MatrixXd> bases;
  Index readings = 0;
  const auto number = [&](Index old) { return old < 0 ? old : readings++; };
  for (std::size_t w = 0; w < box.welds.size(); ++w) {
    const Joint& from = box.welds[w];
    MatrixXd basis = shapes_of(seen[w], how);
    basis = from.stiffness.cwiseSqrt().asDiagonal() * basis;
    Joint to = from;
    to.readings.clear();
    for (Index i = 0; i < basis.cols(); ++i)
      to.readings.push_back(readings++);
    to.stiffness = VectorXd::Ones(basis.cols());
    to.across = basis.transpose() * from.across;
    to.angle = basis.transpose() * from.angle;
    to.apart = basis.transpose() * from.apart;
    to.along_load = number(from.along_load);
    to.across_load = number(from.across_load);
    made.welds.push_back(std::move(to));
    bases.push_back(std::move(basis));
  }
  for (const Index m : box.measures)
    made.measures.push_back(number(m));

  // First one side of the compliance, then the other.
  const MatrixXd& c = box.structure.compliance;
  MatrixXd half(readings, c.cols());
  made.structure.motions = MatrixXd::Zero(readings, box.structure.motions.cols());
  made.structure.free = MatrixXd::Zero(readings, box.structure.free.cols());
  const auto each = [&](auto shape, auto single) {
    for (std::size_t w = 0; w < box.welds.size(); ++w) {
      shape(made.welds[w].readings, bases[w], box.welds[w].readings);
      if (box.welds[w].along_load >= 0) single(made.welds[w].along_load, box.welds[w].along_load);
      if (box.welds[w].across_load >= 0) single(made.welds[w].across_load, box.welds[w].across_load);
    }
    for (std::size_t m = 0; m < box.measures.size(); ++m)
      single(made.measures[m], box.measures[m]);
  };
  each(
      [&](const Indices& to, const MatrixXd& basis, const Indices& from) {
        half(to, Eigen::all) = basis.transpose() * c(from, Eigen::all);
        made.structure.free(to, Eigen::all) = basis.transpose() * box.structure.free(from, Eigen::all);
      },
      [&](Index to, Index from) {
        half.row(to) = c.row(from);
        made.structure.free.row(to) = box.structure.free.row(from);
      });
  made.structure.compliance.resize(readings, readings);
  each(
      [&](const Indices& to, const MatrixXd& basis, const Indices& from) {
        made.structure.compliance(Eigen::all, to) = half(Eigen::all, from) * basis;
      },
      [&](Index to, Index from) { made.structure.compliance.col(to) = half.col(from); });
  return made;
}

} // namespace tacksquare::elastic
