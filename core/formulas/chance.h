// Chances from counts. docs/theory.md, "Chances".
#pragma once

#include "base/band.h"

#include <cstdint>

namespace tacksquare::formulas {

// Regularized incomplete beta I_x(a, b): continued fraction (Press and others, Numerical Recipes, 6.4;
// Abramowitz and Stegun 26.5.8) by the method of Lentz. a, b > 0; x beyond 0..1 counts as its end.
double beta_regularized(double a, double b, double x);

// x with I_x(a, b) = p, by halving: to the last digit.
double beta_quantile(double a, double b, double p);

// k of n draws came out well: exact limits of the chance by Clopper and Pearson (Biometrika 26, 1934), as
// much confidence as asked for, half of the rest on either side. Value k/n. Precondition: k <= n, n > 0,
// confidence in 0..1.
Band clopper_pearson(std::uint64_t k, std::uint64_t n, double confidence);

} // namespace tacksquare::formulas
