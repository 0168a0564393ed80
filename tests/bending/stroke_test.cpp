// Sections, folding and the swing of the halves.
#include "base/random.h"
#include "bending/hand_patterns.h"
#include "planning/bending/convex_pieces.h"
#include "planning/bending/stroke.h"
#include "support/catch.h"
#include "support/repeat.h"
#include "support/table.h"

#include <cmath>
#include <sstream>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

double low(const Body& body, bool along_y) {
  double least = 1e9;
  for (const Vec2 p : body.section.points)
    least = std::min(least, along_y ? p.y : p.x);
  return least;
}
double high(const Body& body, bool along_y) {
  double most = -1e9;
  for (const Vec2 p : body.section.points)
    most = std::max(most, along_y ? p.y : p.x);
  return most;
}
Convex rectangle(double left, double right, double bottom, double top) {
  return convex({{left, bottom}, {right, bottom}, {right, top}, {left, top}});
}

} // namespace

TEST_CASE("the clearance of two sections is their distance, or minus the way out") {
  const Convex a = rectangle(0, 10, 0, 10);
  CHECK(clearance(a, rectangle(13, 20, 2, 5), 1e9) == Approx(3.0));
  CHECK(clearance(a, rectangle(13, 20, 14, 15), 1e9) == Approx(5.0)); // corner to corner: 3, 4, 5
  CHECK(clearance(a, rectangle(10, 20, 0, 10), 1e9) == Approx(0.0).margin(1e-12));
  CHECK(clearance(a, rectangle(8, 20, 1, 9), 1e9) == Approx(-2.0));
  // A corner against the middle of a sloping edge: the line x + y = 24 is 4/sqrt 2 from (10, 10).
  CHECK(clearance(a, convex({{24, 0}, {24, 24}, {0, 24}}), 1e9) == Approx(4.0 / std::sqrt(2.0)));
}

TEST_CASE("what is free of a stretch is all but what is taken") {
  const auto free = free_of({0, 100}, {{40, 60}, {-5, 10}, {50, 70}, {95, 120}});
  REQUIRE(free.size() == 2);
  CHECK((free[0].from == 10 && free[0].to == 40));
  CHECK((free[1].from == 70 && free[1].to == 95));
  CHECK(free_of({0, 10}, {{-1, 11}}).empty());
  CHECK(free_of({0, 10}, {}).size() == 1);
}

TEST_CASE("an outline with notches falls into convex pieces of the same area") {
  // 100 x 50 with a slot of 4 x 10 in its upper side and a corner of 20 x 20 cut square.
  const std::vector<Vec2> outline{{0, 0},   {100, 0}, {100, 30}, {80, 30}, {80, 50},
                                  {44, 50}, {44, 40}, {40, 40},  {40, 50}, {0, 50}};
  const auto pieces = convex_pieces(outline);
  double area = 0.0;
  for (const auto& piece : pieces)
    for (std::size_t i = 0; i < piece.size(); ++i)
      area += 0.5 * cross(piece[i], piece[(i + 1) % piece.size()]);
  CHECK(area == Approx(5000.0 - 40.0 - 400.0));
  CHECK(pieces.size() == 4);
  CHECK(convex_pieces({{0, 0}, {3, 0}, {3, 2}}).size() == 1);
}

// U of 50 + 80 + 50 outside, 2 mm, r 2.56: 172.01 flat (DIN 6935, tests/data/formulas_bends.tsv).
TEST_CASE("a folded flange stands where its outside sizes say") {
  const double r = 2.56, t = 2.0, leg = 50 - r - t, web = 80 - 2 * (r + t);
  HandPattern u(t, r, web, 300);
  u.flange("B", Side::left, "L", leg).flange("B", Side::right, "R", leg);
  CHECK(2 * leg + web + 2 * u.pattern.bends[0].flat_mm == Approx(172.01).margin(0.005));
  const Folding folding(u.pattern);
  // From bend L, flange R (face 2) with its bend (1) made: its outer side is 80 - (r + t) from the end of
  // L's zone, its rim 50 over the web's underside.
  const std::vector<Body> up = folding.bodies(0, 2, 0b10);
  REQUIRE(up.size() == 3); // two sectors of the zone, the flange
  CHECK(high(up[2], false) == Approx(80 - r - t));
  CHECK(low(up[2], false) == Approx(80 - r - 2 * t));
  CHECK(high(up[2], true) == Approx(50 - 0.5 * t));
  CHECK(low(up[2], true) == Approx(r + 0.5 * t));
  CHECK(up[0].out_of_it);
  CHECK_FALSE(up[2].in_plane);
  CHECK(up[2].along.from == Approx(-150.0));
  CHECK(up[2].along.to == Approx(150.0));
  // The bent zone touches the web's end and the flange, and bulges by less than 0.1 mm over its arc.
  CHECK(low(up[0], false) == Approx(web));
  CHECK(low(up[0], true) == Approx(-0.5 * t));
  CHECK(high(up[1], false) == Approx(80 - r - t));
  // Not made: all in one plane.
  const std::vector<Body> flat = folding.bodies(0, 2, 0);
  REQUIRE(flat.size() == 2);
  CHECK(flat[1].in_plane);
  CHECK(high(flat[1], false) == Approx(web + u.pattern.bends[1].flat_mm + leg));
  // Bent the other way it hangs down.
  HandPattern z(t, r, web, 300);
  z.flange("B", Side::left, "L", leg).flange("B", Side::right, "R", leg, -90);
  CHECK(low(Folding(z.pattern).bodies(0, 2, 0b10).back(), true) == Approx(-50 + 0.5 * t));
}

