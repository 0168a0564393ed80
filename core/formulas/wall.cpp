#include "formulas/wall.h"

#include "base/units.h"
#include "formulas/panel.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

namespace tacksquare::formulas {

namespace {

// The half-wave m of a wall: Y_m(y) = c sinh h + d h cosh h + b h sinh h, h = m pi y/deep, for a lean of one
// in the half-wave divided by m pi/deep. gives: what the bend's other face turns for a curvature of the wall
// at its foot, 0 firm, 1/2 a wide sheet of the same thickness.
struct HalfWave {
  double s, nu, gives, c, b, d, rim, foot;

  HalfWave(double height, double nu_, double gives_) : s(height), nu(nu_), gives(gives_) {
    const double p = 1.0 - nu, q = 1.0 + nu, r = 3.0 + nu;
    const double th = std::tanh(s), k = 1.0 / std::cosh(s), k2 = k * k;
    const double below = p * r + (q * q + p * p * s * s) * k2 + 2.0 * gives * p * (r * th + p * s * k2);
    d = p * (q * th * th + 2.0) / below;
    b = -p * (r * th + p * s * k2) / below;
    c = 1.0 + 2.0 * gives * b - d;
    rim = 2.0 * (q * th + p * s) * k / below;
    foot = -b; // curvature at the foot is -2 foot
  }
  double at(double h) const {
    if (s > kFar) return foot * h * std::exp(-h); // the rim is out of reach
    return c * std::sinh(h) + h * (d * std::cosh(h) + b * std::sinh(h));
  }
  static double far_foot(double gives) { return 1.0 / (1.0 + 2.0 * gives); }
  static constexpr double kFar = 18.0;
};

constexpr double kFirm = 0.0, kSheet = 0.5;

// Middle line: sum over odd m of 4 lean deep/(m pi)^2 (-1)^((m-1)/2) Y_m.
double deflection(double tall, double deep, double y, double nu, double gives) {
  double sum = 0.0, sign = 1.0;
  for (double m = 1.0;; m += 2.0, sign = -sign) { // near the foot m goes far
    const double wave = m * kPi / deep;
    const HalfWave part(wave * tall, nu, gives);
    const double term = 4.0 * deep / (m * m * kPi * kPi) * (y < tall ? part.at(wave * y) : part.rim);
    sum += sign * term;
    if (wave * y > 40.0) return sum;
  }
}

Band between(double gives, double firm) {
  return {0.5 * (gives + firm), std::min(gives, firm), std::max(gives, firm)};
}

// Moment at the foot over D lean, at x along the bend. The series of the infinitely tall wall is known:
// sum of sin(m pi x/deep) over odd m = 1/(2 sin(pi x/deep)); what the rim changes dies out fast.
double foot_moment(double tall, double deep, double x, double nu, double gives) {
  const double far = HalfWave::far_foot(gives), turn = kPi * x / deep;
  double sum = far / (2.0 * std::sin(turn));
  for (int m = 1; m * kPi * tall / deep < HalfWave::kFar; m += 2)
    sum += (HalfWave(m * kPi * tall / deep, nu, gives).foot - far) * std::sin(m * turn);
  return 8.0 / deep * sum;
}

// Stiffness of a rim corner times tall^2/D: both pulled the same way, and against each other.
struct Corner {
  double tall_over_deep, together, against;
};
constexpr Corner kCorners[] = {{0.2, 2.403, 2.404},  {0.3, 2.386, 2.420},  {0.4, 2.320, 2.485},
                               {0.5, 2.195, 2.609},  {0.6, 2.033, 2.780},  {0.8, 1.692, 3.206},
                               {1.0, 1.406, 3.693},  {1.5, 0.9523, 5.009}, {2.0, 0.7111, 6.372},
                               {3.0, 0.4695, 9.139}, {6.0, 0.2317, 17.51}};

// Straight between rows on logarithmic axes, and beyond the last; below the first both corners stand alone.
double corner_stiffness(double Corner::*of, double ratio) {
  if (ratio <= kCorners[0].tall_over_deep) return kCorners[0].*of;
  std::size_t i = 1;
  while (i + 1 < std::size(kCorners) && ratio > kCorners[i].tall_over_deep)
    ++i;
  const Corner &a = kCorners[i - 1], &b = kCorners[i];
  const double share = std::log(ratio / a.tall_over_deep) / std::log(b.tall_over_deep / a.tall_over_deep);
  return a.*of * std::pow(b.*of / a.*of, share);
}

} // namespace

WallHeld held_wall(double tall_mm, double deep_mm, double lean_rad, double t_mm, double E_mpa, double nu) {
  WallHeld held;
  if (!(tall_mm > 0.0 && deep_mm > 0.0 && t_mm > 0.0 && E_mpa > 0.0)) {
    held.validity = Validity::refused;
    held.note = "a wall has positive sizes";
    return held;
  }
  const auto along = [&](double y, double gives) { return deflection(tall_mm, deep_mm, y, nu, gives); };
  const auto largest = [&](double gives) {
    constexpr int kPlaces = 64; // the line is smooth: its top is missed by under 0.1 %
    // Beyond one and a half lengths over the bend nothing is left of it.
    const double reach = std::min(tall_mm, 1.5 * deep_mm);
    double most = along(tall_mm, gives);
    for (int i = 1; i < kPlaces; ++i)
      most = std::max(most, along(reach * i / kPlaces, gives));
    return most;
  };
  const double rim_firm = along(tall_mm, kFirm), rim_gives = along(tall_mm, kSheet);
  held.rim_mm = between(lean_rad * rim_gives, lean_rad * rim_firm);
  held.largest_mm = between(lean_rad * largest(kSheet), lean_rad * largest(kFirm));
  if (std::fabs(held.largest_mm.value) > t_mm) {
    held.validity = Validity::outside;
    held.note = "over the thickness of the sheet it stretches, too: the true belly is smaller";
  }
  return held;
}

Band held_end_n(double tall_mm, double deep_mm, double lean_rad, double t_mm, double E_mpa, double nu,
                double yield_mpa) {
  if (!(tall_mm > 0.0 && deep_mm > 0.0)) return {};
  const double D = plate_stiffness_n_mm(E_mpa, nu, t_mm), plastic = yield_mpa * t_mm * t_mm / 4.0;
  const auto one_end = [&](double gives) {
    constexpr int kPlaces = 400;
    const double step = 0.5 * deep_mm / kPlaces;
    double moment = 0.0;
    for (int i = 0; i < kPlaces; ++i) {
      const double at = foot_moment(tall_mm, deep_mm, (i + 0.5) * step, nu, gives);
      moment += step * std::min(D * std::fabs(lean_rad) * at, plastic);
    }
    return moment / tall_mm;
  };
  return between(one_end(kSheet), one_end(kFirm));
}

double held_foot_yields_mm(double deep_mm, double lean_rad, double t_mm, double E_mpa, double nu,
                           double yield_mpa) {
  // Of the infinitely tall wall: D lean 4/(deep sin(pi x/deep)) = yield t^2/6.
  const double D = plate_stiffness_n_mm(E_mpa, nu, t_mm), elastic = yield_mpa * t_mm * t_mm / 6.0;
  const double share = 4.0 * D * std::fabs(lean_rad) / (deep_mm * elastic);
  return share >= 1.0 ? 0.5 * deep_mm : deep_mm / kPi * std::asin(share);
}

Ranged rim_pull_n(double tall_mm, double deep_mm, double t_mm, double E_mpa, double pulled_mm) {
  if (!(tall_mm > 0.0 && deep_mm > 0.0 && t_mm > 0.0)) return refused("a wall has positive sizes");
  const double I = deep_mm * t_mm * t_mm * t_mm / 12.0;
  const double pull = 3.0 * E_mpa * I * pulled_mm / (tall_mm * tall_mm * tall_mm);
  if (std::fabs(pulled_mm) > 0.1 * tall_mm) return outside(pull, "pulled by over a tenth of its height");
  return inside(pull);
}

RimPulls rim_pulls_n(double tall_mm, double deep_mm, double t_mm, double E_mpa, double nu, double one_mm,
                     double other_mm) {
  const double mean = 0.5 * (one_mm + other_mm), half = 0.5 * (one_mm - other_mm);
  const double per_mm = plate_stiffness_n_mm(E_mpa, nu, t_mm) / (tall_mm * tall_mm);
  const double bend = corner_stiffness(&Corner::together, tall_mm / deep_mm) * per_mm * mean;
  const double twist = corner_stiffness(&Corner::against, tall_mm / deep_mm) * per_mm * half;
  return {bend + twist, bend - twist};
}

double foot_stress_mpa(double tall_mm, double t_mm, double E_mpa, double pulled_mm) {
  return 1.5 * E_mpa * t_mm * std::fabs(pulled_mm) / (tall_mm * tall_mm);
}

Ranged springs_back_mm(double tall_mm, double t_mm, double E_mpa, double yield_mpa, double pulled_mm) {
  const double stress = foot_stress_mpa(tall_mm, t_mm, E_mpa, pulled_mm);
  if (stress <= yield_mpa) return inside(std::fabs(pulled_mm));
  return outside(std::fabs(pulled_mm) * yield_mpa / stress, "the foot yields: the bend keeps a part");
}

} // namespace tacksquare::formulas
