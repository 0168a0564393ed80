// Joining 90 % intervals without drawing numbers: the same bands on every machine. docs/theory.md, "Bands".
//
// "+/-25 %" is taken as a stated 90 % interval: 5 % quantile 0.75 v, median v, 95 % quantile 1.25 v.
// Independent contributions add by root-sum-square of their half widths, each side by itself; contributions
// of one and the same cause move together, so their half widths add. Exact for normal contributions, and for
// lognormal factors in product(); an approximation for skewed sums.
#pragma once

#include "base/band.h"

#include <vector>

namespace tacksquare::formulas {

// value with 90 % limits at value -/+ |value| * relative_half_width (0.25 for +/-25 %).
Band band_around(double value, double relative_half_width);

// value with 90 % limits at value -/+ half_width, in the unit of value.
Band band_plus_minus(double value, double half_width);

// No spread: value, low and high are equal.
Band exactly(double value);

// Times a known number; a negative one swaps low and high.
Band scaled(const Band& band, double factor);

// Shifted by a known number.
Band shifted(const Band& band, double by);

// Sum of contributions with causes of their own. Empty: exactly(0).
Band sum_independent(const std::vector<Band>& parts);

// Sum of contributions that share one cause and so reach their limits together. Empty: exactly(0).
Band sum_same_cause(const std::vector<Band>& parts);

// Sum of nominal terms that all carry one shared relative uncertainty (the formula) and each its own (seam to
// seam). Terms of opposite sign cancel in the shared part, never in the own part:
// half width = sqrt((shared |sum t|)^2 + sum (own t)^2).
Band sum_with_shared_factor(const std::vector<double>& terms, double shared_relative, double own_relative);

// Product of independent positive factors, root-sum-square of the logarithms, each side by itself.
// Precondition: 0 < low <= value <= high of each factor. Empty: exactly(1).
Band product(const std::vector<Band>& factors);

// The larger and the smaller of two figures, quantile by quantile (same cause).
Band larger(const Band& a, const Band& b);
Band smaller(const Band& a, const Band& b);

} // namespace tacksquare::formulas
