// Heat of a weld and how the sheet loses it. Sources, marks and ranges: docs/theory.md, "Heat".
// Temperatures deg C, rises K, lengths mm, heat J/mm, rho c J/(mm3 K), film coefficients W/(m2 K), time s.
#pragma once

#include "base/band.h"
#include "formulas/ranged.h"

namespace tacksquare::formulas {

// Still air and radiation together, W/(m2 K): 10 to 25, taken as a 90 % interval [D, docs/theory.md]. Less
// film, more time, in proportion.
inline constexpr Band kStillAirFilm{15.8, 10.0, 25.0};

// Net heat per weld length, J/mm = k U I / v, k from tables/process.h. EN 1011-1 [standard]. Precondition:
// travel > 0.
double net_heat_j_mm(double efficiency, double volts, double amps, double travel_mm_s);

// t8/5, EN 1011-2:2001 Annex D.6 [standard]; unalloyed and low-alloy steel only.
struct T85Input {
  double net_heat_j_mm = 0.0;
  double thickness_mm = 0.0;
  double preheat_c = 20.0;
  double f2 =
      1.0; // shape factor, thin: 1 bead on plate, 0.9 run in a butt; fillet: copies disagree, an input
  double f3 = 1.0;             // shape factor, thick: 1 bead on plate, 0.9 run in a butt, 0.67 fillet
  bool low_alloy_steel = true; // false: the result is refused
};
double t85_thick_s(const T85Input& in); // three-dimensional flow. Precondition: preheat < 500
double t85_thin_s(const T85Input& in);  // two-dimensional flow. Precondition: preheat < 500
double t85_transition_mm(double net_heat_j_mm, double preheat_c);
// The larger of both. Refused: not a low-alloy steel, preheat of 500 C or more, thickness or heat not
// positive.
Ranged t85_s(const T85Input& in);

// Peak temperature beside a run in thin plate, Adams (AWS Welding Handbook vol. 1) [published].
struct AdamsInput {
  double net_heat_j_mm = 0.0;
  double thickness_mm = 0.0;
  double rho_c = 0.0;
  double start_c = 20.0;
  double melting_c = 0.0;
};
// At distance y from the fusion line. Outside: y < 0, or thicker than heat reaches (relative thickness over
// 0.75).
Ranged adams_peak_c(const AdamsInput& in, double y_mm);
// Distance from the fusion line at which the peak is peak_c. Refused unless start < peak <= melting.
Ranged adams_distance_mm(const AdamsInput& in, double peak_c);
// Relative plate thickness d sqrt(rho c (Tc - T0)/Hnet), Tc 550 C; thin below 0.75 [from memory].
double relative_thickness(const AdamsInput& in);

// Radiative film coefficient, eps sigma (T^2 + Ta^2)(T + Ta), temperatures in K [derived].
double radiation_film(double emissivity, double surface_c, double ambient_c);
// Convection plus radiation.
double combined_film(double convection, double emissivity, double surface_c, double ambient_c);

enum class CooledSides { one, both }; // one: a closed box, or a face on the table

// Time constant of a sheet at one temperature through its thickness: rho c d/(sides h) [derived].
double cooling_tau_s(double rho_c, double thickness_mm, double film, CooledSides sides);
// h d/(2 k), conductivity W/(m K); the lumped form is good below 0.1.
double biot_number(double film, double thickness_mm, double conductivity);
double cooled_to_c(double start_c, double ambient_c, double seconds, double tau_s);
// Refused when the target is not above ambient: that never comes. 0 when already there.
Ranged time_to_cool_s(double start_c, double target_c, double ambient_c, double tau_s);

// Mean rise of the metal around a seam, K: q L/(rho c t A), A of the one side of all sheet that shares it.
double neighbourhood_rise_k(double net_heat_j_mm, double seam_mm, double rho_c, double thickness_mm,
                            double area_mm2);

// Instantaneous line source across a wide sheet with loss (after Rosenthal; Carslaw and Jaeger) [derived]:
// rise = q/(t rho c sqrt(4 pi a time)) exp(-y^2/(4 a time)) exp(-time/tau), a = conductivity/(rho c).
struct LineSource {
  double net_heat_j_mm = 0.0;
  double thickness_mm = 0.0;
  double rho_c = 0.0;
  double conductivity = 0.0; // W/(m K)
  double tau_s = 0.0;        // cooling_tau_s
};
// Rise at distance y from the seam line. Outside: within the first 10 s, when the melt and a changing
// conductivity rule. Refused: time <= 0.
Ranged line_source_rise_k(const LineSource& in, double y_mm, double seconds);
// Seconds until the seam line has fallen to this rise, by bisection to 0.01 s. Precondition: rise > 0.
double line_source_time_s(const LineSource& in, double rise_k);
// Greatest rise ever reached at distance y, no loss: q/(sqrt(2 pi e) rho c t y) [derived]. Precondition: y >
// 0.
double line_source_peak_k(const LineSource& in, double y_mm);
// Half-width of the zone whose peak rise is at least rise_k (both sides of the seam: twice that).
double line_source_zone_mm(const LineSource& in, double rise_k);

} // namespace tacksquare::formulas
