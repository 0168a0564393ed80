#include "formulas/heat.h"

#include "formulas/rows.h"

using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

T85Input t85_of(const Arguments& a) {
  T85Input in;
  in.net_heat_j_mm = a[0];
  in.thickness_mm = a[1];
  in.preheat_c = a[2];
  return in;
}
AdamsInput adams_of(const Arguments& a) {
  return {a[0], a[1], a[2], a[3], a[4]};
}
LineSource line_of(const Arguments& a) {
  return {a[0], a[1], a[2], a[3], a[4]};
}

const LineSource kSteelSeam{150.0, 2.0, 3.454e-3, 53.3, 172.7};

} // namespace

TEST_CASE("Heat formulas give the figures of their sources") {
  check_rows(
      "formulas_heat.tsv", 39,
      {{"net", [](const Arguments& a) { return net_heat_j_mm(a[0], a[1], a[2], a[3]); }},
       {"bead_by_heat",
        [](const Arguments& a) { return net_heat_j_mm(a[0], a[1], a[2], a[3]) * a[4] / a[5]; }},
       {"t85_thick", [](const Arguments& a) { return t85_thick_s(t85_of(a)); }},
       {"t85_thin", [](const Arguments& a) { return t85_thin_s(t85_of(a)); }},
       {"t85_transition", [](const Arguments& a) { return t85_transition_mm(a[0], a[1]); }},
       {"t85", [](const Arguments& a) { return t85_s(t85_of(a)).value; }},
       {"adams", [](const Arguments& a) { return adams_peak_c(adams_of(a), a[5]).value; }},
       {"adams_distance", [](const Arguments& a) { return adams_distance_mm(adams_of(a), a[5]).value; }},
       {"radiation", [](const Arguments& a) { return radiation_film(a[0], a[1], a[2]); }},
       {"film", [](const Arguments& a) { return combined_film(a[0], a[1], a[2], a[3]); }},
       {"tau",
        [](const Arguments& a) {
          return cooling_tau_s(a[0], a[1], a[2], a[3] == 1.0 ? CooledSides::one : CooledSides::both);
        }},
       {"time_to_cool", [](const Arguments& a) { return time_to_cool_s(a[0], a[1], a[2], a[3]).value; }},
       {"cooled_to", [](const Arguments& a) { return cooled_to_c(a[0], a[1], a[2], a[3]); }},
       {"biot", [](const Arguments& a) { return biot_number(a[0], a[1], a[2]); }},
       {"line_c", [](const Arguments& a) { return 20.0 + line_source_rise_k(line_of(a), 0.0, a[5]).value; }},
       {"neighbourhood",
        [](const Arguments& a) { return neighbourhood_rise_k(a[0], a[1], a[2], a[3], a[4]); }}});
}

TEST_CASE("t8/5 thin and thick forms meet at the transition thickness, for any heat and preheat") {
  for (const double q : {150.0, 700.0, 2000.0}) {
    for (const double preheat : {0.0, 20.0, 150.0, 300.0}) {
      CAPTURE(q, preheat);
      const double d = t85_transition_mm(q, preheat);
      CHECK(t85_thin_s(t85_of({q, d, preheat})) == Approx(t85_thick_s(t85_of({q, d, preheat}))));
    }
  }
}

TEST_CASE("t8/5 grows with heat squared in thin sheet, in proportion in thick plate") {
  CHECK(t85_thin_s(t85_of({300, 2, 20})) == Approx(4.0 * t85_thin_s(t85_of({150, 2, 20}))));
  CHECK(t85_thick_s(t85_of({300, 2, 20})) == Approx(2.0 * t85_thick_s(t85_of({150, 2, 20}))));
}

