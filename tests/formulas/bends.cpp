#include "formulas/bends.h"

#include "base/units.h"
#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

double radians(double degree) {
  return degree * kPi / 180.0;
}

} // namespace

TEST_CASE("Bend formulas give the figures of DIN 6935") {
  check_rows("formulas_bends.tsv", 20,
             {{"k", [](const Arguments& a) { return din6935_k(a[1], a[0]).value; }},
              {"v", [](const Arguments& a) { return din6935_v_mm(radians(180.0 - a[2]), a[1], a[0]).value; }},
              {"flat",
               [](const Arguments& a) {
                 return flat_length_mm(a[0], static_cast<int>(a[1]), radians(a[4]), a[3], a[2]);
               }},
              {"deduction",
               [](const Arguments& a) { return bend_deduction_mm(radians(a[2]), a[1], a[0], a[3]).value; }}});
}

TEST_CASE(
    "v is negative for every radius above an opening angle of 65 deg 24' 30\", below it can turn positive") {
  const double published = 65.0 + 24.0 / 60.0 + 30.0 / 3600.0;
  for (const double ratio : {0.2, 1.0, 5.0, 100.0, 1e4})
    CHECK(din6935_v_mm(radians(180.0 - published - 0.01), ratio, 1.0).value < 0.0);
  CHECK(din6935_v_mm(radians(180.0 - published + 0.01), 1e5, 1.0).value > 0.0);
}

TEST_CASE("k ends at 1 from r/s = 5, the K factor of the trade is half of it") {
  CHECK(din6935_k(5.0, 1.0).value == Approx(0.65 + 0.5 * std::log10(5.0)));
  CHECK(din6935_k(5.02, 1.0).value == Approx(1.0));
  CHECK(din6935_k(50.0, 1.0).value == 1.0);
  CHECK(k_factor(2.0, 2.0) == Approx(0.325));
  CHECK_FALSE(din6935_k(0.1, 2.0).in_range());
}

TEST_CASE("v has no jump at an opening angle of 90 degrees, where legs change from tangent to vertex") {
  CHECK(din6935_v_mm(radians(89.9999), 2, 2).value ==
        Approx(din6935_v_mm(radians(90.0001), 2, 2).value).epsilon(1e-4));
}

TEST_CASE("v is minus the trade's deduction with K = k/2 for every bend up to 90 degrees") {
  for (const double theta : {20.0, 45.0, 60.0, 90.0})
    CHECK(din6935_v_mm(radians(theta), 3.0, 2.0).value ==
          Approx(-bend_deduction_mm(radians(theta), 3.0, 2.0, k_factor(3.0, 2.0)).value));
}

TEST_CASE("Middle surface: the flat is the same whichever surface the legs are measured to") {
  // A leg to the outer vertex is longer than one to the middle vertex by t/2 tan(theta/2).
  for (const double theta : {30.0, 60.0, 90.0}) {
    const double th = radians(theta), r = 2.5, t = 2.0;
    const double outer_legs = 50.0 + 80.0;
    const double middle_legs = outer_legs - 2.0 * 0.5 * t * std::tan(0.5 * th);
    CHECK(middle_legs + middle_surface_correction_mm(th, r, t).value ==
          Approx(outer_legs + din6935_v_mm(th, r, t).value));
  }
}

TEST_CASE("Flat sheet needs no correction, a fold beyond 170 degrees is refused") {
  CHECK(middle_surface_correction_mm(0.0, 2, 2).value == Approx(0.0));
  CHECK(din6935_v_mm(0.0, 2, 2).value == 0.0);
  CHECK_FALSE(middle_surface_correction_mm(radians(175), 2, 2).usable());
  CHECK_FALSE(bend_deduction_mm(radians(175), 2, 2, 0.4).usable());
  CHECK_FALSE(din6935_v_mm(radians(190), 2, 2).in_range());
}

TEST_CASE("Relief and air-bend radius are the trade's") {
  CHECK(relief_width_mm(2.0) == 2.0);
  CHECK(relief_depth_mm(2.5, 2.0) == 4.5);
  CHECK(air_bend_radius_mm(16.0) == Approx(2.67).margin(0.01));
}
