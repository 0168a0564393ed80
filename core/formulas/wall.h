// A wall that comes off square from the brake: what it takes to pull it square, and what it does when its two
// ends are held square by the seams. docs/theory.md, "Walls". mm, N, MPa, rad.
//
// The wall stands on a bend of length `deep`, is `tall` square to it, and is free at its rim. Its ends run
// square to the bend. Outward is positive, and so is an outward lean.
#pragma once

#include "base/band.h"
#include "formulas/ranged.h"

namespace tacksquare::formulas {

// Bounds: low where the bend's other face gives like a wide sheet of the same thickness, high where it does
// not give at all (the other way round for an inward lean); value in the middle.
struct WallHeld {
  Band rim_mm;     // middle of the rim
  Band largest_mm; // widest place of the middle line, from the bend to the rim
  Validity validity = Validity::inside;
  const char* note = "";
};
// Bend line turned by `lean` along its whole length, both ends held square (w = 0) and free to turn about
// themselves. Levy's series (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, from memory),
// summed in closed form here [derived]. Outside: over the thickness of the sheet, where it also stretches and
// the true figure is smaller. Refused: a size that is not positive.
WallHeld held_wall(double tall_mm, double deep_mm, double lean_rad, double t_mm, double E_mpa, double nu);

// Pull at the rim that each held end takes, the same moment about the bend as all that holds it. Bounds as
// above; the foot gives way where its moment reaches the plastic one, yield t^2/4 [derived].
Band held_end_n(double tall_mm, double deep_mm, double lean_rad, double t_mm, double E_mpa, double nu,
                double yield_mpa);
// From each end of the bend so far the firm foot of a held wall yields: it does not spring back there.
double held_foot_yields_mm(double deep_mm, double lean_rad, double t_mm, double E_mpa, double nu,
                           double yield_mpa);

// Pull at the rim that moves it by d: F = 3 E I d/L^3, a cantilever strip as wide as the wall [derived]. A
// wide wall on a firm foot takes up to 1/(1 - nu^2) as much (CalculiX: 1.08 at 300 x 600, 1.03 at 600 x 200).
// Outside: over a tenth of its height, where the strip is no longer straight to speak of.
Ranged rim_pull_n(double tall_mm, double deep_mm, double t_mm, double E_mpa, double pulled_mm);

// Pulls at the two rim corners alone that move them by unlike amounts: their mean bends the wall, half their
// difference twists it. The middle of a low wall does not follow, so together they are less than rim_pull_n
// there. Ritz's method with 150 shapes, nu 0.3 [derived], tabled by tall/deep.
struct RimPulls {
  double one_n = 0.0, other_n = 0.0;
};
RimPulls rim_pulls_n(double tall_mm, double deep_mm, double t_mm, double E_mpa, double nu, double one_mm,
                     double other_mm);

// Bending stress at the foot of a strip pulled by d at its rim: 3 E t d/(2 L^2) [derived].
double foot_stress_mpa(double tall_mm, double t_mm, double E_mpa, double pulled_mm);
// What the rim springs back when it is let go: all of d while the foot stays under yield. Outside beyond:
// then it keeps a part, and springs back by this figure to half as much again.
Ranged springs_back_mm(double tall_mm, double t_mm, double E_mpa, double yield_mpa, double pulled_mm);

} // namespace tacksquare::formulas
