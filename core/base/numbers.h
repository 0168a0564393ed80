// Numbers as text, the same bytes on every machine: no locale, no "-0", ties to the even digit of the exact
// binary value.
#pragma once

#include "base/units.h"

#include <string>

namespace tacksquare {

// "12.50" for (12.5, 2). Precondition: finite, 0 <= decimals <= 17 (InternalError).
std::string fixed(double value, int decimals);

// Nearest multiple of step, halves away from zero; never -0. Precondition: step > 0.
double round_to(double value, double step);

// round_to with as many decimals as the step has (at most 4): rounded(398.83, 0.5) is "399.0", step 5: "400".
std::string rounded(double value, double step);

// Inches as on a tape, to the nearest 1/denominator, reduced: "23 5/8", "-1/2", "0". No unit mark.
// Precondition: denominator a power of two, 1 to 64.
std::string inch_fraction(Length length, int denominator);

// The shortest text that reads back to the very same number: for files. Precondition: finite.
std::string shortest(double value);

} // namespace tacksquare
