#include "boxes.h"

#include "base/numbers.h"
#include "tables/settings.h"

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

Procedure full_procedure() {
  Procedure p;
  p.id = "p1";
  p.process = Process::mag;
  p.wire_feed = m_per_min(4.3);
  p.volts = volt(16.5);
  p.amps = ampere(85);
  p.travel = cm_per_min(45);
  p.wire_diameter = mm(0.8);
  p.wire = "ER70S-6";
  p.gas = "Ar + 18 % CO2";
  p.gas_flow = l_per_min(12);
  p.stick_out = mm(10);
  p.efficiency = 0.8;
  return p;
}

Case with_procedure(const Procedure& p, double thickness_mm = 2.0) {
  Seam seam;
  seam.procedure = 0;
  Case c = locker(thickness_mm, CornerStyle::half_open, seam);
  c.job.procedures.push_back(p);
  return c;
}

DividerForm filleted_shelf(Length leg) {
  DividerForm shelf;
  shelf.across = 'h';
  shelf.at = mm(300);
  shelf.height = mm(250);
  shelf.seam.weld = WeldKind::fillet;
  shelf.seam.leg = leg;
  shelf.seam.side = WeldSide::inside;
  shelf.seam.finish = Finish::left;
  return shelf;
}

} // namespace

TEST_CASE("an outside corner takes the butt row, 5 % under it, never the fillet row") {
  for (const double t : {1.0, 1.2, 1.6, 2.0, 3.0}) {
    Case c = locker(t);
    c.make();
    REQUIRE_FALSE(c.out.has_errors());
    REQUIRE(c.work.settings.size() == 1);
    const Settings& s = c.work.settings[0];
    INFO(t << " mm");
    const auto butt = starting_point(MetalFamily::mild_steel, Process::mag, SettingsRow::butt, mm(t));
    const auto fillet = starting_point(MetalFamily::mild_steel, Process::mag, SettingsRow::fillet, mm(t));
    CHECK(in_a(s.amps.value) == Approx(0.95 * in_a(butt->amps.middle())));
    CHECK(s.amps.value < fillet->amps.low);
    CHECK(s.travel.value == butt->travel.middle());
    CHECK(s.starting_point);
    CHECK(s.amps.source.mark == Mark::common_practice);
  }
}

TEST_CASE("a T takes the fillet row, a butt the butt row as it stands") {
  Case c = locker();
  DividerForm shelf = filleted_shelf(mm(2));
  expand(shelf, c.job.sheets, c.box(), c.out);
  c.make();
  REQUIRE(c.work.settings.size() == 2);
  CHECK(c.work.settings[1].id == "mild-steel-2-fillet");
  const auto fillet = starting_point(MetalFamily::mild_steel, Process::mag, SettingsRow::fillet, mm(2));
  CHECK(c.work.settings[1].amps.value == fillet->amps.middle());
}

TEST_CASE("what a procedure states is kept, and with nothing left out it is no starting point") {
  Case c = with_procedure(full_procedure());
  c.make();
  REQUIRE(c.work.settings.size() == 1);
  const Settings& s = c.work.settings[0];
  CHECK(s.id == "p1");
  CHECK_FALSE(s.starting_point);
  CHECK(s.amps.value == ampere(85));
  CHECK(s.amps.source.mark == Mark::stated);
  CHECK(s.net_heat.value == Approx(0.8 * 16.5 * 85 / 7.5)); // EN 1011-1
  CHECK(s.net_heat.low < s.net_heat.value);
  CHECK(s.net_heat.high > s.net_heat.value);
  CHECK(s.oddities.empty()); // the bench's own settings for 2 mm

  Procedure part = full_procedure();
  part.volts.reset();
  Case d = with_procedure(part);
  d.make();
  CHECK(d.work.settings[0].starting_point);
  CHECK(d.work.settings[0].volts.source.mark != Mark::stated);
}

TEST_CASE("a stated wire feed without amps gives the amps by the rule of thumb") {
  Procedure p = full_procedure();
  p.amps.reset();
  Case c = with_procedure(p);
  c.make();
  // 2 in/min per A for 0.8 mm wire, published by several makers: 4.3 m/min are 169.3 in/min.
  CHECK(in_a(c.work.settings[0].amps.value) == Approx(169.3 / 2.0).epsilon(1e-3));
}

TEST_CASE("the setting that does not go with the others is told") {
  // 135 A lays about 5.5 m/min of 0.9 wire; at 55 cm/min that is a leg of 3.2 to 3.5, not 4 (derived).
  Case c = locker(3.0);
  Procedure p;
  p.id = "p1";
  p.amps = ampere(135);
  p.travel = cm_per_min(55);
  p.wire_diameter = mm(0.9);
  c.job.procedures.push_back(p);
  DividerForm shelf = filleted_shelf(mm(4));
  shelf.seam.procedure = 0;
  expand(shelf, c.job.sheets, c.box(), c.out);
  c.make();
  CHECK_FALSE(c.out.has_errors());
  REQUIRE(c.work.settings.size() == 2);
  REQUIRE(c.work.settings[1].oddities.size() == 1); // one for the three seams of the shelf
  const Diagnostic& odd = c.work.settings[1].oddities[0];
  CHECK(odd.severity == Severity::caution);
  CHECK(odd.code == "settings-odd");
  CHECK(odd.message ==
        "seams S5, S6 and S7, procedure p1, 135 A and 5.5 m/min of 0.9 mm wire at 55 cm/min: they lay a leg "
        "of 3.2 to 3.5 mm, not 4.0 mm");
  CHECK(odd.remedy == "check on the coupon; about 35 cm/min would fit");

  Procedure amps = full_procedure();
  amps.amps = ampere(160);
  Case d = with_procedure(amps);
  d.make();
  REQUIRE(d.work.settings[0].oddities.size() == 1);
  CHECK(d.work.settings[0].oddities[0].message ==
        "seams S1, S2, S3 and S4, procedure p1, 160 A and 4.3 m/min of 0.8 mm wire at 45 cm/min: the amps do "
        "not go with wire feed, travel and bead");
}

