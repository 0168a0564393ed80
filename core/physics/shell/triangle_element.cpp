// The triangle: the optimal membrane with drilling freedoms (OPT: Felippa, "A study of optimal membrane
// triangles with drilling freedoms", Comput. Methods Appl. Mech. Engrg. 192, 2003, the ANDES template) and
// the discrete Kirchhoff triangle (DKT: Batoz, Bathe and Ho 1980).
#include "physics/shell/flat_element.h"

#include <algorithm>

namespace tacksquare::shell {
namespace {

using Gradients3 = Eigen::Matrix<double, 2, 3>;
using Membrane = Eigen::Matrix<double, 9, 9>;

double area_of(const Triangle& at) {
  return 0.5 * cross(at[1] - at[0], at[2] - at[0]);
}

// Of the area coordinates.
Gradients3 area_gradients(const Triangle& at) {
  Gradients3 d;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vec2 opposite = at[(i + 2) % 3] - at[(i + 1) % 3];
    d.col(static_cast<int>(i)) << -opposite.y, opposite.x;
  }
  return d / (2.0 * area_of(at));
}

// Mean strain by u v rz of the corners: Felippa's lumping matrix over the volume, alpha_b = 3/2. The direct
// part is that of linear displacements; rz stands for sides that bend like a beam's.
Eigen::Matrix<double, 3, 9> mean_strain(const Triangle& at) {
  constexpr double kAlpha = 1.5;
  const auto direct = strains<3>(area_gradients(at));
  Eigen::Matrix<double, 3, 9> B;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vec2 next = at[(i + 1) % 3] - at[i];
    const Vec2 last = at[i] - at[(i + 2) % 3];
    const int corner = static_cast<int>(i);
    B.middleCols<2>(3 * corner) = direct.middleCols<2>(2 * corner);
    B.col(3 * corner + 2) << last.y * last.y - next.y * next.y, last.x * last.x - next.x * next.x,
        2.0 * (next.x * next.y - last.x * last.y);
    B.col(3 * corner + 2) *= kAlpha / (12.0 * area_of(at));
  }
  return B;
}

// What the corners' rotations have beyond that of the linear displacements.
Eigen::Matrix<double, 3, 9> surplus_rotations(const Triangle& at) {
  const Gradients3 gradients = area_gradients(at);
  Eigen::Matrix<double, 3, 9> T;
  for (int corner = 0; corner < 3; ++corner) {
    T.col(3 * corner).setConstant(0.5 * gradients(1, corner));
    T.col(3 * corner + 1).setConstant(-0.5 * gradients(0, corner));
    T.col(3 * corner + 2) = Eigen::Vector3d::Unit(corner);
  }
  return T;
}

// Strains at the corners by the surplus rotations (Felippa's T_e Q_1..3 with his beta 1 2 1 0 1 -1 -1 -1 -2;
// the sides' lengths cancel between the two). Their sum, hence the strain at the centre, is nothing.
std::array<Eigen::Matrix3d, 3> corner_strains(const Triangle& at) {
  Eigen::Matrix3d from_natural;
  for (std::size_t side = 0; side < 3; ++side) {
    const Vec2 a = at[side] - at[(side + 2) % 3];
    const Vec2 b = at[(side + 1) % 3] - at[(side + 2) % 3];
    from_natural.col(static_cast<int>(side)) << a.y * b.y, a.x * b.x, -(a.x * b.y + a.y * b.x);
  }
  from_natural /= 6.0 * area_of(at);
  Eigen::Matrix3d beta;
  beta << 1.0, 2.0, 1.0, 0.0, 1.0, -1.0, -1.0, -1.0, -2.0;
  std::array<Eigen::Matrix3d, 3> all;
  for (int corner = 0; corner < 3; ++corner) {
    Eigen::Matrix3d turned;
    for (int row = 0; row < 3; ++row)
      for (int column = 0; column < 3; ++column)
        turned(row, column) = beta((row + 3 - corner) % 3, (column + 3 - corner) % 3);
    all[static_cast<std::size_t>(corner)] = from_natural * turned;
  }
  return all;
}

