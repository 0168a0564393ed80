// Buckling of a thin face under the shrinkage force of its seams: closed forms that are a floor (they take
// the seam longer than the panel is wide). docs/theory.md, "Buckling". mm, N, MPa.
#pragma once

#include "formulas/ranged.h"

namespace tacksquare::formulas {

// Where the seams of the panel run (along a) and what holds its edges.
enum class PanelSeams {
  two_supported_edges, // a face between two corner seams
  two_clamped_edges,
  centre_line,   // supported edges, one seam down the middle
  quarter_width, // supported edges, one seam at a quarter of the width
  lip,           // seam on one supported edge, the other edge free: lip, wall of an open tray
  loose_centre,  // loose sheet, no edge held, one seam down the middle
  four_edges     // square face with seams on all four supported edges, per direction
};

// k of a plate supported on all edges, m half waves at the best m: min (m b/a + a/(m b))^2. Megson, Aircraft
// Structures, eqs 6.55-6.56 [published]. Precondition: a_over_b > 0.
double supported_plate_k(double a_over_b);
// K for the weld's own stress pattern [derived, Ritz eigenvalue], straight in (b/a)^2 between the tabled a/b.
// Outside: a/b below what is tabled (the tabled end is returned), four_edges of a face that is not square.
Ranged buckling_coefficient(PanelSeams seams, double a_over_b);

// F_cr = K pi^2 E t^3/(12 (1-nu^2) b), b across the seam.
double critical_force_n(double K, double E_mpa, double nu, double thickness_mm, double width_mm);
// Net heat per seam at which a panel between two corner seams, each giving it half its force, reaches F_cr.
double critical_heat_j_mm(double critical_force_n, double tendon_force_per_heat);

// Share of a seam's force that one sheet takes, by thickness (corner of equal sheets: half).
double panel_share(double this_thickness_mm, double other_thickness_mm);

enum class BucklingLevel { calm, caution, beyond }; // below 0.5, 0.5 to 1, above 1 of F_cr
BucklingLevel buckling_level(double force_over_critical);

// Depth after buckling, an order of size: t sqrt(8/(3(1-nu^2)) (lambda - 1)); 0 up to lambda = 1. Marguerre;
// Timoshenko and Gere [from memory]. Outside: lambda over 3.
Ranged buckled_depth_mm(double thickness_mm, double nu, double force_over_critical);

} // namespace tacksquare::formulas
