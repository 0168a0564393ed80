// What a reading teaches about normal figures: conditioning of a linear normal model, one reading after the
// other (Rauch and Kalman's update of a scalar; Anderson and Moore, Optimal Filtering, from memory). The
// order of the readings changes nothing. docs/theory.md, "First-off".
#pragma once

#include <cstddef>
#include <vector>

namespace tacksquare::formulas {

// Figures with their joint spread; covariance row by row.
struct Gaussian {
  std::vector<double> mean;
  std::vector<std::vector<double>> covariance;
};

// Independent figures.
Gaussian independent(const std::vector<double>& means, const std::vector<double>& variances);

// Mean and variance of a sum with weights; weights beyond its size count as none.
struct Weighed {
  double mean = 0.0, variance = 0.0;
};
Weighed weighed(const Gaussian& figures, const std::vector<double>& weights);

// A reading of the sum with weights, its own variance on top. Returns how many deviations it lies off what
// was expected (0 where it was known already and says the same); the figures then know it. A reading of what
// has no spread and no error teaches nothing.
double observe(Gaussian& figures, const std::vector<double>& weights, double reading, double variance);
// The same without learning from it.
double surprise(const Gaussian& figures, const std::vector<double>& weights, double reading, double variance);

} // namespace tacksquare::formulas
