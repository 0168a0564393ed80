#include "physics/elastic/judging.h"

#include "physics/elastic/drawing.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// As Drawing::ground draws it.
MatrixXd ground_of(const Making& making, const std::vector<Limit>& limits, Random& random) {
  MatrixXd all = MatrixXd::Zero(static_cast<Index>(making.watched.size()), kExpectDraws);
  for (std::size_t f = 0; f < making.watched.size(); ++f)
    for (Index d = 0; d < all.cols(); ++d)
      for (int end = 0; end < making.watched[f].ground_ends; ++end)
        all(static_cast<Index>(f), d) += random.uniform(0.0, std::max(making.watched[f].proud_mm, 1e-12));
  MatrixXd some(static_cast<Index>(limits.size()), kExpectDraws);
  for (std::size_t i = 0; i < limits.size(); ++i)
    some.row(static_cast<Index>(i)) = all.row(static_cast<Index>(limits[i].watched));
  return some;
}

} // namespace

Judging::Judging(const Making& making, const Cases& cases, std::vector<Limit> limits, std::uint64_t seed)
    : watched_(making.watched), axes_(making.put_back), limits_(std::move(limits)) {
  Random random(seed);
  const Draws draws(making, cases, random);
  ground_ = ground_of(making, limits_, random);
  amounts_ = draws.amounts;
  const Index rows = amounts_.rows();
  shared_.resize(2 * rows, kExpectDraws);
  for (Index d = 0; d < kExpectDraws; ++d) {
    const double remelted = draws.remelted[static_cast<std::size_t>(d + 1)];
    shared_.col(d).head(rows) = (1.0 - remelted) * amounts_.col(d + 1);
    shared_.col(d).tail(rows) = remelted * amounts_.col(d + 1);
  }
}

// What is put back into the blanks of each reading.
VectorXd Judging::put_back(const Ends& ends) const {
  VectorXd larger = VectorXd::Zero(ends.kept.rows());
  const VectorXd middle = 0.5 * (ends.kept * amounts_.col(0) + ends.remelted * amounts_.col(0));
  for (const PutBack& axis : axes_) {
    double loss = 0.0;
    for (const std::size_t w : axis.corners)
      loss -= middle(static_cast<Index>(w)) / static_cast<double>(axis.corners.size());
    for (const std::size_t w : axis.sizes)
      larger(static_cast<Index>(w)) = loss;
  }
  return larger;
}

// Limits x cases by either end, and what is put back as another column.
MatrixXd Judging::limited(const Ends& ends) const {
  const VectorXd larger = put_back(ends);
  MatrixXd both(static_cast<Index>(limits_.size()), shared_.rows() + 1);
  for (Index i = 0; i < both.rows(); ++i) {
    const auto row = static_cast<Index>(limits_[static_cast<std::size_t>(i)].watched);
    both.row(i) << ends.kept.row(row), ends.remelted.row(row), larger(row);
  }
  return both;
}

double Judging::read(std::size_t limit, double value) const {
  return watched_[limits_[limit].watched].without_sign ? std::abs(value) : value;
}

std::optional<int> Judging::kept(const Ends& ends, int least) const {
  const MatrixXd both = limited(ends);
  constexpr Index kAtOnce = 100; // draws
  int kept = 0;
  for (Index first = 0; first < kExpectDraws; first += kAtOnce) {
    const Index n = std::min(kAtOnce, kExpectDraws - first);
    if (kept + static_cast<int>(kExpectDraws - first) < least) return std::nullopt;
    MatrixXd read_mm =
        both.leftCols(shared_.rows()) * shared_.middleCols(first, n) + ground_.middleCols(first, n);
    read_mm.colwise() += both.rightCols(1).col(0);
    for (Index d = 0; d < n; ++d) {
      bool all = true;
      for (std::size_t i = 0; all && i < limits_.size(); ++i) {
        const double value = read(i, read_mm(static_cast<Index>(i), d));
        all = value >= limits_[i].low_mm && value <= limits_[i].high_mm;
      }
      if (all) ++kept;
    }
  }
  return kept >= least ? std::optional(kept) : std::nullopt;
}

std::vector<double> Judging::worst(const Ends& ends, const std::vector<char>& counts, Index draws) const {
  const MatrixXd both = limited(ends);
  MatrixXd read_mm = both.leftCols(shared_.rows()) * shared_.leftCols(draws);
  read_mm.colwise() += both.rightCols(1).col(0);
  std::vector<double> made(static_cast<std::size_t>(draws), 0.0);
  for (std::size_t i = 0; i < limits_.size(); ++i) {
    if (!counts[i]) continue;
    const Limit& limit = limits_[i];
    const double low_mm = watched_[limit.watched].without_sign ? -limit.high_mm : limit.low_mm;
    const double middle = 0.5 * (low_mm + limit.high_mm), half = 0.5 * (limit.high_mm - low_mm);
    for (Index d = 0; d < draws; ++d) {
      double& worst = made[static_cast<std::size_t>(d)];
      worst = std::max(worst, std::abs(read_mm(static_cast<Index>(i), d) - middle) / half);
    }
  }
  return made;
}

} // namespace tacksquare::elastic
