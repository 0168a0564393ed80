// Orders that hand geometry and the trade's rules ask for.
#include "bending/hand_patterns.h"
#include "planning/bending/bend_search.h"
#include "planning/bending/find_bend_order.h"
#include "support/catch.h"
#include "support/table.h"

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// Outside sizes of a channel; t 2, r 2.56.
FlatPattern channel(double leg, double web, double angle = 90.0) {
  const double outer = 4.56;
  HandPattern u(2, 2.56, web - 2 * outer, 300);
  u.flange("B", Side::left, "L", leg - outer, angle).flange("B", Side::right, "R", leg - outer, angle);
  return u.pattern;
}

FlatPattern four_walls(double width, double height, double wall, double relief = 0.0) {
  HandPattern box(2, 2, width, height);
  box.flange("B", Side::left, "L", wall, 90, relief, height - relief)
      .flange("B", Side::right, "R", wall, 90, relief, height - relief)
      .flange("B", Side::top, "T", wall, 90, relief, width - relief)
      .flange("B", Side::bottom, "U", wall, 90, relief, width - relief);
  return box.pattern;
}

// A tray with a rim turned out (or in).
FlatPattern tray(double rim_deg) {
  HandPattern box(3, 4, 586, 386);
  box.flange("B", Side::left, "L", 129).flange("B", Side::right, "R", 129);
  box.flange("B", Side::top, "T", 129).flange("B", Side::bottom, "U", 129);
  box.flange("L", Side::left, "LF", 18, rim_deg).flange("R", Side::right, "RF", 18, rim_deg);
  box.flange("T", Side::top, "TF", 18, rim_deg).flange("U", Side::bottom, "UF", 18, rim_deg);
  return box.pattern;
}

std::size_t place_of(const BendOrder& order, const std::string& face) {
  for (std::size_t i = 0; i < order.steps.size(); ++i)
    if (order.steps[i].face_b == face) return i;
  FAIL("no bend of " << face);
  return 0;
}

BendCheck check(const Brake& brake, const FlatPattern& pattern, BendSet done, std::size_t bend, bool a_back) {
  const Tooling tooling = tooling_of(brake);
  const Folding folding(pattern);
  BendChecker checker(tooling, folding);
  return checker.check(done, bend, a_back);
}

Brake high_brake() {
  Brake brake = plain_brake();
  brake.punch_height = mm(260);
  brake.die_opening = mm(24);
  return brake;
}

} // namespace

// Second bend of a U, at its end: both halves at 45 degrees. A point of the leg that is up, h over the web's
// inside and d from the other leg's inside, is (d - h)/sqrt 2 in front of the punch's middle. The rim's inner
// corner has d = web - 2 t, h = leg - t. A straight punch is half its thickness wide there and 0.5 is kept:
// web 60, t 2, punch 12: (56 - h)/sqrt 2 >= 6.5, h <= 46.81, leg <= 48.81. A neck 8 deep takes the front to 2
// behind the middle: (56 - h)/sqrt 2 >= -1.5, h <= 58.12, leg <= 60.12.
TEST_CASE("legs longer than the web allows a straight punch go on a gooseneck") {
  const Brake straight = plain_brake();
  Brake gooseneck = straight;
  gooseneck.neck_from = mm(20);
  gooseneck.neck_in = mm(8);
  CHECK_FALSE(find_bend_order(straight, channel(48.7, 60)).blocked);
  const BendOrder blocked = find_bend_order(straight, channel(48.95, 60));
  REQUIRE(blocked.blocked);
  CHECK(blocked.blocked->by == "punch");
  CHECK(blocked.blocked->needed_mm == 0.0);
  CHECK(blocked.steps.empty());
  CHECK(blocked.proven);
  CHECK(find_bend_order(gooseneck, channel(48.95, 60)).steps.size() == 2);
  CHECK(find_bend_order(gooseneck, channel(60.0, 60)).steps.size() == 2);
  CHECK(find_bend_order(gooseneck, channel(60.3, 60)).blocked);
  // The neck is in front: with the leg that is up at the back, on the gauge's side, it does not help.
  CHECK(check(gooseneck, channel(55, 60), 0b01, 1, true).hindrance == Hindrance::punch);
  CHECK_FALSE(check(gooseneck, channel(55, 60), 0b01, 1, false).hindrance);
}

// The same geometry: the rim clears the punch by (56 - h)/sqrt 2 - 6 = (56 - 38)/sqrt 2 - 6 = 6.73.
TEST_CASE("the nearest clearance is that of the rim to the punch") {
  const BendOrder order = find_bend_order(plain_brake(), channel(40, 60));
  REQUIRE(order.steps.size() == 2);
  CHECK(order.steps[1].nearest == "punch");
  CHECK(order.steps[1].clear_mm == Approx((56.0 - 38.0) / std::sqrt(2.0) - 6.0).margin(0.15));
}

