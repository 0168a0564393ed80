#include "geometry/way_out.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace tacksquare {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kParallel = 1e-6; // sine: edges this close to parallel give no direction of their own
constexpr double kSame_mm = 1e-6;
constexpr double kLeastStep_mm = 0.2; // of the outermost point, while turning
constexpr double kTurn_rad = kPi / 36.0;
constexpr int kTurns = 18;

// A convex piece of a plate.
struct Prism {
  std::size_t face = 0;
  std::vector<Vec3> corners;
  std::vector<Vec3> normals, edges; // unit; of parallel ones each
};

using Edge = std::pair<Vec2, Vec2>; // the lower end first

double x_at(const Edge& e, double y) {
  return e.first.x + (e.second.x - e.first.x) * (y - e.first.y) / (e.second.y - e.first.y);
}

// Cut level at each corner: between two cuts lie trapezoids, metal between the first and the second edge from
// the left, the third and the fourth, and so on.
std::vector<Ring> convex_pieces(const Shape& shape) {
  std::vector<double> cuts;
  std::vector<Edge> edges;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
      cuts.push_back(a.y);
      if (std::abs(b.y - a.y) > kSame_mm) edges.push_back(a.y < b.y ? Edge{a, b} : Edge{b, a});
    }
  };
  add(shape.outline);
  for (const Ring& hole : shape.holes)
    add(hole);
  std::sort(cuts.begin(), cuts.end());
  std::vector<Ring> pieces;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double y0 = cuts[i], y1 = cuts[i + 1], middle = 0.5 * (y0 + y1);
    if (y1 - y0 <= kSame_mm) continue;
    std::vector<Edge> across;
    for (const Edge& e : edges)
      if (e.first.y < middle && e.second.y > middle) across.push_back(e);
    std::sort(across.begin(), across.end(),
              [&](const Edge& a, const Edge& b) { return x_at(a, middle) < x_at(b, middle); });
    for (std::size_t k = 0; k + 1 < across.size(); k += 2)
      pieces.push_back({{x_at(across[k], y0), y0},
                        {x_at(across[k + 1], y0), y0},
                        {x_at(across[k + 1], y1), y1},
                        {x_at(across[k], y1), y1}});
  }
  return pieces;
}

std::vector<Prism> prisms_of(const BoxMetal& metal) {
  std::vector<Prism> prisms;
  for (const Plate& plate : metal.plates) {
    const Vec3 n = plate.placement.normal();
    for (const Ring& ring : convex_pieces(plate.shape)) {
      Prism prism{plate.face, {}, {n}, {n}};
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec3 a = plate.placement.at(ring[i]), b = plate.placement.at(ring[(i + 1) % ring.size()]);
        prism.corners.push_back(a + n * (0.5 * plate.t_mm));
        prism.corners.push_back(a - n * (0.5 * plate.t_mm));
        if (norm(b - a) <= kSame_mm) continue; // a triangle
        prism.edges.push_back(unit(b - a));
        prism.normals.push_back(cross(prism.edges.back(), n));
      }
      prisms.push_back(std::move(prism));
    }
  }
  return prisms;
}

// Calls try_along with each direction that may part the two, until it returns false; then false.
template <class Try> bool all_directions(const Solid& s, const Prism& p, Try try_along) {
  for (const Vec3 axis : s.axes)
    if (!try_along(axis)) return false;
  for (const Vec3 normal : p.normals)
    if (!try_along(normal)) return false;
  for (const Vec3 u : s.axes)
    for (const Vec3 v : p.edges) {
      const Vec3 square = cross(u, v);
      const double sine = norm(square);
      if (sine > kParallel && !try_along(square * (1.0 / sine))) return false;
    }
  return true;
}

// Where the block's centre lies along a direction while both overlap there by more than the slack, from
// where it is now.
std::pair<double, double> overlapping_along(const Solid& s, const Prism& p, Vec3 direction, double slack_mm) {
  double low = kInfinite, high = -kInfinite;
  for (const Vec3 corner : p.corners) {
    const double at = dot(corner - s.centre, direction);
    low = std::min(low, at);
    high = std::max(high, at);
  }
  const double half = half_along(s, direction) - slack_mm;
  return {low - half, high + half};
}

// As `depth` of two blocks.
double depth(const Solid& s, const Prism& p) {
  double least = kInfinite;
  all_directions(s, p, [&](Vec3 direction) {
    const auto [low, high] = overlapping_along(s, p, direction, 0.0);
    least = std::min({least, -low, high});
    return true;
  });
  return least;
}

// How far the block moves until it overlaps by more than the slack.
std::optional<double> meets_after(const Solid& s, const Prism& p, Vec3 way, double slack_mm) {
  double from = 0.0, to = kInfinite;
  const bool meets = all_directions(s, p, [&](Vec3 direction) {
    const auto [low, high] = overlapping_along(s, p, direction, slack_mm);
    const double speed = dot(way, direction);
    if (std::abs(speed) < 1e-12) return low < 0.0 && high > 0.0;
    from = std::max(from, (speed > 0.0 ? low : high) / speed);
    to = std::min(to, (speed > 0.0 ? high : low) / speed);
    return from < to;
  });
  return meets ? std::optional(from) : std::nullopt;
}

