#include "physics/shell/mesh.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare::shell {
namespace {

constexpr double kOnLine_mm = 1e-6;
constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

} // namespace

std::vector<ChainNode> nodes_along(const PlateMesh& mesh, Vec2 a, Vec2 b) {
  const double length_mm = norm(b - a);
  if (!(length_mm > kOnLine_mm)) return {};
  const Vec2 along = (b - a) * (1.0 / length_mm);

  std::vector<ChainNode> line;
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i) {
    const Vec2 from_a = mesh.nodes[i] - a;
    if (std::abs(cross(along, from_a)) <= kOnLine_mm) line.push_back({i, dot(along, from_a)});
  }
  std::sort(line.begin(), line.end(),
            [](const ChainNode& p, const ChainNode& q) { return p.at_mm < q.at_mm; });

  // The last node not after a, the first not before b.
  const auto after_a = std::partition_point(line.begin(), line.end(),
                                            [](const ChainNode& n) { return n.at_mm <= kOnLine_mm; });
  const auto last = std::partition_point(
      line.begin(), line.end(), [&](const ChainNode& n) { return n.at_mm < length_mm - kOnLine_mm; });
  if (after_a == line.begin() || last == line.end()) return {};
  std::vector<ChainNode> chain(after_a - 1, last + 1);

  std::vector<std::size_t> place(mesh.nodes.size(), kNone);
  for (std::size_t k = 0; k < chain.size(); ++k)
    place[chain[k].node] = k;
  std::vector<bool> joined(chain.size(), false); // [k]: an edge from k to k + 1
  for (const Cell& cell : mesh.cells)
    for (std::size_t c = 0; c < cell.corners; ++c) {
      const std::size_t p = place[cell.node[c]], q = place[cell.node[(c + 1) % cell.corners]];
      if (p == kNone || q == kNone) continue;
      if (std::max(p, q) - std::min(p, q) == 1) joined[std::min(p, q)] = true;
    }
  for (std::size_t k = 0; k + 1 < chain.size(); ++k)
    if (!joined[k]) return {};
  return chain;
}

} // namespace tacksquare::shell
