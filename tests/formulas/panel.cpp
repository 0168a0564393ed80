#include "formulas/panel.h"

#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

PanelEdge edge_of(double index) {
  return index == 0.0 ? PanelEdge::supported : PanelEdge::clamped;
}

} // namespace

TEST_CASE("Panel formulas give the figures of their sources") {
  check_rows(
      "formulas_panel.tsv", 28,
      {{"bulge",
        [](const Arguments& a) { return bulge_mm(edge_of(a[0]), a[1], a[2], a[3], a[4], a[5], a[6]).value; }},
       {"alpha", [](const Arguments& a) { return bulge_coefficient(edge_of(a[0]), a[1], 1.0).value; }},
       {"trapped_kPa", [](const Arguments& a) { return 1000.0 * trapped_air_mpa(a[0], a[1]); }}});
}

TEST_CASE("Which side is named first does not matter; a panel without a side is refused") {
  CHECK(bulge_coefficient(PanelEdge::supported, 600, 400).value ==
        bulge_coefficient(PanelEdge::supported, 400, 600).value);
  CHECK_FALSE(bulge_coefficient(PanelEdge::clamped, 0, 400).usable());
  CHECK_FALSE(bulge_mm(PanelEdge::clamped, 0, 400, 2, 210e3, 0.3, 0.001).usable());
}

TEST_CASE("A longer panel bulges more, a clamped one less than a supported one") {
  double last = 0.0;
  for (double side = 1.0; side < 8.0; side += 0.05) {
    const double supported = bulge_coefficient(PanelEdge::supported, side, 1.0).value;
    CHECK(supported >= last);
    CHECK(bulge_coefficient(PanelEdge::clamped, side, 1.0).value < 0.35 * supported);
    last = supported;
  }
}

TEST_CASE(
    "Bulge goes with pressure and a to the fourth over t cubed, and is flagged over half the thickness") {
  const auto at = [](double s) {
    return bulge_mm(PanelEdge::supported, 600 * s, 400 * s, 3.0, 210e3, 0.3, 1e-5).value;
  };
  CHECK(at(2.0) == Approx(16.0 * at(1.0)));
  CHECK(bulge_mm(PanelEdge::supported, 600, 400, 3, 210e3, 0.3, 0.0035).in_range());
  CHECK_FALSE(bulge_mm(PanelEdge::supported, 600, 400, 3, 210e3, 0.3, 0.02).in_range());
}

TEST_CASE("The face of a float bulges 0.4 to 1.3 mm when its air is 10 K warmer") {
  const Band b = bulge_between_mm(600, 400, 3, 210e3, 0.3, trapped_air_mpa(20.0, 10.0));
  CHECK(b.low == Approx(0.4).margin(0.05));
  CHECK(b.high == Approx(1.3).margin(0.05));
  CHECK(b.low < b.value);
  CHECK(b.value < b.high);
}

TEST_CASE("Trapped air: Gay-Lussac, pressure over absolute temperature stays the same") {
  const double p = 0.101325 + trapped_air_mpa(20.0, 35.0);
  CHECK(p / (20.0 + 35.0 + 273.15) == Approx(0.101325 / 293.15));
}
