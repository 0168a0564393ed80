#include "physics/shell/dense.h"

#include "base/diagnostic.h"

#include <string>

namespace tacksquare::shell {

using Eigen::Index;
using Eigen::MatrixXd;

MatrixXd cholesky(const DenseRef& a, const char* what) {
  const Eigen::LLT<MatrixXd> factor(a);
  if (factor.info() != Eigen::Success) throw NumericalFailure(std::string(what) + " could not be factored");
  return factor.matrixL();
}

// Eigen's blocks step over pointers to nothing when a matrix has no elements.
void solve_lower(const DenseRef& lower, Eigen::Ref<MatrixXd> b) {
  if (b.size() == 0) return;
  lower.triangularView<Eigen::Lower>().solveInPlace(b);
}

void solve_lower_transposed(const DenseRef& lower, Eigen::Ref<MatrixXd> b) {
  if (b.size() == 0) return;
  lower.transpose().triangularView<Eigen::Upper>().solveInPlace(b);
}

void eliminate(Eigen::Ref<MatrixXd> panel, const DenseRef& before, const char* what) {
  const Index own = panel.cols(), rest = panel.rows() - own;
  if (before.cols() > 0) panel.noalias() -= before * before.topRows(own).transpose();
  const MatrixXd corner = cholesky(panel.topRows(own), what);
  panel.topRows(own) = corner;
  if (rest == 0) return;
  corner.transpose().triangularView<Eigen::Upper>().solveInPlace<Eigen::OnTheRight>(panel.bottomRows(rest));
}

SymmetricModes symmetric_modes(const DenseRef& a, const char* what) {
  const Eigen::SelfAdjointEigenSolver<MatrixXd> modes(a);
  if (modes.info() != Eigen::Success) throw NumericalFailure(std::string(what) + " could not be found");
  return {modes.eigenvalues(), modes.eigenvectors()};
}

void add_square_below(MatrixXd& to, const DenseRef& half, double factor) {
  if (half.size() == 0) return;
  to.selfadjointView<Eigen::Lower>().rankUpdate(half.transpose(), factor);
}

void add_square(MatrixXd& to, const DenseRef& half, double factor) {
  if (half.size() == 0) return;
  add_square_below(to, half, factor);
  to.triangularView<Eigen::StrictlyUpper>() = to.transpose();
}

} // namespace tacksquare::shell
