// Small models of flat shell elements for the tests: plane or folded meshes, supports, loads, solved
// directly.
#pragma once

#include "base/vec.h"
#include "physics/shell/elements.h"

#include <Eigen/Dense>
#include <Eigen/Sparse>

#include <array>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace tacksquare::test {

using Freedoms = Eigen::VectorXd;
using SparseMatrix = Eigen::SparseMatrix<double>;

// The six freedoms of a node, by name.
enum Freedom { U, V, W, RX, RY, RZ };

enum class Kind { quads, triangles };
inline constexpr std::array<Kind, 2> kKinds{Kind::quads, Kind::triangles};
Kind kind_named(const std::string& name); // "quads" or "triangles"

// Four nodes, or three and the fourth not used.
struct Element {
  std::array<std::size_t, 4> node{};
  std::size_t corners = 4;
};

struct Mesh {
  std::vector<Vec3> nodes;
  std::vector<Element> elements;
  // The first node within 1e-6 mm; fails the test when there is none.
  std::size_t at(Vec3 place) const;
  std::vector<std::size_t> where(const std::function<bool(Vec3)>& here) const;
};

// nx by ny cells of the unit square, each placed by `place`. Triangles: each cell is cut along a diagonal, in
// turns (a "union jack") so that the pattern is symmetric when nx and ny are even.
Mesh grid(Kind kind, int nx, int ny, const std::function<Vec3(double, double)>& place);
Mesh plate(Kind kind, int nx, int ny, double a_mm, double b_mm);
// MacNeal and Harder 1985, the patch of 0.24 by 0.12 with five quadrilaterals [from memory]; scaled to 240 by
// 120.
Mesh patch(Kind kind);
// Nodes nearer than 1e-6 mm become one.
Mesh joined(const std::vector<Mesh>& parts);

// The element in its own plane: origin at the first corner, x along the first side.
struct Flat {
  Placement frame;
  std::vector<Vec2> corners;
};
Flat flat(const Mesh& mesh, const Element& element);

class Model {
 public:
  Model(Mesh mesh, const shell::PlateProperties& plate);

  const Mesh& mesh() const { return mesh_; }
  Eigen::Index freedom(std::size_t node, Freedom f) const {
    return static_cast<Eigen::Index>(shell::kNodeFreedoms * node + static_cast<std::size_t>(f));
  }
  void hold(std::size_t node, Freedom f, double value = 0.0);
  void hold_all(const std::vector<Freedom>& freedoms);
  void hold(const std::vector<std::size_t>& nodes, const std::vector<Freedom>& freedoms);
  void push(std::size_t node, Freedom f, double force) { load_(freedom(node, f)) += force; }
  // A free strain of the plane (ex, ey, gxy) in the first element's axes; all elements lie in z = 0.
  void strain(const Eigen::Vector3d& free);

  Freedoms solve() const;
  const SparseMatrix& stiffness() const { return stiffness_; }
  // Membrane force of an element, N/mm: the tensor in the model's axes.
  Eigen::Matrix3d membrane_force(std::size_t element, const Freedoms& moved) const;
  // Lowest factor on the membrane force (the same everywhere, in the axes of x and y; elements in z = 0) at
  // which the held plate buckles, of either sign; only w, rx and ry take part.
  double buckling_factor(const shell::MembraneForce& force) const;

 private:
  Mesh mesh_;
  shell::PlateProperties plate_;
  SparseMatrix stiffness_;
  Freedoms load_, held_;
  std::vector<bool> is_held_;
};

} // namespace tacksquare::test
