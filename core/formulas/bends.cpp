#include "formulas/bends.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

namespace {

constexpr double kDegree = kPi / 180.0;
// tan(theta/2) runs away towards a hem; nobody folds a wall further than this.
constexpr double kMostBend = 170.0 * kDegree;
constexpr const char* kNotABend = "a bend turns the sheet by 0 to 170 degrees";

bool is_bend(double theta_rad) {
  return theta_rad >= 0.0 && theta_rad <= kMostBend;
}

} // namespace

Ranged din6935_k(double inside_radius_mm, double thickness_mm) {
  const double ratio = inside_radius_mm / thickness_mm;
  const double k = std::min(1.0, 0.65 + 0.5 * std::log10(std::max(ratio, 0.1)));
  if (ratio < 0.1) return outside(k, "a sharper bend than a tenth of the thickness");
  return inside(k);
}

double k_factor(double inside_radius_mm, double thickness_mm) {
  return 0.5 * din6935_k(inside_radius_mm, thickness_mm).value;
}

Ranged din6935_v_mm(double theta_rad, double inside_radius_mm, double thickness_mm) {
  if (!(theta_rad >= 0.0 && theta_rad <= kPi))
    return outside(0.0, "a bend angle lies between 0 and 180 degrees");
  const double opening_deg = 180.0 - theta_rad / kDegree;
  const Ranged k = din6935_k(inside_radius_mm, thickness_mm);
  const double arc = theta_rad * (inside_radius_mm + 0.5 * k.value * thickness_mm);
  const double outer = inside_radius_mm + thickness_mm;
  double v = 0.0;
  if (opening_deg <= 90.0) {
    v = arc - 2.0 * outer;
  } else if (opening_deg <= 165.0) {
    v = arc - 2.0 * outer * std::tan(0.5 * theta_rad);
  }
  return {v, k.validity, k.note};
}

double flat_length_mm(double sum_of_legs_mm, int bends, double theta_rad, double inside_radius_mm,
                      double thickness_mm) {
  return sum_of_legs_mm + bends * din6935_v_mm(theta_rad, inside_radius_mm, thickness_mm).value;
}

Ranged middle_surface_correction_mm(double theta_rad, double inside_radius_mm, double thickness_mm) {
  if (!is_bend(theta_rad)) return refused(kNotABend);
  const Ranged k = din6935_k(inside_radius_mm, thickness_mm);
  const double correction = theta_rad * (inside_radius_mm + 0.5 * k.value * thickness_mm) -
                            2.0 * (inside_radius_mm + 0.5 * thickness_mm) * std::tan(0.5 * theta_rad);
  return {correction, k.validity, k.note};
}

Ranged bend_deduction_mm(double theta_rad, double inside_radius_mm, double thickness_mm, double K) {
  if (!is_bend(theta_rad)) return refused(kNotABend);
  return inside(2.0 * (inside_radius_mm + thickness_mm) * std::tan(0.5 * theta_rad) -
                theta_rad * (inside_radius_mm + K * thickness_mm));
}

double relief_width_mm(double thickness_mm) {
  return thickness_mm;
}
double relief_depth_mm(double inside_radius_mm, double thickness_mm) {
  return inside_radius_mm + thickness_mm;
}
double air_bend_radius_mm(double die_opening_mm) {
  return die_opening_mm / 6.0;
}

} // namespace tacksquare::formulas
