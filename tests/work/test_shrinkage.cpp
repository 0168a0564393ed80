#include "boxes.h"

#include "formulas/shrinkage.h"

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

Procedure fixed_procedure(double travel_cm_min = 45.0) {
  Procedure p;
  p.id = "p1";
  p.process = Process::mag;
  p.wire_feed = m_per_min(4.3);
  p.volts = volt(16.5);
  p.amps = ampere(85);
  p.travel = cm_per_min(travel_cm_min);
  p.wire_diameter = mm(0.8);
  p.wire = "wire";
  p.gas = "gas";
  p.gas_flow = l_per_min(12);
  p.stick_out = mm(10);
  return p;
}

Prediction with_procedure(double thickness_mm, const Procedure& p, const std::string& metal = "mild-steel") {
  Seam seam;
  seam.procedure = 0;
  Case c = locker(thickness_mm, CornerStyle::half_open, seam, metal);
  c.job.procedures.push_back(p);
  c.make();
  REQUIRE_FALSE(c.out.has_errors());
  return c.predicted();
}

bool ordered(const Band& b) {
  return b.low <= b.value && b.value <= b.high;
}

} // namespace

TEST_CASE(
    "across a corner: the heat bound, half way from tacked tight to a small gap, each sheet q/(t1+t2)") {
  Case c = locker();
  c.make();
  const Prediction p = c.predicted();
  const double q = c.work.seams[0].heat_J_mm;
  // alpha/(rho c) 2.997e-3 mm3/J of mild steel; share 0.55; both sheets.
  CHECK(p.seams[0].across_mm.value == Approx(2.0 * 0.55 * 12e-6 / 4.0035e-3 * q / 4.0));
  Case tight = locker();
  tight.job.rules.gap = mm(0);
  tight.make();
  CHECK(tight.predicted().seams[0].across_mm.value == Approx(2.0 * 0.40 * 12e-6 / 4.0035e-3 * q / 4.0));
}

TEST_CASE("along: force 0.33544 E alpha q/(rho c), shortening F L/(E A), neither yield nor thickness in the "
          "force") {
  const Prediction thin = with_procedure(2.0, fixed_procedure()),
                   thick = with_procedure(4.0, fixed_procedure());
  CHECK(thin.seams[0].force_N.value == Approx(0.33544 * 206e3 * 12e-6 / 4.0035e-3 * 149.6).epsilon(1e-4));
  CHECK(thick.seams[0].force_N.value == Approx(thin.seams[0].force_N.value));
  // Section of 398 x 598 middle lines, 2 mm: 3984 mm2.
  CHECK(thin.seams[0].shortening_mm.value == Approx(thin.seams[0].force_N.value * 299.0 / (206e3 * 3984.0)));
}

TEST_CASE("more heat shrinks more in proportion, thicker sheet across less in proportion") {
  const Prediction slow = with_procedure(2.0, fixed_procedure(22.5)),
                   fast = with_procedure(2.0, fixed_procedure(45.0));
  CHECK(slow.seams[0].across_mm.value == Approx(2.0 * fast.seams[0].across_mm.value));
  CHECK(slow.seams[0].force_N.value == Approx(2.0 * fast.seams[0].force_N.value));
  const Prediction thick = with_procedure(4.0, fixed_procedure(45.0));
  CHECK(thick.seams[0].across_mm.value == Approx(0.5 * fast.seams[0].across_mm.value));
  CHECK(thick.seams[0].buckling_factor_a > fast.seams[0].buckling_factor_a);
}

TEST_CASE("stainless shrinks more than mild steel by the ratio of alpha over rho c") {
  const Prediction mild = with_procedure(2.0, fixed_procedure());
  const Prediction stainless = with_procedure(2.0, fixed_procedure(), "304");
  CHECK(stainless.seams[0].across_mm.value / mild.seams[0].across_mm.value ==
        Approx(17e-6 / 4.03e-3 / (12e-6 / 4.0035e-3)));
}

TEST_CASE("coupon values win over formulas, those of the seam over those of the procedure") {
  Procedure p = fixed_procedure();
  p.own.across = mm(0.30);
  p.own.angle = deg(0.5);
  const Prediction by_procedure = with_procedure(2.0, p);
  CHECK(by_procedure.seams[0].across_mm.value == Approx(0.30));
  CHECK(by_procedure.seams[0].angle_deg.value == Approx(0.5));
  CHECK(by_procedure.seams[0].across_source.mark == Mark::stated);
  CHECK(by_procedure.seams[0].force_source.mark == Mark::derived);
  CHECK(by_procedure.seams[0].notes[0] == "own-across");

  Seam seam;
  seam.procedure = 0;
  seam.own.across = mm(0.10);
  Case c = locker(2.0, CornerStyle::half_open, seam);
  c.job.procedures.push_back(p);
  c.make();
  CHECK(c.predicted().seams[0].across_mm.value == Approx(0.10));
}

