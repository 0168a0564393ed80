// Ways out of a box: distances against CGAL, formers in boxes with and without lips by hand.
#include "base/random.h"
#include "blocks.h"
#include "boxes.h"
#include "cgal_distance.h"
#include "geometry/way_out.h"
#include "support/repeat.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr double kSlack_mm = 0.5;
const Vec3 kOut{0, -1, 0}; // through the open front

// From low to high, axis-parallel.
Solid block(Vec3 low, Vec3 high) {
  Solid s;
  s.centre = (low + high) * 0.5;
  const Vec3 half = (high - low) * 0.5;
  s.half_mm = {half.x, half.y, half.z};
  return s;
}

// "L 39, R 39", rounded to 0.001 mm.
std::string told(const Case& c, const std::vector<InTheWay>& list) {
  std::string text;
  for (const InTheWay& i : list)
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", c.box.faces[i.face].id,
                        std::round(i.after_mm * 1000.0) / 1000.0);
  return text;
}

// Open in front, 400 wide and high between middle surfaces, 2 mm. Lips of so many mm at the front edges of
// under side and top, and at those of the sides, where wanted.
struct Lips {
  double mm = 0.0;
  bool level = false, upright = false;
};
Case lipped(double depth_mm, Lips lips) {
  Case c;
  c.job.sheets = {sheet("mild-steel", 2.0)};
  c.box.id = "lipped";
  const double d = depth_mm, w = 400.0, l = lips.mm;
  const std::size_t back = add_face(c, "B", {{w, d, 0}, {0, d, 0}, {0, d, w}, {w, d, w}});
  const std::size_t walls[] = {add_face(c, "U", {{0, d, 0}, {w, d, 0}, {w, 0, 0}, {0, 0, 0}}),
                               add_face(c, "R", {{w, 0, 0}, {w, d, 0}, {w, d, w}, {w, 0, w}}),
                               add_face(c, "T", {{0, 0, w}, {w, 0, w}, {w, d, w}, {0, d, w}}),
                               add_face(c, "L", {{0, d, 0}, {0, 0, 0}, {0, 0, w}, {0, d, w}})};
  for (std::size_t i = 0; i < 4; ++i) {
    add_seam(c, back, walls[i]);
    add_seam(c, walls[i], walls[(i + 1) % 4]);
  }
  if (lips.level) {
    add_seam(c, walls[0], add_face(c, "U-lip", {{0, 0, 0}, {w, 0, 0}, {w, 0, l}, {0, 0, l}}));
    add_seam(c, walls[2], add_face(c, "T-lip", {{0, 0, w - l}, {w, 0, w - l}, {w, 0, w}, {0, 0, w}}));
  }
  if (lips.upright) {
    const double from = l + 5.0, to = w - l - 5.0;
    add_seam(c, walls[1], add_face(c, "R-lip", {{w - l, 0, from}, {w, 0, from}, {w, 0, to}, {w - l, 0, to}}));
    add_seam(c, walls[3], add_face(c, "L-lip", {{0, 0, from}, {l, 0, from}, {l, 0, to}, {0, 0, to}}));
  }
  return c;
}

// A frame of four bars, 390 square and 10 thick, 40 mm behind the rim, 5 mm from each wall's middle.
std::vector<Solid> former() {
  return {block({5, 40, 5}, {395, 50, 35}), block({5, 40, 365}, {395, 50, 395}),
          block({5, 40, 35}, {35, 50, 365}), block({365, 40, 35}, {395, 50, 365})};
}

WayOut way_out_of(const Case& c, const std::vector<Solid>& thing) {
  return way_out(metal_of(c.job, c.box, resolved(c)), thing, kOut, kSlack_mm);
}

// A plate without a box round it.
BoxMetal plate_of(const Shape& shape, const Placement& placement, double t_mm) {
  return {{{0, placement, t_mm, shape, {}}}};
}

} // namespace