TEST_CASE("bends that do not join the faces to a tree are a mistake of ours") {
  HandPattern u(2, 2, 80, 300);
  u.flange("B", Side::left, "L", 40).flange("B", Side::right, "R", 40);
  FlatPattern lost = u.pattern;
  lost.bends.pop_back();
  CHECK_THROWS_AS(Folding(lost), InternalError);
  FlatPattern twice = u.pattern;
  twice.bends[1] = twice.bends[0];
  CHECK_THROWS_AS(Folding(twice), InternalError);
}

TEST_CASE("the shortest leg is the one that force charts print for the die's opening") {
  const Table table("bending.tsv", {"what", "arguments", "value", "tolerance", "source", "mark"});
  int legs = 0;
  for (const Table::Row& row : table.rows()) {
    if (row.text("what") != "leg") continue;
    INFO(row.shown());
    std::istringstream in(row.text("arguments"));
    Brake brake = plain_brake();
    double opening = 0.0;
    in >> opening;
    brake.die_opening = mm(opening);
    const double t = opening / 8.0, r = opening / 6.0; // common practice: V = 8 t, r = V/6
    HandPattern leg(t, r, 200, 100);
    leg.flange("B", Side::left, "L", 100);
    const Tooling tooling = tooling_of(brake);
    const Stroke stroke(leg.pattern.bends[0], t, tooling);
    CHECK(std::abs(stroke.reach_mm() + r + t - row.number("value")) <= row.number("tolerance"));
    CHECK(stroke.opening_for(stroke.reach_mm()) == Approx(opening));
    ++legs;
  }
  CHECK(legs == 10);
}

TEST_CASE("the least clearance of a stroke is the least of ten thousand positions") {
  const std::uint64_t seed = 20261126;
  Random random(seed);
  INFO("seed " << seed);
  Brake brake = plain_brake();
  brake.neck_from = mm(30);
  brake.neck_in = mm(7);
  const Tooling tooling = tooling_of(brake);
  const auto between = [&](double from, double to) {
    return from + (to - from) * static_cast<double>(random.below(100001)) / 100000.0;
  };
  int overlaps = 0;
  for (int trial = 0; trial < times(40, 6); ++trial) {
    HandPattern leg(2, 2, 200, 100);
    leg.flange("B", Side::left, "L", 100, between(30, 94));
    const Stroke stroke(leg.pattern.bends[0], 2, tooling);
    const double x = between(0, 150), y = between(-120, 120);
    Body body;
    body.section =
        moved(rectangle(-2, between(5, 60), -1, 1), {std::cos(1.0 * trial), std::sin(1.0 * trial), {x, y}});
    for (const Tool tool : kTools) {
      for (const bool front : {false, true}) {
        double least = 1e9;
        const double last = 0.5 * leg.pattern.bends[0].angle_rad;
        for (int i = 0; i <= 10000; ++i)
          least = std::min(least, stroke.clearance_at(body, tool, front, last * i / 10000.0, 1e9));
        const double found = stroke.least_clearance(body, tool, front, 1e9);
        CHECK(found >= least - 0.02);
        CHECK(found <= least + std::max(0.1, 0.02 * std::abs(least)) + 0.02);
        CHECK((stroke.least_clearance(body, tool, front, 0.5) < 0.5) == (found < 0.5));
        overlaps += least < 0.0;
      }
    }
  }
  CHECK(overlaps > times(20, 1));
}
