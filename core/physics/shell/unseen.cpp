// What gives inside the elements beside a short load on an edge: docs/theory.md, "Beside a tack".
#include "base/units.h"
#include "physics/shell/cells.h"
#include "physics/shell/plate.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace tacksquare::shell {

namespace {

// A unit load on one node of a line moves that node by c (K - ln size + self), its neighbour by c (K - ln
// distance + next), any other by c (K - ln distance): c by `Singular`, K is the plate's.
struct Near {
  double self, next;
};
struct OfElements {
  Near along, across, turn;
};
// Measured on large plates, nu 0.3; held by tests/elastic/unseen_test.cpp.
constexpr OfElements kQuadsEdge{{1.797, 0.022}, {2.234, -0.172}, {2.874, -0.495}};
constexpr OfElements kQuadsInside{{1.931, -0.012}, {2.414, -0.238}, {3.452, -0.792}};
constexpr OfElements kTrianglesEdge{{1.732, -0.012}, {1.620, 0.042}, {2.043, -0.095}};
constexpr OfElements kTrianglesInside{{1.244, -0.035}, {1.639, 0.042}, {2.389, -0.199}};

// What moves by c ln(1/distance) under a unit load.
struct Singular {
  double plane, turn;
};
Singular singular(const PlateProperties& p, bool inside) {
  const double Et = p.E_mpa * p.t_mm, D = Et * p.t_mm * p.t_mm / (12.0 * (1.0 - p.nu * p.nu));
  return inside ? Singular{(3.0 - p.nu) * (1.0 + p.nu) / (4.0 * kPi * Et), 1.0 / (4.0 * kPi * D)}
                : Singular{2.0 / (kPi * Et), 2.0 / (kPi * D * (1.0 - p.nu) * (3.0 + p.nu))};
}

// What a part moves in truth by a load on it, in parts of c without K: -ln |x - y| over x and y within its
// length, weighted as the load is. Of the mean: 3/2 - ln length; of the slope, 12 x/length^3 about its
// middle: 9/length^2.
double truth_of(Weight weight, double length) {
  return weight == Weight::mean ? 1.5 - std::log(length) : 9.0 / (length * length);
}
// By the mirror image of the load: -ln (x + y) over x and y from a to b, a >= 0.
double mirrored_truth_of(Weight weight, double a, double b) {
  const double length = b - a;
  if (weight == Weight::mean) {
    const auto twice = [](double x) { return x > 0.0 ? 0.5 * x * x * (std::log(x) - 1.5) : 0.0; };
    return -(twice(2.0 * b) - 2.0 * twice(a + b) + twice(2.0 * a)) / (length * length);
  }
  // Over p = x + y - (a + b), what x y about the middle comes to for that sum.
  constexpr int kSteps = 64;
  double sum = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const double p = length * (2.0 * (i + 0.5) / kSteps - 1.0), rest = length - std::abs(p);
    sum -= std::log(a + b + p) * (p * p * rest / 4.0 - rest * rest * rest / 12.0);
  }
  return sum * 2.0 * length / kSteps * 144.0 / std::pow(length, 6);
}

// The line ends there because the plate does: at its outline, and no edge of it goes on straight.
bool ends_plate(const PlateMesh& mesh, std::size_t end, Vec2 outward) {
  constexpr double kOn_mm = 1e-6;
  std::set<std::size_t> neighbours;
  std::size_t cells = 0;
  for (const Cell& cell : mesh.cells)
    for (std::size_t i = 0; i < cell.corners; ++i) {
      if (cell.node[i] != end) continue;
      ++cells;
      neighbours.insert(cell.node[(i + 1) % cell.corners]);
      neighbours.insert(cell.node[(i + cell.corners - 1) % cell.corners]);
    }
  const bool goes_on = std::any_of(neighbours.begin(), neighbours.end(), [&](std::size_t n) {
    const Vec2 d = mesh.nodes[n] - mesh.nodes[end];
    return dot(d, outward) > kOn_mm && std::abs(cross(d, outward)) < kOn_mm;
  });
  return neighbours.size() > cells && !goes_on;
}

