#include "formulas/wall.h"

#include "formulas/panel.h"
#include "formulas/rows.h"
#include "support/ritz.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

WallHeld held(const Arguments& a) {
  return held_wall(a[0], a[1], a[2], a[3], a[4], a[5]);
}

} // namespace

TEST_CASE("Wall formulas give the figures of their sources") {
  check_rows("formulas_wall.tsv", 26,
             {{"pull", [](const Arguments& a) { return rim_pull_n(a[0], a[1], a[2], a[3], a[4]).value; }},
              {"stress", [](const Arguments& a) { return foot_stress_mpa(a[0], a[1], a[2], a[3]); }},
              {"held_firm", [](const Arguments& a) { return held(a).rim_mm.high; }},
              {"held_gives", [](const Arguments& a) { return held(a).rim_mm.low; }},
              {"largest_firm", [](const Arguments& a) { return held(a).largest_mm.high; }},
              {"largest_gives", [](const Arguments& a) { return held(a).largest_mm.low; }},
              {"corner_together",
               [](const Arguments& a) { return rim_pulls_n(a[0], a[1], a[2], a[3], a[4], 1, 1).one_n; }},
              {"corner_against",
               [](const Arguments& a) { return rim_pulls_n(a[0], a[1], a[2], a[3], a[4], 1, -1).one_n; }}});
}

TEST_CASE(
    "The belly of a held wall is that of an independent solution by Ritz, on a firm foot and on one that "
    "gives") {
  for (const double tall : {60.0, 150.0, 300.0, 420.0, 600.0}) {
    const WallHeld levy = held_wall(tall, 600, 0.01, 2, 210e3, 0.3);
    const double firm = test::ritz_held_wall(tall, 600, 0.01, 0);
    const double gives = test::ritz_held_wall(tall, 600, 0.01, 1200);
    CAPTURE(tall, firm, gives);
    CHECK(levy.rim_mm.high == Approx(firm).epsilon(0.008));
    CHECK(levy.rim_mm.low == Approx(gives).epsilon(0.008));
    CHECK(levy.rim_mm.value == Approx(0.5 * (firm + gives)).epsilon(0.008));
    CHECK(levy.largest_mm.high >= levy.rim_mm.high);
  }
}

TEST_CASE("The pull at a rim corner is that of Ritz, between the rows of its table, too") {
  for (const double tall : {90.0, 270.0, 500.0, 900.0, 2200.0}) {
    const double D = plate_stiffness_n_mm(70e3, 0.3, 1.5);
    const RimPulls same = rim_pulls_n(tall, 500, 1.5, 70e3, 0.3, 2.0, 2.0);
    const RimPulls unlike = rim_pulls_n(tall, 500, 1.5, 70e3, 0.3, 3.0, -1.0);
    const auto a = test::ritz_pulled_wall(tall, 500, D, 0.3, same.one_n, same.other_n);
    const auto b = test::ritz_pulled_wall(tall, 500, D, 0.3, unlike.one_n, unlike.other_n);
    CAPTURE(tall);
    CHECK(a.one == Approx(2.0).epsilon(0.02));
    CHECK(a.other == Approx(2.0).epsilon(0.02));
    CHECK(b.one == Approx(3.0).epsilon(0.02));
    CHECK(b.other == Approx(-1.0).margin(0.05));
  }
}

TEST_CASE("The belly goes with the lean and not with thickness or metal, inward for an inward lean") {
  const WallHeld one = held_wall(300, 600, 0.002, 2, 210e3, 0.3);
  const WallHeld inward = held_wall(300, 600, -0.004, 1, 70e3, 0.3);
  CHECK(inward.rim_mm.value == Approx(-2.0 * one.rim_mm.value));
  CHECK(inward.rim_mm.low == Approx(-2.0 * one.rim_mm.high));
  CHECK(one.rim_mm.low > 0.0);
  CHECK(one.validity == Validity::inside);
  CHECK(held_wall(300, 600, 0.0175, 1, 210e3, 0.3).validity == Validity::outside);
  CHECK(held_wall(300, 0, 0.01, 1, 210e3, 0.3).validity == Validity::refused);
}

TEST_CASE("All that holds a wall square grows with the lean until its foot is plastic along the whole bend") {
  const auto at = [](double lean) { return held_end_n(300, 600, lean, 2, 210e3, 0.3, 235); };
  CHECK(at(0.0).high == 0.0);
  CHECK(at(0.004).high < 2.0 * at(0.002).high + 1e-9);
  CHECK(at(0.004).high > 1.6 * at(0.002).high); // the corners of the foot give way
  CHECK(at(0.002).low < at(0.002).high);
  // Plastic everywhere: half the bend's moment at each end, m = 235 x 4/4 N mm/mm.
  CHECK(at(5.0).high == Approx(235.0 * 300.0 / 300.0));
  // More than what pulls the two rim corners alone, of the size of the even pull at each end.
  const double even = 0.5 * rim_pull_n(300, 600, 2, 210e3, 300 * 0.004).value;
  CHECK(at(0.004).high > rim_pulls_n(300, 600, 2, 210e3, 0.3, 1.2, 1.2).one_n);
  CHECK(at(0.004).low > 0.5 * even);
  CHECK(at(0.004).high < 4.0 * even);
}

TEST_CASE("A held foot yields near its ends, further for more lean, and not at all without") {
  const auto at = [](double lean) { return held_foot_yields_mm(600, lean, 2, 210e3, 0.3, 235); };
  CHECK(at(0.0) == 0.0);
  // D lean 4/(deep sin) = yield t^2/6 at the place itself.
  const double D = plate_stiffness_n_mm(210e3, 0.3, 2), x = at(0.0175);
  CHECK(D * 0.0175 * 4.0 / (600.0 * std::sin(3.14159265358979 * x / 600.0)) == Approx(235.0 * 4.0 / 6.0));
  CHECK(x == Approx(21.9).margin(0.1));
  CHECK(at(1.0) == 300.0);
}

TEST_CASE("Let go, a wall springs all the way back, unless its foot yielded") {
  const Ranged elastic = springs_back_mm(300, 2, 210e3, 235, 5.2);
  CHECK(elastic.in_range());
  CHECK(elastic.value == 5.2);
  // yield at d = 2 yield L^2/(3 E t) = 33.57 mm
  CHECK(springs_back_mm(300, 2, 210e3, 235, 33.5).in_range());
  const Ranged beyond = springs_back_mm(300, 2, 210e3, 235, 40.0);
  CHECK_FALSE(beyond.in_range());
  CHECK(beyond.value == Approx(33.571).margin(0.001));
  CHECK_FALSE(rim_pull_n(300, 600, 2, 210e3, 31).in_range());
  CHECK_FALSE(rim_pull_n(0, 600, 2, 210e3, 31).usable());
}
