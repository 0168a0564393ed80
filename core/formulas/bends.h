// Flat length of bent sheet, DIN 6935 [standard; the v forms from memory, held by the published sign change].
// mm, rad. theta is the bend angle (how far the sheet turned, 0 flat), opening angle = pi - theta, r inside
// radius.
#pragma once

#include "formulas/ranged.h"

namespace tacksquare::formulas {

// k = 0.65 + 0.5 log10(r/s), at most 1. Outside: r/s below 0.1, k as at 0.1. Precondition: s > 0.
Ranged din6935_k(double inside_radius_mm, double thickness_mm);
// The trade's K factor, neutral line as a share of the thickness: k/2.
double k_factor(double inside_radius_mm, double thickness_mm);

// v, added to legs measured to the outer tangent (opening angle below 90 deg) or vertex (90-165 deg); 0 above
// 165 deg. Outside: the bend angle not in 0..pi.
Ranged din6935_v_mm(double theta_rad, double inside_radius_mm, double thickness_mm);
// Flat length of the given legs, all bends alike.
double flat_length_mm(double sum_of_legs_mm, int bends, double theta_rad, double inside_radius_mm,
                      double thickness_mm);

// The same sheet on middle surfaces that are extended to where they meet: what to add to the sum of those
// lengths, theta (r + k t/2) - 2 (r + t/2) tan(theta/2) [derived]. Refused: theta not in 0..170 deg.
Ranged middle_surface_correction_mm(double theta_rad, double inside_radius_mm, double thickness_mm);

// Bend deduction of the trade for legs to the outer vertex: 2 (r+t) tan(theta/2) - theta (r + K t), K as a
// share of the thickness. A brake's own measured deduction wins over this. Refused: theta not in 0..170 deg.
Ranged bend_deduction_mm(double theta_rad, double inside_radius_mm, double thickness_mm, double K);

// Relief at a corner of bends: width >= t, depth >= r + t [common practice].
double relief_width_mm(double thickness_mm);
double relief_depth_mm(double inside_radius_mm, double thickness_mm);
// Inside radius of an air bend in mild steel, about V/6 of the die opening [common practice].
double air_bend_radius_mm(double die_opening_mm);

} // namespace tacksquare::formulas
