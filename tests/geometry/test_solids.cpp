// Blocks that overlap, against CGAL's exact distance of polytopes.
#include "base/random.h"
#include "blocks.h"
#include "cgal_distance.h"
#include "support/catch.h"
#include "support/repeat.h"

#include <cmath>
#include <string>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

double apart_by_cgal(const Solid& a, const Solid& b) {
  const auto p = corners(a), q = corners(b);
  return test::apart_by_cgal({p.begin(), p.end()}, {q.begin(), q.end()});
}

Solid block_at(Vec3 centre, Vec3 half) {
  Solid s;
  s.centre = centre;
  s.half_mm = {half.x, half.y, half.z};
  return s;
}

} // namespace

TEST_CASE("blocks overlap where CGAL finds no distance between them, and only there") {
  const std::uint64_t seed = 20270331;
  INFO("seed " << seed);
  Random random(seed);
  int apart = 0, overlapping = 0;
  for (int pair = 0; pair < times(2000, 160); ++pair) {
    Solid a = any_block(random, 60.0), b = any_block(random, 60.0);
    if (pair % 4 == 1) b.axes = a.axes;       // parallel
    if (pair % 4 == 2) b.axes[2] = a.axes[2]; // one axis in common
    if (pair % 4 == 2) b.axes[0] = unit(cross(b.axes[1], b.axes[2]));
    if (pair % 4 == 2) b.axes[1] = cross(b.axes[2], b.axes[0]);
    if (pair % 8 == 3) b.half_mm = {b.half_mm[0], 1.0, 1.0}; // long and thin: edge against edge
    if (pair % 8 == 3) a.half_mm = {1.0, a.half_mm[1], 1.0};
    const double gap = apart_by_cgal(a, b), into = depth(a, b);
    INFO("pair " << pair << ", apart " << gap << ", depth " << into);
    if (std::abs(into) < 1e-9) continue; // rounded corners may touch or not
    CHECK(overlap(a, b, 0.0) == (gap == 0.0));
    CHECK(overlap(b, a, 0.0) == (gap == 0.0));
    CHECK(-into <= gap + 1e-9); // never said to be further apart than they are
    ++(gap > 0.0 ? apart : overlapping);
  }
  CHECK(apart > times(400, 20));
  CHECK(overlapping > times(400, 20));
}

TEST_CASE("the depth is the shortest push that parts two blocks, by CGAL's distance") {
  const std::uint64_t seed = 42;
  INFO("seed " << seed);
  Random random(seed);
  int pairs = 0;
  while (pairs < times(25, 4)) {
    const Solid a = any_block(random, 40.0), b = any_block(random, 40.0);
    const double into = depth(a, b);
    if (into < 0.01) continue;
    ++pairs;
    INFO("pair " << pairs << ", depth " << into);
    for (int way = 0; way < 12; ++way) { // no shorter push parts them
      Solid pushed = b;
      pushed.centre = b.centre + any_direction(random) * (into * 0.999);
      CHECK(apart_by_cgal(a, pushed) == 0.0);
    }
    bool parted = false; // along one of the 15 directions a push of that length does
    for (const Vec3 u : directions(a, b))
      for (const double sense : {-1.0, 1.0}) {
        Solid pushed = b;
        pushed.centre = b.centre + u * (sense * into * 1.001);
        parted = parted || apart_by_cgal(a, pushed) > 0.0;
      }
    CHECK(parted);
  }
}

TEST_CASE("blocks that only touch within the slack do not overlap") {
  const Solid a = block_at({0, 0, 0}, {10, 10, 10});
  CHECK_FALSE(overlap(a, block_at({20, 0, 0}, {10, 10, 10}), 0.0));
  CHECK(overlap(a, block_at({19.9, 0, 0}, {10, 10, 10}), 0.0));
  CHECK_FALSE(overlap(a, block_at({19.9, 0, 0}, {10, 10, 10}), 0.11));
  CHECK(depth(a, block_at({19.9, 5, 0}, {10, 10, 10})) == Approx(0.1));
  CHECK(depth(a, block_at({25, 0, 0}, {10, 10, 10})) == Approx(-5.0));
  // On its edge: half a diagonal of 14.142 reaches towards the first.
  Solid turned = block_at({24.0, 0, 0}, {10, 10, 10});
  const double h = std::sqrt(0.5);
  turned.axes = {Vec3{h, h, 0}, Vec3{-h, h, 0}, Vec3{0, 0, 1}};
  CHECK(depth(a, turned) == Approx(10.0 + std::sqrt(200.0) - 24.0));
}

