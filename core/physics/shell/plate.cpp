#include "physics/shell/plate.h"

#include "base/diagnostic.h"
#include "physics/shell/dense.h"

#include <Eigen/OrderingMethods>

#include <algorithm>
#include <cmath>

namespace tacksquare::shell {

namespace {

using Index = Eigen::Index;

Quad quad_of(const PlateMesh& mesh, const Cell& cell) {
  return {mesh.nodes[cell.node[0]], mesh.nodes[cell.node[1]], mesh.nodes[cell.node[2]],
          mesh.nodes[cell.node[3]]};
}
Triangle triangle_of(const PlateMesh& mesh, const Cell& cell) {
  return {mesh.nodes[cell.node[0]], mesh.nodes[cell.node[1]], mesh.nodes[cell.node[2]]};
}

// Eigen cuts large products into blocks by the machine's caches, and so rounds by them. Fixed sizes: same
// bytes on every machine.
void fix_blocks() {
  static const bool once = [] {
    Eigen::setCpuCacheSizes(32 * 1024, 512 * 1024, 4 * 1024 * 1024);
    return true;
  }();
  (void)once;
}

} // namespace

std::array<std::size_t, 6> determinate_holds(const PlateMesh& mesh) {
  const auto& nodes = mesh.nodes;
  const auto farthest = [&](auto measure) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < nodes.size(); ++i)
      if (measure(nodes[i]) > measure(nodes[best]) + 1e-9) best = i;
    return best;
  };
  const std::size_t a = farthest([](Vec2 p) { return -p.x; });
  const std::size_t b = farthest([&](Vec2 p) { return p.x - nodes[a].x; });
  const Vec2 along = nodes[b] - nodes[a];
  const std::size_t c = farthest([&](Vec2 p) { return std::abs(cross(along, p - nodes[a])); });
  const std::size_t n = kNodeFreedoms; // u, v, w of a; v, w of b; w of c
  return {n * a, n * a + 1, n * a + 2, n * b + 1, n * b + 2, n * c + 2};
}

Plate::Plate(const PlateShape& shape, const PlateProperties& properties, double size_mm,
             std::vector<std::pair<Vec2, Vec2>> ports)
    : properties_(properties), mesh_(mesh_plate(shape, size_mm)) {
  fix_blocks();
  assemble();
  place_.assign(freedoms(), 0);
  for (const std::size_t f : determinate_holds(mesh_))
    place_[f] = kHeld;
  order(ports);
  factor();
}

void Plate::assemble() {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(mesh_.cells.size() * 24 * 24);
  // Cells of a mapped net are alike: the last one's matrix serves again.
  Quad last{};
  QuadMatrix quad = QuadMatrix::Zero();
  bool known = false;
  const auto add = [&](const Cell& cell, const auto& k) {
    for (std::size_t i = 0; i < cell.corners; ++i)
      for (std::size_t j = 0; j < cell.corners; ++j)
        for (int a = 0; a < kNodeFreedoms; ++a)
          for (int b = 0; b < kNodeFreedoms; ++b) {
            const double value =
                k(static_cast<int>(i) * kNodeFreedoms + a, static_cast<int>(j) * kNodeFreedoms + b);
            if (value != 0.0)
              entries.emplace_back(static_cast<int>(cell.node[i]) * kNodeFreedoms + a,
                                   static_cast<int>(cell.node[j]) * kNodeFreedoms + b, value);
          }
  };
  for (const Cell& cell : mesh_.cells) {
    if (cell.corners == 3) {
      add(cell, triangle_stiffness(triangle_of(mesh_, cell), properties_));
      continue;
    }
    Quad shape = quad_of(mesh_, cell);
    const Vec2 origin = shape[0];
    for (Vec2& p : shape)
      p = p - origin;
    const auto near = [](Vec2 a, Vec2 b) { return norm(a - b) < 1e-9; };
    if (!known || !std::equal(shape.begin(), shape.end(), last.begin(), near)) {
      quad = quad_stiffness(shape, properties_);
      last = shape;
      known = true;
    }
    add(cell, quad);
  }
  const auto n = static_cast<Index>(freedoms());
  stiffness_.resize(n, n);
  stiffness_.setFromTriplets(entries.begin(), entries.end());
}

void Plate::order(const std::vector<std::pair<Vec2, Vec2>>& ports) {
  std::vector<bool> at_port(mesh_.nodes.size(), false);
  for (const auto& [a, b] : ports)
    for (const ChainNode& c : nodes_along(mesh_, a, b))
      at_port[c.node] = true;
  // Minimum degree among the others, node by node: a node's freedoms stay together.
  std::vector<Index> number(mesh_.nodes.size(), -1);
  Index inner_nodes = 0;
  for (std::size_t i = 0; i < at_port.size(); ++i)
    if (!at_port[i]) number[i] = inner_nodes++;
  std::vector<Eigen::Triplet<double>> links;
  for (const Cell& cell : mesh_.cells)
    for (std::size_t i = 0; i < cell.corners; ++i)
      for (std::size_t j = 0; j < cell.corners; ++j)
        if (number[cell.node[i]] >= 0 && number[cell.node[j]] >= 0)
          links.emplace_back(static_cast<int>(number[cell.node[i]]), static_cast<int>(number[cell.node[j]]),
                             1.0);
  Sparse graph(inner_nodes, inner_nodes);
  graph.setFromTriplets(links.begin(), links.end());
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> least;
  if (inner_nodes > 0) Eigen::AMDOrdering<int>()(graph, least);

  std::vector<std::size_t> rank(static_cast<std::size_t>(inner_nodes));
  for (std::size_t i = 0; i < number.size(); ++i)
    if (number[i] >= 0) // the ordering gives old places by new: its inverse is applied
      rank[static_cast<std::size_t>(number[i])] = i;
  std::vector<std::size_t> nodes;
  for (Index k = 0; k < inner_nodes; ++k)
    nodes.push_back(rank[static_cast<std::size_t>(least.indices()(k))]);
  for (std::size_t i = 0; i < at_port.size(); ++i)
    if (at_port[i]) nodes.push_back(i);

  size_ = 0;
  for (std::size_t k = 0; k < nodes.size(); ++k) {
    if (static_cast<Index>(k) == inner_nodes) inner_ = size_;
    for (std::size_t f = 0; f < kNodeFreedoms; ++f) {
      Index& place = place_[nodes[k] * kNodeFreedoms + f];
      if (place != kHeld) place = size_++;
    }
  }
  if (static_cast<Index>(nodes.size()) == inner_nodes) inner_ = size_;
}

