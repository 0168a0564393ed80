#include "boxes.h"
#include "geometry/segments.h"

#include <random>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

double sampled(const Segment& a, const Segment& b, int n) {
  double best = 1e300;
  for (int i = 0; i <= n; ++i) {
    const Vec3 p = a.start + (a.end - a.start) * (static_cast<double>(i) / n);
    best = std::min(best, distance(b, p));
  }
  return best;
}

} // namespace

TEST_CASE("the distance of two pieces equals the nearest of many sampled points") {
  const unsigned seed = 20240611;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto coordinate = [&] { return static_cast<double>(random() % 2001) / 10.0 - 100.0; };
  const auto point = [&] { return Vec3{coordinate(), coordinate(), coordinate()}; };
  for (int round = 0; round < 300; ++round) {
    Segment a{point(), point()}, b{point(), point()};
    if (round % 5 == 1) b.end = b.start + (a.end - a.start) * 0.5;       // parallel
    if (round % 5 == 2) b.start = a.start + (a.end - a.start) * 0.25;    // touching
    if (round % 5 == 3) b.end = b.start;                                 // a point
    if (round % 5 == 4) a.end.z = a.start.z = b.start.z = b.end.z = 7.0; // one plane
    const int n = 4000;
    const double brute = sampled(a, b, n), exact = nearest(a, b).distance_mm;
    CHECK(exact <= brute + 1e-9);
    CHECK(exact >= brute - length(a) / n);
    CHECK(nearest(b, a).distance_mm == Approx(exact).margin(1e-9));
    const Nearest where = nearest(a, b);
    CHECK(distance(a, where.on_a) == Approx(0.0).margin(1e-9));
    CHECK(distance(b, where.on_b) == Approx(0.0).margin(1e-9));
  }
}

TEST_CASE("known distances") {
  CHECK(nearest({{0, 0, 0}, {10, 0, 0}}, {{5, -5, 3}, {5, 5, 3}}).distance_mm == Approx(3.0));
  CHECK(nearest({{0, 0, 0}, {10, 0, 0}}, {{13, 4, 0}, {20, 4, 0}}).distance_mm == Approx(5.0));
  CHECK(nearest({{0, 0, 0}, {0, 0, 0}}, {{3, 4, 12}, {3, 4, 12}}).distance_mm == Approx(13.0));
}

TEST_CASE("two edges run along each other only when near and parallel") {
  const Segment edge{{0, 0, 0}, {100, 0, 0}};
  const auto part = common_part(edge, {{20, 1, 0}, {200, 1, 0}}, 1.5);
  REQUIRE(part);
  CHECK(part->first == Approx(0.2));
  CHECK(part->second == Approx(1.0));
  CHECK_FALSE(common_part(edge, {{20, 2, 0}, {200, 2, 0}}, 1.5));
  CHECK_FALSE(common_part(edge, {{0, 0, 0}, {100, 5, 0}}, 1.5));
  CHECK_FALSE(common_part(edge, {{120, 0, 0}, {200, 0, 0}}, 1.5));
}

TEST_CASE("what is not covered is what is left") {
  using Pieces = std::vector<std::pair<double, double>>;
  CHECK(uncovered({}) == Pieces{{0.0, 1.0}});
  CHECK(uncovered({{0.5, 1.0}, {0.0, 0.6}}).empty());
  CHECK(uncovered({{0.25, 0.5}}) == Pieces{{0.0, 0.25}, {0.5, 1.0}});
}
