#include "physics/elastic/structure.h"

#include "base/diagnostic.h"
#include "physics/shell/dense.h"

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;

// Sum of the squares of what all springs read of a motion of 1 mm: below this none is stretched.
constexpr double kFree = 1e-12;

} // namespace

SplitMotions split_motions(const MatrixXd& stretch) {
  const Index n = stretch.rows();
  if (n == 0) return {stretch, stretch};
  const shell::SymmetricModes modes = shell::symmetric_modes(stretch, "the motions that joints hold");
  Index free = 0;
  while (free < n && modes.values(free) <= kFree)
    ++free;
  return {modes.vectors.leftCols(free), modes.vectors.rightCols(n - free)};
}

Held::Held(const Structure& s, const Indices& readings, const Eigen::VectorXd& stiffness) {
  MatrixXd m = s.compliance(readings, readings);
  m.diagonal() += stiffness.cwiseInverse();
  springs_ = shell::cholesky(m, "the compliance of joints");
  const MatrixXd motions = s.motions(readings, Eigen::all);
  held_motions_ = motions;
  shell::solve_lower(springs_, held_motions_);
  shell::solve_lower_transposed(springs_, held_motions_);
  const SplitMotions split = split_motions(motions.transpose() * motions);
  stiff_ = MatrixXd::Zero(motions.cols(), 0);
  still_free_ = split.free;
  const MatrixXd& held = split.held;
  if (held.cols() == 0) return;
  const MatrixXd k = shell::cholesky(held.transpose() * (motions.transpose() * held_motions_) * held,
                                     "the stiffness of joints against motions");
  MatrixXd half = held.transpose();
  shell::solve_lower(k, half);
  stiff_ = half.transpose();
}

// With forces f and motions a: (C + 1/k) f = off + R a, and R^T f = 0.
Held::Answer Held::answer(const MatrixXd& off) const {
  const MatrixXd motions = stiff_ * (stiff_.transpose() * (held_motions_.transpose() * off)) * -1.0;
  MatrixXd forces = off;
  shell::solve_lower(springs_, forces);
  shell::solve_lower_transposed(springs_, forces);
  forces += held_motions_ * motions;
  return {forces, motions};
}

Structure closed(const Structure& s, const Closing& closing) {
  const Held held(s, closing.readings, closing.stiffness);
  const MatrixXd across = s.compliance(closing.readings, Eigen::all); // c x n
  // Readings' motions once the springs go along with them.
  const MatrixXd moved = s.motions - across.transpose() * held.held_motions_; // n x m
  MatrixXd half = across;                                                     // c x n
  shell::solve_lower(held.springs_, half);
  const MatrixXd stiffened = moved * held.stiff_; // n x held

  Structure made;
  made.compliance = s.compliance;
  shell::add_square(made.compliance, half, -1.0);
  if (stiffened.cols() > 0) shell::add_square(made.compliance, stiffened.transpose(), 1.0);
  made.motions = s.motions * held.still_free_;
  const auto [forces, motions] = held.answer(s.free(closing.readings, Eigen::all) - closing.rest);
  made.free = s.free - across.transpose() * forces + s.motions * motions;
  if (!made.compliance.allFinite() || !made.free.allFinite())
    throw NumericalFailure("closing joints gave no finite figures");
  return made;
}

Structure picked(const Structure& s, const Indices& readings) {
  return {s.compliance(readings, readings), s.motions(readings, Eigen::all), s.free(readings, Eigen::all)};
}

} // namespace tacksquare::elastic