TEST_CASE("a block meets a plate where CGAL finds that its distance ends") {
  const std::uint64_t seed = 99;
  INFO("seed " << seed);
  Random random(seed);
  // An L and a plate with a square hole, and both cut by hand into rectangles.
  const auto rectangle = [](double x0, double y0, double x1, double y1) {
    return Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
  };
  const std::vector<Shape> shapes{{{{0, 0}, {90, 0}, {90, 30}, {30, 30}, {30, 80}, {0, 80}}, {}},
                                  {rectangle(0, 0, 100, 90), {rectangle(20, 30, 70, 80)}},
                                  {{{0, 0}, {80, 10}, {50, 70}}, {}}};
  const std::vector<std::vector<Ring>> by_hand{{rectangle(0, 0, 90, 30), rectangle(0, 20, 30, 80)},
                                               {rectangle(0, 0, 100, 30), rectangle(0, 80, 100, 90),
                                                rectangle(0, 0, 20, 90), rectangle(70, 0, 100, 90)},
                                               {shapes[2].outline}};
  int met = 0, missed = 0;
  for (int round = 0; round < times(240, 48); ++round) {
    const std::size_t which = static_cast<std::size_t>(round) % 3;
    Placement placement{{random.uniform(-40, 40), random.uniform(-40, 40), random.uniform(-40, 40)},
                        any_direction(random),
                        {}};
    placement.v = unit(cross(placement.u, any_direction(random)));
    const double t_mm = random.uniform(1.0, 6.0);
    Solid s = any_block(random, 60.0);
    for (double& half : s.half_mm)
      half *= 0.5;
    const Vec3 way = any_direction(random);
    s.centre = s.centre - way * 120.0;
    const auto apart = [&](double from_mm, double to_mm) { // of all that it sweeps
      std::vector<Vec3> swept;
      for (const double at : {from_mm, to_mm})
        for (const Vec3 p : corners(s))
          swept.push_back(p + way * at);
      double least = 1e300;
      for (const Ring& ring : by_hand[which]) {
        std::vector<Vec3> piece;
        for (const Vec2 p : ring)
          for (const double side : {-0.5, 0.5})
            piece.push_back(placement.at(p) + placement.normal() * (side * t_mm));
        least = std::min(least, apart_by_cgal(swept, piece));
      }
      return least;
    };
    const auto found = in_the_way(plate_of(shapes[which], placement, t_mm), {s}, way, 0.0);
    INFO("round " << round);
    if (found.empty()) {
      CHECK(apart(0.0, 500.0) > 0.0);
      ++missed;
    } else if (found[0].after_mm > 0.0) {
      REQUIRE(found.size() == 1);
      CHECK(apart(0.0, found[0].after_mm - 1e-6) > 0.0);
      CHECK(apart(0.0, found[0].after_mm + 1e-6) == 0.0);
      ++met;
    }
  }
  CHECK(met > times(50, 5));
  CHECK(missed > times(50, 5));
}

TEST_CASE("what moves straight on meets the nearest wall first, passes a hole, and may touch") {
  Case c = locker(); // 400 wide, 300 deep, 600 high outside, 2 mm
  Face& back = c.box.faces[face_of(c, "B")];
  const Vec2 m = back.placement.local({200, 299, 300});
  back.cutouts.push_back({m + Vec2{-20, -20}, m + Vec2{20, -20}, m + Vec2{20, 20}, m + Vec2{-20, 20}});
  const BoxMetal metal = metal_of(c.job, c.box, resolved(c));
  const auto moved = [&](Vec3 low, Vec3 high, Vec3 way) {
    return told(c, in_the_way(metal, {block(low, high)}, way, kSlack_mm));
  };
  CHECK(moved({50, 40, 50}, {350, 60, 550}, {0, 1, 0}) == "B 238.5"); // the slack deep, as everywhere
  CHECK(moved({50, 40, 50}, {350, 60, 550}, {-1, 0, 0}) == "L 48.5");
  CHECK(moved({50, 40, 50}, {350, 60, 550}, kOut).empty());
  CHECK(moved({185, 40, 285}, {215, 60, 315}, {0, 1, 0}).empty()); // 30 square through a hole of 40
  CHECK(moved({196, 40, 285}, {226, 60, 315}, {0, 1, 0}) == "B 238.5");
  CHECK(moved({2, 40, 2}, {398, 60, 598}, kOut).empty());     // along all four walls
  CHECK(moved({1.6, 40, 50}, {350, 60, 550}, kOut).empty());  // pressed into one by less than the slack
  CHECK(moved({1.4, 40, 50}, {350, 60, 550}, kOut) == "L 0"); // by more
  // Up and to the left at 3 to 4: the left wall is 48 away, after 80 it is reached; the top, 48, after 60.
  CHECK(told(c, in_the_way(metal, {block({50, 40, 50}, {350, 60, 550})}, {-0.6, 0, 0.8}, 0.0)) ==
        "T 60, L 80");
}

