// Shrinkage of a seam: across, along, bow, angle. Sources, marks and ranges: docs/theory.md, "Shrinkage".
// mm, N, MPa, J/mm, rad. Shrinkage positive = shorter. net_heat is net heat per weld length.
#pragma once

#include "base/band.h"
#include "formulas/ranged.h"
#include "tables/metals.h"

namespace tacksquare::formulas {

// Mean values from room temperature to the yield-free range, not room-temperature values.
struct ShrinkageMetal {
  double E_mpa = 0.0;
  double nu = 0.3;
  double alpha_per_k = 0.0;
  double rho_c = 0.0;                                        // J/(mm3 K)
  double fillet_angle_deg = 0.0;                             // one-sided fillet on 4-6 mm [common practice]
  double contraction() const { return alpha_per_k / rho_c; } // mm3/J
};
inline constexpr ShrinkageMetal kMildSteelShrinkage{206e3, 0.3, 12e-6, 4.0035e-3, 1.5};
inline constexpr ShrinkageMetal kAusteniticShrinkage{195e3, 0.3, 17e-6, 4.03e-3, 1.9};
inline constexpr ShrinkageMetal kAluminiumShrinkage{70e3, 0.3, 23.5e-6, 2.43e-3, 1.1};

// Those of a metal's family; galvanized counts as mild steel.
const ShrinkageMetal& shrinkage_metal(MetalFamily family);

// Net heat when only the bead is known, MIG: 27 +/- 5 J/mm3 of bead [derived]. There is no such figure for
// TIG.
Band mig_heat_of_bead_j_mm(double bead_mm2);

// Share of the free heat bound that a joint shrinks across [from memory for tight; common practice].
enum class FitUp { tacked_tight, small_gap, open_gap };
constexpr double across_share(FitUp fit) {
  return fit == FitUp::tacked_tight ? 0.4 : fit == FitUp::small_gap ? 0.7 : 1.0;
}
// Across the seam, 90 % interval +/-50 % [derived].
inline constexpr double kAcrossRelative = 0.5;
Band butt_across_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double thickness_mm, FitUp fit);
Band corner_across_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double t1_mm, double t2_mm,
                      FitUp fit); // each sheet
Band tee_across_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double base_mm, double web_mm,
                   FitUp fit); // the base sheet

// Cross-checks to print, never to plan by.
double spraragen_ettinger_mm(double bead_mm2, double thickness_mm, double gap_mm); // [published]
double blodgett_across_mm(double bead_mm2, double thickness_mm);                   // [published, second-hand]
// Allowances of the TWI FAQ [published]: 2-5 times what heat can do on 1-6 mm sheet.
Band twi_butt_across_mm();                                       // 1.5-3 mm, 60 deg V; value is the middle
Ranged twi_fillet_across_mm(double leg_mm, double thickness_mm); // 0.8 mm; outside: leg over 0.75 t
double twi_butt_along_mm(double length_mm);                      // 3 mm per 3 m
double twi_fillet_along_mm(double length_mm);                    // 0.8 mm per 3 m

// S/S_free = 1 - 0.82 K^0.86, K 0..1 normalised restraint [from memory]. Outside: K clamped to 0..1.
Ranged restraint_share(double normalised_restraint);

// Shrinkage (tendon) force along a seam [derived]: (2 ln 2/sqrt(2 pi e)) E alpha q/(rho c), no yield stress
// and no thickness in it. 90 % interval +/-25 %.
inline constexpr double kTendonRelative = 0.25;
inline constexpr double kSeamScatterRelative = 0.15;       // seam to seam of one job
double tendon_constant();                                  // 0.33544
double tendon_force_per_heat(const ShrinkageMetal& metal); // kF, N per J/mm
Band tendon_force_n(const ShrinkageMetal& metal, double net_heat_j_mm);
// Intermittent seam: times the welded fraction [from memory]. Precondition: 0 < length <= pitch.
double welded_fraction(double stitch_mm, double pitch_mm);

double shortening_mm(double force_n, double length_mm, double E_mpa, double section_mm2);
// Half-width of the strip that yields. Seams nearer than twice that share it: take the larger force, not the
// sum.
double yielded_half_width_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double thickness_mm,
                             double yield_mpa);

// Bow of a part of constant section over its length, shrinkage force at eccentricity e from the centroid.
double bow_mm(double force_n, double eccentricity_mm, double length_mm, double E_mpa, double inertia_mm4);
double blodgett_bow_mm(double bead_mm2, double eccentricity_mm, double length_mm,
                       double inertia_mm4); // cross-check [from memory]

// Angle.
// Corner of included angle psi whose face contracts by eps while its legs do not: psi - 2 asin((1-eps)
// sin(psi/2)) [derived]; 2 eps tan(psi/2) to first order. psi 90 deg: one-sided fillet or corner. Outside:
// eps not in 0..0.03.
Ranged chord_angle_rad(double contraction, double included_angle_rad);
double vee_angle_rad(double contraction, double included_angle_rad); // 2 eps tan(psi/2)
// Heat through the full thickness, mild steel: 1.44e-3 x to x = q/t^2 = 6.27 J/mm3, 5.66e-2/x above, floor
// 0.3 deg [from memory; floor common practice]. Outside: t over 6 mm.
Ranged thin_sheet_angle_rad(double net_heat_j_mm, double thickness_mm);
// theta = 0.25 z^1.3/t^2 [from memory], mm in, rad out. Refused below 6 mm: it blows up on sheet.
Ranged thick_plate_angle_rad(double leg_mm, double thickness_mm);
// The angle to plan by, 90 % interval; by thickness: fall-off to 3 mm, the metal's fillet value +/-40 % at
// 4-6 mm, straight between; above 6 mm the thick-plate form for fillets.
enum class AngleJoint { full_penetration, one_sided_fillet };
struct AngleResult {
  Band rad;
  Validity validity = Validity::inside;
  const char* note = "";
};
AngleResult seam_angle(const ShrinkageMetal& metal, AngleJoint joint, double net_heat_j_mm,
                       double thickness_mm, double leg_mm);

} // namespace tacksquare::formulas