TEST_CASE("t8/5 is refused where EN 1011-2 does not speak") {
  T85Input in = t85_of({150, 2, 20});
  CHECK(t85_s(in).in_range());
  in.low_alloy_steel = false;
  CHECK_FALSE(t85_s(in).usable());
  in.low_alloy_steel = true;
  in.preheat_c = 500.0;
  CHECK_FALSE(t85_s(in).usable());
  in.preheat_c = 20.0;
  in.thickness_mm = 0.0;
  CHECK_FALSE(t85_s(in).usable());
}

TEST_CASE("Adams: melting at the fusion line, the start far away, distance and peak are inverse") {
  const AdamsInput in{720.0, 5.0, 0.0044, 25.0, 1510.0};
  CHECK(adams_peak_c(in, 0.0).value == Approx(1510.0));
  CHECK(adams_peak_c(in, 1e7).value == Approx(25.0).margin(0.01));
  for (const double peak : {200.0, 730.0, 1200.0})
    CHECK(adams_peak_c(in, adams_distance_mm(in, peak).value).value == Approx(peak));
  CHECK_FALSE(adams_distance_mm(in, 25.0).usable());
  CHECK_FALSE(adams_distance_mm(in, 1511.0).usable());
  CHECK_FALSE(adams_peak_c(in, -1.0).in_range());
}

TEST_CASE("Adams says so in a plate too thick for it") {
  const AdamsInput thick{720.0, 20.0, 0.0044, 25.0, 1510.0};
  CHECK(relative_thickness(thick) > 0.75);
  CHECK_FALSE(adams_peak_c(thick, 2.0).in_range());
  CHECK_FALSE(adams_distance_mm(thick, 700.0).in_range());
}

TEST_CASE("Cooling: time and temperature are inverse; never below the air; no time when cold already") {
  for (const double target : {45.0, 60.0, 150.0}) {
    const double s = time_to_cool_s(300.0, target, 20.0, 173.0).value;
    CHECK(cooled_to_c(300.0, 20.0, s, 173.0) == Approx(target));
  }
  CHECK(time_to_cool_s(40.0, 60.0, 20.0, 173.0).value == 0.0);
  CHECK_FALSE(time_to_cool_s(300.0, 20.0, 20.0, 173.0).usable());
  CHECK(time_to_cool_s(15.0, 20.0, 20.0, 173.0).usable());
}

TEST_CASE("Line source: the heat in the sheet is the heat put in, less what the loss took") {
  // Independent of the closed form's prefactor: numerical integral of t rho c rise over the width.
  for (const double seconds : {30.0, 120.0}) {
    double held = 0.0;
    for (double y = -2000.0; y < 2000.0; y += 0.5)
      held += 2.0 * 3.454e-3 * 0.5 * line_source_rise_k(kSteelSeam, y + 0.25, seconds).value;
    CHECK(held == Approx(150.0 * std::exp(-seconds / 172.7)).epsilon(1e-6));
  }
}

TEST_CASE("Line source: the peak at a distance is the largest rise over time without loss") {
  LineSource lossless = kSteelSeam;
  lossless.tau_s = 1e12;
  for (const double y : {10.0, 40.0}) {
    double most = 0.0;
    for (double s = 0.01; s < 400.0; s += 0.01)
      most = std::max(most, line_source_rise_k(lossless, y, s).value);
    CHECK(most == Approx(line_source_peak_k(lossless, y)).epsilon(1e-4));
    CHECK(line_source_zone_mm(lossless, line_source_peak_k(lossless, y)) == Approx(y));
  }
}

TEST_CASE("Line source: time to a rise is the inverse of the rise; early times are flagged") {
  for (const double rise : {40.0, 130.0}) {
    const double s = line_source_time_s(kSteelSeam, rise);
    CHECK(line_source_rise_k(kSteelSeam, 0.0, s).value == Approx(rise).epsilon(1e-3));
  }
  CHECK_FALSE(line_source_rise_k(kSteelSeam, 0.0, 5.0).in_range());
  CHECK_FALSE(line_source_rise_k(kSteelSeam, 0.0, 0.0).usable());
}
