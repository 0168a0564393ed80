#include "job/brake.h"

#include <cmath>

namespace tacksquare {

namespace {

constexpr double kAngleFits_rad = 0.5 * kPi / 180.0, kRadiusFits_mm = 0.1;
constexpr double kWhole = 1.0 + 1e-9; // the limits fit, too

// How far off, in parts of what fits.
double angle_off(const Deduction& d, double angle_rad) {
  return std::abs(in_rad(d.bend) - angle_rad) / kAngleFits_rad;
}
double radius_off(const Deduction& d, double radius_mm) {
  return std::abs(in_mm(d.radius) - radius_mm) / kRadiusFits_mm;
}

} // namespace

bool belongs_to(const Deduction& d, std::size_t sheet, double angle_rad, double radius_mm) {
  return d.sheet == sheet && angle_off(d, angle_rad) <= kWhole && radius_off(d, radius_mm) <= kWhole;
}

const Deduction* nearest_deduction(const Brake& brake, std::size_t sheet, double angle_rad,
                                   double radius_mm) {
  const Deduction* best = nullptr;
  double least = 0.0;
  for (const Deduction& d : brake.deductions) {
    const double off = angle_off(d, angle_rad) + radius_off(d, radius_mm);
    if (!belongs_to(d, sheet, angle_rad, radius_mm) || (best != nullptr && off >= least)) continue;
    best = &d;
    least = off;
  }
  return best;
}

} // namespace tacksquare
