// The quadrilateral: Wilson's incompatible modes with Taylor's correction (QM6: Taylor, Beresford and Wilson
// 1976), the discrete Kirchhoff quadrilateral (DKQ: Batoz and Tahar 1982), and a penalty that ties the
// rotation about z to that of the membrane (Hughes and Brezzi 1989).
#include "physics/shell/flat_element.h"

#include <cmath>

namespace tacksquare::shell {
namespace {

// Of the shear stiffness G t: enough to leave no freedom loose. The incompatible modes turn, too, and are
// counted, else the penalty would stiffen a cell that bends in its plane.
constexpr double kDrillingShare = 0.01;

// Corners and sides in turn; side k runs from corner k to the next.
constexpr std::array<double, 4> kXi{-1.0, 1.0, 1.0, -1.0};
constexpr std::array<double, 4> kEta{-1.0, -1.0, 1.0, 1.0};

using Gradients4 = Eigen::Matrix<double, 2, 4>;

// Bilinear functions of the corners.
Eigen::RowVector4d corner_functions(double xi, double eta) {
  Eigen::RowVector4d N;
  for (std::size_t i = 0; i < 4; ++i)
    N(static_cast<int>(i)) = 0.25 * (1.0 + kXi[i] * xi) * (1.0 + kEta[i] * eta);
  return N;
}
Gradients4 corner_gradients(double xi, double eta) {
  Gradients4 dN;
  for (std::size_t i = 0; i < 4; ++i)
    dN.col(static_cast<int>(i)) << 0.25 * kXi[i] * (1.0 + kEta[i] * eta),
        0.25 * kEta[i] * (1.0 + kXi[i] * xi);
  return dN;
}
// One at the middle of its side, nothing on the other sides.
Eigen::RowVector4d side_functions(double xi, double eta) {
  Eigen::RowVector4d P;
  P << (1.0 - xi * xi) * (1.0 - eta), (1.0 - eta * eta) * (1.0 + xi), (1.0 - xi * xi) * (1.0 + eta),
      (1.0 - eta * eta) * (1.0 - xi);
  return 0.5 * P;
}
Gradients4 side_gradients(double xi, double eta) {
  Gradients4 dP;
  dP << -2.0 * xi * (1.0 - eta), 1.0 - eta * eta, -2.0 * xi * (1.0 + eta), eta * eta - 1.0, //
      xi * xi - 1.0, -2.0 * eta * (1.0 + xi), 1.0 - xi * xi, -2.0 * eta * (1.0 - xi);
  return 0.5 * dP;
}

// Rows: d/dxi, d/deta of x and y.
Eigen::Matrix2d jacobian(const Quad& at, double xi, double eta) {
  Eigen::Matrix<double, 4, 2> places;
  for (std::size_t i = 0; i < 4; ++i)
    places.row(static_cast<int>(i)) << at[i].x, at[i].y;
  return corner_gradients(xi, eta) * places;
}

struct Point {
  double xi, eta, weight;
};
constexpr double kGauss2 = 0.57735026918962576; // 1/sqrt(3)
constexpr std::array<Point, 4> kFourPoints{
    {{-kGauss2, -kGauss2, 1.0}, {kGauss2, -kGauss2, 1.0}, {kGauss2, kGauss2, 1.0}, {-kGauss2, kGauss2, 1.0}}};

// Freedoms: u1 v1 ... u4 v4, rz1 ... rz4, then the four of the incompatible modes, which are condensed.
using Membrane = Eigen::Matrix<double, 12, 12>;
Membrane membrane_stiffness(const Quad& at, const PlateProperties& plate) {
  const Eigen::Matrix3d D = plane_stress(plate);
  const Eigen::Matrix2d middle = jacobian(at, 0.0, 0.0);
  const Eigen::Matrix2d from_middle = middle.inverse() * middle.determinant();
  Eigen::Matrix<double, 16, 16> K = Eigen::Matrix<double, 16, 16>::Zero();
  for (const Point& p : kFourPoints) {
    const Eigen::Matrix2d J = jacobian(at, p.xi, p.eta);
    const double area = J.determinant();
    // Taylor's correction: the modes' gradients by the Jacobian of the centre, so that no constant stress
    // works on them.
    Eigen::Matrix2d modes = from_middle / area;
    modes.col(0) *= -2.0 * p.xi;
    modes.col(1) *= -2.0 * p.eta;
    const Gradients4 corners = J.inverse() * corner_gradients(p.xi, p.eta);
    Eigen::Matrix<double, 3, 16> B = Eigen::Matrix<double, 3, 16>::Zero();
    B.leftCols<8>() = strains<4>(corners);
    B.rightCols<4>() = strains<2>(modes);
    Eigen::Matrix<double, 1, 16> slip = Eigen::Matrix<double, 1, 16>::Zero(); // rz - (dv/dx - du/dy)/2
    const auto rotation = [&slip](int first, const auto& gradients) {
      for (int f = 0; f < gradients.cols(); ++f) {
        slip(first + 2 * f) = 0.5 * gradients(1, f);
        slip(first + 2 * f + 1) = -0.5 * gradients(0, f);
      }
    };
    rotation(0, corners);
    rotation(12, modes);
    slip.segment<4>(8) = corner_functions(p.xi, p.eta);
    K += p.weight * area * plate.t_mm *
         (B.transpose() * D * B + kDrillingShare * D(2, 2) * slip.transpose() * slip);
  }
  const Eigen::LLT<Eigen::Matrix4d> inner(K.bottomRightCorner<4, 4>());
  const Eigen::Matrix<double, 4, 12> L = inner.matrixL().solve(K.bottomLeftCorner<4, 12>());
  return K.topLeftCorner<12, 12>() - L.transpose() * L;
}

// Freedoms: w1 rx1 ry1 ... w4 rx4 ry4.
Eigen::Matrix<double, 12, 12> bending_stiffness(const Quad& at, const PlateProperties& plate) {
  const Eigen::Matrix3d D = plane_stress(plate) * (plate.t_mm * plate.t_mm * plate.t_mm / 12.0);
  Eigen::Matrix<double, 16, 16> K = Eigen::Matrix<double, 16, 16>::Zero();
  for (const Point& p : kFourPoints) {
    const Eigen::Matrix2d J = jacobian(at, p.xi, p.eta);
    Eigen::Matrix<double, 2, 8> gradients;
    gradients << corner_gradients(p.xi, p.eta), side_gradients(p.xi, p.eta);
    const Eigen::Matrix<double, 3, 16> B = strains<8>(J.inverse() * gradients);
    K += p.weight * J.determinant() * B.transpose() * D * B;
  }
  const auto C = slope_coefficients<4>(at);
  return C.transpose() * K * C;
}

} // namespace

QuadMatrix quad_stiffness(const Quad& corners, const PlateProperties& plate) {
  constexpr std::array<int, 12> kInPlane{0, 1, 6, 7, 12, 13, 18, 19, 5, 11, 17, 23};
  QuadMatrix K = QuadMatrix::Zero();
  K(kInPlane, kInPlane) = membrane_stiffness(corners, plate);
  constexpr auto kBent = freedoms<4>(kBending);
  K(kBent, kBent) = bending_stiffness(corners, plate);
  return K;
}

Eigen::Matrix<double, 3, 24> quad_membrane_force(const Quad& corners, const PlateProperties& plate) {
  const Gradients4 gradients = jacobian(corners, 0.0, 0.0).inverse() * corner_gradients(0.0, 0.0);
  // The incompatible modes have no strain at the centre.
  const Eigen::Matrix<double, 3, 8> force = plate.t_mm * plane_stress(plate) * strains<4>(gradients);
  Eigen::Matrix<double, 3, 24> all = Eigen::Matrix<double, 3, 24>::Zero();
  for (int node = 0; node < 4; ++node)
    all.middleCols<2>(kNodeFreedoms * node) = force.middleCols<2>(2 * node);
  return all;
}

Eigen::Matrix<double, 24, 3> quad_strain_load(const Quad& corners, const PlateProperties& plate) {
  // The integral of a bilinear strain matrix is its value at the centre times the area, which is four times
  // the Jacobian's determinant there; Taylor's correction leaves the incompatible modes without load.
  const double area = 4.0 * jacobian(corners, 0.0, 0.0).determinant();
  return area * quad_membrane_force(corners, plate).transpose();
}

QuadMatrix quad_geometric(const Quad& corners, const MembraneForce& force) {
  const double outer = std::sqrt(0.6);
  const std::array<Point, 3> line{{{-outer, 0.0, 5.0 / 9.0}, {0.0, 0.0, 8.0 / 9.0}, {outer, 0.0, 5.0 / 9.0}}};
  const Eigen::Matrix2d N = force_tensor(force);
  Eigen::Matrix<double, 16, 16> K = Eigen::Matrix<double, 16, 16>::Zero();
  for (const Point& along : line)
    for (const Point& across : line) {
      const double xi = along.xi, eta = across.xi;
      Eigen::Matrix<double, 1, 8> values;
      values << corner_functions(xi, eta), side_functions(xi, eta);
      const Eigen::Matrix<double, 2, 16> S = field<8>(values);
      K += along.weight * across.weight * jacobian(corners, xi, eta).determinant() * S.transpose() * N * S;
    }
  const auto C = slope_coefficients<4>(corners);
  constexpr auto kBent = freedoms<4>(kBending);
  QuadMatrix all = QuadMatrix::Zero();
  all(kBent, kBent) = C.transpose() * K * C;
  return all;
}

} // namespace tacksquare::shell
