#include "formulas/gaussian.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

namespace {

constexpr double kKnown = 1e-18; // mm2: no spread to speak of

std::vector<double> times(const Gaussian& figures, const std::vector<double>& weights) {
  std::vector<double> product(figures.mean.size());
  const std::size_t n = std::min(weights.size(), product.size());
  for (std::size_t i = 0; i < product.size(); ++i)
    for (std::size_t j = 0; j < n; ++j)
      product[i] += figures.covariance[i][j] * weights[j];
  return product;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
    sum += a[i] * b[i];
  return sum;
}

} // namespace

Gaussian independent(const std::vector<double>& means, const std::vector<double>& variances) {
  Gaussian figures{means, std::vector<std::vector<double>>(means.size(), std::vector<double>(means.size()))};
  for (std::size_t i = 0; i < means.size(); ++i)
    figures.covariance[i][i] = variances[i];
  return figures;
}

Weighed weighed(const Gaussian& figures, const std::vector<double>& weights) {
  return {dot(weights, figures.mean), std::max(0.0, dot(weights, times(figures, weights)))};
}

double surprise(const Gaussian& figures, const std::vector<double>& weights, double reading,
                double variance) {
  const Weighed expected = weighed(figures, weights);
  const double off = reading - expected.mean;
  if (expected.variance + variance > kKnown) return off / std::sqrt(expected.variance + variance);
  constexpr double kSame = 1e-9, kNever = 1e9;
  return std::fabs(off) <= kSame ? 0.0 : off > 0.0 ? kNever : -kNever;
}

double observe(Gaussian& figures, const std::vector<double>& weights, double reading, double variance) {
  const double off = surprise(figures, weights, reading, variance);
  const std::vector<double> with = times(figures, weights);
  const double total = dot(weights, with) + variance;
  if (total <= kKnown) return off;
  const double miss = reading - dot(weights, figures.mean);
  for (std::size_t i = 0; i < with.size(); ++i) {
    figures.mean[i] += with[i] * miss / total;
    for (std::size_t j = 0; j < with.size(); ++j)
      figures.covariance[i][j] -= with[i] * with[j] / total;
    // What is known for good keeps no trace of rounding.
    figures.covariance[i][i] = std::max(0.0, figures.covariance[i][i]);
  }
  return off;
}

} // namespace tacksquare::formulas
