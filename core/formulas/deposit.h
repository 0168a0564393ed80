// Weld metal: areas, masses, wire, travel, gas, and what grinding leaves. docs/theory.md, "Deposit".
// mm, mm2, kg/m3, s; wire feed and travel mm/s.
#pragma once

#include "base/band.h"
#include "formulas/ranged.h"

#include <optional>

namespace tacksquare::formulas {

// Equal-leg fillet [derived].
double fillet_area_mm2(double leg_mm);          // z^2/2
double fillet_throat_mm(double leg_mm);         // z/sqrt 2
double fillet_leg_for_area_mm(double area_mm2); // its inverse
// Mass of weld metal per length, g/m.
double deposit_g_per_m(double area_mm2, double density_kg_m3);
// Handbooks allow 20 % over the plain triangle for the cap of a fillet [published].
inline constexpr double kFilletCapAllowance = 1.2;

// Cap of width w and height h as a parabola: 2/3 w h [derived].
double cap_area_mm2(double width_mm, double height_mm);

// Square butt: the gap filled as deep as it is penetrated, plus the cap. Penetration beyond t counts as t.
double square_butt_area_mm2(double thickness_mm, double gap_mm, double penetration_mm, double cap_mm2);
// V butt of included angle psi, root face and gap: g t + (t - f)^2 tan(psi/2) + cap.
double vee_butt_area_mm2(double thickness_mm, double gap_mm, double root_face_mm, double included_angle_rad,
                         double cap_mm2);

// Outside corners of two sheets at right angles. `over` is the sheet whose face covers the other's cut edge.
//   open:      edges meet at the inside corner, the notch is over x under
//   half_open: half of the under sheet's edge is covered, the notch is over x under/2
//   lapped:    all of it is covered, no notch
enum class CornerNotch { open, half_open, lapped };
// Notch area before any weld metal, gap excluded.
double corner_notch_mm2(CornerNotch notch, double over_mm, double under_mm);
// Weld metal of an outside corner: quarter ellipse pi/4 of the notch (90 % interval: flat triangle 1/2 to
// filled square corner 1), plus the gap filled to the penetration, plus the cap [derived].
Band corner_area_mm2(CornerNotch notch, double over_mm, double under_mm, double gap_mm, double penetration_mm,
                     double cap_mm2);

// Wire.
double wire_area_mm2(double diameter_mm);
double wire_g_per_m(double diameter_mm, double density_kg_m3);
// Wire used for a weld length: bead area * length/(wire area * efficiency), mm of wire.
double wire_used_mm(double bead_mm2, double length_mm, double diameter_mm, double deposition_efficiency);
// Travel that lays this bead (cap allowance included in bead_mm2), mm/s.
double travel_from_feed_mm_s(double feed_mm_s, double diameter_mm, double deposition_efficiency,
                             double bead_mm2);
// Bead area that a feed and a travel lay.
double bead_from_feed_mm2(double feed_mm_s, double diameter_mm, double deposition_efficiency,
                          double travel_mm_s);

// Rules of thumb for short-arc on steel [standard, published by several makers]: 1 A per 0.001 in of
// thickness; feed in/min per A 3.5 / 2 / 1.6 for 0.023 / 0.030 / 0.035 in (0.6 / 0.8 / 0.9 mm) wire.
double amps_from_thickness(double thickness_mm);
// Outside: a wire more than 5 % off those three (scaled by wire area from the nearest). Steel wire only.
Ranged feed_from_amps_mm_s(double amps, double diameter_mm);
Ranged amps_from_feed(double feed_mm_s, double diameter_mm);

double arc_seconds(double length_mm, double travel_mm_s);
double gas_litres(double flow_l_min, double arc_s);

// Do amps, feed, travel and bead agree? Compared within `tolerance` (relative).
struct BalanceInput {
  double amps = 0.0;
  double feed_mm_s = 0.0;
  double travel_mm_s = 0.0;
  double bead_mm2 = 0.0; // cap included
  double diameter_mm = 0.0;
  double deposition_efficiency = 0.96; // tables/process.h
  bool feed_rule = true;               // false: not a steel wire, only feed, travel and bead are compared
};
enum class OddSetting { none, amps, feed, travel, bead, several };
struct Balance {
  OddSetting odd = OddSetting::none;
  double amps = 0.0, feed_mm_s = 0.0, travel_mm_s = 0.0,
         bead_mm2 = 0.0; // what each should be to fit the others
};
// Two relations: feed follows amps (rule of thumb), bead follows feed over travel. Only the first broken:
// amps is odd when feed, travel and bead agree. Both broken and the amps' feed would agree with travel and
// bead: feed. Only the second broken: travel when it is outside hand speed (3.3-13.3 mm/s), else the bead.
// Else several.
Balance check_balance(const BalanceInput& in, double tolerance = 0.2);

// Penetration of one outside pass past the root, mm [common practice]: about 0.35 t, 0 to 0.5 t.
Band usual_penetration_mm(double thickness_mm);

// Throat left after the outside has been ground flush: what the joint itself holds (open corner all of the
// thinner sheet, half-open corner half of the under sheet, butt all up to 3 mm or with a root gap of 0.3 t,
// lapped corner and fillet nothing) plus the penetration, at most the thinner sheet, less the dig [derived
// geometry, common-practice penetration].
enum class GroundJoint { butt, open_corner, half_open_corner, lapped_corner, fillet };
struct GroundSeam {
  GroundJoint joint = GroundJoint::butt;
  double over_mm = 0.0;  // thickness of the covering sheet; butt: either
  double under_mm = 0.0; // thickness of the sheet whose edge is covered; butt: the other
  double gap_mm = 0.0;
  double dig_mm = 0.0;                        // ground below the surface
  std::optional<double> measured_penetration; // from a coupon, mm
  bool full_penetration_proven = false;       // coupon shows the root fused through
};
Band throat_after_flush_mm(const GroundSeam& seam);

// Cap of one outside pass: width t + 3, height 0.5 + t/4 mm, which agrees with what the published rows of
// settings lay [common practice].
double usual_cap_width_mm(double thickness_mm);
double usual_cap_height_mm(double thickness_mm);
// Throat of a lapped corner left as welded: the covering sheet's edge and the other's face lie level, so the
// bead bridges the line between the sheets by its cap above and its penetration below, at most the thinner
// sheet [derived; cap +/-25 %, common practice].
Band lapped_throat_as_welded_mm(double thickness_mm, std::optional<double> measured_penetration);

} // namespace tacksquare::formulas
