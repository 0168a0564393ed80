#include "sheet/quantities.h"

#include "base/diagnostic.h"
#include "base/numbers.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

double to_step(double value, double step, Rounding rounding) {
  const double slack = step * 1e-6; // 0.3 stays 0.3 although 0.3 / 0.1 is a hair under 3
  if (rounding == Rounding::down) return round_to(std::floor((value + slack) / step) * step, step);
  if (rounding == Rounding::up) return round_to(std::ceil((value - slack) / step) * step, step);
  return round_to(value, step);
}

std::string trimmed(std::string number) {
  if (number.find('.') == std::string::npos) return number;
  while (number.back() == '0')
    number.pop_back();
  if (number.back() == '.') number.pop_back();
  return number;
}

std::string plain(double value, int decimals) {
  return trimmed(fixed(round_to(value, std::pow(10.0, -decimals)), decimals));
}

// Three significant digits at most, no exponent.
std::string significant(double value) {
  const double size = std::abs(value);
  if (size >= 100.0) return fixed(round_to(value, std::pow(10.0, std::floor(std::log10(size)) - 2.0)), 0);
  return plain(value, size >= 10.0 ? 1 : size >= 1.0 ? 2 : size >= 0.1 ? 3 : 4);
}

const BenchGaugeInfo* find_gauge(const std::string& id) {
  if (id.empty()) return nullptr;
  for (const BenchGaugeInfo& info : bench_gauges())
    if (info.id == id) return &info;
  throw InternalError("no such bench gauge: " + id);
}

std::string metric_length(double value_mm, const BenchGaugeInfo* gauge, Rounding rounding) {
  if (!gauge) {
    // What no gauge reads is a size or a place: a tenth at most, two digits where it is small.
    const double step = std::abs(value_mm) < 0.995 && value_mm != 0.0 ? 0.01 : 0.1;
    return trimmed(fixed(to_step(value_mm, step, rounding), 2)) + " mm";
  }
  // A limit is stated, not read: a tenth is kept even where the gauge is coarser.
  const double read_mm = in_mm(gauge->step);
  const double step = rounding == Rounding::nearest ? read_mm : std::min(read_mm, 0.1);
  const std::string number = fixed(to_step(value_mm, step, rounding), step < 0.1 ? 2 : 1);
  return (step >= 0.5 ? trimmed(number) : number) + " mm";
}

std::string inch_decimal(double value_mm, Rounding rounding) {
  return fixed(to_step(value_mm / kMmPerInch, 0.001, rounding), 3) + " in";
}

// Who reads fractions still reads a calliper and feelers in thousandths, and nothing finer than 1/64 on a
// rule.
std::string inch_fractions(double value_mm, const BenchGaugeInfo* gauge, Rounding rounding) {
  const double value_in = value_mm / kMmPerInch;
  const double size_in = std::abs(value_in);
  const bool lines = !gauge || gauge->gauge == BenchGauge::tape || gauge->gauge == BenchGauge::steel_rule ||
                     gauge->gauge == BenchGauge::pinch_sticks;
  const int parts = (gauge && gauge->gauge != BenchGauge::tape) || size_in < 0.25 ? 64 : 16;
  if (!lines || (size_in > 0.0 && size_in < 1.0 / 64.0)) return inch_decimal(value_mm, rounding);
  return inch_fraction(inch(to_step(value_in, 1.0 / parts, rounding)), parts) + " in";
}

std::string length_text(double value_mm, const std::string& gauge_id, UnitSystem units, Rounding rounding) {
  const BenchGaugeInfo* gauge = find_gauge(gauge_id);
  if (units == UnitSystem::metric) return metric_length(value_mm, gauge, rounding);
  if (units == UnitSystem::inch_decimal) return inch_decimal(value_mm, rounding);
  return inch_fractions(value_mm, gauge, rounding);
}

std::string time_text(double time_s) {
  if (time_s <= 0.0) return "0 s";
  if (time_s < 59.5) return fixed(std::max(1.0, round_to(time_s, 1.0)), 0) + " s";
  const double whole_s = round_to(time_s, time_s < 597.5 ? 5.0 : 60.0);
  const auto all_min = static_cast<long long>(whole_s / 60.0);
  const auto rest_s = static_cast<long long>(whole_s) - all_min * 60;
  if (all_min < 60) {
    const std::string minutes_text = std::to_string(all_min) + " min";
    return rest_s > 0 ? minutes_text + " " + std::to_string(rest_s) + " s" : minutes_text;
  }
  const std::string hours = std::to_string(all_min / 60) + " h";
  return all_min % 60 > 0 ? hours + " " + std::to_string(all_min % 60) + " min" : hours;
}

std::string chance_text(double part) {
  if (part < 0.01) return "<1 %"; // nothing computed here is certain
  if (part > 0.99) return ">99 %";
  return fixed(round_to(part * 100.0, 1.0), 0) + " %";
}

// A quantity that is a factor and a unit in either world.
struct Scale {
  ArgKind kind;
  double metric_factor, inch_factor;
  const char* metric_unit;
  const char* inch_unit;
  int metric_decimals, inch_decimals; // -1: three significant digits
};