std::vector<InTheWay> in_the_way(const std::vector<Prism>& prisms, const std::vector<Solid>& thing, Vec3 way,
                                 double slack_mm) {
  std::vector<InTheWay> found;
  for (const Prism& p : prisms)
    for (const Solid& s : thing) {
      const std::optional<double> after = meets_after(s, p, way, slack_mm);
      if (!after) continue;
      if (found.empty() || found.back().face != p.face) found.push_back({p.face, *after});
      found.back().after_mm = std::min(found.back().after_mm, *after);
    }
  std::stable_sort(found.begin(), found.end(), [](const InTheWay& a, const InTheWay& b) {
    return ticks(a.after_mm) < ticks(b.after_mm);
  });
  return found;
}

Vec3 turned(Vec3 v, Vec3 axis, double rad) { // Rodrigues
  return v * std::cos(rad) + cross(axis, v) * std::sin(rad) + axis * (dot(axis, v) * (1.0 - std::cos(rad)));
}

std::vector<Solid> turned(std::vector<Solid> thing, Vec3 about, Vec3 axis, double rad) {
  for (Solid& s : thing) {
    s.centre = about + turned(s.centre - about, axis, rad);
    for (Vec3& a : s.axes)
      a = turned(a, axis, rad);
  }
  return thing;
}

// The middle of the block round all blocks that lies as the first one.
Vec3 middle_of(const std::vector<Solid>& thing) {
  Vec3 middle;
  for (const Vec3 axis : thing.front().axes) {
    double low = kInfinite, high = -kInfinite;
    for (const Solid& s : thing) {
      low = std::min(low, dot(s.centre, axis) - half_along(s, axis));
      high = std::max(high, dot(s.centre, axis) + half_along(s, axis));
    }
    middle = middle + axis * (0.5 * (low + high));
  }
  return middle;
}

double radius_of(const std::vector<Solid>& thing, Vec3 middle) {
  double most = 0.0;
  for (const Solid& s : thing)
    for (const Vec3 corner : corners(s))
      most = std::max(most, norm(corner - middle));
  return most;
}

double deepest(const std::vector<Prism>& prisms, const std::vector<Solid>& thing) {
  double most = -kInfinite;
  for (const Prism& p : prisms)
    for (const Solid& s : thing)
      most = std::max(most, depth(s, p));
  return most;
}

// The angle after which it comes out straight; nothing: metal stops it, or it never does.
std::optional<double> turn_that_frees(const std::vector<Prism>& prisms, const std::vector<Solid>& thing,
                                      Vec3 axis, Vec3 outward, double slack_mm) {
  const Vec3 middle = middle_of(thing);
  const double radius = radius_of(thing, middle);
  double rad = 0.0;
  for (int turn = 1; turn <= kTurns; ++turn) {
    const double next = kTurn_rad * turn;
    for (;;) {
      const double cut = deepest(prisms, turned(thing, middle, axis, rad));
      if (cut > slack_mm) return std::nullopt;
      if (rad >= next) break;
      rad = std::min(next, rad + std::max(kLeastStep_mm, slack_mm - cut) / radius);
    }
    if (in_the_way(prisms, turned(thing, middle, axis, next), outward, slack_mm).empty()) return next;
  }
  return std::nullopt;
}

} // namespace

std::vector<InTheWay> in_the_way(const BoxMetal& metal, const std::vector<Solid>& thing, Vec3 direction,
                                 double slack_mm) {
  return in_the_way(prisms_of(metal), thing, direction, slack_mm);
}

WayOut way_out(const BoxMetal& metal, const std::vector<Solid>& thing, Vec3 outward, double slack_mm) {
  const std::vector<Prism> prisms = prisms_of(metal);
  WayOut out;
  out.straight_on = in_the_way(prisms, thing, outward, slack_mm);
  if (out.straight_on.empty()) {
    out.way = Way::straight;
    return out;
  }
  const std::vector<InTheWay> behind = in_the_way(prisms, thing, -outward, slack_mm);
  // With nothing behind it, in as far as turning may need.
  const double room_mm =
      behind.empty() ? radius_of(thing, middle_of(thing)) : std::max(0.0, behind.front().after_mm - slack_mm);
  for (int quarter = 0; quarter <= 4; ++quarter) {
    const double pushed_mm = 0.25 * quarter * room_mm;
    if (quarter > 0 && pushed_mm <= 0.0) break;
    std::vector<Solid> pushed = thing;
    for (Solid& s : pushed)
      s.centre = s.centre - outward * pushed_mm;
    for (std::size_t axis = 0; axis < 3; ++axis)
      for (const double sense : {1.0, -1.0}) {
        const Vec3 about = thing.front().axes[axis] * sense;
        const std::optional<double> rad = turn_that_frees(prisms, pushed, about, outward, slack_mm);
        if (!rad) continue;
        out.way = Way::turned;
        out.pushed_mm = pushed_mm;
        out.turned_rad = *rad * sense;
        out.axis = axis;
        return out;
      }
  }
  return out;
}

} // namespace tacksquare
