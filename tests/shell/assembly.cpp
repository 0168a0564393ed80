#include "shell/assembly.h"

#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare::test {
namespace {

using shell::kNodeFreedoms;

bool same_place(Vec3 a, Vec3 b) {
  return norm(a - b) < 1e-6;
}

shell::Quad quad(const Flat& flat) {
  return {flat.corners[0], flat.corners[1], flat.corners[2], flat.corners[3]};
}
shell::Triangle triangle(const Flat& flat) {
  return {flat.corners[0], flat.corners[1], flat.corners[2]};
}

// From the model's axes to the element's, for each node's displacements and rotations.
Eigen::MatrixXd turn(const Placement& frame, std::size_t corners) {
  Eigen::Matrix3d axes;
  const Vec3 n = frame.normal();
  axes << frame.u.x, frame.u.y, frame.u.z, frame.v.x, frame.v.y, frame.v.z, n.x, n.y, n.z;
  const auto size = static_cast<Eigen::Index>(kNodeFreedoms * corners);
  Eigen::MatrixXd T = Eigen::MatrixXd::Zero(size, size);
  for (Eigen::Index block = 0; block < size; block += 3)
    T.block<3, 3>(block, block) = axes;
  return T;
}

Eigen::Index place_of(const Element& element, Eigen::Index row) {
  return static_cast<Eigen::Index>(kNodeFreedoms *
                                   element.node[static_cast<std::size_t>(row / kNodeFreedoms)]) +
         row % kNodeFreedoms;
}

// Adds up the elements' matrices, given in their own axes.
SparseMatrix assembled(const Mesh& mesh, const std::function<Eigen::MatrixXd(const Flat&)>& of_element) {
  std::vector<Eigen::Triplet<double>> entries;
  for (const Element& element : mesh.elements) {
    const Flat shape = flat(mesh, element);
    const Eigen::MatrixXd T = turn(shape.frame, element.corners);
    const Eigen::MatrixXd K = T.transpose() * of_element(shape) * T;
    for (Eigen::Index column = 0; column < K.cols(); ++column)
      for (Eigen::Index row = 0; row < K.rows(); ++row)
        entries.emplace_back(place_of(element, row), place_of(element, column), K(row, column));
  }
  const auto size = static_cast<Eigen::Index>(kNodeFreedoms * mesh.nodes.size());
  SparseMatrix K(size, size);
  K.setFromTriplets(entries.begin(), entries.end());
  return K;
}

// Membrane force or free strain (its shear doubled or not: `shear_share` is the part of the third entry that
// stands beside the diagonal of the tensor) in the axes of a frame turned in the plane z = 0.
Eigen::Vector3d in_frame(const Eigen::Vector3d& plane, const Placement& frame, double shear_share) {
  Eigen::Matrix2d tensor, axes;
  tensor << plane(0), shear_share * plane(2), shear_share * plane(2), plane(1);
  axes << frame.u.x, frame.u.y, frame.v.x, frame.v.y;
  const Eigen::Matrix2d turned = axes * tensor * axes.transpose();
  return {turned(0, 0), turned(1, 1), turned(0, 1) / shear_share};
}

// The rows and columns that `place` numbers; the others have -1.
SparseMatrix cut(const SparseMatrix& all, const std::vector<Eigen::Index>& place, Eigen::Index size) {
  std::vector<Eigen::Triplet<double>> entries;
  for (Eigen::Index column = 0; column < all.cols(); ++column)
    for (SparseMatrix::InnerIterator it(all, column); it; ++it) {
      const auto row = place[static_cast<std::size_t>(it.row())];
      const auto to = place[static_cast<std::size_t>(column)];
      if (row >= 0 && to >= 0) entries.emplace_back(row, to, it.value());
    }
  SparseMatrix part(size, size);
  part.setFromTriplets(entries.begin(), entries.end());
  return part;
}

// A quadrilateral as it is, or cut along the diagonal from its first or from its second corner.
void add_cell(Mesh& mesh, Kind kind, std::array<std::size_t, 4> c, bool from_first) {
  if (kind == Kind::quads) {
    mesh.elements.push_back({c, 4});
  } else if (from_first) {
    mesh.elements.push_back({{c[0], c[1], c[2], 0}, 3});
    mesh.elements.push_back({{c[0], c[2], c[3], 0}, 3});
  } else {
    mesh.elements.push_back({{c[0], c[1], c[3], 0}, 3});
    mesh.elements.push_back({{c[1], c[2], c[3], 0}, 3});
  }
}

} // namespace

Kind kind_named(const std::string& name) {
  if (name != "quads" && name != "triangles") FAIL("no kind of element: " << name);
  return name == "quads" ? Kind::quads : Kind::triangles;
}

