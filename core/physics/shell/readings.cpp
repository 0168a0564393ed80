#include "base/diagnostic.h"
#include "physics/shell/cells.h"
#include "physics/shell/plate.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace tacksquare::shell {

namespace {

constexpr std::size_t kW = 2, kRx = 3, kRy = 4, kRz = 5;

std::size_t freedom(std::size_t node, std::size_t which) {
  return node * kNodeFreedoms + which;
}

// Three points and weights of Gauss on 0..1: exact to the fifth power, and w (third) times a slope is the
// fourth.
constexpr std::array<std::pair<double, double>, 3> kGauss = {
    {{0.1127016653792583, 5.0 / 18.0}, {0.5, 8.0 / 18.0}, {0.8872983346207417, 5.0 / 18.0}}};

// Weights of displacement at a place of an edge, before they are summed up.
struct Edge {
  const ChainNode& a;
  const ChainNode& b;
  double length() const { return b.at_mm - a.at_mm; }
};

// Adds factor * (displacement at s along `direction`). Along an edge u and v are linear, w is the cubic of
// its ends' w and slopes; along the edge the slope is dw/ds = t.x dw/dx + t.y dw/dy = t.y rx - t.x ry.
void add_displacement(Reading& to, const Edge& e, Vec2 t, double s, Vec3 direction, double factor) {
  const double l = e.length(), x = (s - e.a.at_mm) / l;
  const std::array<double, 2> linear = {1.0 - x, x};
  const std::array<double, 2> cubic = {1.0 - 3.0 * x * x + 2.0 * x * x * x, 3.0 * x * x - 2.0 * x * x * x};
  const std::array<double, 2> slope = {l * (x - 2.0 * x * x + x * x * x), l * (x * x * x - x * x)};
  for (std::size_t end = 0; end < 2; ++end) {
    const std::size_t node = end == 0 ? e.a.node : e.b.node;
    to.add(freedom(node, 0), factor * direction.x * linear[end]);
    to.add(freedom(node, 1), factor * direction.y * linear[end]);
    to.add(freedom(node, kW), factor * direction.z * cubic[end]);
    to.add(freedom(node, kRx), factor * direction.z * slope[end] * t.y);
    to.add(freedom(node, kRy), -factor * direction.z * slope[end] * t.x);
  }
}

// Calls visit(edge, s, weight) at the Gauss points of from..to; the weights are its length in all.
template <class Visit> void integrate(const Chain& chain, double from, double to, Visit visit) {
  for (std::size_t i = 0; i + 1 < chain.nodes.size(); ++i) {
    const Edge e{chain.nodes[i], chain.nodes[i + 1]};
    const double low = std::max(from, e.a.at_mm), high = std::min(to, e.b.at_mm);
    if (high <= low) continue;
    for (const auto& [at, weight] : kGauss)
      visit(e, low + at * (high - low), weight * (high - low));
  }
}

void check_part(const Chain& chain, double from, double to) {
  constexpr double kSlack_mm = 1e-6;
  if (!(from < to) || chain.nodes.size() < 2 || from < chain.nodes.front().at_mm - kSlack_mm ||
      to > chain.nodes.back().at_mm + kSlack_mm)
    throw InternalError("a part of a line that its plate does not have");
}

// The cell that holds a point, or the nearest, and the weights of its corners there.
struct Place {
  const Cell* cell = nullptr;
  std::array<double, 4> share{};
};

std::array<double, 4> shares(const PlateMesh& mesh, const Cell& cell, Vec2 at) {
  const auto corner = [&](std::size_t i) { return mesh.nodes[cell.node[i]]; };
  std::array<double, 4> share{};
  if (cell.corners == 3) {
    const double whole = cross(corner(1) - corner(0), corner(2) - corner(0));
    for (std::size_t i = 0; i < 3; ++i)
      share[i] = cross(corner((i + 1) % 3) - at, corner((i + 2) % 3) - at) / whole;
    return share;
  }
  constexpr int kSteps = 30;
  double x = 0.0, y = 0.0; // -1..1, by Newton's steps
  for (int step = 0; step < kSteps; ++step) {
    share = {(1 - x) * (1 - y) / 4, (1 + x) * (1 - y) / 4, (1 + x) * (1 + y) / 4, (1 - x) * (1 + y) / 4};
    Vec2 off = at;
    for (std::size_t i = 0; i < 4; ++i)
      off = off - corner(i) * share[i];
    if (dot(off, off) < 1e-24) break;
    const Vec2 px =
        (corner(0) * (y - 1) + corner(1) * (1 - y) + corner(2) * (1 + y) - corner(3) * (1 + y)) * 0.25;
    const Vec2 py =
        (corner(0) * (x - 1) - corner(1) * (1 + x) + corner(2) * (1 + x) + corner(3) * (1 - x)) * 0.25;
    const double det = cross(px, py);
    x += cross(off, py) / det;
    y += cross(px, off) / det;
  }
  return share;
}

Place place_in(const PlateMesh& mesh, Vec2 at) {
  Place best;
  double least = std::numeric_limits<double>::max();
  for (const Cell& cell : mesh.cells) {
    double outside = 0.0; // how far the point lies beyond a side of the cell
    for (std::size_t i = 0; i < cell.corners; ++i) {
      const Vec2 p = mesh.nodes[cell.node[i]], q = mesh.nodes[cell.node[(i + 1) % cell.corners]];
      outside = std::max(outside, -cross(q - p, at - p) / norm(q - p));
    }
    if (outside < least - 1e-9) {
      least = outside;
      best.cell = &cell;
    }
  }
  if (!best.cell) throw InternalError("a plate without elements");
  best.share = shares(mesh, *best.cell, at);
  return best;
}

} // namespace

