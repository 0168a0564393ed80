#include "physics/shell/cells.h"

#include <algorithm>

namespace tacksquare::shell {

namespace {

// Calls by_quad or by_triangle with the cell's corners.
template <class ByQuad, class ByTriangle>
Eigen::MatrixXd of(const PlateMesh& mesh, const Cell& cell, ByQuad by_quad, ByTriangle by_triangle) {
  const auto at = [&](std::size_t i) { return mesh.nodes[cell.node[i]]; };
  if (cell.corners == 4) return by_quad(Quad{at(0), at(1), at(2), at(3)});
  return by_triangle(Triangle{at(0), at(1), at(2)});
}

} // namespace

bool has_node(const Cell& cell, std::size_t node) {
  const auto end = cell.node.begin() + static_cast<std::ptrdiff_t>(cell.corners);
  return std::find(cell.node.begin(), end, node) != end;
}

double area_mm2(const PlateMesh& mesh, const Cell& cell) {
  double twice = 0.0;
  for (std::size_t i = 0; i < cell.corners; ++i)
    twice += cross(mesh.nodes[cell.node[i]], mesh.nodes[cell.node[(i + 1) % cell.corners]]);
  return 0.5 * twice;
}

Eigen::MatrixXd membrane_force(const PlateMesh& mesh, const Cell& cell, const PlateProperties& plate) {
  return of(
      mesh, cell, [&](const Quad& q) -> Eigen::MatrixXd { return quad_membrane_force(q, plate); },
      [&](const Triangle& t) -> Eigen::MatrixXd { return triangle_membrane_force(t, plate); });
}

Eigen::MatrixXd strain_load(const PlateMesh& mesh, const Cell& cell, const PlateProperties& plate) {
  return of(
      mesh, cell, [&](const Quad& q) -> Eigen::MatrixXd { return quad_strain_load(q, plate); },
      [&](const Triangle& t) -> Eigen::MatrixXd { return triangle_strain_load(t, plate); });
}

} // namespace tacksquare::shell
