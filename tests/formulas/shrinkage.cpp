#include "formulas/shrinkage.h"

#include "base/units.h"
#include "formulas/rows.h"
#include "formulas/section.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

const ShrinkageMetal& metal_of(double index) {
  const MetalFamily families[] = {MetalFamily::mild_steel, MetalFamily::stainless, MetalFamily::aluminium};
  return shrinkage_metal(families[static_cast<int>(index)]);
}

Section tray() {
  return section_of({{{0, 0}, {300, 0}, 2.0}, {{0, 0}, {0, 50}, 2.0}, {{300, 0}, {300, 50}, 2.0}});
}

Section tube() {
  return section_of({{{0, 0}, {197, 0}, 3.0},
                     {{197, 0}, {197, 197}, 3.0},
                     {{197, 197}, {0, 197}, 3.0},
                     {{0, 197}, {0, 0}, 3.0}});
}

double degrees(double radians) {
  return radians * 180.0 / kPi;
}
double radians(double degree) {
  return degree * kPi / 180.0;
}

} // namespace

TEST_CASE("Shrinkage formulas give the figures of their sources") {
  check_rows(
      "formulas_shrinkage.tsv", 43,
      {{"tendon_constant", [](const Arguments&) { return tendon_constant(); }},
       {"contraction", [](const Arguments& a) { return metal_of(a[0]).contraction(); }},
       {"kF_kN", [](const Arguments& a) { return tendon_force_per_heat(metal_of(a[0])) / 1000.0; }},
       {"yield_width_constant",
        [](const Arguments&) {
          // q = t = 1 and yield strain equal to the contraction leave the bare constant.
          const ShrinkageMetal& m = kMildSteelShrinkage;
          return yielded_half_width_mm(m, 1.0, 1.0, m.contraction() * m.E_mpa);
        }},
       {"tendon_kN_per_mm2",
        [](const Arguments& a) { return tendon_force_n(kMildSteelShrinkage, a[0]).value / 1000.0; }},
       {"blodgett_kN_per_mm2",
        [](const Arguments&) {
          // Force per bead area at which the beam form equals Blodgett's bow.
          const double bow = blodgett_bow_mm(1.0, 50.0, 2000.0, 4e6);
          return bow / bow_mm(1.0, 50.0, 2000.0, 206e3, 4e6) / 1000.0;
        }},
       {"blodgett_bow", [](const Arguments& a) { return blodgett_bow_mm(a[0], a[1], a[2], a[3]); }},
       {"beam_bow", [](const Arguments& a) { return bow_mm(a[0], a[1], a[2], a[3], a[4]); }},
       {"tray_area", [](const Arguments&) { return tray().area_mm2; }},
       {"tray_centroid", [](const Arguments&) { return tray().centroid.y; }},
       {"tray_inertia", [](const Arguments&) { return tray().ixx_mm4; }},
       {"tendon_kN", [](const Arguments& a) { return tendon_force_n(metal_of(a[0]), a[1]).value / 1000.0; }},
       {"tray_bow",
        [](const Arguments&) {
          const Section s = tray();
          const double force = tendon_force_n(kMildSteelShrinkage, 170.0).value;
          return force * curvature_per_newton(s, {150.0, 50.0}, 206e3).y * 1000.0 * 1000.0 / 8.0;
        }},
       {"shortening", [](const Arguments& a) { return shortening_mm(a[0], a[1], a[2], a[3]); }},
       {"tube_area", [](const Arguments&) { return tube().area_mm2; }},
       {"tube_inertia", [](const Arguments&) { return tube().ixx_mm4; }},
       {"chord_deg", [](const Arguments& a) { return degrees(chord_angle_rad(a[0], radians(a[1])).value); }},
       {"vee_deg", [](const Arguments& a) { return degrees(vee_angle_rad(a[0], radians(a[1]))); }},
       {"thin_deg", [](const Arguments& a) { return degrees(thin_sheet_angle_rad(a[0], a[1]).value); }},
       {"thick_deg", [](const Arguments& a) { return degrees(thick_plate_angle_rad(a[0], a[1]).value); }},
       {"fillet_deg",
        [](const Arguments& a) {
          return degrees(seam_angle(metal_of(a[0]), AngleJoint::one_sided_fillet, 400.0, 5.0, 4.0).rad.value);
        }},
       {"spraragen", [](const Arguments& a) { return spraragen_ettinger_mm(a[0], a[1], a[2]); }},
       {"blodgett_across", [](const Arguments& a) { return blodgett_across_mm(a[0], a[1]); }},
       {"heat_matching_share",
        [](const Arguments& a) {
          return a[0] / butt_across_mm(kMildSteelShrinkage, 1.0, 1.0, FitUp::open_gap).value;
        }},
       {"twi_butt_along", [](const Arguments& a) { return twi_butt_along_mm(a[0]); }},
       {"twi_fillet_along", [](const Arguments& a) { return twi_fillet_along_mm(a[0]); }},
       {"twi_fillet_across", [](const Arguments& a) { return twi_fillet_across_mm(a[0], a[1]).value; }},
       {"restraint", [](const Arguments& a) { return restraint_share(a[0]).value; }}});
}

