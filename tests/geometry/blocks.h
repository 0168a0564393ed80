// Blocks by chance, and what their corners span.
#pragma once

#include "base/random.h"
#include "geometry/solid.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <string>
#include <vector>

namespace tacksquare::test {

inline Vec3 any_direction(Random& random) {
  for (;;) {
    const Vec3 p{random.uniform(-1, 1), random.uniform(-1, 1), random.uniform(-1, 1)};
    if (norm(p) > 0.1 && norm(p) < 1.0) return unit(p);
  }
}

// Its centre in a cube of the given side, 5 to 30 mm from the centre to each face.
inline Solid any_block(Random& random, double within_mm) {
  const auto coordinate = [&] { return random.uniform(0.0, within_mm); };
  Solid s;
  s.centre = {coordinate(), coordinate(), coordinate()};
  s.axes[0] = any_direction(random);
  s.axes[1] = unit(cross(s.axes[0], any_direction(random)));
  s.axes[2] = cross(s.axes[0], s.axes[1]);
  for (double& half : s.half_mm)
    half = random.uniform(5.0, 30.0);
  return s;
}

// From the centre to the outermost corner.
inline double spread(const Solid& s, Vec3 direction) {
  double most = 0.0;
  for (const Vec3 p : corners(s))
    most = std::max(most, dot(p - s.centre, direction));
  return most;
}

// Face normals of both, and what is square to an edge of each.
inline std::vector<Vec3> directions(const Solid& a, const Solid& b) {
  std::vector<Vec3> all(a.axes.begin(), a.axes.end());
  all.insert(all.end(), b.axes.begin(), b.axes.end());
  for (const Vec3 u : a.axes)
    for (const Vec3 v : b.axes)
      if (norm(cross(u, v)) > 1e-3) all.push_back(unit(cross(u, v)));
  return all;
}

// "x y z to x y z", rounded to 0.001 mm.
inline std::string bounds(const Solid& s) {
  const auto rounded = [](double mm) { return std::round(mm * 1000.0) / 1000.0 + 0.0; };
  const double x = spread(s, {1, 0, 0}), y = spread(s, {0, 1, 0}), z = spread(s, {0, 0, 1});
  const Vec3 c = s.centre;
  return fmt::format("{} {} {} to {} {} {}", rounded(c.x - x), rounded(c.y - y), rounded(c.z - z),
                     rounded(c.x + x), rounded(c.y + y), rounded(c.z + z));
}

} // namespace tacksquare::test
