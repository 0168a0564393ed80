// What must hold of every mesh of a plate.
#pragma once

#include "physics/shell/mesh.h"

#include <string>
#include <vector>

namespace tacksquare::test {

std::vector<Vec2> rectangle(double x, double y, double width, double height);
// 24 corners. Places are multiples of 1/1024 mm: no machine's cosine changes them.
std::vector<Vec2> hole(double x, double y, double diameter);
shell::PlateShape moved(shell::PlateShape shape, double turn_rad, Vec2 by);

struct MeshFigures {
  std::size_t quads = 0, triangles = 0;
  double shortest_mm = 0.0, longest_mm = 0.0;
  double least_angle_deg = 0.0;
  double mean_least_angle_deg = 0.0; // of the cells' least angles
};
// Cells with no edge over `tiny_mm` are left out of the angles.
MeshFigures figures(const shell::PlateMesh& mesh, double tiny_mm = 0.0);

// Least angle between two sides or lines that share an end, deg.
double least_angle_deg(const shell::PlateShape& shape);

// Checks area, edges, Euler's number, boundary, corners, and that sides and lines follow edges.
void check_mesh(const shell::PlateShape& shape, const shell::PlateMesh& mesh);

bool has_node(const shell::PlateMesh& mesh, Vec2 p, double within_mm);
std::string bytes_of(const shell::PlateMesh& mesh);
bool same_bytes(const shell::PlateMesh& a, const shell::PlateMesh& b);

} // namespace tacksquare::test