TEST_CASE("Across: the free bound is the mean rise times expansion over the width, +/-50 %") {
  // A strip of any width b warmed by q/(rho c t b) shrinks by alpha b times that: b drops out.
  const ShrinkageMetal& m = kAusteniticShrinkage;
  const double b = 137.0, q = 150.0, t = 2.0;
  const Band s = butt_across_mm(m, q, t, FitUp::open_gap);
  CHECK(s.value == Approx(m.alpha_per_k * b * q / (m.rho_c * t * b)));
  CHECK(s.low == Approx(0.5 * s.value));
  CHECK(s.high == Approx(1.5 * s.value));
}

TEST_CASE("Across: a butt is a corner with half the heat; a T with no web is a butt of its base") {
  const ShrinkageMetal& m = kMildSteelShrinkage;
  CHECK(corner_across_mm(m, 300.0, 2.0, 2.0, FitUp::small_gap).value ==
        Approx(butt_across_mm(m, 150.0, 2.0, FitUp::small_gap).value));
  CHECK(tee_across_mm(m, 150.0, 2.0, 0.0, FitUp::small_gap).value ==
        Approx(butt_across_mm(m, 150.0, 2.0, FitUp::small_gap).value));
  CHECK(butt_across_mm(m, 150.0, 2.0, FitUp::tacked_tight).value <
        butt_across_mm(m, 150.0, 2.0, FitUp::small_gap).value);
}

TEST_CASE("Allowances are larger than what heat does on sheet, so they are no forecast") {
  const Band heat = butt_across_mm(kMildSteelShrinkage, 150.0, 2.0, FitUp::open_gap);
  CHECK(twi_butt_across_mm().low > 2.0 * heat.value);
  CHECK_FALSE(twi_fillet_across_mm(3.5, 4.0).in_range());
}

TEST_CASE("Tendon force: in proportion to heat, +/-25 %, a stitch seam by its welded share") {
  const Band f = tendon_force_n(kMildSteelShrinkage, 100.0);
  CHECK(tendon_force_n(kMildSteelShrinkage, 200.0).value == Approx(2.0 * f.value));
  CHECK(f.low == Approx(0.75 * f.value));
  CHECK(f.high == Approx(1.25 * f.value));
  CHECK(welded_fraction(25.0, 100.0) == Approx(0.25));
}

TEST_CASE("Tendon force: the strip integral, done numerically, gives the closed constant") {
  // Plastic strain -eps_y where alpha Tmax >= 2 eps_y, eps_y - alpha Tmax down to alpha Tmax = eps_y, alpha
  // Tmax = c/y.
  const double c = 1.0, eps = 0.001;
  double area = 0.0;
  const double inner = c / (2.0 * eps), outer = c / eps, dy = (outer - inner) / 100000.0;
  for (double y = inner + 0.5 * dy; y < outer; y += dy)
    area += (c / y - eps) * dy;
  area += inner * eps;
  const double both_sides = 2.0 * area;
  CHECK(both_sides / std::sqrt(2.0 * kPi * std::exp(1.0)) == Approx(tendon_constant()).epsilon(1e-6));
}

TEST_CASE("MIG heat per bead volume is 27 +/- 5 J/mm3") {
  CHECK(mig_heat_of_bead_j_mm(6.0) == Band{162.0, 132.0, 192.0});
}

TEST_CASE("Scaling: lengths and shrinkage by s, forces by s squared give movements by s") {
  const double s = 3.0;
  CHECK(bow_mm(s * s * 1e4, s * 40, s * 600, 206e3, s * s * s * s * 1e5) ==
        Approx(s * bow_mm(1e4, 40, 600, 206e3, 1e5)));
  CHECK(shortening_mm(s * s * 1e4, s * 600, 206e3, s * s * 800) ==
        Approx(s * shortening_mm(1e4, 600, 206e3, 800)));
}

TEST_CASE("Section: turning the part turns its moments, moving it changes none") {
  const double c = std::cos(0.4), n = std::sin(0.4);
  const auto turned = [&](Vec2 p) { return Vec2{c * p.x - n * p.y + 70.0, n * p.x + c * p.y - 30.0}; };
  const std::vector<Strip> plain = {{{0, 0}, {80, 0}, 2.0}, {{0, 0}, {0, 30}, 3.0}};
  std::vector<Strip> moved;
  for (const Strip& s : plain)
    moved.push_back({turned(s.a), turned(s.b), s.thickness_mm});
  const Section a = section_of(plain), b = section_of(moved);
  CHECK(b.area_mm2 == Approx(a.area_mm2));
  CHECK(b.ixx_mm4 + b.iyy_mm4 == Approx(a.ixx_mm4 + a.iyy_mm4));
  CHECK(b.ixx_mm4 * b.iyy_mm4 - b.ixy_mm4 * b.ixy_mm4 ==
        Approx(a.ixx_mm4 * a.iyy_mm4 - a.ixy_mm4 * a.ixy_mm4));
  // The curvature is a vector of the section: it turns along.
  const Vec2 k = curvature_per_newton(a, {80, 0}, 206e3), m = curvature_per_newton(b, turned({80, 0}), 206e3);
  CHECK(m.x == Approx(c * k.x - n * k.y));
  CHECK(m.y == Approx(n * k.x + c * k.y));
}

