#include "geometry/parts_of_resolve.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

constexpr double kInPlane_mm = 0.5;
constexpr double kDeep = 5.0; // a box reaches at least this many thicknesses behind its rim

double reach(const std::vector<Panel>& panels, Vec3 n, bool furthest) {
  double most = 0.0;
  bool first = true;
  for (const Panel& p : panels) {
    if (!p.welded()) continue;
    for (const Vec3 q : p.ring) {
      const double d = dot(q, n);
      if (first || (furthest ? d > most : d < most)) most = d;
      first = false;
    }
  }
  return most;
}

// Chains edges end to end from the first one; empty when they do not come back to its start.
std::vector<Vec3> loop_from(std::vector<Segment> edges, double gap_mm) {
  std::vector<Vec3> corners{edges.front().start};
  Vec3 at = edges.front().end;
  edges.erase(edges.begin());
  for (;;) {
    if (norm(at - corners.front()) <= gap_mm && corners.size() >= 3) return corners;
    const auto next = std::find_if(edges.begin(), edges.end(), [&](const Segment& e) {
      return std::min(norm(e.start - at), norm(e.end - at)) <= gap_mm;
    });
    if (next == edges.end()) return {};
    const bool forward = norm(next->start - at) <= norm(next->end - at);
    corners.push_back(((forward ? next->start : next->end) + at) * 0.5);
    at = forward ? next->end : next->start;
    edges.erase(next);
  }
}

double perimeter(const std::vector<Vec3>& loop) {
  double sum = 0.0;
  for (std::size_t i = 0; i < loop.size(); ++i)
    sum += norm(loop[(i + 1) % loop.size()] - loop[i]);
  return sum;
}

} // namespace

std::optional<Opening> find_opening(const std::vector<Panel>& panels, const std::vector<FreeEdge>& free) {
  std::optional<Opening> best;
  double best_mm = 0.0;
  for (std::size_t i = 0; i < free.size(); ++i)
    for (std::size_t j = i + 1; j < free.size(); ++j) {
      const Vec3 di = unit(free[i].line.end - free[i].line.start),
                 dj = unit(free[j].line.end - free[j].line.start);
      if (norm(cross(di, dj)) < 0.1) continue;
      const double t = std::max(panels[free[i].face].t_mm, panels[free[j].face].t_mm);
      for (const Vec3 n : {unit(cross(di, dj)), unit(cross(dj, di))}) {
        const double plane = dot(free[i].line.start, n);
        if (reach(panels, n, true) > plane + kInPlane_mm || reach(panels, n, false) > plane - kDeep * t)
          continue;
        // Edges of this plane, beginning with i, which is in the loop if there is one.
        std::vector<Segment> in_plane;
        for (std::size_t k = i; k < free.size(); ++k) {
          const Segment& e = free[k].line;
          if (std::min(dot(e.start, n), dot(e.end, n)) > plane - kInPlane_mm) in_plane.push_back(e);
        }
        std::vector<Vec3> loop = loop_from(std::move(in_plane), 2.0 * t + kInPlane_mm);
        if (loop.empty() || perimeter(loop) < best_mm + 1e-6) continue;
        best_mm = perimeter(loop);
        best = Opening{plain(n), std::move(loop)};
      }
    }
  return best;
}

} // namespace tacksquare
