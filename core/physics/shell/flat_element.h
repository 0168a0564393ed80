// What the quadrilateral and the triangle share. Inside this room only.
#pragma once

#include "physics/shell/elements.h"

#include <Eigen/Dense>

#include <array>
#include <cstddef>

namespace tacksquare::shell {

// Strains (xx, yy, 2xy) of a plane vector field by its coefficients x1 y1 x2 y2 ..., from the gradients of
// its functions: of the displacements (u, v), and curvatures of the slopes (dw/dx, dw/dy).
template <int functions>
Eigen::Matrix<double, 3, 2 * functions> strains(const Eigen::Matrix<double, 2, functions>& gradients) {
  Eigen::Matrix<double, 3, 2 * functions> B = Eigen::Matrix<double, 3, 2 * functions>::Zero();
  for (int f = 0; f < functions; ++f) {
    B(0, 2 * f) = B(2, 2 * f + 1) = gradients(0, f);
    B(1, 2 * f + 1) = B(2, 2 * f) = gradients(1, f);
  }
  return B;
}

// The field itself by the same coefficients.
template <int functions>
Eigen::Matrix<double, 2, 2 * functions> field(const Eigen::Matrix<double, 1, functions>& values) {
  Eigen::Matrix<double, 2, 2 * functions> S = Eigen::Matrix<double, 2, 2 * functions>::Zero();
  for (int f = 0; f < functions; ++f)
    S(0, 2 * f) = S(1, 2 * f + 1) = values(f);
  return S;
}

// Coefficients of the slope field (dw/dx, dw/dy) by the corners' w, rx, ry, with Kirchhoff's constraint held
// at the corners and along the sides only (Batoz, Bathe and Ho 1980, section 4; Batoz and Tahar 1982). First
// the corners' slopes, linear or bilinear over the element. Then for each side from a corner to the next what
// its middle has beyond their mean: w is cubic along the side, hence its slope there is 3/2 of the chord's
// less 1/4 of the corners'; the slope across the side is linear.
template <std::size_t corners>
Eigen::Matrix<double, 4 * corners, 3 * corners> slope_coefficients(const std::array<Vec2, corners>& at) {
  Eigen::Matrix<double, 4 * corners, 3 * corners> C = Eigen::Matrix<double, 4 * corners, 3 * corners>::Zero();
  for (std::size_t i = 0; i < corners; ++i) {
    const auto from = static_cast<int>(i);
    const auto to = static_cast<int>((i + 1) % corners);
    C(2 * from, 3 * from + 2) = -1.0;
    C(2 * from + 1, 3 * from + 1) = 1.0;

    const Vec2 side = at[(i + 1) % corners] - at[i];
    Eigen::Matrix<double, 1, 3 * corners> rise = Eigen::Matrix<double, 1, 3 * corners>::Zero();
    rise(3 * to) = 1.0;
    rise(3 * from) = -1.0;
    for (const int end : {from, to}) {
      rise(3 * end + 1) = -0.5 * side.y;
      rise(3 * end + 2) = 0.5 * side.x;
    }
    const double factor = 1.5 / dot(side, side);
    const int middle = 2 * (static_cast<int>(corners) + from);
    C.row(middle) = factor * side.x * rise;
    C.row(middle + 1) = factor * side.y * rise;
  }
  return C;
}

// Where the freedoms of a bent plate (w, rx, ry) and of a membrane (u, v, rz) stand among the node's six.
template <int corners> constexpr std::array<int, 3 * corners> freedoms(const std::array<int, 3>& of_node) {
  std::array<int, 3 * corners> all{};
  for (int node = 0; node < corners; ++node)
    for (int f = 0; f < 3; ++f)
      all[static_cast<std::size_t>(3 * node + f)] =
          kNodeFreedoms * node + of_node[static_cast<std::size_t>(f)];
  return all;
}
inline constexpr std::array<int, 3> kBending{2, 3, 4};
inline constexpr std::array<int, 3> kMembrane{0, 1, 5};

inline Eigen::Matrix2d force_tensor(const MembraneForce& force) {
  Eigen::Matrix2d N;
  N << force(0), force(2), force(2), force(1);
  return N;
}

} // namespace tacksquare::shell