constexpr double kLbPerKg = 2.20462262185;
constexpr Scale kScales[] = {
    {ArgKind::count, 1, 1, "", "", 0, 0},
    {ArgKind::ratio, 1, 1, "", "", -1, -1},
    {ArgKind::fine_mm, 1, 1 / kMmPerInch, " mm", " in", 2, 3},
    {ArgKind::area_mm2, 1, 1 / (kMmPerInch * kMmPerInch), " mm2", " in2", -1, -1},
    {ArgKind::volume_mm3, 1e-6, 1 / (kMmPerInch * kMmPerInch * kMmPerInch), " L", " in3", -1, -1},
    {ArgKind::angle_deg, 1, 1, " deg", " deg", 2, 2},
    {ArgKind::difference_K, 1, 1.8, " K", " F", 0, 0},
    {ArgKind::mass_kg, 1, kLbPerKg, " kg", " lb", 1, 1},
    {ArgKind::mass_g, 1, kLbPerKg * 16.0 / 1000.0, " g", " oz", 0, 1},
    {ArgKind::wire_feed_mm_s, 0.06, 60.0 / kMmPerInch, " m/min", " in/min", 1, 0},
    {ArgKind::travel_mm_s, 6.0, 60.0 / kMmPerInch, " cm/min", " in/min", 0, 0},
    {ArgKind::current_A, 1, 1, " A", " A", 0, 0},
    {ArgKind::voltage_V, 1, 1, " V", " V", 1, 1},
    {ArgKind::flow_l_min, 1, 2.11888, " L/min", " cfh", 0, 0},
    {ArgKind::gas_l, 1, 0.0353147, " L", " ft3", 0, 1},
    {ArgKind::heat_J_mm, 1, kMmPerInch / 1000.0, " J/mm", " kJ/in", 0, 2},
    {ArgKind::pressure_kPa, 1, 0.1450377, " kPa", " psi", 1, 2},
    {ArgKind::pace_min_m, 1, 0.3048, " min/m", " min/ft", 1, 1},
};

std::string scaled_text(const Scale& scale, double value, bool metric, Rounding rounding) {
  const double shown = value * (metric ? scale.metric_factor : scale.inch_factor);
  const int decimals = metric ? scale.metric_decimals : scale.inch_decimals;
  std::string number;
  if (decimals < 0) {
    number = significant(shown);
  } else {
    const double step = std::pow(10.0, -decimals);
    number = fixed(to_step(shown, step, rounding), decimals);
    if (scale.kind != ArgKind::fine_mm) number = trimmed(number);
  }
  return number + (metric ? scale.metric_unit : scale.inch_unit);
}

} // namespace

std::string quantity_text(ArgKind kind, double value, const std::string& gauge, UnitSystem units,
                          Rounding rounding) {
  if (!std::isfinite(value)) throw InternalError("a quantity on the sheet is not a finite number");
  const bool metric = units == UnitSystem::metric;
  switch (kind) {
  case ArgKind::length_mm:
    return length_text(value, gauge, units, rounding);
  case ArgKind::time_s:
    return time_text(value);
  case ArgKind::chance:
    return chance_text(value);
  case ArgKind::temperature_C:
    return plain(metric ? value : value * 1.8 + 32.0, 0) + (metric ? " C" : " F");
  case ArgKind::force_N:
    if (metric)
      return std::abs(value) < 9995.0 ? significant(value) + " N" : significant(value / 1000.0) + " kN";
    return significant(value / 4.4482216153) + " lbf";
  default:
    break;
  }
  for (const Scale& scale : kScales)
    if (scale.kind == kind) return scaled_text(scale, value, metric, rounding);
  throw InternalError("a word was given as a quantity");
}

std::string round_length_text(double value_mm, UnitSystem units) {
  if (units == UnitSystem::metric) return metric_length(value_mm, nullptr, Rounding::nearest);
  const double value_in = value_mm / kMmPerInch;
  const double step_in = value_in >= 3.0 ? 1.0 : value_in >= 0.75 ? 0.25 : value_in >= 0.25 ? 0.125 : 0.0625;
  const double round_in = std::max(round_to(value_in, step_in), step_in);
  if (units == UnitSystem::inch_decimal) return plain(round_in, 3) + " in";
  return inch_fraction(inch(round_in), 16) + " in";
}

std::string unit_of(const std::string& quantity) {
  const std::size_t unit = quantity.find_last_of(' ');
  if (unit == std::string::npos || quantity.find_first_not_of("0123456789.-/ <>") <= unit) return {};
  const std::string symbol = quantity.substr(unit);
  for (const char* other : {" mm", " in", " C", " F", " K", " %", " N", " kN", " lbf"})
    if (symbol == other) return symbol;
  for (const Scale& scale : kScales)
    if (symbol == scale.metric_unit || symbol == scale.inch_unit) return symbol;
  return {};
}

std::string range_text(const std::string& low, const std::string& high, const std::string& to) {
  if (low == high) return high;
  const std::string unit = unit_of(low);
  const bool same = !unit.empty() && unit == unit_of(high);
  return (same ? low.substr(0, low.size() - unit.size()) : low) + to + high;
}

} // namespace tacksquare