std::size_t Mesh::at(Vec3 place) const {
  const auto found = std::find_if(nodes.begin(), nodes.end(), [&](Vec3 n) { return same_place(n, place); });
  if (found == nodes.end()) FAIL("no node at " << place.x << ", " << place.y << ", " << place.z);
  return static_cast<std::size_t>(found - nodes.begin());
}

std::vector<std::size_t> Mesh::where(const std::function<bool(Vec3)>& here) const {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < nodes.size(); ++i)
    if (here(nodes[i])) found.push_back(i);
  return found;
}

Mesh grid(Kind kind, int nx, int ny, const std::function<Vec3(double, double)>& place) {
  Mesh mesh;
  for (int j = 0; j <= ny; ++j)
    for (int i = 0; i <= nx; ++i)
      mesh.nodes.push_back(place(static_cast<double>(i) / nx, static_cast<double>(j) / ny));
  const auto node = [nx](int i, int j) { return static_cast<std::size_t>(j * (nx + 1) + i); };
  for (int j = 0; j < ny; ++j)
    for (int i = 0; i < nx; ++i)
      add_cell(mesh, kind, {node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)},
               (i + j) % 2 == 0);
  return mesh;
}

Mesh plate(Kind kind, int nx, int ny, double a_mm, double b_mm) {
  return grid(kind, nx, ny, [=](double x, double y) { return Vec3{a_mm * x, b_mm * y, 0.0}; });
}

Mesh patch(Kind kind) {
  Mesh mesh;
  mesh.nodes = {{0, 0, 0},   {240, 0, 0},  {240, 120, 0}, {0, 120, 0},
                {40, 20, 0}, {180, 30, 0}, {160, 80, 0},  {80, 80, 0}};
  for (std::size_t side = 0; side < 4; ++side) {
    const std::size_t next = (side + 1) % 4;
    add_cell(mesh, kind, {side, next, 4 + next, 4 + side}, side % 2 == 0);
  }
  add_cell(mesh, kind, {4, 5, 6, 7}, true);
  return mesh;
}

Mesh joined(const std::vector<Mesh>& parts) {
  Mesh all;
  for (const Mesh& part : parts) {
    std::vector<std::size_t> number;
    for (const Vec3 place : part.nodes) {
      const auto known =
          std::find_if(all.nodes.begin(), all.nodes.end(), [&](Vec3 n) { return same_place(n, place); });
      number.push_back(static_cast<std::size_t>(known - all.nodes.begin()));
      if (known == all.nodes.end()) all.nodes.push_back(place);
    }
    for (Element element : part.elements) {
      for (std::size_t i = 0; i < element.corners; ++i)
        element.node[i] = number[element.node[i]];
      all.elements.push_back(element);
    }
  }
  return all;
}

Flat flat(const Mesh& mesh, const Element& element) {
  const auto corner = [&](std::size_t i) { return mesh.nodes[element.node[i]]; };
  Flat shape;
  shape.frame.origin = corner(0);
  shape.frame.u = unit(corner(1) - corner(0));
  const Vec3 n = unit(cross(shape.frame.u, corner(2) - corner(0)));
  shape.frame.v = cross(n, shape.frame.u);
  for (std::size_t i = 0; i < element.corners; ++i) {
    shape.corners.push_back(shape.frame.local(corner(i)));
    REQUIRE(std::abs(dot(corner(i) - corner(0), n)) < 1e-6);
  }
  return shape;
}

Model::Model(Mesh mesh, const shell::PlateProperties& plate) : mesh_(std::move(mesh)), plate_(plate) {
  stiffness_ = assembled(mesh_, [&](const Flat& shape) -> Eigen::MatrixXd {
    if (shape.corners.size() == 4) return shell::quad_stiffness(quad(shape), plate_);
    return shell::triangle_stiffness(triangle(shape), plate_);
  });
  load_ = held_ = Freedoms::Zero(stiffness_.rows());
  is_held_.assign(static_cast<std::size_t>(stiffness_.rows()), false);
}

void Model::hold(std::size_t node, Freedom f, double value) {
  is_held_[static_cast<std::size_t>(freedom(node, f))] = true;
  held_(freedom(node, f)) = value;
}

void Model::hold_all(const std::vector<Freedom>& freedoms) {
  hold(mesh_.where([](Vec3) { return true; }), freedoms);
}

void Model::hold(const std::vector<std::size_t>& nodes, const std::vector<Freedom>& freedoms) {
  for (const std::size_t node : nodes)
    for (const Freedom f : freedoms)
      hold(node, f);
}

