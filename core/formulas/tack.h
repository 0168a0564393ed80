// A tack, and a welded seam, as a line spring between two sheets that are thin shells meeting on their middle
// surfaces. docs/theory.md, "A tack as a spring". mm, N, MPa, rad; stiffness per mm of length.
#pragma once

#include "base/band.h"
#include "formulas/ranged.h"

namespace tacksquare::formulas {

// Sheet a and sheet b: of a corner a covers b's cut edge (not at all, half of it, all of it), of a tee a is
// the web on the base b. Of a butt either.
enum class TackJoint { butt, open_corner, half_open_corner, lapped_corner, tee };

// What the metal at the joint gives beyond the two shells. Its springs do not couple at the hinge, a line
// beside the line where the middle surfaces meet; on that line itself a force that leaves the sheets free to
// turn moves them by hinge^2/turn more, and turning moves them.
struct TackStiffness {
  Band into_a, square_to_a, along; // N/mm per mm: in sheet a across the seam, square to it, along the seam
  Band turn;                       // N mm/rad per mm, about the seam
  double hinge_into_a_mm = 0.0;
  double hinge_square_to_a_mm = 0.0; // positive towards the welder
  Validity validity = Validity::inside;
  const char* note = "";
};

// throat_mm: fused metal at its thinnest, cap not counted; of a butt from the surface down, of a corner past
// the root, of a tee leg/sqrt 2. Sections cut across, in plane strain, by finite elements, and what the ends
// of a tack change, by bricks [derived]; t is the thinner sheet. At most kAsOneSheet times E, or E t^2. 90 %:
// the throat's own band; on compliance in turning 10 %, in translation 35 %, a factor of 2 on what a tack has
// square to its sheets; (thick/thin)^2.2 for unlike sheets. Outside: throat under 0.3 t, tacks under 3 t,
// sheets more unlike than 1.5, nu not 0.25 to 0.35. Refused: a size that is not positive.
inline constexpr double kAsOneSheet = 10.0;
TackStiffness tack_stiffness(TackJoint joint, double a_mm, double b_mm, const Band& throat_mm,
                             double length_mm, double E_mpa, double nu);
// The same of a seam, far from its ends.
TackStiffness seam_stiffness(TackJoint joint, double a_mm, double b_mm, const Band& throat_mm, double E_mpa,
                             double nu);

// Throat of a tack by which to plan: 0.7 t, 0.5 to 1 [common practice, no source].
Band usual_tack_throat_mm(double thickness_mm);

// Heat that still lies across a tack when its metal locks, over that of a seam with the same heat per length:
// the share of the seam's free shrinkage across that a tack makes [derived]. Flow in the sheet alone, a
// source as long as the tack; value for 700 K left in its middle, limits for 500 and 900 K and 25 % beyond.
// thickness_mm: of corners the mean of both sheets, of a tee base + web/2. All 0: a size that is not
// positive.
Band tack_across_share(double length_mm, double thickness_mm, double net_heat_j_mm, double rho_c);
// Of the seam's angle: no less than across, no more than all of it, since what locks hot turns by the same
// chord however short it is [derived bounds; value in their middle].
Band tack_angle_share(const Band& across_share);

} // namespace tacksquare::formulas
