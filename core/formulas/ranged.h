// A result that knows whether its formula may be used there.
#pragma once

namespace tacksquare::formulas {

// refused: the formula must not be used there at all, value is 0 and means nothing.
enum class Validity { inside, outside, refused };

// note: a short reason in plain English when not inside, else "". Static text, never null.
struct Ranged {
  double value = 0.0;
  Validity validity = Validity::inside;
  const char* note = "";
  constexpr bool in_range() const { return validity == Validity::inside; }
  constexpr bool usable() const { return validity != Validity::refused; }
};

constexpr Ranged inside(double value) {
  return {value, Validity::inside, ""};
}
constexpr Ranged outside(double value, const char* note) {
  return {value, Validity::outside, note};
}
constexpr Ranged refused(const char* note) {
  return {0.0, Validity::refused, note};
}

} // namespace tacksquare::formulas
