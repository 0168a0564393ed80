#include "formulas/panel.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace tacksquare::formulas {

namespace {

// Supported: Navier's series of Timoshenko and Woinowsky-Krieger, which their printed table 8 rounds (0.4 %
// low at 1.1 and 1.4). Clamped: their table 35, nu 0.3.
struct Row {
  double long_over_short, supported, clamped;
};
constexpr Row kRows[] = {{1.0, 0.004062, 0.00126}, {1.1, 0.004869, 0.00150}, {1.2, 0.005651, 0.00172},
                         {1.3, 0.006392, 0.00191}, {1.4, 0.007085, 0.00207}, {1.5, 0.007724, 0.00220},
                         {1.6, 0.008308, 0.00230}, {1.7, 0.008838, 0.00238}, {1.8, 0.009316, 0.00245},
                         {1.9, 0.009745, 0.00249}, {2.0, 0.010129, 0.00254}};
// Beyond 2 by the long plate; the supported plate still grows until about 5.
constexpr Row kLongRows[] = {
    {2.0, 0.01013, 0.00254}, {3.0, 0.01223, 0.00260}, {4.0, 0.01282, 0.00260}, {5.0, 0.01297, 0.00260}};
constexpr double kLongSupported = 5.0 / 384.0, kLongClamped = 1.0 / 384.0;

template <std::size_t N> double between(const Row (&rows)[N], PanelEdge edge, double ratio) {
  const auto of = [edge](const Row& r) { return edge == PanelEdge::supported ? r.supported : r.clamped; };
  std::size_t i = 1;
  while (i + 1 < N && ratio > rows[i].long_over_short)
    ++i;
  const Row &p = rows[i - 1], &n = rows[i];
  const double share = (ratio - p.long_over_short) / (n.long_over_short - p.long_over_short);
  return of(p) + share * (of(n) - of(p));
}

} // namespace

Ranged bulge_coefficient(PanelEdge edge, double side_1_mm, double side_2_mm) {
  if (!(side_1_mm > 0.0 && side_2_mm > 0.0)) return refused("a panel has two positive sides");
  const double ratio = std::max(side_1_mm, side_2_mm) / std::min(side_1_mm, side_2_mm);
  if (ratio > 5.0) return inside(edge == PanelEdge::supported ? kLongSupported : kLongClamped);
  return inside(ratio <= 2.0 ? between(kRows, edge, ratio) : between(kLongRows, edge, ratio));
}

double plate_stiffness_n_mm(double E_mpa, double nu, double thickness_mm) {
  return E_mpa * thickness_mm * thickness_mm * thickness_mm / (12.0 * (1.0 - nu * nu));
}

Ranged bulge_mm(PanelEdge edge, double side_1_mm, double side_2_mm, double thickness_mm, double E_mpa,
                double nu, double pressure_mpa) {
  Ranged alpha = bulge_coefficient(edge, side_1_mm, side_2_mm);
  if (!alpha.usable()) return alpha;
  const double a = std::min(side_1_mm, side_2_mm);
  const double bulge =
      alpha.value * pressure_mpa * a * a * a * a / plate_stiffness_n_mm(E_mpa, nu, thickness_mm);
  if (std::fabs(bulge) > 0.5 * thickness_mm)
    return outside(bulge, "over half the thickness the sheet stretches: the true bulge is smaller");
  return inside(bulge);
}

Band bulge_between_mm(double side_1_mm, double side_2_mm, double thickness_mm, double E_mpa, double nu,
                      double pressure_mpa) {
  const auto at = [&](PanelEdge edge) {
    return bulge_mm(edge, side_1_mm, side_2_mm, thickness_mm, E_mpa, nu, pressure_mpa).value;
  };
  const double low = at(PanelEdge::clamped), high = at(PanelEdge::supported);
  return {std::sqrt(low * high), low, high};
}

double trapped_air_mpa(double closed_c, double rise_k) {
  return 0.101325 * rise_k / (closed_c + 273.15);
}

} // namespace tacksquare::formulas