Membrane membrane_stiffness(const Triangle& at, const PlateProperties& plate) {
  const Eigen::Matrix3d D = plane_stress(plate);
  const double volume = area_of(at) * plate.t_mm;
  const auto B = mean_strain(at);
  const auto corner = corner_strains(at);
  Eigen::Matrix3d higher = Eigen::Matrix3d::Zero();
  for (std::size_t i = 0; i < 3; ++i) {
    const Eigen::Matrix3d middle = 0.5 * (corner[i] + corner[(i + 1) % 3]); // of the side
    higher += middle.transpose() * D * middle;
  }
  const double beta_0 = std::max(0.5 * (1.0 - 4.0 * plate.nu * plate.nu), 0.01);
  const auto T = surplus_rotations(at);
  return volume * (B.transpose() * D * B + 0.75 * beta_0 * T.transpose() * higher * T);
}

// Middles of the sides: exact for what is quadratic.
Eigen::Matrix<double, 9, 9> bending_stiffness(const Triangle& at, const PlateProperties& plate) {
  const Eigen::Matrix3d D = plane_stress(plate) * (plate.t_mm * plate.t_mm * plate.t_mm / 12.0);
  const Gradients3 areas = area_gradients(at);
  Eigen::Matrix<double, 12, 12> K = Eigen::Matrix<double, 12, 12>::Zero();
  for (int middle = 0; middle < 3; ++middle) {
    Eigen::Vector3d L = Eigen::Vector3d::Constant(0.5);
    L(middle) = 0.0;
    Eigen::Matrix<double, 2, 6> gradients;
    gradients.leftCols<3>() = areas;
    for (int side = 0; side < 3; ++side) {
      const int end = (side + 1) % 3;
      gradients.col(3 + side) = 4.0 * (L(side) * areas.col(end) + L(end) * areas.col(side));
    }
    const auto B = strains<6>(gradients);
    K += area_of(at) / 3.0 * B.transpose() * D * B;
  }
  const auto C = slope_coefficients<3>(at);
  return C.transpose() * K * C;
}

} // namespace

TriangleMatrix triangle_stiffness(const Triangle& corners, const PlateProperties& plate) {
  constexpr auto kInPlane = freedoms<3>(kMembrane);
  constexpr auto kBent = freedoms<3>(kBending);
  TriangleMatrix K = TriangleMatrix::Zero();
  K(kInPlane, kInPlane) = membrane_stiffness(corners, plate);
  K(kBent, kBent) = bending_stiffness(corners, plate);
  return K;
}

Eigen::Matrix<double, 3, 18> triangle_membrane_force(const Triangle& corners, const PlateProperties& plate) {
  Eigen::Matrix<double, 3, 18> all = Eigen::Matrix<double, 3, 18>::Zero();
  all(Eigen::all, freedoms<3>(kMembrane)) = plate.t_mm * plane_stress(plate) * mean_strain(corners);
  return all;
}

Eigen::Matrix<double, 18, 3> triangle_strain_load(const Triangle& corners, const PlateProperties& plate) {
  return area_of(corners) * triangle_membrane_force(corners, plate).transpose();
}

TriangleMatrix triangle_geometric(const Triangle& corners, const MembraneForce& force) {
  // The integral of a product of area coordinates' powers a, b, c is 2 A a! b! c! / (a + b + c + 2)!; the
  // slopes' functions are the three coordinates and the three products 4 Li Lj.
  constexpr double corner = 1.0 / 12.0, side = 8.0 / 45.0;
  Eigen::Matrix<double, 6, 6> M;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      M(i, j) = i == j ? 2.0 * corner : corner;
      M(3 + i, 3 + j) = i == j ? side : 0.5 * side;
      M(i, 3 + j) = M(3 + j, i) = i == j || i == (j + 1) % 3 ? 2.0 / 15.0 : 1.0 / 15.0;
    }
  const Eigen::Matrix2d N = force_tensor(force) * area_of(corners);
  Eigen::Matrix<double, 12, 12> K;
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j)
      K.block<2, 2>(2 * i, 2 * j) = M(i, j) * N;
  const auto C = slope_coefficients<3>(corners);
  constexpr auto kBent = freedoms<3>(kBending);
  TriangleMatrix all = TriangleMatrix::Zero();
  all(kBent, kBent) = C.transpose() * K * C;
  return all;
}

} // namespace tacksquare::shell
