// Condensed structures: what closing joints does, against systems small enough to solve by hand or whole.
#include "base/diagnostic.h"
#include "base/random.h"
#include "physics/elastic/structure.h"
#include "support/catch.h"

using namespace tacksquare;
using namespace tacksquare::elastic;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

MatrixXd random_matrix(Random& random, Index rows, Index cols) {
  MatrixXd m(rows, cols);
  for (Index i = 0; i < rows; ++i)
    for (Index j = 0; j < cols; ++j)
      m(i, j) = random.uniform(-1.0, 1.0);
  return m;
}

// Bodies with three motions and a random compliance; two load cases.
Structure random_structure(Random& random, Index n) {
  const MatrixXd half = random_matrix(random, n, n);
  return {half * half.transpose() + 0.1 * MatrixXd::Identity(n, n), random_matrix(random, n, 3),
          random_matrix(random, n, 2)};
}

Closing closing(const Indices& readings, double stiffness) {
  const auto n = static_cast<Index>(readings.size());
  return {readings, VectorXd::Constant(n, stiffness), MatrixXd::Zero(n, 2)};
}

} // namespace

TEST_CASE("two bars and a spring give what the hand computes") {
  // Bars of 2 N/mm and 4 N/mm from walls to a gap of 3 mm, closed by a spring of 1 N/mm: reading 0 is the
  // gap, 1 the end of the first bar. Force = 3 / (1/2 + 1/4 + 1/1) = 12/7 N; the first bar gives 6/7 mm.
  Structure s;
  s.compliance.resize(2, 2);
  s.compliance << 0.75, -0.5, -0.5, 0.5;
  s.motions = MatrixXd::Zero(2, 0);
  s.free = MatrixXd::Zero(2, 1);
  s.free(0, 0) = 3.0;
  const Structure made = closed(s, {{0}, VectorXd::Constant(1, 1.0), MatrixXd::Zero(1, 1)});
  CHECK(made.free(0, 0) == Approx(12.0 / 7.0)); // the spring is as long as its force over 1 N/mm
  CHECK(made.free(1, 0) == Approx(6.0 / 7.0));
  // Against all springs at once: 1/(2 + 1/(1/4 + 1)) at the first bar's end.
  CHECK(made.compliance(1, 1) == Approx(1.0 / (2.0 + 1.0 / 1.25)));
}

TEST_CASE("a free body goes where its springs stand at rest, without force") {
  // One motion: both readings move alike.
  Structure s{MatrixXd::Identity(2, 2) * 0.1, MatrixXd::Ones(2, 1), MatrixXd::Zero(2, 1)};
  const Closing c{{0}, VectorXd::Constant(1, 5.0), MatrixXd::Constant(1, 1, 2.0)};
  const Structure made = closed(s, c);
  CHECK(made.free(0, 0) == Approx(2.0));
  CHECK(made.free(1, 0) == Approx(2.0));
  CHECK(made.motions.cols() == 0);
}

TEST_CASE("springs closed one after the other or at once leave the same structure") {
  Random random(7);
  for (int round = 0; round < 50; ++round) {
    const Structure s = random_structure(random, 12);
    Closing first = closing({0, 1, 2, 3}, 3.0), second = closing({4, 5}, 7.0),
            both = closing({0, 1, 2, 3, 4, 5}, 3.0);
    both.stiffness.tail(2).setConstant(7.0);
    both.rest.topRows(4) = first.rest = random_matrix(random, 4, 2);
    both.rest.bottomRows(2) = second.rest = random_matrix(random, 2, 2);
    const Structure a = closed(closed(s, first), second), b = closed(s, both),
                    c = closed(closed(s, second), first);
    INFO("round " << round);
    CHECK((a.compliance - b.compliance).cwiseAbs().maxCoeff() < 1e-9);
    CHECK((a.free - b.free).cwiseAbs().maxCoeff() < 1e-9);
    CHECK((c.free - b.free).cwiseAbs().maxCoeff() < 1e-9);
    CHECK(a.motions.cols() == b.motions.cols());
  }
}

TEST_CASE("closing against the whole stiffness matrix, solved at once") {
  // Readings are the freedoms themselves: K = C^-1 and springs on its diagonal, no motions.
  Random random(11);
  Structure s = random_structure(random, 8);
  s.motions = MatrixXd::Zero(8, 0);
  const Closing c{{1, 4, 6}, VectorXd::LinSpaced(3, 1.0, 9.0), MatrixXd::Zero(3, 2)};
  MatrixXd k = s.compliance.inverse();
  for (Index i = 0; i < 3; ++i)
    k(c.readings[static_cast<std::size_t>(i)], c.readings[static_cast<std::size_t>(i)]) += c.stiffness(i);
  const Structure made = closed(s, c);
  CHECK((made.compliance - k.inverse()).cwiseAbs().maxCoeff() < 1e-10);
  // Load cases are free positions under loads p = K0 free.
  CHECK((made.free - k.inverse() * s.compliance.inverse() * s.free).cwiseAbs().maxCoeff() < 1e-10);
}

TEST_CASE("the compliance stays symmetric, and motions that no spring stretches stay free") {
  Random random(3);
  Structure s = random_structure(random, 10);
  s.motions.col(2).head(4).setZero(); // the first four readings do not see the third motion
  const Structure made = closed(s, closing({0, 1, 2, 3}, 2.0));
  CHECK((made.compliance - made.compliance.transpose()).norm() == 0.0);
  REQUIRE(made.motions.cols() == 1);
  CHECK(made.motions.col(0).head(4).norm() < 1e-12);
  CHECK(made.motions.col(0).normalized().isApprox(s.motions.col(2).normalized(), 1e-12) !=
        made.motions.col(0).normalized().isApprox(-s.motions.col(2).normalized(), 1e-12));
}

TEST_CASE("a compliance that no body can have is a numerical failure, not a number") {
  Structure s{-MatrixXd::Identity(2, 2), MatrixXd::Zero(2, 0), MatrixXd::Zero(2, 1)};
  CHECK_THROWS_AS(closed(s, {{0, 1}, VectorXd::Constant(2, 1e9), MatrixXd::Zero(2, 1)}), NumericalFailure);
}

TEST_CASE("picked readings answer as they did among the others") {
  Random random(5);
  const Structure s = random_structure(random, 6);
  const Structure two = picked(s, {4, 1});
  CHECK(two.compliance(0, 1) == s.compliance(4, 1));
  CHECK(two.motions.row(1) == s.motions.row(1));
  CHECK(two.free(0, 1) == s.free(4, 1));
}
