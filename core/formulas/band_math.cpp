#include "formulas/band_math.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

Band band_around(double value, double relative_half_width) {
  return band_plus_minus(value, std::fabs(value) * relative_half_width);
}

Band band_plus_minus(double value, double half_width) {
  return {value, value - half_width, value + half_width};
}

Band exactly(double value) {
  return {value, value, value};
}

Band scaled(const Band& band, double factor) {
  if (factor < 0.0) return {factor * band.value, factor * band.high, factor * band.low};
  return {factor * band.value, factor * band.low, factor * band.high};
}

Band shifted(const Band& band, double by) {
  return {band.value + by, band.low + by, band.high + by};
}

Band sum_independent(const std::vector<Band>& parts) {
  double value = 0.0, below = 0.0, above = 0.0;
  for (const Band& p : parts) {
    value += p.value;
    below += (p.value - p.low) * (p.value - p.low);
    above += (p.high - p.value) * (p.high - p.value);
  }
  return {value, value - std::sqrt(below), value + std::sqrt(above)};
}

Band sum_same_cause(const std::vector<Band>& parts) {
  Band sum;
  for (const Band& p : parts) {
    sum.value += p.value;
    sum.low += p.low;
    sum.high += p.high;
  }
  return sum;
}

Band sum_with_shared_factor(const std::vector<double>& terms, double shared_relative, double own_relative) {
  double sum = 0.0, own = 0.0;
  for (const double t : terms) {
    sum += t;
    own += own_relative * t * own_relative * t;
  }
  const double shared = shared_relative * sum;
  return band_plus_minus(sum, std::sqrt(shared * shared + own));
}

Band product(const std::vector<Band>& factors) {
  double value = 1.0, below = 0.0, above = 0.0;
  for (const Band& f : factors) {
    if (!(f.low > 0.0 && f.low <= f.value && f.value <= f.high))
      throw InternalError("a factor of a product of bands is not positive or not in order");
    value *= f.value;
    const double down = std::log(f.value / f.low), up = std::log(f.high / f.value);
    below += down * down;
    above += up * up;
  }
  return {value, value * std::exp(-std::sqrt(below)), value * std::exp(std::sqrt(above))};
}

Band larger(const Band& a, const Band& b) {
  return {std::max(a.value, b.value), std::max(a.low, b.low), std::max(a.high, b.high)};
}

Band smaller(const Band& a, const Band& b) {
  return {std::min(a.value, b.value), std::min(a.low, b.low), std::min(a.high, b.high)};
}

} // namespace tacksquare::formulas