TEST_CASE("two bars that cross are parted only by what is square to both") {
  // Diagonals of a cube's opposite faces, 100 long, 1 thick, 2 apart: all six face normals see an overlap.
  const double h = std::sqrt(0.5);
  Solid a = block_at({0, 0, 0}, {50, 0.5, 0.5}), b = block_at({0, 0, 2.0}, {50, 0.5, 0.5});
  a.axes = {Vec3{h, h, 0}, Vec3{-0.5, 0.5, h}, Vec3{0.5, -0.5, h}};
  b.axes = {Vec3{h, -h, 0}, Vec3{0.5, 0.5, h}, Vec3{-0.5, -0.5, h}};
  for (const Solid* s : {&a, &b})
    for (const Vec3 u : s->axes)
      CHECK(std::abs(dot(b.centre - a.centre, u)) < spread(a, u) + spread(b, u));
  CHECK_FALSE(overlap(a, b, 0.0));
  CHECK(depth(a, b) == Approx(2.0 * std::sqrt(0.5) - 2.0));
}

TEST_CASE("a block of no size is a point, one of one size a straight piece") {
  const Solid a = block_at({0, 0, 0}, {30, 20, 10});
  CHECK(depth(a, block_at({25, 0, 0}, {})) == Approx(5.0)); // to the nearest face
  CHECK_FALSE(overlap(a, block_at({25, 0, 10.5}, {}), 0.0));
  CHECK(overlap(a, block_at({0, 0, 0}, {0, 0, 500}), 0.0)); // pierced
  CHECK_FALSE(overlap(a, block_at({31, 0, 0}, {0, 0, 500}), 0.0));
}

TEST_CASE("the index finds what looking at each block finds, in order") {
  const std::uint64_t seed = 7;
  INFO("seed " << seed);
  Random random(seed);
  std::vector<Solid> solids;
  for (int i = 0; i < 600; ++i)
    solids.push_back(any_block(random, 400.0));
  const SolidIndex index(solids);
  std::size_t found = 0;
  for (int i = 0; i < 300; ++i) {
    const Solid s = any_block(random, 400.0);
    for (const double slack_mm : {0.0, 3.0}) {
      std::vector<std::size_t> each;
      for (std::size_t k = 0; k < solids.size(); ++k)
        if (overlap(s, solids[k], slack_mm)) each.push_back(k);
      CHECK(index.overlapping(s, slack_mm) == each);
      found += each.size();
    }
  }
  CHECK(found > 600);
  CHECK(SolidIndex({}).overlapping(solids[0], 0.0).empty());
}

TEST_CASE("a foot stands on its surface, a stop behind its point on the table, a bar from end to end") {
  const Solid foot = footprint({100, 50, 20}, {0, 0, 1}, {1, 0, 0}, 30.0, 40.0);
  CHECK(bounds(foot) == std::string("85 35 20 to 115 65 60"));
  const Solid on_wall = footprint({0, 50, 20}, {-1, 0, 0}, {0, 1, 0}, 30.0, 40.0);
  CHECK(bounds(on_wall) == std::string("-40 35 5 to 0 65 35"));
  CHECK(bounds(stop_solid({0, 50, 15}, {1, 0, 0}, 30.0, 25.0)) == std::string("-30 35 0 to 0 65 25"));
  CHECK(bounds(stop_solid({100, 0, 15}, {0, 1, 0}, 30.0, 25.0)) == std::string("85 -30 0 to 115 0 25"));
  CHECK(bounds(bar_solid({0, 0, 5}, {400, 0, 5}, 10.0, {0, 0.6, 0.8})) !=
        bounds(bar_solid({0, 0, 5}, {400, 0, 5}, 10.0, {0, 0, 1})));
  CHECK(bounds(bar_solid({0, 0, 5}, {400, 0, 5}, 10.0, {1, 0, 1})) == std::string("0 -5 0 to 400 5 10"));
}
