#include "formulas/heat.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

namespace {

constexpr double kCelsiusZeroK = 273.15;
constexpr double kStefanBoltzmann = 5.670374419e-8; // W/(m2 K4)
constexpr double kEuler = 2.71828182845904523536;

// Of EN 1011-2 Annex D.6, heat in kJ/mm.
double thick_factor(double preheat_c) {
  return 6700.0 - 5.0 * preheat_c;
}
double thin_factor(double preheat_c) {
  return (4300.0 - 4.3 * preheat_c) * 1e5;
}
double to_500(double preheat_c) {
  return 1.0 / (500.0 - preheat_c);
}
double to_800(double preheat_c) {
  return 1.0 / (800.0 - preheat_c);
}

} // namespace

double net_heat_j_mm(double efficiency, double volts, double amps, double travel_mm_s) {
  return efficiency * volts * amps / travel_mm_s;
}

double t85_thick_s(const T85Input& in) {
  const double q_kj = in.net_heat_j_mm / 1000.0;
  return thick_factor(in.preheat_c) * q_kj * (to_500(in.preheat_c) - to_800(in.preheat_c)) * in.f3;
}

double t85_thin_s(const T85Input& in) {
  const double q_kj_per_mm = in.net_heat_j_mm / 1000.0 / in.thickness_mm;
  const double a = to_500(in.preheat_c), b = to_800(in.preheat_c);
  return thin_factor(in.preheat_c) * q_kj_per_mm * q_kj_per_mm * (a * a - b * b) * in.f2;
}

double t85_transition_mm(double net_heat_j_mm, double preheat_c) {
  const double q_kj = net_heat_j_mm / 1000.0;
  return std::sqrt(thin_factor(preheat_c) / thick_factor(preheat_c) * q_kj *
                   (to_500(preheat_c) + to_800(preheat_c)));
}

Ranged t85_s(const T85Input& in) {
  if (!in.low_alloy_steel) return refused("EN 1011-2 Annex D.6 is for unalloyed and low-alloy steel only");
  if (!(in.preheat_c < 500.0))
    return refused("the start is at 500 C or above: there is no cooling time to 500 C");
  if (!(in.thickness_mm > 0.0 && in.net_heat_j_mm > 0.0))
    return refused("thickness and heat must be positive");
  return inside(std::max(t85_thick_s(in), t85_thin_s(in)));
}

double relative_thickness(const AdamsInput& in) {
  return in.thickness_mm * std::sqrt(in.rho_c * (550.0 - in.start_c) / in.net_heat_j_mm);
}

Ranged adams_peak_c(const AdamsInput& in, double y_mm) {
  // sqrt(2 pi e), published as 4.13
  const double root = std::sqrt(2.0 * kPi * kEuler);
  const double inverse =
      root * in.rho_c * in.thickness_mm * y_mm / in.net_heat_j_mm + 1.0 / (in.melting_c - in.start_c);
  if (y_mm < 0.0) return outside(in.melting_c, "inside the fusion line: it was molten");
  const double peak = in.start_c + 1.0 / inverse;
  if (relative_thickness(in) > 0.75) return outside(peak, "the plate is too thick for the thin-plate form");
  return inside(peak);
}

Ranged adams_distance_mm(const AdamsInput& in, double peak_c) {
  if (!(peak_c > in.start_c && peak_c <= in.melting_c))
    return refused("the peak must lie above the start and not above melting");
  const double root = std::sqrt(2.0 * kPi * kEuler);
  const double y = (1.0 / (peak_c - in.start_c) - 1.0 / (in.melting_c - in.start_c)) * in.net_heat_j_mm /
                   (root * in.rho_c * in.thickness_mm);
  if (relative_thickness(in) > 0.75) return outside(y, "the plate is too thick for the thin-plate form");
  return inside(y);
}

double radiation_film(double emissivity, double surface_c, double ambient_c) {
  const double t = surface_c + kCelsiusZeroK, ta = ambient_c + kCelsiusZeroK;
  return emissivity * kStefanBoltzmann * (t * t + ta * ta) * (t + ta);
}

double combined_film(double convection, double emissivity, double surface_c, double ambient_c) {
  return convection + radiation_film(emissivity, surface_c, ambient_c);
}

double cooling_tau_s(double rho_c, double thickness_mm, double film, CooledSides sides) {
  // J/(mm3 K) * mm = 1e6 J/(m2 K)
  return rho_c * thickness_mm * 1e6 / (film * (sides == CooledSides::both ? 2.0 : 1.0));
}

double biot_number(double film, double thickness_mm, double conductivity) {
  return film * thickness_mm * 1e-3 / (2.0 * conductivity);
}

double cooled_to_c(double start_c, double ambient_c, double seconds, double tau_s) {
  return ambient_c + (start_c - ambient_c) * std::exp(-seconds / tau_s);
}

Ranged time_to_cool_s(double start_c, double target_c, double ambient_c, double tau_s) {
  if (start_c <= target_c) return inside(0.0);
  if (target_c <= ambient_c) return refused("it never gets as cold as the air around it");
  return inside(tau_s * std::log((start_c - ambient_c) / (target_c - ambient_c)));
}

double neighbourhood_rise_k(double net_heat_j_mm, double seam_mm, double rho_c, double thickness_mm,
                            double area_mm2) {
  return net_heat_j_mm * seam_mm / (rho_c * thickness_mm * area_mm2);
}

namespace {

// mm2/s from W/(m K) and J/(mm3 K)
double diffusivity(const LineSource& in) {
  return in.conductivity * 1e-3 / in.rho_c;
}

double rise_at(const LineSource& in, double y_mm, double seconds) {
  const double a = diffusivity(in);
  return in.net_heat_j_mm / (in.thickness_mm * in.rho_c * std::sqrt(4.0 * kPi * a * seconds)) *
         std::exp(-y_mm * y_mm / (4.0 * a * seconds) - seconds / in.tau_s);
}

} // namespace

Ranged line_source_rise_k(const LineSource& in, double y_mm, double seconds) {
  if (!(seconds > 0.0)) return refused("the run has not been made yet");
  const double rise = rise_at(in, y_mm, seconds);
  if (seconds < 10.0) return outside(rise, "within 10 s of the arc the constant-property line source errs");
  return inside(rise);
}

double line_source_time_s(const LineSource& in, double rise_k) {
  // On the seam line the rise falls from infinity to 0 without a turn, so the answer is bracketed.
  double low = 0.0, high = 1.0;
  while (rise_at(in, 0.0, high) > rise_k) {
    low = high;
    high *= 2.0;
  }
  while (high - low > 0.01) {
    const double middle = 0.5 * (low + high);
    (rise_at(in, 0.0, middle) > rise_k ? low : high) = middle;
  }
  return high;
}

double line_source_peak_k(const LineSource& in, double y_mm) {
  return in.net_heat_j_mm / (std::sqrt(2.0 * kPi * kEuler) * in.rho_c * in.thickness_mm * y_mm);
}

double line_source_zone_mm(const LineSource& in, double rise_k) {
  return in.net_heat_j_mm / (std::sqrt(2.0 * kPi * kEuler) * in.rho_c * in.thickness_mm * rise_k);
}

} // namespace tacksquare::formulas
