// Quantities as the reader wants them: rounded to what can be read or is worth knowing, unit included. Unit
// symbols are the same in all languages.
#pragma once

#include "plan/text.h"
#include "sheet/document.h"
#include "sheet/readings.h"

#include <string>

namespace tacksquare {

// A quantity of any kind but word, term and list (InternalError). gauge: for length_mm the id of the bench
// gauge that reads it, or empty; an unknown id is an InternalError.
std::string quantity_text(ArgKind kind, double value, const std::string& gauge, UnitSystem units,
                          Rounding rounding = Rounding::nearest);

// A length that somebody chose and nobody measures, such as that of a clamp: in millimetres as it is, in
// inches a round one near it ("4 in" for 100 mm).
std::string round_length_text(double value_mm, UnitSystem units);

// Where on a seam, to be marked with a pen: in millimetres to a half, in decimals of an inch to a fiftieth,
// in fractions to a sixteenth.
std::string place_text(double value_mm, UnitSystem units);

// "398.8 to 400.0 mm": the unit once, where both have the same. to: the word between.
std::string range_text(const std::string& low, const std::string& high, const std::string& to);

// The unit at the end of a rendered quantity, with its space: " mm"; empty when there is none.
std::string unit_of(const std::string& quantity);

} // namespace tacksquare
