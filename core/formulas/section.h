// Section of a thin-walled part cut across a seam: strips along centre lines [derived, exact for rectangles
// that do not overlap; corners counted once each way, error of order t/width].
#pragma once

#include "base/vec.h"

#include <vector>

namespace tacksquare::formulas {

// A straight strip from a to b (mm) of the given thickness, both on the centre line.
struct Strip {
  Vec2 a, b;
  double thickness_mm = 0.0;
};

struct Section {
  double area_mm2 = 0.0;
  Vec2 centroid;
  double ixx_mm4 = 0.0; // integral of (y - yc)^2: bending that moves the part along y
  double iyy_mm4 = 0.0;
  double ixy_mm4 = 0.0;
};
// Empty or of no area: all zero.
Section section_of(const std::vector<Strip>& strips);

// Curvature (1/mm) of a straight beam under an eccentric lengthwise shrinkage force of 1 N at `at`, E in MPa;
// x and y are the curvatures in the directions x and y, unsymmetrical sections included; positive: hollow
// towards the seam. Precondition: section of positive area and determinant.
Vec2 curvature_per_newton(const Section& section, Vec2 at, double E_mpa);

} // namespace tacksquare::formulas
