// Squareness of a frame from what a tape and a try square read [derived]. mm, rad. docs/theory.md,
// "Squareness".
#pragma once

#include "formulas/ranged.h"

namespace tacksquare::formulas {

struct Diagonals {
  double longer = 0.0;
  double shorter = 0.0;
  double difference() const { return longer - shorter; }
};
// Parallelogram with sides a, b and corners off by `off`: exact, law of cosines.
Diagonals parallelogram_diagonals(double a_mm, double b_mm, double off_rad);
// d1 - d2 = 2 a b off/sqrt(a^2+b^2), small angles.
double diagonal_difference_mm(double a_mm, double b_mm, double off_rad);
// Its inverse. Outside: over 5 deg.
Ranged angle_from_difference_rad(double a_mm, double b_mm, double difference_mm);

// Symmetric trapezoid with parallel sides a1, a2 and depth b between them: its diagonals are equal however
// far its corners are off, so opposite sides are measured before diagonals.
struct Trapezoid {
  double diagonal = 0.0;
  double corner_off_rad = 0.0; // each corner
};
Trapezoid trapezoid_of(double a1_mm, double a2_mm, double depth_mm);

// Try-square gap at the top of a wall of height H off by an angle: H tan(angle).
double wall_lean_mm(double height_mm, double off_rad);
// Feeler under the fourth corner: |u1 - u2 + u3 - u4|, heights of the corners in turn.
double rock_mm(double u1, double u2, double u3, double u4);

} // namespace tacksquare::formulas
