// A thin plate by the method of Ritz, written for tests alone: the energy of polynomials, integrated by Gauss
// and solved by elimination. Shares nothing with core/formulas.
#pragma once

#include <cstddef>
#include <vector>

namespace tacksquare::test {

// Row by row; solved with pivots.
std::vector<double> solve_by_elimination(std::vector<std::vector<double>> matrix, std::vector<double> right);

// Plate 0..deep along x, 0..tall along y. The shapes: P_i(2x/deep - 1) P_j(2y/tall - 1), times x (deep - x)
// when its ends are held, times y when it stands on a line, and once more when it is clamped there.
struct RitzPlate {
  double deep = 0.0, tall = 0.0, D = 0.0, nu = 0.3;
  bool ends_held = false;
  int foot = 1;          // power of y
  bool top_held = false; // times (tall - y)
  int along = 9, up = 9; // shapes in both directions

  std::size_t size() const { return static_cast<std::size_t>(along * up); }
  // Value or derivative of one shape: dx, dy times.
  double shape(std::size_t n, double x, double y, int dx, int dy) const;
  std::vector<std::vector<double>> stiffness() const;
  double at(const std::vector<double>& factors, double x, double y) const;
};

// Belly at the middle of the rim of a wall that stands on a bend turned by `lean`, its ends held; on a firm
// foot, or on a base as deep as `base` of the same sheet, held all around.
double ritz_held_wall(double tall, double deep, double lean, double base);
// Movement of its two rim corners under one pull each, foot clamped, sides free.
struct RitzCorners {
  double one = 0.0, other = 0.0;
};
RitzCorners ritz_pulled_wall(double tall, double deep, double D, double nu, double pull_one,
                             double pull_other);

} // namespace tacksquare::test
