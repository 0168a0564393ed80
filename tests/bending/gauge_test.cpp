// What a part lies against, and what goes in one stroke.
#include "bending/hand_patterns.h"
#include "planning/bending/bend_check.h"
#include "planning/bending/find_bend_order.h"
#include "support/catch.h"

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

BendCheck check(const Brake& brake, const FlatPattern& pattern, BendSet done, std::size_t bend, bool a_back) {
  const Tooling tooling = tooling_of(brake);
  const Folding folding(pattern);
  BendChecker checker(tooling, folding);
  return checker.check(done, bend, a_back);
}

std::string gauged_on(const FlatPattern& pattern, const BendCheck& check) {
  std::vector<std::string> faces;
  for (const std::size_t face : check.gauge_faces)
    faces.push_back(pattern.faces[face].id);
  return names(faces);
}

// Bend 0: flange T `length` long on top of a face 300 x 200. Bend 1, at 60 degrees so that nothing can be
// gauged on it, leaves `free` of the edge opposite.
FlatPattern little_edge(double length, double free) {
  HandPattern part(2, 2, 300, 200);
  part.flange("B", Side::top, "T", 40, 90, 0, length).flange("B", Side::bottom, "U", 40, 60, 0, 300 - free);
  return part.pattern;
}

// Tabs on one edge of a face, 60 long with 10 between them.
FlatPattern tabs(int count, double second_deg = 90) {
  HandPattern part(2, 2, 300, 200);
  for (int i = 0; i < count; ++i)
    part.flange("B", Side::top, std::string(1, static_cast<char>('P' + i)), 30, i == 1 ? second_deg : 90,
                20 + 70 * i, 80 + 70 * i);
  return part.pattern;
}

} // namespace

// A third of 300 is 100, of 62 is 20.7; below 60 one stop of 10 does.
TEST_CASE("an edge holds a part square where a third of the bend's length lies free on it") {
  const Brake brake = plain_brake();
  const auto goes = [&](double length, double free) {
    return !check(brake, little_edge(length, free), 0b10, 0, true).hindrance;
  };
  CHECK(goes(300, 101));
  CHECK_FALSE(goes(300, 99));
  CHECK(goes(62, 21));
  CHECK_FALSE(goes(62, 20));
  CHECK(goes(59, 11));
  CHECK_FALSE(goes(59, 9));
  CHECK(check(brake, little_edge(300, 12), 0b10, 0, true).hindrance == Hindrance::gauge);
  // From its other half it goes all the same, and that is what the order takes.
  const BendOrder order = find_bend_order(brake, little_edge(300, 12));
  REQUIRE(order.steps.size() == 2);
  CHECK(names(order.steps[0].gauged_on) == "T");
  // Of a bend of 900 no more than 200 is asked for.
  HandPattern wide(2, 2, 900, 200);
  wide.flange("B", Side::top, "T", 40).flange("B", Side::bottom, "U", 40, 60, 0, 698);
  CHECK_FALSE(check(brake, wide.pattern, 0b10, 0, true).hindrance);
  HandPattern too_little(2, 2, 900, 200);
  too_little.flange("B", Side::top, "T", 40).flange("B", Side::bottom, "U", 40, 60, 0, 702);
  CHECK(check(brake, too_little.pattern, 0b10, 0, true).hindrance == Hindrance::gauge);
}

// Two tabs of 30 at both ends of the edge opposite: neither holds a bend of 300 by itself, 300 apart they do.
TEST_CASE(
    "stops stand as far apart as all edges at one distance allow, and each face that carries one is told") {
  const auto part = [](double leg) {
    HandPattern hung(2, 2, 300, 200);
    hung.flange("B", Side::top, "T", 150, 90)
        .flange("B", Side::bottom, "L", 40, 60, 0, 30)
        .flange("B", Side::bottom, "R", leg, 60, 270, 300);
    return hung.pattern;
  };
  const BendCheck both = check(plain_brake(), part(40), 0, 0, true);
  REQUIRE_FALSE(both.hindrance);
  CHECK(gauged_on(part(40), both) == "L+R");
  const FlatPattern pattern = part(40);
  CHECK(both.gauge_mm == Approx(0.5 * pattern.bends[0].flat_mm + 200 + pattern.bends[1].flat_mm + 40));
  // One of them a millimetre longer: it alone is too little, and the edge between them is what is left.
  const BendCheck between = check(plain_brake(), part(41), 0, 0, true);
  CHECK(gauged_on(part(41), between) == "B");
  CHECK(between.gauge_mm == Approx(0.5 * pattern.bends[0].flat_mm + 200));
}

