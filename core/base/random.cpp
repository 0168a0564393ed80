#include "base/random.h"

#include "base/diagnostic.h"

#include <cmath>

namespace tacksquare {

namespace {

// Natural logarithm of a number in (0, 1) by ln m = 2 artanh((m - 1)/(m + 1)), m in [1/2, 1).
double own_log(double x) {
  int exponent = 0;
  const double m = std::frexp(x, &exponent);
  const double s = (m - 1.0) / (m + 1.0); // in [-1/3, 0): thirty-odd digits after 33 terms
  double sum = 0.0;
  for (int k = 33; k >= 0; --k)
    sum = sum * s * s + 1.0 / (2 * k + 1);
  return 2.0 * s * sum + exponent * 0.69314718055994530942;
}

using Coefficients = double[8];

double polynomial(const Coefficients& c, double x) {
  double sum = 0.0;
  for (int k = 7; k >= 0; --k)
    sum = sum * x + c[k];
  return sum;
}

// AS 241, PPND16: numerator and denominator for the middle, the tail and the far tail.
constexpr Coefficients middle_top = {
    3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
    4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3};
constexpr Coefficients middle_bottom = {1.0,
                                        4.2313330701600911252e1,
                                        6.8718700749205790830e2,
                                        5.3941960214247511077e3,
                                        2.1213794301586595867e4,
                                        3.9307895800092710610e4,
                                        2.8729085735721942674e4,
                                        5.2264952788528545610e3};
constexpr Coefficients tail_top = {1.42343711074968357734e0,  4.63033784615654529590e0,
                                   5.76949722146069140550e0,  3.64784832476320460504e0,
                                   1.27045825245236838258e0,  2.41780725177450611770e-1,
                                   2.27238449892691845833e-2, 7.74545014278341407640e-4};
constexpr Coefficients tail_bottom = {1.0,
                                      2.05319162663775882187e0,
                                      1.67638483018380384940e0,
                                      6.89767334985100004550e-1,
                                      1.48103976427480074590e-1,
                                      1.51986665636164571966e-2,
                                      5.47593808499534494600e-4,
                                      1.05075007164441684324e-9};
constexpr Coefficients far_top = {6.65790464350110377720e0,  5.46378491116411436990e0,
                                  1.78482653991729133580e0,  2.96560571828504891230e-1,
                                  2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                  2.71155556874348757815e-5, 2.01033439929228813265e-7};
constexpr Coefficients far_bottom = {1.0,
                                     5.99832206555887937690e-1,
                                     1.36929880922735805310e-1,
                                     1.48753612908506148525e-2,
                                     7.86869131145613259100e-4,
                                     1.84631831751005468180e-5,
                                     1.42151175831644588870e-7,
                                     2.04426310338993978564e-15};

// Normal draws lie straight between the ends of equal shares of the probability, 4e-5 of a deviation off at
// most; in the outer shares they are exact.
constexpr unsigned kShareBits = 14;
constexpr std::size_t kShares = std::size_t{1} << kShareBits, kTailShares = 32;

std::vector<double> ends_of_shares() {
  std::vector<double> ends(kShares + 1);
  for (std::size_t i = 1; i < kShares; ++i)
    ends[i] = normal_quantile(static_cast<double>(i) / static_cast<double>(kShares));
  return ends;
}

std::uint64_t split_mix(std::uint64_t& state) {
  state += 0x9e3779b97f4a7c15u;
  std::uint64_t z = state;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

} // namespace

Random::Random(std::uint64_t seed) : state_{} {
  for (std::uint64_t& word : state_)
    word = split_mix(seed);
}

double Random::uniform(double low, double high) {
  return low + (high - low) * uniform01();
}

std::uint64_t Random::below(std::uint64_t n) {
  if (n == 0) throw InternalError("Random::below: nothing to choose from");
  const std::uint64_t biased =
      (0 - n) % n; // 2^64 mod n: as many of the lowest draws would favour small results
  std::uint64_t draw = next();
  while (draw < biased)
    draw = next();
  return draw % n;
}

double Random::normal() {
  static const std::vector<double> ends = ends_of_shares();
  const std::uint64_t draw = next(), low = draw & (~std::uint64_t{0} >> kShareBits);
  const auto share = static_cast<std::size_t>(draw >> (64 - kShareBits));
  if (share < kTailShares || share >= kShares - kTailShares)
    return normal_quantile((static_cast<double>(draw >> 12) + 0.5) * 0x1.0p-52); // never 0 or 1
  const double within = static_cast<double>(low) * 0x1.0p-50;
  return ends[share] + within * (ends[share + 1] - ends[share]);
}

double normal_quantile(double p) {
  if (!(p > 0.0 && p < 1.0)) throw InternalError("normal_quantile: p must lie between 0 and 1");
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    return q * polynomial(middle_top, r) / polynomial(middle_bottom, r);
  }
  const double r = std::sqrt(-own_log(q < 0.0 ? p : 1.0 - p));
  const double size = r <= 5.0 ? polynomial(tail_top, r - 1.6) / polynomial(tail_bottom, r - 1.6)
                               : polynomial(far_top, r - 5.0) / polynomial(far_bottom, r - 5.0);
  return q < 0.0 ? -size : size;
}

} // namespace tacksquare
