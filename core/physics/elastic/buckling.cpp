#include "physics/elastic/buckling.h"

#include "base/diagnostic.h"
#include "base/random.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using shell::kNodeFreedoms;
using Entries = std::vector<Eigen::Triplet<double>>;

// Work of a membrane force on the gradients of a field that is linear between corners: of u, and of v.
Eigen::Matrix4d in_plane_quad(const shell::Quad& at, const shell::MembraneForce& force) {
  Eigen::Matrix2d N;
  N << force(0), force(2), force(2), force(1);
  Eigen::Matrix4d K = Eigen::Matrix4d::Zero();
  const double g = 1.0 / std::sqrt(3.0);
  for (const double x : {-g, g})
    for (const double y : {-g, g}) {
      Eigen::Matrix<double, 2, 4> d;
      d << y - 1.0, 1.0 - y, 1.0 + y, -1.0 - y, x - 1.0, -1.0 - x, 1.0 + x, 1.0 - x;
      d *= 0.25;
      Eigen::Matrix2d jacobian = Eigen::Matrix2d::Zero();
      for (int i = 0; i < 4; ++i) {
        const Vec2 p = at[static_cast<std::size_t>(i)];
        jacobian += d.col(i) * Eigen::RowVector2d(p.x, p.y);
      }
      const Eigen::Matrix<double, 2, 4> B = jacobian.inverse() * d;
      K += jacobian.determinant() * B.transpose() * N * B;
    }
  return K;
}

Eigen::Matrix3d in_plane_triangle(const shell::Triangle& at, const shell::MembraneForce& force) {
  Eigen::Matrix2d N;
  N << force(0), force(2), force(2), force(1);
  const double twice = cross(at[1] - at[0], at[2] - at[0]);
  Eigen::Matrix<double, 2, 3> B;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vec2 opposite = at[(i + 2) % 3] - at[(i + 1) % 3];
    B.col(static_cast<Index>(i)) << -opposite.y / twice, opposite.x / twice;
  }
  return 0.5 * twice * B.transpose() * N * B;
}

void add_elements(const shell::Plate& plate, Index first, const std::vector<shell::MembraneForce>& forces,
                  Entries& to) {
  const shell::PlateMesh& mesh = plate.mesh();
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    const shell::Cell& cell = mesh.cells[c];
    const auto at = [&](std::size_t i) { return mesh.nodes[cell.node[i]]; };
    const auto place = [&](Index row) {
      return static_cast<int>(first +
                              static_cast<Index>(cell.node[static_cast<std::size_t>(row / kNodeFreedoms)]) *
                                  kNodeFreedoms +
                              row % kNodeFreedoms);
    };
    const auto put = [&](const auto& bent, const auto& flat) {
      for (Index i = 0; i < bent.rows(); ++i)
        for (Index j = 0; j < bent.cols(); ++j)
          if (bent(i, j) != 0.0) to.emplace_back(place(i), place(j), bent(i, j));
      for (Index i = 0; i < flat.rows(); ++i)
        for (Index j = 0; j < flat.cols(); ++j)
          for (const int f : {0, 1})
            to.emplace_back(place(i * kNodeFreedoms + f), place(j * kNodeFreedoms + f), flat(i, j));
    };
    if (cell.corners == 4) {
      const shell::Quad corners{at(0), at(1), at(2), at(3)};
      put(shell::quad_geometric(corners, forces[c]), in_plane_quad(corners, forces[c]));
    } else {
      const shell::Triangle corners{at(0), at(1), at(2)};
      put(shell::triangle_geometric(corners, forces[c]), in_plane_triangle(corners, forces[c]));
    }
  }
}

