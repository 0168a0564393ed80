#include "formulas/deposit.h"

#include "base/units.h"
#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

TEST_CASE("Deposit formulas give the figures of their sources") {
  check_rows(
      "formulas_deposit.tsv", 32,
      {{"fillet_kg_m",
        [](const Arguments& a) { return deposit_g_per_m(fillet_area_mm2(a[0]), a[1]) * a[2] / 1000.0; }},
       {"fillet_lb_ft",
        [](const Arguments& a) {
          const double kg_m = deposit_g_per_m(fillet_area_mm2(a[0] * kMmPerInch), 7850.0) / 1000.0;
          return kg_m / 0.45359237 * 0.3048;
        }},
       {"fillet_power",
        [](const Arguments& a) { return fillet_area_mm2(a[0]) * a[1] * a[2] / (a[3] * a[4]); }},
       {"wire_g_m", [](const Arguments& a) { return wire_g_per_m(a[0], a[1]); }},
       {"travel", [](const Arguments& a) { return travel_from_feed_mm_s(a[0], a[1], a[2], a[3]); }},
       {"amps_from_thickness", [](const Arguments& a) { return amps_from_thickness(a[0]); }},
       {"feed_in_min",
        [](const Arguments& a) { return feed_from_amps_mm_s(a[0], a[1]).value * 60.0 / kMmPerInch; }},
       {"feed_m_min",
        [](const Arguments& a) { return feed_from_amps_mm_s(a[0], a[1]).value * 60.0 / 1000.0; }},
       {"leg_from_feed",
        [](const Arguments& a) {
          return fillet_leg_for_area_mm(bead_from_feed_mm2(a[0], a[1], a[2], a[3]) / a[4]);
        }},
       {"cap_g_m", [](const Arguments& a) { return deposit_g_per_m(cap_area_mm2(a[0], a[1]), a[2]); }},
       {"arc_seconds", [](const Arguments& a) { return arc_seconds(a[0], a[1]); }},
       {"gas_litres", [](const Arguments& a) { return gas_litres(a[0], a[1]); }},
       {"wire_g", [](const Arguments& a) { return wire_g_per_m(a[0], a[3]) * a[1] * a[2] / 1000.0; }}});
}

TEST_CASE("Fillet: leg, area and throat belong together") {
  CHECK(fillet_leg_for_area_mm(fillet_area_mm2(3.7)) == Approx(3.7));
  // The throat is the height of the triangle over its face.
  CHECK(fillet_throat_mm(4.0) * 4.0 * std::sqrt(2.0) / 2.0 == Approx(fillet_area_mm2(4.0)));
}

TEST_CASE("Butts: a tight square butt holds only its cap, a V of 90 degrees holds the square of its depth") {
  CHECK(square_butt_area_mm2(2.0, 0.0, 2.0, 3.0) == Approx(3.0));
  CHECK(square_butt_area_mm2(2.0, 0.5, 9.0, 3.0) == Approx(4.0));
  CHECK(square_butt_area_mm2(2.0, 0.5, 1.0, 3.0) == Approx(3.5));
  CHECK(vee_butt_area_mm2(6.0, 0.0, 1.0, kPi / 2.0, 0.0) == Approx(25.0));
  CHECK(vee_butt_area_mm2(6.0, 2.0, 6.0, kPi / 2.0, 1.0) ==
        Approx(13.0)); // root face all through: square butt
}

TEST_CASE("Corners: open holds twice what half-open holds; lapped only gap and cap") {
  const Band open = corner_area_mm2(CornerNotch::open, 2.0, 2.0, 0.0, 2.0, 0.0);
  CHECK(open.value == Approx(kPi));
  CHECK(open.low == Approx(2.0));
  CHECK(open.high == Approx(4.0));
  CHECK(corner_area_mm2(CornerNotch::half_open, 2.0, 2.0, 0.0, 2.0, 0.0).value == Approx(0.5 * open.value));
  CHECK(corner_area_mm2(CornerNotch::half_open, 3.0, 2.0, 0.0, 2.0, 0.0).high == Approx(3.0));
  const Band lapped = corner_area_mm2(CornerNotch::lapped, 2.0, 2.0, 0.4, 1.0, 2.5);
  CHECK(lapped == Band{2.9, 2.9, 2.9});
}

TEST_CASE("Wire used and bead laid are inverse") {
  const double bead = bead_from_feed_mm2(100.0, 0.8, 0.96, 8.0);
  CHECK(travel_from_feed_mm_s(100.0, 0.8, 0.96, bead) == Approx(8.0));
  // 800 mm of weld take 100 s, 10 m of wire.
  CHECK(wire_used_mm(bead, 800.0, 0.8, 0.96) == Approx(10000.0));
}

TEST_CASE("The rule of thumb for feed says when it does not know the wire") {
  CHECK(feed_from_amps_mm_s(80.0, 0.8).in_range());
  const Ranged thick = feed_from_amps_mm_s(80.0, 1.2);
  CHECK_FALSE(thick.in_range());
  CHECK(thick.value < feed_from_amps_mm_s(80.0, 0.9).value);
  CHECK(amps_from_feed(feed_from_amps_mm_s(80.0, 1.2).value, 1.2).value == Approx(80.0));
}

