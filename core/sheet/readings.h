// Lengths as a gauge shows them: in whole steps of a millimetre, of decimals of an inch or of a fraction of
// one.
#pragma once

#include "sheet/document.h"
#include "tables/bench_gauges.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// How a limit is rounded: never to the side that lets more through.
enum class Rounding { nearest, down, up };

// The nearest whole step, or the next below or above; a value a hair off a step is on it.
double to_step(double value, double step, Rounding rounding);

struct ReadingStep {
  double size = 0.1;  // of the unit, mm or inch
  double unit_mm = 1; // 1 or 25.4
  int parts = 0;      // of an inch, where fractions are read
};

// The row of bench_gauges(); nullptr for the empty id, InternalError for an unknown one.
const BenchGaugeInfo* find_gauge(const std::string& id);

// The step in which the gauge is read, then finer ones. A shop that reads fractions goes on in decimals.
std::vector<ReadingStep> reading_steps(const BenchGaugeInfo& gauge, UnitSystem units);

// The coarsest step of the gauge in which limits rounded inward keep three quarters of what they allow, stay
// apart, and still let the expected value through when the limits as they are do. The finest where none will
// do.
ReadingStep step_of_limits(double low_mm, double high_mm, std::optional<double> expected_mm,
                           const BenchGaugeInfo& gauge, UnitSystem units);

// "399.0 mm", "15.72 in", "15 47/64 in".
std::string reading(double value_mm, const ReadingStep& step, Rounding rounding = Rounding::nearest);

} // namespace tacksquare
