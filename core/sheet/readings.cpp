#include "sheet/readings.h"

#include "base/diagnostic.h"
#include "base/numbers.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

// What is between the lines of a rule is guessed at, and still better than a limit that nothing keeps.
constexpr double kMetric[] = {0.5, 0.1, 0.05, 0.01, 0.001};
constexpr double kInch[] = {0.02, 0.01, 0.005, 0.001, 0.0001};
constexpr int kFinestParts = 64;
constexpr double kMostTaken = 0.25; // of what limits allow, by rounding them inward

int decimals_of(double step) {
  int decimals = 1;
  for (double size = 0.1; size > step * 1.000001 && decimals < 4; ++decimals)
    size *= 0.1;
  return std::abs(step * std::pow(10.0, decimals) - std::round(step * std::pow(10.0, decimals))) > 1e-6
             ? decimals + 1
             : decimals;
}

bool will_do(double low, double high, std::optional<double> expected, double step) {
  const double least = to_step(low, step, Rounding::up), most = to_step(high, step, Rounding::down);
  if (least >= most) return false;
  if (least - low + high - most > kMostTaken * (high - low)) return false;
  if (!expected || *expected < low || *expected > high) return true;
  const double read = to_step(*expected, step, Rounding::nearest);
  return least <= read && read <= most;
}

} // namespace

double to_step(double value, double step, Rounding rounding) {
  const double slack = step * 1e-6; // 0.3 stays 0.3 although 0.3 / 0.1 is a hair under 3
  if (rounding == Rounding::down) return round_to(std::floor((value + slack) / step) * step, step);
  if (rounding == Rounding::up) return round_to(std::ceil((value - slack) / step) * step, step);
  return round_to(value, step);
}

const BenchGaugeInfo* find_gauge(const std::string& id) {
  if (id.empty()) return nullptr;
  for (const BenchGaugeInfo& info : bench_gauges())
    if (info.id == id) return &info;
  throw InternalError("no such bench gauge: " + id);
}

std::vector<ReadingStep> reading_steps(const BenchGaugeInfo& gauge, UnitSystem units) {
  std::vector<ReadingStep> steps;
  const bool metric = units == UnitSystem::metric;
  double last = metric ? in_mm(gauge.step) : gauge.inch_step;
  if (units == UnitSystem::inch_fractions && gauge.inch_parts > 0) {
    for (int parts = gauge.inch_parts; parts <= kFinestParts; parts *= 2)
      steps.push_back({1.0 / parts, kMmPerInch, parts});
    last = kInch[3];
  }
  const auto add = [&](double size) { steps.push_back({size, metric ? 1.0 : kMmPerInch, 0}); };
  add(last);
  for (const double size : metric ? kMetric : kInch)
    if (size < last * 0.999) add(size);
  return steps;
}

ReadingStep step_of_limits(double low_mm, double high_mm, std::optional<double> expected_mm,
                           const BenchGaugeInfo& gauge, UnitSystem units) {
  const std::vector<ReadingStep> steps = reading_steps(gauge, units);
  const auto found = std::find_if(steps.begin(), steps.end(), [&](const ReadingStep& step) {
    std::optional<double> expected;
    if (expected_mm) expected = *expected_mm / step.unit_mm;
    return will_do(low_mm / step.unit_mm, high_mm / step.unit_mm, expected, step.size);
  });
  return found == steps.end() ? steps.back() : *found;
}

std::string reading(double value_mm, const ReadingStep& step, Rounding rounding) {
  const double value = to_step(value_mm / step.unit_mm, step.size, rounding);
  if (step.parts > 0) return inch_fraction(inch(value), step.parts) + " in";
  return fixed(value, decimals_of(step.size)) + (step.unit_mm == 1.0 ? " mm" : " in");
}

} // namespace tacksquare