TEST_CASE("a former comes straight out of an open box, but not past lips") {
  const Case open = lipped(300, {}), lips = lipped(300, {30, true, false});
  CHECK(way_out_of(open, former()).way == Way::straight);
  const WayOut out = way_out_of(lips, former());
  CHECK(told(lips, out.straight_on) == "U-lip 39.5, T-lip 39.5"); // 40 to the lips' middle, less 1, slack 0.5
}

TEST_CASE("turned the former passes two lips where there is room to turn it") {
  // Between the lips 340 are clear: 390 cos a + 10 sin a fits from 35 degrees on (325; at 30 it is 343).
  // Where it sits its ends meet the lips at 13 degrees, 195 cos 13 = 190 from the middle and the lips at 170.
  // Behind it there is 249 of room; pushed in by a quarter its ends pass the lips' plane at about 33 degrees,
  // 163 from the middle.
  const WayOut out = way_out_of(lipped(300, {30, true, false}), former());
  REQUIRE(out.way == Way::turned);
  CHECK(out.axis == 0);
  CHECK(std::abs(out.turned_rad) == Approx(kPi * 35.0 / 180.0));
  CHECK(out.pushed_mm == Approx(249.0 / 4.0));
}

TEST_CASE("turned about upright the former passes lips at the sides only") {
  const WayOut out = way_out_of(lipped(300, {30, false, true}), former());
  REQUIRE(out.way == Way::turned);
  CHECK(out.axis == 2);
}

TEST_CASE("no way leads the former past lips all round, nor out of a tray too shallow to turn it") {
  CHECK(way_out_of(lipped(300, {30, true, true}), former()).way == Way::none);
  // 100 deep: at most 94 behind the rim its ends come to the lips at 28 degrees, 171 from the middle.
  CHECK(way_out_of(lipped(100, {40, true, false}), former()).way == Way::none);
}

TEST_CASE("the way out does not depend on how the box stands in space") {
  const std::uint64_t seed = 3;
  INFO("seed " << seed);
  Random random(seed);
  const Case c = lipped(300, {30, true, false});
  const WayOut here = way_out_of(c, former());
  for (int round = 0; round < 3; ++round) {
    const Vec3 u = any_direction(random), v = unit(cross(u, any_direction(random)));
    const Placement moved{{random.uniform(-900, 900), 40, -700}, u, v};
    const auto turned = [&](Vec3 p) { return moved.u * p.x + moved.v * p.y + moved.normal() * p.z; };
    BoxMetal metal = metal_of(c.job, c.box, resolved(c));
    for (Plate& plate : metal.plates)
      plate.placement = {moved.origin + turned(plate.placement.origin), turned(plate.placement.u),
                         turned(plate.placement.v)};
    std::vector<Solid> thing = former();
    for (Solid& s : thing) {
      s.centre = moved.origin + turned(s.centre);
      for (Vec3& axis : s.axes)
        axis = turned(axis);
    }
    const WayOut there = way_out(metal, thing, turned(kOut), kSlack_mm);
    CHECK(there.way == here.way);
    CHECK(told(c, there.straight_on) == told(c, here.straight_on));
    CHECK(there.pushed_mm == Approx(here.pushed_mm));
    CHECK(there.axis == here.axis);
    CHECK(std::abs(there.turned_rad) == Approx(std::abs(here.turned_rad)));
  }
}
