#include "formulas/buckling.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

double supported_plate_k(double a_over_b) {
  // The best m lies next to a/b; k is convex in m.
  const double below = std::max(1.0, std::floor(a_over_b));
  const auto k = [a_over_b](double m) {
    const double half = m / a_over_b + a_over_b / m;
    return half * half;
  };
  return std::min(k(below), k(below + 1.0));
}

namespace {

// Lip and loose sheet, long first; the K run almost straight in (b/a)^2.
struct Knot {
  double b_over_a_squared, K;
};
constexpr Knot kLip[] = {{0.0, 0.43}, {1.0 / 9.0, 0.53}, {0.25, 0.67}, {1.0, 1.40}, {4.0, 4.36}};
constexpr Knot kLoose[] = {{0.0, 1.39}, {1.0 / 9.0, 1.53}, {0.25, 1.72}, {1.0, 2.65}, {4.0, 5.61}};

constexpr const char* kShort = "the panel is shorter along the seam than tabled: K is a floor";

Ranged between(const Knot (&knots)[5], double a_over_b) {
  const double x = 1.0 / (a_over_b * a_over_b);
  for (int i = 1; i < 5; ++i) {
    if (x > knots[i].b_over_a_squared) continue;
    const Knot &p = knots[i - 1], &n = knots[i];
    const double share = (x - p.b_over_a_squared) / (n.b_over_a_squared - p.b_over_a_squared);
    return inside(p.K + share * (n.K - p.K));
  }
  return outside(knots[4].K, kShort);
}

Ranged long_panel(double K, double a_over_b) {
  return a_over_b < 1.0 ? outside(K, kShort) : inside(K);
}

} // namespace

Ranged buckling_coefficient(PanelSeams seams, double a_over_b) {
  switch (seams) {
  case PanelSeams::two_supported_edges:
    return inside(supported_plate_k(a_over_b));
  case PanelSeams::two_clamped_edges:
    return long_panel(6.97, a_over_b);
  case PanelSeams::centre_line:
    return long_panel(16.0, a_over_b);
  case PanelSeams::quarter_width:
    return long_panel(7.33, a_over_b);
  case PanelSeams::lip:
    return between(kLip, a_over_b);
  case PanelSeams::loose_centre:
    return between(kLoose, a_over_b);
  case PanelSeams::four_edges:
    break;
  }
  if (std::fabs(a_over_b - 1.0) > 0.02)
    return outside(2.0, "the coefficient for four seams is for a square face");
  return inside(2.0);
}

double critical_force_n(double K, double E_mpa, double nu, double thickness_mm, double width_mm) {
  return K * kPi * kPi * E_mpa * thickness_mm * thickness_mm * thickness_mm /
         (12.0 * (1.0 - nu * nu) * width_mm);
}

double critical_heat_j_mm(double critical_force_n, double tendon_force_per_heat) {
  return critical_force_n / tendon_force_per_heat;
}

double panel_share(double this_thickness_mm, double other_thickness_mm) {
  return this_thickness_mm / (this_thickness_mm + other_thickness_mm);
}

BucklingLevel buckling_level(double force_over_critical) {
  if (force_over_critical < 0.5) return BucklingLevel::calm;
  return force_over_critical > 1.0 ? BucklingLevel::beyond : BucklingLevel::caution;
}

Ranged buckled_depth_mm(double thickness_mm, double nu, double force_over_critical) {
  if (force_over_critical <= 1.0) return inside(0.0);
  const double depth = thickness_mm * std::sqrt(8.0 / (3.0 * (1.0 - nu * nu)) * (force_over_critical - 1.0));
  if (force_over_critical > 3.0)
    return outside(depth, "far beyond buckling: not even the order of size is sure");
  return inside(depth);
}

} // namespace tacksquare::formulas
