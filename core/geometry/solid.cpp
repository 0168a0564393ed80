#include "geometry/solid.h"

#include <algorithm>
#include <boost/geometry/algorithms/intersects.hpp>
#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point.hpp>
#include <boost/geometry/index/rtree.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace tacksquare {
namespace {

namespace bg = boost::geometry;
using Corner = bg::model::point<double, 3, bg::cs::cartesian>;
using Bounds = bg::model::box<Corner>;
using Entry = std::pair<Bounds, std::size_t>;

constexpr double kParallel = 1e-6; // sine: edges this close to parallel give no direction of their own

// The least overlap of the 15 directions, or the first one found that is not over enough_mm.
double least_overlap(const Solid& a, const Solid& b, double enough_mm) {
  const Vec3 apart = b.centre - a.centre;
  double least = std::numeric_limits<double>::infinity();
  const auto try_along = [&](Vec3 direction) {
    least = std::min(least,
                     half_along(a, direction) + half_along(b, direction) - std::abs(dot(apart, direction)));
    return least <= enough_mm;
  };
  for (const Solid* s : {&a, &b})
    for (const Vec3 axis : s->axes)
      if (try_along(axis)) return least;
  for (const Vec3 u : a.axes)
    for (const Vec3 v : b.axes) {
      const Vec3 square = cross(u, v);
      const double sine = norm(square);
      if (sine > kParallel && try_along(square * (1.0 / sine))) return least;
    }
  return least;
}

Bounds bounds_of(const Solid& s) {
  const Vec3 half{half_along(s, {1, 0, 0}), half_along(s, {0, 1, 0}), half_along(s, {0, 0, 1})};
  const Vec3 low = s.centre - half, high = s.centre + half;
  return {Corner(low.x, low.y, low.z), Corner(high.x, high.y, high.z)};
}

} // namespace

std::array<Vec3, 8> corners(const Solid& s) {
  std::array<Vec3, 8> all;
  for (std::size_t c = 0; c < 8; ++c) {
    all[c] = s.centre;
    for (std::size_t i = 0; i < 3; ++i)
      all[c] = all[c] + s.axes[i] * ((c >> i & 1U) != 0 ? s.half_mm[i] : -s.half_mm[i]);
  }
  return all;
}

double half_along(const Solid& s, Vec3 direction) {
  double half = 0.0;
  for (std::size_t i = 0; i < 3; ++i)
    half += s.half_mm[i] * std::abs(dot(s.axes[i], direction));
  return half;
}

double depth(const Solid& a, const Solid& b) {
  return least_overlap(a, b, -std::numeric_limits<double>::infinity());
}

bool overlap(const Solid& a, const Solid& b, double slack_mm) {
  return least_overlap(a, b, slack_mm) > slack_mm;
}

struct SolidIndex::Tree {
  std::vector<Solid> solids;
  bg::index::rtree<Entry, bg::index::quadratic<16>> bounds;
};

SolidIndex::SolidIndex(std::vector<Solid> solids) {
  std::vector<Entry> entries;
  for (std::size_t i = 0; i < solids.size(); ++i)
    entries.emplace_back(bounds_of(solids[i]), i);
  tree_ = std::make_shared<const Tree>(Tree{std::move(solids), {entries.begin(), entries.end()}});
}

std::vector<std::size_t> SolidIndex::overlapping(const Solid& s, double slack_mm) const {
  std::vector<Entry> near;
  tree_->bounds.query(bg::index::intersects(bounds_of(s)), std::back_inserter(near));
  std::vector<std::size_t> found;
  for (const Entry& entry : near)
    if (overlap(s, tree_->solids[entry.second], slack_mm)) found.push_back(entry.second);
  std::sort(found.begin(), found.end());
  return found;
}

Solid footprint(Vec3 at, Vec3 outward, Vec3 along, double foot_mm, double standing_mm) {
  const double half = 0.5 * foot_mm;
  return {at + outward * (0.5 * standing_mm),
          {along, cross(outward, along), outward},
          {half, half, 0.5 * standing_mm}};
}

Solid stop_solid(Vec3 at, Vec3 towards, double foot_mm, double height_mm) {
  return footprint(Vec3{at.x, at.y, 0.0} - towards * (0.5 * foot_mm), {0, 0, 1}, towards, foot_mm, height_mm);
}

Solid bar_solid(Vec3 a, Vec3 b, double width_mm, Vec3 side) {
  const Vec3 along = unit(b - a), over = unit(cross(along, side));
  return {
      (a + b) * 0.5, {along, cross(over, along), over}, {0.5 * norm(b - a), 0.5 * width_mm, 0.5 * width_mm}};
}

} // namespace tacksquare