TEST_CASE("lengths, thickness and shrinkage by s and forces by s squared give movements by s") {
  const auto scaled_case = [](double s) {
    Seam seam;
    seam.own.across = mm(0.3 * s);
    seam.own.along = newton(20e3 * s * s);
    seam.own.angle = deg(0.6);
    seam.procedure = 0;
    Case c = locker(2.0 * s, CornerStyle::half_open, seam, "mild-steel", s);
    c.job.procedures.push_back(fixed_procedure());
    c.job.rules.proud = mm(0.2 * s);
    c.make();
    REQUIRE_FALSE(c.out.has_errors());
    return c;
  };
  Case one = scaled_case(1.0), two = scaled_case(2.0);
  const Prediction p = one.predicted(), q = two.predicted();
  for (const char* id : {"width-1", "width-7", "height-1", "depth-1"}) {
    INFO(id);
    const double a = one.expected(p, id).mm.value - one.measure(id).nominal_mm;
    const double b = two.expected(q, id).mm.value - two.measure(id).nominal_mm;
    CHECK(std::abs(a) > 0.01);
    CHECK(b == Approx(2.0 * a).epsilon(1e-6));
  }
  for (const char* id : {"diagonals-rim", "belly-L"}) {
    INFO(id);
    // Inside corners lie one thickness in, outlines half a thickness: all scale.
    CHECK(two.expected(q, id).mm.high == Approx(2.0 * one.expected(p, id).mm.high));
  }
}

TEST_CASE("a box and its mirror image read alike, and every band is in order") {
  for (Case c : {locker(), ballast_float()}) {
    c.make();
    const Prediction p = c.predicted();
    CHECK(c.expected(p, "width-1").mm == c.expected(p, "width-3").mm);
    CHECK(c.expected(p, "height-1").mm == c.expected(p, "height-3").mm);
    CHECK(c.expected(p, "belly-L").mm == c.expected(p, "belly-R").mm);
    for (const Expected& e : p.measures) {
      CHECK(ordered(e.mm));
      CHECK((e.bound_only ? e.chance_kept == -1.0 : e.chance_kept >= 0.0 && e.chance_kept <= 1.0));
      CHECK_FALSE(e.source.text.empty());
    }
    for (const SeamShrinkage& s : p.seams) {
      CHECK(ordered(s.across_mm));
      CHECK(ordered(s.force_N));
      CHECK(ordered(s.angle_deg));
    }
  }
}

TEST_CASE("squareness is given as bounds only, sizes over a corner as a band with a chance") {
  Case c = locker();
  c.make();
  const Prediction p = c.predicted();
  for (const char* id : {"opposite-rim-1", "diagonals-rim", "rock", "lean-L-1", "belly-L", "width-2"})
    CHECK(c.expected(p, id).bound_only);
  for (const char* id : {"width-1", "width-8", "height-1", "depth-1"})
    CHECK_FALSE(c.expected(p, id).bound_only);
  // Mid-wall at the rim: both bellies on top of what a corner shows.
  CHECK(c.expected(p, "width-2").mm.high > c.expected(p, "width-1").mm.high);
}

TEST_CASE("a hard fit drawn at its full size is more likely missed than kept, drawn smaller it is kept") {
  Case c = locker();
  c.job.limits.size_over = mm(0);
  c.make();
  CHECK(c.expected(c.predicted(), "width-1").chance_kept < 0.5);
  c.job.limits.size_over = mm(0.5);
  c.out = {};
  c.make();
  CHECK(c.expected(c.predicted(), "width-1").chance_kept > 0.9);
}

TEST_CASE("a closed box tells what trapped air would do, an open one has none") {
  Case open = locker(), closed = ballast_float();
  CHECK_FALSE(open.make().predicted().trapped_air_bulge_mm);
  CHECK(closed.make().predicted().trapped_air_bulge_mm);
}

TEST_CASE("what the millimetres come from stands with the largest reach first") {
  Case c = locker();
  c.make();
  const Prediction p = c.predicted();
  REQUIRE(p.contributions.size() == 6);
  CHECK(p.contributions[0].key == "bends");
  const auto reach = [](const Band& b) { return std::max(std::abs(b.low), std::abs(b.high)); };
  for (std::size_t i = 1; i < p.contributions.size(); ++i)
    CHECK(reach(p.contributions[i - 1].mm) >= reach(p.contributions[i].mm));
}

TEST_CASE("seams within each other's yielded zone count once, the stronger") {
  Case far = locker(), near = locker();
  for (Case* c : {&far, &near}) {
    // A second line of weld beside S1: a strip of the top, 3 mm or 200 mm in from its edge, welded to it by a
    // lap.
    const double in = c == &near ? 3.0 : 200.0;
    Box& box = c->box();
    Face strip;
    strip.id = "strip";
    strip.part = box.parts.size();
    strip.outline = {{0, 0}, {30, 0}, {30, 290}, {0, 290}};
    strip.setback_mm.assign(4, 0.0);
    strip.placement = {{1.0 + in, 2, 597}, {1, 0, 0}, {0, 1, 0}};
    box.faces.push_back(strip);
    box.parts.push_back({"strip", 0, false, {}, {}});
    Seam lap;
    lap.id = "S5";
    lap.face_a = box.faces.size() - 1;
    lap.face_b = static_cast<std::size_t>(
        std::find_if(box.faces.begin(), box.faces.end(), [](const Face& f) { return f.id == "T"; }) -
        box.faces.begin());
    lap.joint = JointKind::lap;
    lap.weld = WeldKind::fillet;
    lap.leg = mm(2);
    lap.side = WeldSide::inside;
    lap.finish = Finish::left;
    box.seams.push_back(lap);
    c->make();
    REQUIRE_FALSE(c->out.has_errors());
  }
  const auto shared = [](const Prediction& p) {
    const auto& notes = p.seams[4].notes;
    return std::find(notes.begin(), notes.end(), "shared-zone") != notes.end();
  };
  const Prediction p = near.predicted(), q = far.predicted();
  CHECK(shared(p));
  CHECK_FALSE(shared(q));
  CHECK(near.expected(p, "depth-1").mm.value > far.expected(q, "depth-1").mm.value);
}