// A part of a chain as its nodes share it.
class Part {
 public:
  Part(const Chain& chain, double from, double to, Weight weight)
      : nodes_(chain.nodes), from_(from), to_(to), weight_(weight) {
    const double length = to - from, middle = 0.5 * (from + to);
    share_.assign(nodes_.size(), 0.0);
    for (std::size_t i = 0; i + 1 < nodes_.size(); ++i) {
      const double a = nodes_[i].at_mm, b = nodes_[i + 1].at_mm;
      const double low = std::max(from, a), high = std::min(to, b);
      if (high <= low) continue;
      const double covered = (high - low) / length, half = 0.5 * (low + high), second = (half - a) / (b - a);
      if (weight == Weight::mean) {
        share_[i] += covered * (1.0 - second);
        share_[i + 1] += covered * second;
      } else {
        const double lever = 12.0 * (half - middle) / (length * length),
                     spread = covered * (high - low) * (high - low) / (length * length) / (b - a);
        share_[i] += covered * lever * (1.0 - second) - spread;
        share_[i + 1] += covered * lever * second + spread;
      }
    }
  }

  // What the part moves in truth and what the nodes say, in parts of c. At a corner a mirror image stands for
  // what lies beyond it.
  double beyond(const Near& near, bool mirror_start, bool mirror_end) const {
    const double begin = nodes_.front().at_mm, end = nodes_.back().at_mm;
    double truth = truth_of(weight_, to_ - from_), seen = 0.0;
    if (mirror_start) truth += mirrored_truth_of(weight_, std::max(0.0, from_ - begin), to_ - begin);
    if (mirror_end) truth += mirrored_truth_of(weight_, std::max(0.0, end - to_), end - from_);
    const std::size_t last = nodes_.size() - 1;
    for (std::size_t i = 0; i <= last; ++i)
      for (std::size_t j = 0; j <= last; ++j) {
        if (share_[i] == 0.0 || share_[j] == 0.0) continue;
        const double x = nodes_[i].at_mm, y = nodes_[j].at_mm;
        double moved = answer(near, i, i > j ? i - j : j - i, std::abs(x - y));
        if (mirror_start) moved += answer(near, i, i + j, x + y - 2.0 * begin);
        if (mirror_end) moved += answer(near, i, 2 * last - i - j, 2.0 * end - x - y);
        seen += share_[i] * share_[j] * moved;
      }
    return std::max(0.0, truth - seen);
  }

 private:
  double answer(const Near& near, std::size_t node, std::size_t apart, double distance) const {
    if (apart == 0) return near.self - std::log(size(node));
    return (apart == 1 ? near.next : 0.0) - std::log(distance);
  }
  double size(std::size_t node) const {
    const std::size_t a = node == 0 ? 0 : node - 1, b = std::min(node + 1, nodes_.size() - 1);
    return (nodes_[b].at_mm - nodes_[a].at_mm) / static_cast<double>(b - a);
  }

  const std::vector<ChainNode>& nodes_;
  double from_, to_;
  Weight weight_;
  std::vector<double> share_;
};

} // namespace

Unseen Plate::unseen(const Chain& chain, double from_mm, double to_mm) const {
  std::size_t beside = 0, corners = 0;
  for (const Cell& cell : mesh_.cells)
    if (has_node(cell, chain.nodes[0].node) && has_node(cell, chain.nodes[1].node)) {
      ++beside;
      corners += cell.corners;
    }
  const bool inside = beside > 1, quads = corners == 4 * beside;
  const OfElements& near =
      quads ? (inside ? kQuadsInside : kQuadsEdge) : (inside ? kTrianglesInside : kTrianglesEdge);
  const bool start = ends_plate(mesh_, chain.nodes.front().node, chain.along * -1.0),
             end = ends_plate(mesh_, chain.nodes.back().node, chain.along);
  const Part part(chain, from_mm, to_mm, Weight::mean), sloped(chain, from_mm, to_mm, Weight::slope);
  const Singular c = singular(properties_, inside);
  return {c.plane * part.beyond(near.along, start, end), c.plane * part.beyond(near.across, start, end),
          c.turn * part.beyond(near.turn, start, end), c.plane * sloped.beyond(near.across, start, end)};
}

} // namespace tacksquare::shell
