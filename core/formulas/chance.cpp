#include "formulas/chance.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare::formulas {

namespace {

// Converges fast where x is below the mean of the distribution; the longest way there is about sqrt(max(a,
// b)).
double beta_fraction(double a, double b, double x) {
  constexpr double kTiny = 1e-300;
  constexpr double kEnough = std::numeric_limits<double>::epsilon();
  const int most = 200 + 10 * static_cast<int>(std::sqrt(std::max(a, b)));
  const auto off_zero = [](double v) { return std::abs(v) < kTiny ? kTiny : v; };
  double c = 1.0, d = 1.0 / off_zero(1.0 - (a + b) * x / (a + 1.0)), h = d;
  for (int m = 1; m <= most; ++m) {
    const double k = m;
    for (const double term : {k * (b - k) * x / ((a + 2.0 * k - 1.0) * (a + 2.0 * k)),
                              -(a + k) * (a + b + k) * x / ((a + 2.0 * k) * (a + 2.0 * k + 1.0))}) {
      d = 1.0 / off_zero(1.0 + term * d);
      c = off_zero(1.0 + term / c);
      h *= d * c;
    }
    if (std::abs(d * c - 1.0) <= kEnough) return h;
  }
  return h;
}

} // namespace

double beta_regularized(double a, double b, double x) {
  if (!(a > 0.0 && b > 0.0)) throw InternalError("beta_regularized: a and b must be positive");
  if (!(x > 0.0)) return 0.0;
  if (x >= 1.0) return 1.0;
  const double front =
      std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x));
  if (x < (a + 1.0) / (a + b + 2.0)) return front * beta_fraction(a, b, x) / a;
  return 1.0 - front * beta_fraction(b, a, 1.0 - x) / b;
}

double beta_quantile(double a, double b, double p) {
  double low = 0.0, high = 1.0;
  for (;;) {
    const double middle = 0.5 * (low + high);
    if (middle <= low || middle >= high) return middle;
    (beta_regularized(a, b, middle) < p ? low : high) = middle;
  }
}

Band clopper_pearson(std::uint64_t k, std::uint64_t n, double confidence) {
  if (n == 0 || k > n || !(confidence > 0.0 && confidence < 1.0))
    throw InternalError("clopper_pearson: needs k of n > 0 draws and a confidence between 0 and 1");
  const double tail = 0.5 * (1.0 - confidence), hits = static_cast<double>(k),
               misses = static_cast<double>(n - k);
  return {hits / static_cast<double>(n), k == 0 ? 0.0 : beta_quantile(hits, misses + 1.0, tail),
          k == n ? 1.0 : beta_quantile(hits + 1.0, misses, 1.0 - tail)};
}

} // namespace tacksquare::formulas