// Transverse: w is the cubic of its ends' values and slopes, in the plane linear.
void add_string(const shell::Plate& plate, Index first, const SeamString& string, Entries& to) {
  for (std::size_t i = 0; i + 1 < string.nodes.size(); ++i) {
    const std::size_t a = string.nodes[i], b = string.nodes[i + 1];
    const Vec2 way = plate.mesh().nodes[b] - plate.mesh().nodes[a];
    const double l = norm(way), tension = string.tension_N[i];
    const Vec2 t = way * (1.0 / l);
    Eigen::Matrix4d beam; // w, dw/ds of either end
    beam << 36, 3 * l, -36, 3 * l, 3 * l, 4 * l * l, -3 * l, -l * l, -36, -3 * l, 36, -3 * l, 3 * l, -l * l,
        -3 * l, 4 * l * l;
    beam /= 30.0 * l;
    Eigen::Matrix<double, 4, 12> read = Eigen::Matrix<double, 4, 12>::Zero();
    Eigen::Matrix<double, 1, 12> aside = Eigen::Matrix<double, 1, 12>::Zero();
    for (const int end : {0, 1}) {
      const int at = end * kNodeFreedoms;
      read(2 * end, at + 2) = 1.0;
      read(2 * end + 1, at + 3) = t.y;
      read(2 * end + 1, at + 4) = -t.x;
      aside(at) = end == 0 ? t.y : -t.y;
      aside(at + 1) = end == 0 ? -t.x : t.x;
    }
    const Eigen::Matrix<double, 12, 12> k =
        tension * (read.transpose() * beam * read + aside.transpose() * aside / l);
    const auto place = [&](int row) {
      const std::size_t node = row < kNodeFreedoms ? a : b;
      return static_cast<int>(first + static_cast<Index>(node) * kNodeFreedoms + row % kNodeFreedoms);
    };
    for (int r = 0; r < 12; ++r)
      for (int c = 0; c < 12; ++c)
        if (k(r, c) != 0.0) to.emplace_back(place(r), place(c), k(r, c));
  }
}

constexpr Index kBlock = 4; // as many equal factors are told apart
constexpr Index kMostVectors = 240;
constexpr Index kLookEvery = 3;     // blocks
constexpr double kConverged = 1e-6; // residual against the eigenvalue: that one's error is its square

// The largest eigenvalues of a symmetric operator and their vectors, largest first; exact only above `least`.
struct Pairs {
  VectorXd values;
  MatrixXd vectors;
};
template <class Operator> Pairs largest(Index size, Index count, double least, Operator apply) {
  const Index block = std::min(kBlock, size), most = std::min(kMostVectors, size);
  MatrixXd basis(size, most), applied(size, most), small(most, most); // small: basis^T applied
  Random random(1);
  MatrixXd next(size, block);
  for (Index j = 0; j < block; ++j)
    for (Index i = 0; i < size; ++i)
      next(i, j) = random.uniform01() - 0.5;
  Index n = 0;
  while (n + block <= most) {
    // Twice is enough (Kahan, in Parlett 1980).
    for (int pass = 0; pass < 2; ++pass) {
      next -= (basis.leftCols(n) * (basis.leftCols(n).transpose() * next)).eval();
      for (Index j = 0; j < block; ++j) {
        for (Index i = 0; i < j; ++i)
          next.col(j) -= next.col(i).dot(next.col(j)) * next.col(i);
        const double length = next.col(j).norm();
        if (length > 0.0) next.col(j) /= length;
      }
    }
    basis.middleCols(n, block) = next;
    applied.middleCols(n, block) = apply(next);
    next = applied.middleCols(n, block);
    n += block;
    small.block(0, n - block, n, block) = basis.leftCols(n).transpose() * next;
    small.block(n - block, 0, block, n) = small.block(0, n - block, n, block).transpose().eval();
    const bool last = n + block > most;
    if (!last && (n < 2 * count || n / block % kLookEvery != 0)) continue;
    const Eigen::SelfAdjointEigenSolver<MatrixXd> solved(small.topLeftCorner(n, n));
    if (solved.info() != Eigen::Success || !solved.eigenvalues().allFinite()) break;
    const VectorXd values = solved.eigenvalues().reverse().head(std::min(count, n));
    const MatrixXd mix = solved.eigenvectors().rowwise().reverse().leftCols(values.size());
    const MatrixXd off = applied.leftCols(n) * mix - basis.leftCols(n) * mix * values.asDiagonal();
    bool done = true;
    for (Index i = 0; i < values.size(); ++i) {
      const double slack = off.col(i).norm(); // an eigenvalue lies within it
      done = done && (slack <= kConverged * values(i) || values(i) + slack < least);
    }
    if (done) return {values, basis.leftCols(n) * mix};
  }
  throw NumericalFailure("the buckling factors of a box did not converge");
}