// DIN 6935, U 50 + 80 + 50: zone theta (r + k t/2) = 5.126, leg 50 - 4.56 + 2.563 = 48.003 from its edge;
// over the other bend 172.013 - 48.003 = 124.010 while that is flat; 80 - 4.56 + 2.563 = 78.003 from its
// outside once it is made.
TEST_CASE("gauge figures follow from the flat length and the bends made before") {
  const FlatPattern u = channel(50, 80);
  const BendOrder order = find_bend_order(plain_brake(), u);
  REQUIRE(order.steps.size() == 2);
  CHECK(order.turns == 0); // the second one gauged on the first bend: the sheet stays as it lies
  CHECK(order.changes == 1);
  CHECK(names(order.steps[0].gauged_on) == "L");
  CHECK_FALSE(order.steps[0].on_bend);
  CHECK(order.steps[0].gauge_mm == Approx(48.003).margin(0.001));
  CHECK(names(order.steps[1].gauged_on) == "L");
  CHECK(order.steps[1].on_bend);
  CHECK(order.steps[1].gauge_mm == Approx(78.003).margin(0.001));
  CHECK(check(plain_brake(), u, 0b00, 0, true).gauge_mm == Approx(124.010).margin(0.001));
  CHECK(check(plain_brake(), u, 0b10, 0, true).gauge_mm == Approx(78.003).margin(0.001));
  CHECK(check(plain_brake(), u, 0b10, 0, false).gauge_mm == Approx(48.003).margin(0.001));
  // A flange that is not square gives no place for stops.
  const FlatPattern open = channel(50, 80, 60);
  CHECK(check(plain_brake(), open, 0b10, 0, true).hindrance == Hindrance::gauge);
  CHECK_FALSE(check(plain_brake(), open, 0b10, 0, false).hindrance);
}

TEST_CASE("where the gauge does not reach any edge the bend tells the distance that it would take") {
  Brake brake = plain_brake();
  brake.gauge_most = mm(45);
  const BendOrder order = find_bend_order(brake, channel(50, 80));
  REQUIRE(order.blocked);
  CHECK(order.blocked->by == "gauge");
  CHECK(order.blocked->needed_mm == Approx(48.003).margin(0.001));
  brake.gauge_most = mm(49);
  CHECK(order_of(find_bend_order(brake, channel(50, 80)), channel(50, 80)) == "L R");
  CHECK(find_bend_order(brake, channel(50, 80)).turns == 1); // each from its own edge: end for end
}

TEST_CASE("a leg that does not reach over the die tells the opening that it would reach over") {
  // V 16: leg 0.7071 x 16 = 11.31 and 0.5 over the edge: 11.81. A leg of 9: V = (9 - 0.5) sqrt 2 = 12.02.
  CHECK_FALSE(find_bend_order(plain_brake(), channel(11.9, 80)).blocked);
  CHECK(find_bend_order(plain_brake(), channel(11.7, 80)).blocked);
  const BendOrder order = find_bend_order(plain_brake(), channel(9, 80));
  REQUIRE(order.blocked);
  CHECK(order.blocked->by == "short");
  CHECK(order.blocked->needed_mm == Approx(12.02).margin(0.005));
}

TEST_CASE("a bend sharper than the punch is refused") {
  CHECK_FALSE(find_bend_order(plain_brake(), channel(40, 100, 94)).blocked);
  const BendOrder order = find_bend_order(plain_brake(), channel(40, 100, 95));
  REQUIRE(order.blocked);
  CHECK(order.blocked->by == "punch");
}

TEST_CASE("a bend away from the inside of the box is made with the outside up") {
  HandPattern z(2, 2, 80, 300);
  z.flange("B", Side::left, "L", 40).flange("B", Side::right, "R", 40, -90);
  const BendOrder order = find_bend_order(plain_brake(), z.pattern);
  REQUIRE(order.steps.size() == 2);
  CHECK_FALSE(order.steps[place_of(order, "L")].outside_up);
  CHECK(order.steps[place_of(order, "R")].outside_up);
  CHECK(order.turns == 1);
  CHECK_FALSE(order.steps[0].turned);
  CHECK(order.steps[1].turned);
}

// C of web 100, walls 40, lips 15 turned in. Once a wall stands, its lip is the second bend of a U with a web
// of 40 and a leg of 100: (36 - 98)/sqrt 2 is far behind the punch's front.
TEST_CASE("a return flange is bent before the wall that it sits on") {
  HandPattern c(2, 2, 92, 300);
  c.flange("B", Side::left, "L", 32).flange("B", Side::right, "R", 32);
  c.flange("L", Side::left, "LF", 11).flange("R", Side::right, "RF", 11);
  const BendOrder order = find_bend_order(plain_brake(), c.pattern);
  REQUIRE(order.steps.size() == 4);
  CHECK(place_of(order, "LF") < place_of(order, "L"));
  CHECK(place_of(order, "RF") < place_of(order, "R"));
  for (const bool a_back : {false, true})
    CHECK(check(plain_brake(), c.pattern, 0b0001, 2, a_back).hindrance.has_value());
  CHECK_FALSE(check(plain_brake(), c.pattern, 0b0000, 2, false).hindrance);
}

