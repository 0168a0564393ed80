#include "formulas/tipping.h"

#include "base/units.h"

#include <cmath>

namespace tacksquare::formulas {

double tipped_height_mm(double h_mm, double d_mm, double lean_rad) {
  return h_mm * std::cos(lean_rad) + d_mm * std::sin(lean_rad);
}

double tip_sweep_mm(double h_mm, double d_mm, double from_rad) {
  if (from_rad >= std::atan2(d_mm, h_mm)) return std::hypot(h_mm, d_mm);
  return tipped_height_mm(h_mm, d_mm, from_rad);
}

std::optional<double> tip_lean_rad(double h_mm, double d_mm, double clear_mm) {
  if (clear_mm < h_mm) return std::nullopt;
  const double diagonal = std::hypot(h_mm, d_mm);
  if (clear_mm >= diagonal) return 0.5 * kPi;
  return std::atan2(d_mm, h_mm) - std::acos(clear_mm / diagonal);
}

} // namespace tacksquare::formulas
