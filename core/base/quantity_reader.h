// The reader behind quantity.h: number, fraction and unit, by a table of units.
#pragma once

#include "base/quantity.h"

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tacksquare::reading {

// stored = number * top / bottom + offset. Top and bottom apart round as the makers of units.h do.
struct UnitRow {
  std::string_view name; // without spaces
  double top = 1.0;
  double bottom = 1.0;
  double offset = 0.0;
};

struct QuantityKind {
  std::string_view what;
  std::vector<UnitRow> units;  // the one to suggest first
  std::string_view other = {}; // a second one to suggest, and its word: "in", "inches"
  std::string_view other_word = {};
  bool fractions = false;   // "23 5/8"
  bool compound = false;    // "2 ft 3 in": units in falling order
  double least = -HUGE_VAL; // stored
};

// The stored value of the whole text, finite; never -0.
std::variant<double, ParseFault> read_quantity(const QuantityKind& kind, std::string_view text);

// Without spaces at either end.
std::string_view trimmed(std::string_view text);

// Takes an unsigned decimal number off the front of the text; whole tells whether it has neither point nor
// exponent.
std::optional<ParseFault> take_number(std::string_view& text, double& value, bool* whole = nullptr);

// The faults of numbers; the text is cut to what a message can hold.
ParseFault bad_number(std::string_view text, std::string remedy);
ParseFault out_of_range(std::string_view text);
std::string quoted(std::string_view text);

} // namespace tacksquare::reading