TEST_CASE("Balance: the one setting that does not fit the others is named") {
  // 135 A, 5.5 m/min of 0.9 wire at 55 cm/min lays a leg of 3.2, with a cap of 20 %.
  BalanceInput fits;
  fits.amps = 135.0;
  fits.feed_mm_s = 5500.0 / 60.0;
  fits.travel_mm_s = 55.0 / 6.0;
  fits.bead_mm2 = kFilletCapAllowance * fillet_area_mm2(3.2);
  fits.diameter_mm = 0.9;
  CHECK(check_balance(fits).odd == OddSetting::none);

  BalanceInput leg = fits;
  leg.bead_mm2 = kFilletCapAllowance * fillet_area_mm2(4.0);
  CHECK(check_balance(leg).odd == OddSetting::bead);
  CHECK(fillet_leg_for_area_mm(check_balance(leg).bead_mm2 / kFilletCapAllowance) ==
        Approx(3.2).margin(0.05));

  BalanceInput amps = fits;
  amps.amps = 90.0;
  CHECK(check_balance(amps).odd == OddSetting::amps);
  CHECK(check_balance(amps).amps == Approx(135.0).margin(1.0));

  BalanceInput feed = fits;
  feed.feed_mm_s *= 1.6;
  CHECK(check_balance(feed).odd == OddSetting::feed);
  CHECK(check_balance(feed).feed_mm_s == Approx(fits.feed_mm_s).epsilon(0.01));

  BalanceInput travel = fits;
  travel.travel_mm_s *= 2.0; // 110 cm/min: no hand does that
  CHECK(check_balance(travel).odd == OddSetting::travel);
  CHECK(check_balance(travel).travel_mm_s == Approx(fits.travel_mm_s).epsilon(0.02));

  BalanceInput wild = leg;
  wild.amps = 60.0;
  CHECK(check_balance(wild).odd == OddSetting::several);
}

TEST_CASE("Flush: an open corner keeps its sheet, a half-open one most, a lapped one only the penetration") {
  GroundSeam seam;
  seam.over_mm = seam.under_mm = 2.0;
  seam.joint = GroundJoint::open_corner;
  CHECK(throat_after_flush_mm(seam).value == Approx(2.0));
  seam.joint = GroundJoint::half_open_corner;
  CHECK(throat_after_flush_mm(seam).value == Approx(1.7));
  CHECK(throat_after_flush_mm(seam).low == Approx(1.0));
  for (const GroundJoint j : {GroundJoint::lapped_corner, GroundJoint::fillet}) {
    seam.joint = j;
    const Band left = throat_after_flush_mm(seam);
    CHECK(left.low == 0.0); // 0.5-1 mm on 2 mm, or nothing: common practice
    CHECK(left.value >= 0.5);
    CHECK(left.high <= 1.0);
  }
}

TEST_CASE("Balance without the rule for steel wire compares feed, travel and bead only") {
  BalanceInput in;
  in.amps = 300.0; // of no account
  in.feed_mm_s = 100.0;
  in.travel_mm_s = 10.0;
  in.diameter_mm = 1.2;
  in.bead_mm2 = bead_from_feed_mm2(100.0, 1.2, in.deposition_efficiency, 10.0);
  in.feed_rule = false;
  CHECK(check_balance(in).odd == OddSetting::none);
  in.bead_mm2 *= 1.5;
  CHECK(check_balance(in).odd == OddSetting::bead);
}

TEST_CASE("As welded, a lapped corner has its cap on top of what it penetrates") {
  // Cap of a single pass on sheet as the cap rule of ISO 5817 C allows it and more: h <= 1 + 0.15 b of a bead
  // b wide (from memory); ours stays below.
  for (const double t : {1.0, 2.0, 3.0, 4.0})
    CHECK(usual_cap_height_mm(t) <= 1.0 + 0.15 * usual_cap_width_mm(t));
  const Band two = lapped_throat_as_welded_mm(2.0, std::nullopt);
  CHECK(two.value == Approx(1.0 + 0.7)); // by hand: 0.5 + 2/4, 0.35 x 2
  CHECK(two.low == Approx(1.7 - std::hypot(0.25, 0.7)));
  CHECK(two.high == 2.0); // no more than the sheet
  CHECK(lapped_throat_as_welded_mm(2.0, 0.2).value == Approx(1.2));
  CHECK(lapped_throat_as_welded_mm(1.0, std::nullopt).value == Approx(1.0));
}

TEST_CASE("Flush: a coupon beats the usual penetration, proof keeps the sheet, a dig takes its depth") {
  GroundSeam seam;
  seam.over_mm = 3.0;
  seam.under_mm = 2.0;
  seam.joint = GroundJoint::lapped_corner;
  seam.measured_penetration = 1.5;
  CHECK(throat_after_flush_mm(seam).value == Approx(1.5));
  seam.dig_mm = 0.2;
  CHECK(throat_after_flush_mm(seam).value == Approx(1.3));
  seam.measured_penetration = 9.0;
  CHECK(throat_after_flush_mm(seam).value == Approx(1.8)); // never more than the thinner sheet
  seam.measured_penetration.reset();
  seam.full_penetration_proven = true;
  CHECK(throat_after_flush_mm(seam).value == Approx(1.8));
  CHECK(throat_after_flush_mm(seam).low == Approx(0.9 * 1.8));
}

TEST_CASE(
    "Flush: one pass goes through a butt up to 3 mm or with a root gap, else only as deep as it fused") {
  GroundSeam seam;
  seam.joint = GroundJoint::butt;
  seam.over_mm = seam.under_mm = 3.0;
  CHECK(throat_after_flush_mm(seam).value == Approx(3.0));
  seam.measured_penetration = 2.0;
  CHECK(throat_after_flush_mm(seam).value == Approx(2.0));
  seam.measured_penetration.reset();
  seam.over_mm = seam.under_mm = 4.0;
  CHECK(throat_after_flush_mm(seam).value == Approx(1.4));
  seam.gap_mm = 1.5;
  CHECK(throat_after_flush_mm(seam).value == Approx(4.0));
}