TEST_CASE("feed, travel and bead are compared for any wire, amps and feed for steel and stainless") {
  // 2 in/min per A of 0.8 mm wire, published by several makers: 90 A are 4.57 m/min, which at 50 cm/min fill
  // about twice the 2 mm fillet.
  Case c = locker();
  c.job.sheets.push_back(sheet_of("304", 2.0));
  c.job.sheets.back().id = std::string("x");
  Procedure p = full_procedure();
  p.amps = ampere(90);
  p.travel = cm_per_min(50);
  p.wire_feed.reset();
  c.job.procedures.push_back(p);
  DividerForm shelf = filleted_shelf(mm(2));
  shelf.sheet = 1;
  shelf.seam.procedure = 0;
  expand(shelf, c.job.sheets, c.box(), c.out);
  c.make();
  REQUIRE_FALSE(c.out.has_errors());
  REQUIRE(c.work.settings.size() == 2);
  const Settings& mixed = c.work.settings[1];
  CHECK(in_m_per_min(mixed.wire_feed.value) == Approx(90 * 2 * 0.0254).epsilon(1e-3));
  REQUIRE(mixed.oddities.size() == 1);
  CHECK(mixed.oddities[0].message.find("they lay a leg of") != std::string::npos);

  // Aluminium: the feed rule of steel does not count, the balance of metal does.
  Procedure mig = full_procedure();
  mig.process = Process::mig;
  mig.wire_diameter = mm(1.2);
  mig.amps = ampere(130);
  mig.travel = cm_per_min(70);
  mig.wire_feed = m_per_min(20);
  Seam seam;
  seam.procedure = 0;
  Case d = locker(3.0, CornerStyle::half_open, seam, "5052");
  d.job.procedures.push_back(mig);
  d.make();
  REQUIRE(d.work.settings.size() == 1);
  REQUIRE(d.work.settings[0].oddities.size() == 1);
  CHECK(d.work.settings[0].oddities[0].message.find("mm2 of metal where the seam takes") !=
        std::string::npos);
  d.job.procedures[0].wire_feed = mm_per_s(11.667 * d.work.seams[0].bead_mm2 / (kPi / 4 * 1.44 * 0.96));
  d.make();
  CHECK(d.work.settings[0].oddities.empty());
}

TEST_CASE("a little outside the table the nearest row is stretched, and each plan says so") {
  // 16 ga stainless is 1.588 mm; the table starts at 1.6.
  for (const double t : {1.0, 1.5, 1.588}) {
    Case c = locker(t, CornerStyle::half_open, outside_flush(), "304");
    c.make();
    INFO(t << " mm");
    REQUIRE_FALSE(c.out.has_errors());
    REQUIRE(c.work.settings.size() == 1);
    const Settings& s = c.work.settings[0];
    REQUIRE(s.oddities.size() == 1);
    CHECK(s.oddities[0].code == "settings-outside-table");
    CHECK(s.oddities[0].message == "seams S1, S2, S3 and S4: " + shortest(round_to(t, 0.01)) +
                                       " mm is outside the table: nearest row, 1.6 mm, with amps in "
                                       "proportion to the thickness");
    CHECK(s.amps.source.mark == Mark::common_practice);
  }
  Case inside = locker(1.6, CornerStyle::half_open, outside_flush(), "304");
  inside.make();
  CHECK(inside.work.settings[0].oddities.empty());
}

TEST_CASE("settings that no table holds and no procedure states are an error that names them") {
  Case c = locker(0.6);
  c.make();
  REQUIRE(c.errors().size() == 1);
  CHECK(c.errors()[0] ==
        "settings-unknown: seams S1, S2, S3 and S4: no table holds mag settings for 0.6 mm of mild-steel, "
        "corner | give it a procedure that states wire-diameter, amps, volts and travel");
}

TEST_CASE("settings that no machine has are an error, once for all their seams, all of them in one run") {
  Procedure p = full_procedure();
  p.travel = cm_per_min(0);
  p.volts = volt(55);
  Case c = with_procedure(p);
  c.make();
  REQUIRE(c.errors().size() == 2);
  CHECK(c.errors()[0] ==
        "settings-impossible: procedure p1: volts of 55.00 V cannot be welded with | state volts above "
        "0 and up to 50 V");
  CHECK(c.errors()[1] ==
        "settings-impossible: procedure p1: travel of 0.00 cm/min cannot be welded with | state travel "
        "above 0 and up to 300 cm/min");
}

TEST_CASE("aluminium below 3 mm is TIG: no wire feed, rod by the bead") {
  Case c = locker(2.0, CornerStyle::half_open, outside_flush(), "5052");
  c.make();
  REQUIRE(c.work.settings.size() == 1);
  CHECK(c.work.settings[0].process == Process::tig);
  CHECK(in_mm_per_s(c.work.settings[0].wire_feed.value) == 0.0);
  const WorkSeam& w = c.work.seams[0];
  CHECK(w.wire_g ==
        Approx(w.bead_mm2 * w.length_mm * 2680e-6 / 0.98)); // density, deposition efficiency of TIG
  CHECK_FALSE(w.t85_s);                                     // unalloyed steel only
}
