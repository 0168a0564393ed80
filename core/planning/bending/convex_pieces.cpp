#include "planning/bending/convex_pieces.h"

#include <algorithm>

namespace tacksquare {

namespace {

constexpr double kSliver = 1e-6; // mm

bool is_convex(const std::vector<Vec2>& outline) {
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = outline[i], b = outline[(i + 1) % n], c = outline[(i + 2) % n];
    if (cross(b - a, c - b) < -kSliver) return false;
  }
  return true;
}

} // namespace

std::vector<std::vector<Vec2>> convex_pieces(const std::vector<Vec2>& outline) {
  if (is_convex(outline)) return {outline};
  const std::size_t n = outline.size();
  const Vec2 along = (outline[1] - outline[0]) * (1.0 / norm(outline[1] - outline[0]));
  const auto place = [&](Vec2 p) { return dot(p, along); };
  std::vector<double> cuts;
  for (const Vec2 p : outline)
    cuts.push_back(place(p));
  std::sort(cuts.begin(), cuts.end());
  std::vector<std::vector<Vec2>> pieces;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    if (cuts[i + 1] - cuts[i] < kSliver) continue;
    // The edges over this strip, from low to high: the first bounds a piece below, the second above.
    struct Edge {
      Vec2 left, right;
    };
    std::vector<Edge> edges;
    for (std::size_t k = 0; k < n; ++k) {
      const Vec2 p = outline[k], q = outline[(k + 1) % n];
      const double from = place(p), to = place(q), middle = 0.5 * (cuts[i] + cuts[i + 1]);
      if ((from < middle) == (to < middle)) continue;
      const auto at = [&](double s) { return p + (q - p) * ((s - from) / (to - from)); };
      edges.push_back({at(cuts[i]), at(cuts[i + 1])});
    }
    const auto height = [&](const Edge& e) { return cross(along, e.left + e.right); };
    std::sort(edges.begin(), edges.end(),
              [&](const Edge& a, const Edge& b) { return height(a) < height(b); });
    for (std::size_t k = 0; k + 1 < edges.size(); k += 2)
      pieces.push_back({edges[k].left, edges[k].right, edges[k + 1].right, edges[k + 1].left});
  }
  return pieces;
}

} // namespace tacksquare