TEST_CASE("Section: a seam at the centroid bends nothing; nothing has no section") {
  const Section s = tube();
  CHECK(std::fabs(curvature_per_newton(s, s.centroid, 206e3).y) < 1e-20);
  CHECK(section_of({}).area_mm2 == 0.0);
  CHECK(section_of({{{5, 5}, {5, 5}, 2.0}}).area_mm2 == 0.0);
}

TEST_CASE("Angle: the chord form tends to 2 eps tan(psi/2); wild contraction is flagged") {
  for (const double psi : {60.0, 90.0})
    CHECK(chord_angle_rad(1e-6, radians(psi)).value ==
          Approx(vee_angle_rad(1e-6, radians(psi))).epsilon(1e-5));
  CHECK(chord_angle_rad(0.0154, kPi / 2).in_range());
  CHECK_FALSE(chord_angle_rad(0.05, kPi / 2).in_range());
}

TEST_CASE("Angle: the thin-sheet form has no jump at its turn and never falls under 0.3 degrees") {
  const double q = 6.27 * 4.0;
  CHECK(thin_sheet_angle_rad(q * 1.0001, 2.0).value ==
        Approx(thin_sheet_angle_rad(q * 0.9999, 2.0).value).epsilon(1e-3));
  for (double heat = 1.0; heat < 1000.0; heat *= 1.5) {
    CHECK(degrees(thin_sheet_angle_rad(heat, 2.0).value) >= 0.3 - 1e-12);
    CHECK(degrees(thin_sheet_angle_rad(heat, 2.0).value) <= 0.52);
  }
  CHECK_FALSE(thin_sheet_angle_rad(500.0, 8.0).in_range());
}

TEST_CASE("Angle: the thick-plate power form is refused on sheet, where it would say over 5 degrees") {
  CHECK(degrees(0.25 * std::pow(3.0, 1.3) / 9.0) > 5.0);
  CHECK(thick_plate_angle_rad(3.0, 3.0).validity == Validity::refused);
  CHECK(thick_plate_angle_rad(3.0, 5.99).validity == Validity::refused);
  CHECK(thick_plate_angle_rad(4.0, 6.0).in_range());
}

TEST_CASE("Angle to plan by: full penetration up to 3 mm stays by the bench's 0.3-0.8 degrees") {
  for (const double t : {1.0, 1.5, 2.0, 3.0}) {
    for (const double q : {40.0, 100.0, 170.0, 300.0}) {
      CAPTURE(t, q);
      const AngleResult r = seam_angle(kMildSteelShrinkage, AngleJoint::full_penetration, q, t, 0.0);
      CHECK(r.validity == Validity::inside);
      CHECK(degrees(r.rad.value) >= 0.3 - 1e-12);
      CHECK(degrees(r.rad.value) <= 0.8);
      CHECK(degrees(r.rad.high) >= 0.8 - 1e-12);
      CHECK(r.rad.low < r.rad.value);
    }
  }
  CHECK(seam_angle(kMildSteelShrinkage, AngleJoint::full_penetration, 400, 4.0, 0.0).validity ==
        Validity::outside);
}

TEST_CASE("Angle to plan by: fillets have no jump at 3 and 4 mm, +/-40 % at 4-6 mm, the plate form above") {
  const auto at = [](double t) {
    return seam_angle(kMildSteelShrinkage, AngleJoint::one_sided_fillet, 200.0, t, 4.0).rad;
  };
  CHECK(at(3.0).value == Approx(at(3.0001).value).epsilon(1e-3));
  CHECK(at(3.9999).value == Approx(at(4.0).value).epsilon(1e-3));
  CHECK(at(5.0).low == Approx(0.6 * at(5.0).value));
  CHECK(at(5.0).high == Approx(1.4 * at(5.0).value));
  CHECK(at(8.0).value == Approx(thick_plate_angle_rad(4.0, 8.0).value));
}

TEST_CASE("Restraint: none leaves the whole shrinkage, and a wild figure is clamped and flagged") {
  CHECK(restraint_share(0.0).value == Approx(1.0));
  CHECK(restraint_share(2.0).value == Approx(0.18));
  CHECK_FALSE(restraint_share(2.0).in_range());
}

TEST_CASE("Galvanized shrinks as mild steel") {
  CHECK(&shrinkage_metal(MetalFamily::galvanized) == &shrinkage_metal(MetalFamily::mild_steel));
}
