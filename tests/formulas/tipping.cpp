#include "formulas/tipping.h"

#include "base/units.h"
#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

TEST_CASE("Tipping gives the figures of hand geometry") {
  check_rows(
      "formulas_tipping.tsv", 10,
      {{"height", [](const Arguments& a) { return tipped_height_mm(a[0], a[1], a[2] * kPi / 180.0); }},
       {"sweep", [](const Arguments& a) { return tip_sweep_mm(a[0], a[1], a[2] * kPi / 180.0); }},
       {"lean", [](const Arguments& a) { return tip_lean_rad(a[0], a[1], a[2]).value() * 180.0 / kPi; }}});
}

TEST_CASE("The sweep is the most height on the way up, and the lean that fits just fits") {
  for (const double d : {20.0, 300.0, 900.0})
    for (const double from : {0.05, 0.3, 0.9, 1.5}) {
      double most = 0.0;
      for (int i = 0; i <= 20000; ++i)
        most = std::max(most, tipped_height_mm(600.0, d, from * i / 20000.0));
      CHECK(tip_sweep_mm(600.0, d, from) == Approx(most).epsilon(1e-8));
    }
  const double lean = tip_lean_rad(600.0, 300.0, 650.0).value();
  CHECK(tip_sweep_mm(600.0, 300.0, lean) == Approx(650.0));
  CHECK_FALSE(tip_lean_rad(600.0, 300.0, 599.9).has_value());
}