void Plate::factor() {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(static_cast<std::size_t>(stiffness_.nonZeros()));
  for (Index c = 0; c < stiffness_.outerSize(); ++c)
    for (Sparse::InnerIterator it(stiffness_, c); it; ++it) {
      const Index i = place_[static_cast<std::size_t>(it.row())], j = place_[static_cast<std::size_t>(c)];
      if (i >= j && j != kHeld) entries.emplace_back(static_cast<int>(i), static_cast<int>(j), it.value());
    }
  Sparse held(size_, size_);
  held.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SimplicialLLT<Sparse, Eigen::Lower, Eigen::NaturalOrdering<int>> llt(held);
  if (llt.info() != Eigen::Success)
    throw NumericalFailure("the stiffness of a face of " + std::to_string(mesh_.cells.size()) +
                           " elements could not be factored");
  lower_ = llt.matrixL();
  const Index ports = size_ - inner_;
  lower_ports_ = Eigen::MatrixXd::Zero(ports, ports);
  for (Index c = inner_; c < size_; ++c)
    for (Sparse::InnerIterator it(lower_, c); it; ++it)
      lower_ports_(it.row() - inner_, c - inner_) = it.value();
}

Eigen::VectorXd Plate::permuted(const Reading& reading) const {
  Eigen::VectorXd v = Eigen::VectorXd::Zero(size_);
  for (const Reading::Term& t : reading.terms)
    if (place_[t.freedom] != kHeld) v(place_[t.freedom]) += t.factor;
  return v;
}

Eigen::MatrixXd Plate::compliance(const std::vector<Reading>& readings) const {
  const auto n = static_cast<Index>(readings.size());
  const Index ports = size_ - inner_;
  // Z = L^-1 b: of a reading at the ports only the last rows are not zero.
  Eigen::MatrixXd last = Eigen::MatrixXd::Zero(ports, n);
  std::vector<Index> inside; // readings that touch other freedoms
  for (Index k = 0; k < n; ++k) {
    bool within = true;
    for (const Reading::Term& t : readings[static_cast<std::size_t>(k)].terms) {
      const Index place = place_[t.freedom];
      if (place == kHeld) continue;
      if (place < inner_)
        within = false;
      else
        last(place - inner_, k) += t.factor;
    }
    if (!within) inside.push_back(k);
  }
  solve_lower(lower_ports_, last);
  Eigen::MatrixXd first(inner_, static_cast<Index>(inside.size()));
  for (std::size_t i = 0; i < inside.size(); ++i) {
    Eigen::VectorXd z = permuted(readings[static_cast<std::size_t>(inside[i])]);
    lower_.triangularView<Eigen::Lower>().solveInPlace(z);
    first.col(static_cast<Index>(i)) = z.head(inner_);
    last.col(inside[i]) = z.tail(ports);
  }
  Eigen::MatrixXd c = Eigen::MatrixXd::Zero(n, n);
  add_square(c, last, 1.0);
  Eigen::MatrixXd within = Eigen::MatrixXd::Zero(first.cols(), first.cols());
  add_square(within, first, 1.0);
  for (std::size_t i = 0; i < inside.size(); ++i)
    for (std::size_t j = 0; j < inside.size(); ++j)
      c(inside[i], inside[j]) += within(static_cast<Index>(i), static_cast<Index>(j));
  return c;
}

Eigen::MatrixXd Plate::rigid(const std::vector<Reading>& readings) const {
  Eigen::MatrixXd r = Eigen::MatrixXd::Zero(static_cast<Index>(readings.size()), 6);
  for (std::size_t k = 0; k < readings.size(); ++k)
    for (const Reading::Term& t : readings[k].terms) {
      const Vec2 p = mesh_.nodes[t.freedom / kNodeFreedoms];
      const auto row = static_cast<Index>(k);
      switch (t.freedom % kNodeFreedoms) {
      case 0: // u = -y rz
        r(row, 0) += t.factor;
        r(row, 5) -= t.factor * p.y;
        break;
      case 1: // v = x rz
        r(row, 1) += t.factor;
        r(row, 5) += t.factor * p.x;
        break;
      case 2: // w = y rx - x ry
        r(row, 2) += t.factor;
        r(row, 3) += t.factor * p.y;
        r(row, 4) -= t.factor * p.x;
        break;
      case 3:
        r(row, 3) += t.factor;
        break;
      case 4:
        r(row, 4) += t.factor;
        break;
      default:
        r(row, 5) += t.factor;
        break;
      }
    }
  return r;
}

} // namespace tacksquare::shell