Chain Plate::chain(Vec2 a, Vec2 b) const {
  Chain made{a, (b - a) * (1.0 / norm(b - a)), nodes_along(mesh_, a, b)};
  if (made.nodes.size() < 2) throw InternalError("a line that no edges of elements follow");
  return made;
}

Reading Plate::displacement(Vec2 at, Vec3 direction) const {
  const Place place = place_in(mesh_, at);
  Reading made;
  for (std::size_t i = 0; i < place.cell->corners; ++i) {
    const std::size_t node = place.cell->node[i];
    const double share = place.share[i];
    made.add(freedom(node, 0), share * direction.x);
    made.add(freedom(node, 1), share * direction.y);
    made.add(freedom(node, kW), share * direction.z);
    // Half of the slope times the way makes a parabola exact.
    const Vec2 way = (at - mesh_.nodes[node]) * 0.5;
    made.add(freedom(node, kRx), share * direction.z * way.y);
    made.add(freedom(node, kRy), -share * direction.z * way.x);
  }
  return made;
}

Reading Plate::mean_displacement(Vec3 direction) const {
  Reading made;
  double area = 0.0;
  for (const Cell& cell : mesh_.cells)
    for (std::size_t third = 2; third < cell.corners; ++third) {
      const std::array<std::size_t, 3> nodes{cell.node[0], cell.node[third - 1], cell.node[third]};
      const Vec2 a = mesh_.nodes[nodes[0]], b = mesh_.nodes[nodes[1]], c = mesh_.nodes[nodes[2]];
      const double here = 0.5 * cross(b - a, c - a);
      area += here;
      for (const std::size_t node : nodes) { // in its middle, as displacement() has it
        const Vec2 way = ((a + b + c) * (1.0 / 3.0) - mesh_.nodes[node]) * 0.5;
        const double share = here / 3.0;
        made.add(freedom(node, 0), share * direction.x);
        made.add(freedom(node, 1), share * direction.y);
        made.add(freedom(node, kW), share * direction.z);
        made.add(freedom(node, kRx), share * direction.z * way.y);
        made.add(freedom(node, kRy), -share * direction.z * way.x);
      }
    }
  for (Reading::Term& term : made.terms)
    term.factor /= area;
  return made;
}

Reading Plate::rotation(Vec2 at, Vec3 axis) const {
  const Place place = place_in(mesh_, at);
  Reading made;
  for (std::size_t i = 0; i < place.cell->corners; ++i) {
    made.add(freedom(place.cell->node[i], kRx), place.share[i] * axis.x);
    made.add(freedom(place.cell->node[i], kRy), place.share[i] * axis.y);
    made.add(freedom(place.cell->node[i], kRz), place.share[i] * axis.z);
  }
  return made;
}

