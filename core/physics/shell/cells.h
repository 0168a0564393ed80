// Elements of a mesh, whichever of the two they are.
#pragma once

#include "physics/shell/elements.h"
#include "physics/shell/mesh.h"

#include <cstddef>

namespace tacksquare::shell {

bool has_node(const Cell& cell, std::size_t node);
double area_mm2(const PlateMesh& mesh, const Cell& cell);

// As quad_... and triangle_...: 3 x freedoms of its corners, and freedoms x 3.
Eigen::MatrixXd membrane_force(const PlateMesh& mesh, const Cell& cell, const PlateProperties& plate);
Eigen::MatrixXd strain_load(const PlateMesh& mesh, const Cell& cell, const PlateProperties& plate);

} // namespace tacksquare::shell
