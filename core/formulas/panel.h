// A rectangular face under even pressure, and the pressure of trapped air. docs/theory.md, "Panels".
// mm, MPa (1 kPa = 0.001 MPa), deg C.
#pragma once

#include "base/band.h"
#include "formulas/ranged.h"

namespace tacksquare::formulas {

enum class PanelEdge { supported, clamped };

// alpha of w = alpha p a^4/D, a the SHORTER side. Timoshenko and Woinowsky-Krieger, Theory of Plates and
// Shells, tables 8 and 35 (nu 0.3) [published], straight between table rows. Refused: a side not positive.
Ranged bulge_coefficient(PanelEdge edge, double side_1_mm, double side_2_mm);

double plate_stiffness_n_mm(double E_mpa, double nu, double thickness_mm); // D = E t^3/(12 (1-nu^2))

// Middle of the panel. Outside: over half the thickness, where the true figure is smaller than this one.
Ranged bulge_mm(PanelEdge edge, double side_1_mm, double side_2_mm, double thickness_mm, double E_mpa,
                double nu, double pressure_mpa);
// Real edges lie between clamped and supported: those two as the 90 % limits, value their geometric mean.
Band bulge_between_mm(double side_1_mm, double side_2_mm, double thickness_mm, double E_mpa, double nu,
                      double pressure_mpa);

// Overpressure of a closed rigid volume warmed by rise_k: p0 rise/T0 [derived]. An upper bound: faces give
// way. Air closed in at `closed_c` and 101.325 kPa. MPa.
double trapped_air_mpa(double closed_c, double rise_k);

} // namespace tacksquare::formulas