Reading Plate::displacement(const Chain& chain, double from_mm, double to_mm, Vec3 direction, Vec3 arm,
                            Weight weight) const {
  check_part(chain, from_mm, to_mm);
  const double length = to_mm - from_mm, middle = 0.5 * (from_mm + to_mm);
  const Vec2 t = chain.along;
  Reading made;
  integrate(chain, from_mm, to_mm, [&](const Edge& e, double s, double part) {
    const double factor =
        weight == Weight::mean ? part / length : part * (s - middle) * 12.0 / (length * length * length);
    add_displacement(made, e, t, s, direction, factor);
    // Moved by the rotation about the line: r t x arm.
    const Vec3 turned = cross(Vec3{t.x, t.y, 0.0}, arm);
    const double x = (s - e.a.at_mm) / e.length(), moved = factor * dot(turned, direction);
    for (const auto& [node, share] : {std::pair{e.a.node, 1.0 - x}, std::pair{e.b.node, x}}) {
      made.add(freedom(node, kRx), moved * share * t.x);
      made.add(freedom(node, kRy), moved * share * t.y);
    }
  });
  // By the rotations across the line, from the slopes of what is across it: an arm n moves back by dn/ds.
  const double back = dot(direction, Vec3{t.x, t.y, 0.0});
  const Vec3 across = arm - Vec3{t.x, t.y, 0.0} * dot(arm, Vec3{t.x, t.y, 0.0});
  if (weight == Weight::mean && back != 0.0 && norm(across) > 0.0) {
    for (std::size_t i = 0; i + 1 < chain.nodes.size(); ++i) {
      const Edge e{chain.nodes[i], chain.nodes[i + 1]};
      if (e.a.at_mm <= from_mm && from_mm < e.b.at_mm)
        add_displacement(made, e, t, from_mm, across, back / length);
      if (e.a.at_mm < to_mm && to_mm <= e.b.at_mm + 1e-6)
        add_displacement(made, e, t, to_mm, across, -back / length);
    }
  }
  return made;
}

Reading Plate::rotation(const Chain& chain, double from_mm, double to_mm) const {
  check_part(chain, from_mm, to_mm);
  const double length = to_mm - from_mm;
  Reading made;
  integrate(chain, from_mm, to_mm, [&](const Edge& e, double s, double part) {
    const double x = (s - e.a.at_mm) / e.length();
    for (const auto& [node, share] : {std::pair{e.a.node, 1.0 - x}, std::pair{e.b.node, x}}) {
      made.add(freedom(node, kRx), part / length * share * chain.along.x);
      made.add(freedom(node, kRy), part / length * share * chain.along.y);
    }
  });
  return made;
}

Reading Plate::strip(const Chain& chain, double from_mm, double to_mm) const {
  check_part(chain, from_mm, to_mm);
  const Vec2 n{-chain.along.y, chain.along.x};
  const Eigen::Vector3d shrunk(-n.x * n.x, -n.y * n.y, -2.0 * n.x * n.y);
  Reading made;
  for (std::size_t i = 0; i + 1 < chain.nodes.size(); ++i) {
    const ChainNode &a = chain.nodes[i], &b = chain.nodes[i + 1];
    const double covered = std::min(to_mm, b.at_mm) - std::max(from_mm, a.at_mm);
    if (covered <= 0.0) continue;
    std::vector<const Cell*> beside;
    double width = 0.0;
    for (const Cell& cell : mesh_.cells) {
      if (!has_node(cell, a.node) || !has_node(cell, b.node)) continue;
      beside.push_back(&cell);
      width += area_mm2(mesh_, cell) / (b.at_mm - a.at_mm);
    }
    const double share = covered / (b.at_mm - a.at_mm) / width;
    for (const Cell* cell : beside) {
      const Eigen::VectorXd load = strain_load(mesh_, *cell, properties_) * shrunk;
      for (Eigen::Index row = 0; row < load.size(); ++row)
        made.add(freedom(cell->node[static_cast<std::size_t>(row / kNodeFreedoms)],
                         static_cast<std::size_t>(row % kNodeFreedoms)),
                 share * load(row));
    }
  }
  return made;
}

} // namespace tacksquare::shell
