#include "boxes.h"
#include "geometry/polygon.h"

#include <cmath>
#include <random>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// Independent of Boost: the sums over the edges that every surveyor knows.
double shoelace(const Ring& ring) {
  double twice = 0.0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += cross(ring[i], ring[(i + 1) % ring.size()]);
  return 0.5 * twice;
}
Vec2 shoelace_moment(const Ring& ring) { // area by centroid
  Vec2 sum;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    sum = sum + (a + b) * (cross(a, b) / 6.0);
  }
  return sum;
}

Ring star(std::mt19937& random, Vec2 centre, double least, double most) {
  Ring ring;
  const int n = 5 + static_cast<int>(random() % 12);
  for (int i = 0; i < n; ++i) {
    const double r = least + (most - least) * static_cast<double>(random() % 1000) / 1000.0;
    const double angle = 2.0 * kPi * i / n;
    ring.push_back(centre + Vec2{r * std::cos(angle), r * std::sin(angle)});
  }
  return ring;
}

} // namespace

TEST_CASE("areas and centroids equal sums over the edges") {
  const unsigned seed = 77;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 100; ++round) {
    Shape shape{star(random, {50, -20}, 60, 200), {}};
    const Ring hole = star(random, {55, -15}, 5, 25);
    shape.holes = {Ring(hole.rbegin(), hole.rend())}; // either way round
    REQUIRE(ring_fault(shape.outline).empty());
    const double solid = shoelace(shape.outline), empty = shoelace(hole);
    CHECK(signed_area(shape.outline) == Approx(solid));
    CHECK(area(shape) == Approx(solid - empty));
    const Vec2 moment = shoelace_moment(shape.outline) - shoelace_moment(hole);
    const Vec2 c = centroid(shape);
    CHECK(c.x == Approx(moment.x / (solid - empty)));
    CHECK(c.y == Approx(moment.y / (solid - empty)));
  }
}

TEST_CASE("a line lies in a shape piece by piece, holes left out") {
  const Shape shape{{{0, 0}, {100, 0}, {100, 50}, {0, 50}}, {{{40, 10}, {60, 10}, {60, 40}, {40, 40}}}};
  using Pieces = std::vector<std::pair<double, double>>;
  CHECK(pieces_within(shape, {-10, 25}, {110, 25}, 1e-6) == Pieces{{10.0, 50.0}, {70.0, 110.0}});
  CHECK(pieces_within(shape, {-10, 0}, {110, 0}, 1e-6) == Pieces{{10.0, 110.0}});  // along the edge
  CHECK(pieces_within(shape, {-10, -1}, {110, -1}, 1.5) == Pieces{{10.0, 110.0}}); // beside it, with slack
  CHECK(pieces_within(shape, {-10, -1}, {110, -1}, 0.5).empty());
}

TEST_CASE("edges move each by its own setback and meet again") {
  const Ring square{{0, 0}, {100, 0}, {100, 50}, {0, 50}};
  CHECK(edges_moved(square, {1, 2, -3, 4}) == Ring{{4, 1}, {98, 1}, {98, 53}, {4, 53}});
  // A right triangle moved in by 1 all round: the point at the acute corner moves by 1/tan(22.5 deg) along
  // the edge.
  const Ring triangle{{0, 0}, {10, 0}, {0, 10}};
  const Ring inner = edges_moved(triangle, {1, 1, 1});
  CHECK(inner[1].x == Approx(10.0 - 1.0 / std::tan(kPi / 8.0)));
  CHECK(inner[1].y == Approx(1.0));
  // Two edges in one line with different setbacks: a step.
  const Ring split{{0, 0}, {40, 0}, {100, 0}, {100, 50}, {0, 50}};
  CHECK(edges_moved(split, {0, 5, 0, 0, 0}) == Ring{{0, 0}, {40, 0}, {40, 5}, {100, 5}, {100, 50}, {0, 50}});
}

TEST_CASE("within, overlap and hull") {
  const Ring square{{0, 0}, {100, 0}, {100, 100}, {0, 100}};
  CHECK(lies_within({{10, 10}, {20, 10}, {20, 20}}, square));
  CHECK_FALSE(lies_within({{0, 10}, {20, 10}, {20, 20}}, square)); // touches
  CHECK_FALSE(lies_within({{110, 10}, {120, 10}, {120, 20}}, square));
  CHECK(overlap(square, {{90, 90}, {120, 90}, {120, 120}}));
  CHECK_FALSE(overlap(square, {{110, 90}, {120, 90}, {120, 120}}));
  CHECK(common_area(square, {{50, 50}, {150, 50}, {150, 150}, {50, 150}}) == Approx(2500.0));
  CHECK(convex_hull({{0, 0}, {10, 0}, {5, 1}, {10, 10}, {0, 10}}).size() == 4);
  CHECK(convex_hull({{0, 0}, {10, 10}, {5, 5}}).empty());
}

TEST_CASE("sums of polygons have exact corners, in one order, without points in straight edges") {
  const Ring left{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, right{{10, 2}, {20, 2}, {20, 8}, {10, 8}};
  const auto both = united({right, left});
  REQUIRE(both.size() == 1);
  CHECK(both[0].outline == Ring{{0, 0}, {10, 0}, {10, 2}, {20, 2}, {20, 8}, {10, 8}, {10, 10}, {0, 10}});
  CHECK(united({left, {{30, 0}, {40, 0}, {40, 1}}}).size() == 2);
  // A long slanting edge crossed far out: the corner is where the lines cross, not where a grid has it.
  const auto cut =
      less({{{{0, 0}, {3000, 0}, {3000, 1000}}, {}}}, {{{1000, -5}, {1001, -5}, {1001, 2000}, {1000, 2000}}});
  REQUIRE(cut.size() == 2);
  REQUIRE(cut[0].outline.size() == 3);
  CHECK(norm(cut[0].outline[2] - Vec2{1000.0, 1000.0 * 1000.0 / 3000.0}) < 1e-9);
  const auto ring = less({{left, {}}}, {{{4, 4}, {6, 4}, {6, 6}, {4, 6}}});
  REQUIRE(ring.size() == 1);
  CHECK(area(ring[0]) == Approx(96.0));
  CHECK(ring[0].holes == std::vector<Ring>{{{4, 4}, {6, 4}, {6, 6}, {4, 6}}});
}