void Model::strain(const Eigen::Vector3d& free) {
  for (const Element& element : mesh_.elements) {
    const Flat shape = flat(mesh_, element);
    const Eigen::Vector3d own = in_frame(free, shape.frame, 0.5);
    const Eigen::VectorXd load =
        element.corners == 4 ? Eigen::VectorXd(shell::quad_strain_load(quad(shape), plate_) * own)
                             : Eigen::VectorXd(shell::triangle_strain_load(triangle(shape), plate_) * own);
    const Eigen::VectorXd turned = turn(shape.frame, element.corners).transpose() * load;
    for (Eigen::Index row = 0; row < turned.size(); ++row)
      load_(place_of(element, row)) += turned(row);
  }
}

Freedoms Model::solve() const {
  std::vector<Eigen::Index> place(is_held_.size(), -1);
  Eigen::Index size = 0;
  for (std::size_t i = 0; i < place.size(); ++i)
    if (!is_held_[i]) place[i] = size++;
  const Freedoms pushed = load_ - stiffness_ * held_;
  Freedoms right(size);
  for (std::size_t i = 0; i < place.size(); ++i)
    if (place[i] >= 0) right(place[i]) = pushed(static_cast<Eigen::Index>(i));
  const SparseMatrix K = cut(stiffness_, place, size);
  const Eigen::SimplicialLDLT<SparseMatrix> factor(K);
  REQUIRE(factor.info() == Eigen::Success);
  Freedoms inner = factor.solve(right);
  inner += factor.solve(Freedoms(right - K * inner));
  Freedoms moved = held_;
  for (std::size_t i = 0; i < place.size(); ++i)
    if (place[i] >= 0) moved(static_cast<Eigen::Index>(i)) = inner(place[i]);
  return moved;
}

Eigen::Matrix3d Model::membrane_force(std::size_t which, const Freedoms& moved) const {
  const Element& element = mesh_.elements[which];
  const Flat shape = flat(mesh_, element);
  const Eigen::MatrixXd T = turn(shape.frame, element.corners);
  Eigen::VectorXd own(T.cols());
  for (Eigen::Index row = 0; row < own.size(); ++row)
    own(row) = moved(place_of(element, row));
  own = T * own;
  const shell::MembraneForce N =
      element.corners == 4
          ? shell::MembraneForce(shell::quad_membrane_force(quad(shape), plate_) * own)
          : shell::MembraneForce(shell::triangle_membrane_force(triangle(shape), plate_) * own);
  Eigen::Matrix3d tensor = Eigen::Matrix3d::Zero();
  tensor.topLeftCorner<2, 2>() << N(0), N(2), N(2), N(1);
  const Eigen::Matrix3d axes = T.topLeftCorner<3, 3>();
  return axes.transpose() * tensor * axes;
}

double Model::buckling_factor(const shell::MembraneForce& force) const {
  const SparseMatrix geometric = assembled(mesh_, [&](const Flat& shape) -> Eigen::MatrixXd {
    const shell::MembraneForce own = in_frame(force, shape.frame, 1.0);
    if (shape.corners.size() == 4) return shell::quad_geometric(quad(shape), own);
    return shell::triangle_geometric(triangle(shape), own);
  });
  std::vector<Eigen::Index> place(is_held_.size(), -1);
  Eigen::Index size = 0;
  for (std::size_t i = 0; i < place.size(); ++i) {
    const auto f = i % kNodeFreedoms;
    if (!is_held_[i] && (f == W || f == RX || f == RY)) place[i] = size++;
  }
  const SparseMatrix K = cut(stiffness_, place, size);
  const SparseMatrix G = cut(geometric, place, size);
  const Eigen::SimplicialLDLT<SparseMatrix> factor(K);
  REQUIRE(factor.info() == Eigen::Success);

  // Subspace iteration on K x = factor (-G) x, from vectors without symmetry.
  constexpr Eigen::Index kVectors = 8;
  Eigen::MatrixXd X(size, kVectors);
  for (Eigen::Index column = 0; column < kVectors; ++column)
    for (Eigen::Index row = 0; row < size; ++row)
      X(row, column) = std::sin(static_cast<double>((row + 1) * (2 * column + 3)));
  double lowest = 0.0;
  for (int round = 0; round < 200; ++round) {
    const Eigen::MatrixXd Y = factor.solve(Eigen::MatrixXd(-(G * X)));
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> ritz(-(Y.transpose() * (G * Y)),
                                                                         Y.transpose() * (K * Y));
    REQUIRE(ritz.info() == Eigen::Success);
    const double before = lowest;
    lowest = 1.0 / ritz.eigenvalues().cwiseAbs().maxCoeff();
    X = Y * ritz.eigenvectors();
    if (std::abs(lowest - before) < 1e-10 * lowest) return lowest;
  }
  FAIL("the buckling factor does not settle");
  return lowest;
}

} // namespace tacksquare::test
