#include "physics/elastic/standing.h"

#include "base/diagnostic.h"
#include "physics/elastic/piece.h"
#include "physics/shell/dense.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double kNone = 1e-9; // of the weight: the same but for rounding

MatrixXd solved(const MatrixXd& positive, MatrixXd b, const char* what) {
  const MatrixXd factor = shell::cholesky(positive, what);
  shell::solve_lower(factor, b);
  shell::solve_lower_transposed(factor, b);
  return b;
}

MatrixXd rows_of(const MatrixXd& all, const std::vector<Index>& some) {
  MatrixXd made(static_cast<Index>(some.size()), all.cols());
  for (std::size_t i = 0; i < some.size(); ++i)
    made.row(static_cast<Index>(i)) = all.row(some[i]);
  return made;
}

// Forces in balance with the weight that all but three places leave to those: the three whose least is most.
// Nothing where every three tip.
std::optional<std::vector<Index>> steady_three(const Footing& footing) {
  const Index n = footing.weight.size();
  std::optional<std::vector<Index>> best;
  double most = -kNone * footing.weight.cwiseAbs().sum();
  for (Index i = 0; i < n; ++i)
    for (Index j = i + 1; j < n; ++j)
      for (Index k = j + 1; k < n; ++k) {
        std::vector<Index> others;
        for (Index o = 0; o < n; ++o)
          if (o != i && o != j && o != k) others.push_back(o);
        const MatrixXd sets = rows_of(footing.balanced, others);
        const VectorXd off = rows_of(footing.weight, others);
        const Eigen::PartialPivLU<MatrixXd> lu(sets);
        if (std::abs(lu.determinant()) < 1e-6) continue; // three on a line
        const VectorXd forces = footing.weight - footing.balanced * lu.solve(off);
        const double least = std::min({forces(i), forces(j), forces(k)});
        if (least <= most) continue;
        most = least;
        best = others;
      }
  return best;
}

// min 1/2 x' gives x + x' reads, weight + balanced x >= 0.
class Contact {
 public:
  Contact(const Footing& footing, const MatrixXd& gives, const VectorXd& reads)
      : f_(footing), gives_(gives), reads_(reads) {}

  std::optional<VectorXd> solve() {
    if (reads_.size() == 0) { // three places: the lever alone
      if (f_.weight.minCoeff() < -kNone * f_.weight.cwiseAbs().sum()) return std::nullopt;
      return f_.weight.cwiseMax(0.0);
    }
    x_ = VectorXd::Zero(reads_.size());
    if (f_.weight.minCoeff() < 0.0) {
      const auto others = steady_three(f_);
      if (!others) return std::nullopt;
      off_ = *others;
      const MatrixXd sets = rows_of(f_.balanced, off_);
      x_ = -Eigen::PartialPivLU<MatrixXd>(sets).solve(rows_of(f_.weight, off_));
    }
    const Index most = 20 * f_.weight.size();
    for (Index step = 0; step < most; ++step)
      if (stands()) {
        VectorXd carries = forces();
        for (double& N : carries)
          if (N < kNone * f_.weight.cwiseAbs().sum()) N = 0.0;
        return carries;
      }
    throw NumericalFailure("a box that finds no stand");
  }

 private:
  VectorXd forces() const { return f_.weight + f_.balanced * x_; }

  // One step: to the best there is while the places in off_ carry nothing, or as far as another one carries.
  bool stands() {
    const VectorXd slope = gives_ * x_ + reads_;
    const MatrixXd sets = rows_of(f_.balanced, off_);
    MatrixXd both(slope.size(), 1 + sets.rows());
    both << slope, sets.transpose();
    const MatrixXd answers = solved(gives_, both, "what the places of a box give");
    VectorXd gaps; // of the places in off_
    VectorXd step = -answers.col(0);
    if (!off_.empty()) {
      gaps =
          solved(sets * answers.rightCols(sets.rows()), sets * answers.col(0), "places that carry nothing");
      step += answers.rightCols(sets.rows()) * gaps;
    }
    const VectorXd by = f_.balanced * step, now = forces();
    double share = 1.0;
    std::optional<Index> empty;
    for (Index i = 0; i < by.size(); ++i) {
      if (by(i) >= -kNone * f_.weight.cwiseAbs().sum() || is_off(i)) continue;
      const double reach = std::max(0.0, now(i)) / -by(i);
      if (reach >= share) continue;
      share = reach;
      empty = i;
    }
    x_ += share * step;
    if (empty) {
      off_.push_back(*empty);
      return false;
    }
    Index worst = 0;
    if (off_.empty() || gaps.minCoeff(&worst) >= -kNone) return true;
    off_.erase(off_.begin() + worst);
    return false;
  }

  bool is_off(Index place) const { return std::find(off_.begin(), off_.end(), place) != off_.end(); }

  const Footing& f_;
  const MatrixXd& gives_;
  const VectorXd& reads_;
  VectorXd x_;
  std::vector<Index> off_; // places that carry nothing
};

} // namespace

Footing footing_of(const Standing& standing) {
  Piece plane{standing.at, std::vector<Vec3>(standing.at.size(), standing.up), 0.0, {}, 0.0};
  Vec3 heavy;
  double weight_N = 0.0;
  for (const auto& [centre, N] : standing.faces) {
    heavy = heavy + centre * N;
    weight_N += N;
  }
  heavy = heavy * (1.0 / weight_N);
  const Vec3 e1 = unit(cross(standing.up, std::abs(standing.up.z) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0}));
  const Vec3 e2 = cross(standing.up, e1);
  double reach = 0.0;
  for (const Vec3 p : standing.at)
    reach = std::max(reach, norm(p - heavy));
  const auto n = static_cast<Index>(standing.at.size());
  MatrixXd plane_of(n, 3); // what a place goes up when all of it goes up, tilts
  for (Index i = 0; i < n; ++i) {
    const Vec3 from = (standing.at[static_cast<std::size_t>(i)] - heavy) * (1.0 / reach);
    plane_of.row(i) << 1.0, dot(from, e1), dot(from, e2);
  }
  const VectorXd balance = Eigen::Vector3d(weight_N, 0.0, 0.0);
  return {plane_of * solved(plane_of.transpose() * plane_of, balance, "places on one line"), holds_of(plane)};
}

std::vector<Figure> figures_of(const Standing& standing, const Footing& footing) {
  std::vector<Figure> figures;
  const auto pushing = [&](const VectorXd& forces) {
    Figure figure{"stand", FigureKind::pushes, standing.at, {}, 0};
    for (Index i = 0; i < forces.size(); ++i)
      figure.pushes.push_back(standing.up * forces(i));
    return figure;
  };
  for (Index set = 0; set < footing.balanced.cols(); ++set)
    figures.push_back(pushing(footing.balanced.col(set)));
  Figure weight = pushing(footing.weight);
  weight.direction = standing.up * -1.0;
  for (const auto& [centre, N] : standing.faces)
    weight.spread.push_back(N);
  figures.push_back(std::move(weight));
  return figures;
}

std::optional<VectorXd> carried(const Footing& footing, const MatrixXd& gives, const VectorXd& reads) {
  return Contact(footing, gives, reads).solve();
}

} // namespace tacksquare::elastic
