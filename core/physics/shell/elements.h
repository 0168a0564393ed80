// Flat thin-shell elements in the plate's own plane: membrane with a drilling freedom, and Kirchhoff bending.
// A node has six freedoms, in this order: u, v, w (mm, along x, y and the normal z), and the rotations about
// x, y and z (rad, right-handed; on a bent plate rx = dw/dy and ry = -dw/dx). Corners run counter-clockwise.
#pragma once

#include "base/vec.h"

#include <Eigen/Dense>

#include <array>

namespace tacksquare::shell {

inline constexpr int kNodeFreedoms = 6;

struct PlateProperties {
  double E_mpa = 0.0, nu = 0.0, t_mm = 0.0;
  bool operator==(const PlateProperties&) const = default;
};

using Quad = std::array<Vec2, 4>;
using Triangle = std::array<Vec2, 3>;
using QuadMatrix = Eigen::Matrix<double, 24, 24>;
using TriangleMatrix = Eigen::Matrix<double, 18, 18>;
// Membrane forces Nx, Ny, Nxy in N/mm.
using MembraneForce = Eigen::Vector3d;

// Plane stress, MPa: times t the membrane's stiffness, times t^3/12 the bending's.
inline Eigen::Matrix3d plane_stress(const PlateProperties& plate) {
  const double shear = plate.E_mpa / (2.0 * (1.0 + plate.nu));
  const double direct = plate.E_mpa / (1.0 - plate.nu * plate.nu);
  Eigen::Matrix3d D;
  D << direct, plate.nu * direct, 0.0, plate.nu * direct, direct, 0.0, 0.0, 0.0, shear;
  return D;
}

QuadMatrix quad_stiffness(const Quad& corners, const PlateProperties& plate);
TriangleMatrix triangle_stiffness(const Triangle& corners, const PlateProperties& plate);

// Membrane force at the centre from the nodes' freedoms.
Eigen::Matrix<double, 3, 24> quad_membrane_force(const Quad& corners, const PlateProperties& plate);
Eigen::Matrix<double, 3, 18> triangle_membrane_force(const Triangle& corners, const PlateProperties& plate);

// Nodal forces that a free strain (ex, ey, gxy; the same all over the element) would need to be held at bay:
// the load of a shrinkage strain.
Eigen::Matrix<double, 24, 3> quad_strain_load(const Quad& corners, const PlateProperties& plate);
Eigen::Matrix<double, 18, 3> triangle_strain_load(const Triangle& corners, const PlateProperties& plate);

// Work of a membrane force, the same all over the element, on the slopes of w: the matrix of buckling.
QuadMatrix quad_geometric(const Quad& corners, const MembraneForce& force);
TriangleMatrix triangle_geometric(const Triangle& corners, const MembraneForce& force);

} // namespace tacksquare::shell