// U 50 + web + 50: from its own edge 48.0, over the web web - 2.0: more than twice as far from 98 on.
TEST_CASE("a flange is gauged from its own edge where the other way is more than twice as far") {
  const auto channel = [](double web) {
    HandPattern u(2, 2.56, web - 2 * 4.56, 300);
    u.flange("B", Side::left, "L", 50 - 4.56).flange("B", Side::right, "R", 50 - 4.56);
    return find_bend_order(plain_brake(), u.pattern);
  };
  CHECK(channel(97).turns == 0);
  CHECK(channel(97).steps[1].on_bend);
  const BendOrder wide = channel(99);
  CHECK(wide.far == 0);
  CHECK(wide.turns == 1);
  for (const BendStep& step : wide.steps) {
    CHECK(names(step.gauged_on) == step.face_b);
    CHECK(step.gauge_mm == Approx(48.003).margin(0.001));
  }
  // Where the near edge is too near for the stops nothing else is left, and it is not far.
  Brake brake = plain_brake();
  brake.gauge_least = mm(60);
  HandPattern l(2, 2.56, 300, 300);
  l.flange("B", Side::left, "L", 40);
  const BendOrder only = find_bend_order(brake, l.pattern);
  REQUIRE(only.steps.size() == 1);
  CHECK(names(only.steps[0].gauged_on) == "B");
  CHECK(only.far == 0);
}

// Between its neighbours, flat or up, a tab has 60 + 2 x 10 - 2 x 0.5 = 79 of room.
TEST_CASE("tabs on one line go in one stroke where a punch does not fit between them") {
  Brake brake = plain_brake();
  brake.shortest_punch = mm(100);
  const BendOrder order = find_bend_order(brake, tabs(3));
  REQUIRE(order.steps.size() == 1);
  CHECK(order_of(order, tabs(3)) == "P+Q+R");
  CHECK(order.steps[0].length_mm == Approx(200));
  CHECK(order.steps[0].punch_mm == 200);
  CHECK(check(brake, tabs(3), 0, 1, true).hindrance == Hindrance::punch);
  brake.shortest_punch = mm(79);
  CHECK_FALSE(check(brake, tabs(3), 0, 1, true).hindrance);
  CHECK(find_bend_order(brake, tabs(3)).steps.size() == 1); // fewer strokes all the same
  // One that is bent by another angle, or the other way, goes by itself and has no room.
  brake.shortest_punch = mm(100);
  for (const double other : {60.0, -90.0}) {
    const BendOrder blocked = find_bend_order(brake, tabs(3, other));
    REQUIRE(blocked.blocked);
    CHECK(blocked.blocked->face_b == "Q");
    CHECK(blocked.blocked->by == "punch");
    CHECK(blocked.blocked->needed_mm == 79.0);
  }
}

// A flange that stands up out of the plane between two tabs keeps them apart.
TEST_CASE("what stands between two tabs keeps them from going in one stroke") {
  HandPattern part(2, 2, 300, 200);
  part.flange("B", Side::top, "P", 30, 90, 0, 60).flange("B", Side::top, "Q", 30, 90, 240, 300);
  part.flange("B", Side::top, "Z", 60, -90, 100, 200);
  const Folding folding(part.pattern);
  REQUIRE(folding.lines().size() == 4);
  CHECK(folding.lines()[3].bends == 0b011);
  for (const BendSet done : {0b000u, 0b100u})
    CHECK(check(plain_brake(), part.pattern, done, 3, true).hindrance.has_value());
  const BendOrder order = find_bend_order(plain_brake(), part.pattern);
  CHECK(order.steps.size() == 3);
}
