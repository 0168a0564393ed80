#include "formulas/squareness.h"

#include "base/units.h"

#include <cmath>

namespace tacksquare::formulas {

Diagonals parallelogram_diagonals(double a_mm, double b_mm, double off_rad) {
  const double squares = a_mm * a_mm + b_mm * b_mm;
  const double split = 2.0 * a_mm * b_mm * std::fabs(std::sin(off_rad));
  return {std::sqrt(squares + split), std::sqrt(squares - split)};
}

double diagonal_difference_mm(double a_mm, double b_mm, double off_rad) {
  return 2.0 * a_mm * b_mm * off_rad / std::sqrt(a_mm * a_mm + b_mm * b_mm);
}

Ranged angle_from_difference_rad(double a_mm, double b_mm, double difference_mm) {
  const double off = difference_mm * std::sqrt(a_mm * a_mm + b_mm * b_mm) / (2.0 * a_mm * b_mm);
  if (std::fabs(off) > 5.0 * kPi / 180.0)
    return outside(off, "over 5 degrees out of square the small-angle form errs");
  return inside(off);
}

Trapezoid trapezoid_of(double a1_mm, double a2_mm, double depth_mm) {
  const double middle = 0.5 * (a1_mm + a2_mm);
  return {std::sqrt(middle * middle + depth_mm * depth_mm),
          std::atan(0.5 * std::fabs(a1_mm - a2_mm) / depth_mm)};
}

double wall_lean_mm(double height_mm, double off_rad) {
  return height_mm * std::tan(off_rad);
}

double rock_mm(double u1, double u2, double u3, double u4) {
  return std::fabs(u1 - u2 + u3 - u4);
}

} // namespace tacksquare::formulas