TEST_CASE("a tray's rim is bent before its walls, and short returns before what they sit on") {
  const BendOrder order = find_bend_order(high_brake(), tray(-90));
  REQUIRE(order.steps.size() == 8);
  for (const std::string wall : {"L", "R", "T", "U"})
    CHECK(place_of(order, wall + "F") < place_of(order, wall));
  // Worked round: each lip and each wall from the edge next to it, stops set twice. Gauged across the sheet
  // two opposite ones need no turn between them: four turns less for four bends that are gauged far.
  CHECK(order.far == 0);
  CHECK(order.turns == 7);
  const double zone = tray(-90).bends[0].flat_mm;
  for (const BendStep& step : order.steps) {
    CHECK_FALSE(step.far);
    CHECK(step.gauge_mm == Approx(step.face_b.size() == 2 ? 18 + 0.5 * zone : 129 + 0.5 * zone + 4 + 3));
  }
  for (const BendStep& step : order.steps)
    CHECK(step.outside_up == (step.face_b.size() == 2));
  // With all walls up the side walls hang over the bed.
  CHECK(check(high_brake(), tray(-90), 0b00001111, 4, false).hindrance == Hindrance::bed);
}

// 386 between the rims of the walls that are up: their bent zones begin at the corners of the base, and half
// a millimetre is kept to each.
TEST_CASE("the last two walls of a box need a punch that fits between the first two") {
  const BendOrder order = find_bend_order(high_brake(), four_walls(300, 200, 100));
  REQUIRE(order.steps.size() == 4);
  for (const std::size_t first : {0u, 1u})
    CHECK(order.steps[first].punch_mm == order.steps[first].length_mm);
  for (const std::size_t last : {2u, 3u}) {
    CHECK(order.steps[last].punch_mm == order.steps[last].length_mm - 1.0);
    CHECK(order.steps[last].clear_mm >= kLeastClearMm);
  }
  // Walls cut back by 10 at each end leave the punch its whole length.
  for (const BendStep& step : find_bend_order(high_brake(), four_walls(300, 200, 100, 10)).steps)
    CHECK(step.punch_mm == step.length_mm);
  // The punch's shortest section is longer: nothing goes.
  Brake coarse = high_brake();
  coarse.shortest_punch = mm(350);
  const BendOrder blocked = find_bend_order(coarse, four_walls(300, 200, 100));
  REQUIRE(blocked.blocked);
  CHECK(blocked.blocked->by == "punch");
  CHECK(blocked.blocked->needed_mm == 299.0); // the walls of 300 last, half a millimetre clear of both others
  CHECK_FALSE(find_bend_order(coarse, channel(50, 80)).blocked);
}

TEST_CASE("a rim turned in leaves the last walls no room for a punch") {
  const BendOrder order = find_bend_order(high_brake(), tray(90));
  REQUIRE(order.blocked);
  CHECK(order.blocked->by == "punch");
}

TEST_CASE("a deep box tells the height of punch that the trade's rule asks for") {
  const Table table("bending.tsv", {"what", "arguments", "value", "tolerance", "source", "mark"});
  int boxes = 0;
  for (const Table::Row& row : table.rows()) {
    if (row.text("what") != "box") continue;
    INFO(row.shown());
    std::istringstream in(row.text("arguments"));
    double depth = 0.0, ram = 0.0;
    in >> depth >> ram;
    Brake brake = plain_brake();
    brake.punch_height = mm(100);
    brake.ram_thickness = mm(ram);
    const FlatPattern box = four_walls(2 * depth + 100, 2 * depth + 100, depth - 2);
    const BendOrder order = find_bend_order(brake, box);
    REQUIRE(order.blocked);
    CHECK(order.blocked->by == "ram");
    CHECK(std::abs(order.blocked->needed_mm - row.number("value")) <= row.number("tolerance"));
    brake.punch_height = mm(order.blocked->needed_mm);
    CHECK_FALSE(find_bend_order(brake, box).blocked);
    brake.punch_height = mm(order.blocked->needed_mm - 1);
    CHECK(find_bend_order(brake, box).blocked);
    ++boxes;
  }
  CHECK(boxes == 5);
}

TEST_CASE("a part without bends needs no order, and more than twenty are a mistake of the caller") {
  const BendOrder none = find_bend_order(plain_brake(), HandPattern(2, 2, 100, 100).pattern);
  CHECK(none.steps.empty());
  CHECK_FALSE(none.blocked);
  HandPattern comb(2, 2, 3000, 100);
  for (int i = 0; i < 21; ++i)
    comb.flange("B", Side::top, std::string(1, static_cast<char>('a' + i)), 30, 90, 100.0 * i,
                100.0 * i + 60);
  CHECK_THROWS_AS(find_bend_order(plain_brake(), comb.pattern), InternalError);
}
