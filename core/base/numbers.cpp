#include "base/numbers.h"

#include "base/diagnostic.h"

#include <array>
#include <charconv>
#include <cmath>
#include <numeric>
#include <string_view>

namespace tacksquare {

namespace {

// Decimals that a step needs, at most 4: 0.05 needs 2.
int decimals_of(double step) {
  double scaled = step;
  for (int decimals = 0; decimals < 4; ++decimals, scaled *= 10.0) {
    if (std::abs(scaled - std::round(scaled)) < 1e-9) return decimals;
  }
  return 4;
}

} // namespace

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value) || decimals < 0 || decimals > 17)
    throw InternalError("fixed: not a number to print");
  std::array<char, 400> buffer{}; // 309 digits before the point, 17 behind
  const auto end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals)
          .ptr;
  std::string text(buffer.data(), end);
  if (text[0] == '-' && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

double round_to(double value, double step) {
  if (!(step > 0.0)) throw InternalError("round_to: the step must be positive");
  // For a step such as 0.1 multiply by ten: 0.15 / 0.1 is a hair under 1.5, 0.15 * 10 is not.
  const double per_unit = std::round(1.0 / step);
  const bool unit_fraction = std::abs(per_unit * step - 1.0) < 1e-12;
  const double rounded_value =
      unit_fraction ? std::round(value * per_unit) / per_unit : std::round(value / step) * step;
  return rounded_value + 0.0; // -0 + 0 is 0
}

std::string rounded(double value, double step) {
  const int decimals = decimals_of(step);
  // A power of ten is counted in whole steps: quicker, and the same digits.
  constexpr std::array<double, 5> kPerUnit{1.0, 10.0, 100.0, 1000.0, 10000.0};
  const double per_unit = kPerUnit[static_cast<std::size_t>(decimals)];
  const double steps = std::round(value * per_unit);
  if (step * per_unit != 1.0 || !(std::abs(steps) < 1e15)) return fixed(round_to(value, step), decimals);
  const bool below = steps < 0.0;
  std::string text = std::to_string(static_cast<long long>(std::abs(steps)));
  const auto least = static_cast<std::size_t>(decimals) + 1;
  if (text.size() < least) text.insert(0, least - text.size(), '0');
  if (decimals > 0) text.insert(text.size() - static_cast<std::size_t>(decimals), 1, '.');
  if (below) text.insert(0, 1, '-');
  return text;
}

std::string inch_fraction(Length length, int denominator) {
  if (denominator < 1 || denominator > 64 || (denominator & (denominator - 1)) != 0) {
    throw InternalError("inch_fraction: the denominator must be a power of two up to 64");
  }
  const double parts = std::round(in_inch(length) * denominator);
  if (!(std::abs(parts) < 1e15)) throw InternalError("inch_fraction: too long for a tape");
  const auto count = static_cast<long long>(std::abs(parts));
  const long long whole = count / denominator;
  const long long rest = count % denominator;
  std::string text = parts < 0.0 ? "-" : "";
  if (whole != 0 || rest == 0) text += std::to_string(whole);
  if (rest != 0) {
    const long long common = std::gcd(rest, static_cast<long long>(denominator));
    if (whole != 0) text += ' ';
    text += std::to_string(rest / common) + '/' + std::to_string(denominator / common);
  }
  return text;
}

std::string shortest(double value) {
  if (!std::isfinite(value)) throw InternalError("shortest: not a number to write");
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value + 0.0).ptr;
  return std::string(buffer.data(), end);
}

} // namespace tacksquare
