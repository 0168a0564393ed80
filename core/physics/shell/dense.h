// Dense factors, compiled once: Eigen's templates take long to compile where they are used.
#pragma once

#include <Eigen/Dense>

namespace tacksquare::shell {

using DenseRef = Eigen::Ref<const Eigen::MatrixXd>;

// L of A = L L', lower triangle, zeros above. Throws NumericalFailure that names `what` when A is not
// positive.
Eigen::MatrixXd cholesky(const DenseRef& a, const char* what);
// L x = b and L' x = b, in place.
void solve_lower(const DenseRef& lower, Eigen::Ref<Eigen::MatrixXd> b);
void solve_lower_transposed(const DenseRef& lower, Eigen::Ref<Eigen::MatrixXd> b);

// The next columns of a Cholesky factor, from the diagonal down, in place of those of the matrix. before: the
// same rows of the columns before. Rows past the matrix's own are any that go along.
void eliminate(Eigen::Ref<Eigen::MatrixXd> panel, const DenseRef& before, const char* what);

struct SymmetricModes {
  Eigen::VectorXd values;  // ascending
  Eigen::MatrixXd vectors; // columns, orthonormal
};
SymmetricModes symmetric_modes(const DenseRef& a, const char* what);

// Adds factor * half' half to a symmetric matrix; or to its lower triangle alone.
void add_square(Eigen::MatrixXd& to, const DenseRef& half, double factor);
void add_square_below(Eigen::MatrixXd& to, const DenseRef& half, double factor);

} // namespace tacksquare::shell
