// Our own random generator: the same numbers on every machine and library.
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace tacksquare {

// xoshiro256** 1.0 (Blackman and Vigna 2018), state filled from the seed by SplitMix64. Copyable value.
class Random {
 public:
  explicit Random(std::uint64_t seed);

  std::uint64_t next() {
    const std::uint64_t result = std::rotl(state_[1] * 5, 7) * 9;
    const std::uint64_t t = state_[1] << 17;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= t;
    state_[3] = std::rotl(state_[3], 45);
    return result;
  }
  double uniform01() { return static_cast<double>(next() >> 11) * 0x1.0p-53; } // [0, 1), 53 bits
  double uniform(double low, double high);                                     // [low, high)
  std::uint64_t below(std::uint64_t n); // 0 to n - 1 without bias; precondition n > 0
  double normal();                      // mean 0, deviation 1

  template <class T> void shuffle(std::vector<T>& items) {
    for (std::size_t i = items.size(); i > 1; --i) {
      std::swap(items[i - 1], items[static_cast<std::size_t>(below(i))]);
    }
  }

 private:
  std::uint64_t state_[4];
};

// Quantile of the standard normal, 0 < p < 1 (InternalError outside): rational approximation AS 241 (Wichura,
// Applied Statistics 37, 1988), relative error about 1e-16. Only + - * / and sqrt, the logarithm of the tail
// by a series of our own, so no machine's maths library changes a digit.
double normal_quantile(double p);

} // namespace tacksquare
