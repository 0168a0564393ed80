// Limits and what is expected between them, as the gauge at hand shows them.
#include "sheet/readings.h"

#include "sheet/document.h"
#include "support/planned.h"

#include <cmath>
#include <regex>

namespace tacksquare {
namespace {

constexpr UnitSystem kUnits[] = {UnitSystem::metric, UnitSystem::inch_decimal, UnitSystem::inch_fractions};

// "23 37/64" in mm or inches, as it stands.
double number_of(const std::string& text) {
  static const std::regex whole_and_part("(-?)(?:([0-9.]+))?(?: ?([0-9]+)/([0-9]+))?");
  std::smatch m;
  if (!std::regex_match(text, m, whole_and_part)) FAIL("no number: " << text);
  double value = m[2].matched ? std::stod(m[2]) : 0.0;
  if (m[3].matched && !m[2].matched) FAIL("no number: " << text);
  if (m[3].matched) value += std::stod(m[3]) / std::stod(m[4]);
  return m[1].length() > 0 ? -value : value;
}

struct Printed {
  double low, high;
};

// What a check says, in mm: "a to b mm", "not over b mm", "within b mm either way".
Printed printed(const std::string& go) {
  static const std::regex number("(-?[0-9]+/[0-9]+|-?[0-9.]+(?: [0-9]+/[0-9]+)?)(?= to | mm| in)");
  std::vector<double> all;
  for (std::sregex_iterator it(go.begin(), go.end(), number), end; it != end; ++it) {
    const std::string text = (*it)[1];
    const std::size_t slash = text.find('/');
    all.push_back(slash != std::string::npos && text.find(' ') == std::string::npos
                      ? std::stod(text) / std::stod(text.substr(slash + 1))
                      : number_of(text));
  }
  const double unit = go.find(" mm") == std::string::npos ? 25.4 : 1.0;
  if (all.size() == 2) return {all[0] * unit, all[1] * unit};
  if (all.size() != 1) FAIL("no limits: " << go);
  return {go.find("either way") == std::string::npos ? 0.0 : -all[0] * unit, all[0] * unit};
}

// What a shop reads; common practice, no source: a rule in half millimetres, fiftieths or 1/64 in, a tape in
// 1/32 in, the rest in twentieths or thousandths.
double step_mm(const std::string& gauge, UnitSystem units) {
  const bool lines = gauge == "tape" || gauge == "steel-rule" || gauge == "pinch-sticks";
  if (units == UnitSystem::metric)
    return lines ? 0.5 : gauge == "calliper" || gauge == "gap-gauge" ? 0.1 : 0.05;
  if (!lines) return 0.0254;
  return 25.4 * (units == UnitSystem::inch_decimal ? 0.02 : gauge == "tape" ? 1.0 / 32.0 : 1.0 / 64.0);
}

int hold_checks(const Plan& plan) {
  int checks = 0;
  for (const UnitSystem units : kUnits) {
    const Document document = make_document(plan, {units, "en-GB"});
    for (std::size_t b = 0; b < plan.boxes.size(); ++b) {
      std::vector<DocumentCheck> shown;
      for (const DocumentPhase& phase : document.boxes[b].phases)
        for (const DocumentStep& step : phase.steps)
          shown.insert(shown.end(), step.checks.begin(), step.checks.end());
      std::size_t next = 0;
      for (const Step& step : plan.boxes[b].steps)
        for (const Check& check : step.checks) {
          REQUIRE(next < shown.size());
          const DocumentCheck& said = shown[next++];
          INFO("step " << step.number << ", units " << static_cast<int>(units) << ": " << said.what << ": "
                       << said.go << "; " << said.expect << "; as they are " << check.accept_low_mm << " to "
                       << check.accept_high_mm << ", " << check.expected_mm.value);
          const Printed limits = printed(said.go);
          const double low = check.accept_low_mm, high = check.accept_high_mm, hair = 1e-6;
          const double reads = step_mm(check.gauge, units);
          CHECK(limits.low >= low - hair); // the strict side
          CHECK(limits.high <= high + hair);
          if (high - low > reads) CHECK(limits.low < limits.high);
          CHECK((limits.low - low) + (high - limits.high) <= 0.25 * (high - low) + hair);
          if (check.has_expected && check.expected_mm.value > low + reads &&
              check.expected_mm.value < high - reads) {
            CHECK(limits.low <= check.expected_mm.value + hair);
            CHECK(limits.high >= check.expected_mm.value - hair);
          }
          ++checks;
        }
      CHECK(next == shown.size());
    }
  }
  return checks;
}

TEST_CASE(
    "printed limits are strict, never collapse, and let through what the limits as they are let through",
    "[together]") {
  int checks = 0;
  for (const std::string& name : test::sample_names()) {
    INFO(name);
    checks += hold_checks(test::planned_sample(name).plan);
  }
  for (const std::string& name : test::odd_job_names()) {
    INFO(name);
    checks += hold_checks(test::planned_odd_job(name).plan);
  }
  CHECK(checks > 600);
}

std::string told(double low, double high, std::optional<double> expected, BenchGauge gauge,
                 UnitSystem units) {
  const ReadingStep step = step_of_limits(low, high, expected, bench_gauge(gauge), units);
  return reading(low, step, Rounding::up) + " to " + reading(high, step, Rounding::down) +
         (expected ? ", " + reading(*expected, step) : "");
}

// 1 in = 25.4 mm; each row by hand.
TEST_CASE("limits are told in the coarsest step of the gauge that leaves three quarters of them") {
  const auto rule = BenchGauge::steel_rule, tape = BenchGauge::tape, calliper = BenchGauge::calliper;
  CHECK(told(398.8, 400.5, {}, rule, UnitSystem::metric) == "399.0 mm to 400.5 mm");
  CHECK(told(398.7, 400.3, {}, rule, UnitSystem::metric) == "398.7 mm to 400.3 mm"); // 0.6 of 1.6 is too much
  CHECK(told(1.52, 1.68, {}, calliper, UnitSystem::metric) ==
        "1.52 mm to 1.68 mm"); // to 0.05 it is 0.06 of 0.16
  CHECK(told(599.0, 601.0, 599.6, tape, UnitSystem::inch_fractions) ==
        "23 19/32 in to 23 21/32 in, 23 19/32 in");
  CHECK(told(301.0, 303.0, {}, tape, UnitSystem::inch_fractions) ==
        "11 55/64 in to 11 59/64 in"); // 1/32 in of 2 mm is too little
  CHECK(told(0.0, 0.3, {}, rule, UnitSystem::inch_fractions) == "0.000 in to 0.011 in");
  CHECK(told(399.0, 401.0, {}, rule, UnitSystem::inch_decimal) == "15.72 in to 15.78 in");
  CHECK(told(0.0, 1.0, {}, rule, UnitSystem::inch_decimal) == "0.00 in to 0.03 in"); // 0.02 is half of it
}

TEST_CASE("a value inside the limits is told inside them: a step finer where it must be") {
  // To half millimetres the limit would be 399.0 and the value 398.5.
  CHECK(told(398.70, 401.0, 398.72, BenchGauge::steel_rule, UnitSystem::metric) ==
        "398.7 mm to 401.0 mm, 398.7 mm");
  CHECK(told(398.70, 401.0, 398.60, BenchGauge::steel_rule, UnitSystem::metric) ==
        "399.0 mm to 401.0 mm, 398.5 mm"); // it is not inside
}

TEST_CASE("limits nearer to each other than any gauge reads are told as finely as there is") {
  CHECK(told(399.9992, 400.0008, {}, BenchGauge::steel_rule, UnitSystem::metric) ==
        "400.000 mm to 400.000 mm");
  CHECK(told(399.99, 400.01, {}, BenchGauge::steel_rule, UnitSystem::metric) == "399.99 mm to 400.01 mm");
}

} // namespace
} // namespace tacksquare
