// Measures that share one limit share one figure.
#pragma once

#include "base/band.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

// Of two bands under one limit the value further from nominal, and the ends of both.
inline Band furthest(const Band& a, const Band& b, double nominal_mm) {
  Band all = std::abs(b.value - nominal_mm) > std::abs(a.value - nominal_mm) ? b : a;
  all.low = std::min(a.low, b.low);
  all.high = std::max(a.high, b.high);
  return all;
}

} // namespace tacksquare