// Farthest out of the plane that fits w best, with its sign.
double bulge_of(const shell::Plate& plate, const VectorXd& shape) {
  const auto& nodes = plate.mesh().nodes;
  const auto n = static_cast<Index>(nodes.size());
  MatrixXd plane(n, 3);
  VectorXd w(n);
  for (Index i = 0; i < n; ++i) {
    const Vec2 p = nodes[static_cast<std::size_t>(i)];
    plane.row(i) << 1.0, p.x, p.y;
    w(i) = shape(i * kNodeFreedoms + 2);
  }
  const VectorXd off = w - plane * plane.colPivHouseholderQr().solve(w);
  Index at = 0;
  for (Index i = 1; i < n; ++i)
    if (std::abs(off(i)) > std::abs(off(at)) * (1.0 + 1e-6)) at = i;
  return off(at);
}

} // namespace

Eigen::SparseMatrix<double> geometric_stiffness(const WholeBox& whole, const MembraneForces& forces,
                                                const std::vector<SeamString>& strings) {
  const Plates& plates = *whole.model().plates;
  Entries entries;
  for (std::size_t f = 0; f < plates.faces(); ++f)
    if (plates.has(f)) add_elements(plates.plate(f), whole.first(f), forces[f], entries);
  for (const SeamString& s : strings)
    add_string(plates.plate(s.face), whole.first(s.face), s, entries);
  Eigen::SparseMatrix<double> made(whole.freedoms(), whole.freedoms());
  made.setFromTriplets(entries.begin(), entries.end());
  return made;
}

std::vector<BucklingMode> buckling_modes(const WholeBox& whole, const MembraneForces& forces,
                                         const std::vector<SeamString>& strings, std::size_t count) {
  const Plates& plates = *whole.model().plates;
  const Eigen::SparseMatrix<double> geometric = geometric_stiffness(whole, forces, strings);
  // -K_G x = 1/factor K x, with K = L L^T: symmetric in L^T x.
  const Pairs pairs =
      largest(whole.free_freedoms(), static_cast<Index>(count), 1.0 / kMostFactor, [&](const MatrixXd& z) {
        const MatrixXd turned = geometric * whole.second_half(z);
        return MatrixXd(-whole.first_half(turned));
      });
  std::vector<BucklingMode> modes;
  for (Index i = 0; i < pairs.values.size(); ++i) {
    if (!(pairs.values(i) * kMostFactor > 1.0)) break;
    BucklingMode mode;
    mode.factor = 1.0 / pairs.values(i);
    mode.shape = whole.shape(whole.second_half(pairs.vectors.col(i)));
    double most = 0.0;
    for (std::size_t f = 0; f < plates.faces(); ++f) {
      mode.bulge.push_back(plates.has(f) ? bulge_of(plates.plate(f), mode.shape[f]) : 0.0);
      if (std::abs(mode.bulge[f]) > std::abs(most) * (1.0 + 1e-6)) {
        most = mode.bulge[f];
        mode.face = f;
      }
    }
    if (most == 0.0) throw NumericalFailure("a buckling mode in which no face bulges");
    for (std::size_t f = 0; f < plates.faces(); ++f) {
      mode.bulge[f] = std::abs(mode.bulge[f] / most);
      mode.shape[f] /= most;
    }
    modes.push_back(std::move(mode));
  }
  return modes;
}

std::vector<BucklingMode> buckling_modes(const WholeBox& whole, const VectorXd& loads, std::size_t count) {
  const Shape shape = whole.shape(whole.displacements(loads));
  return buckling_modes(whole, membrane_forces(whole.model(), shape, loads),
                        seam_strings(whole.model(), loads), count);
}

} // namespace tacksquare::elastic
