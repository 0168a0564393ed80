#include "sheet/quantities.h"

#include "base/diagnostic.h"
#include "base/numbers.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

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

// What no gauge reads is a size or a place: a tenth of a millimetre at most, two digits where it is small.
std::string size_text(double value_mm, UnitSystem units) {
  const double value_in = value_mm / kMmPerInch, size_in = std::abs(value_in);
  if (units == UnitSystem::metric) {
    const double step = std::abs(value_mm) < 0.995 && value_mm != 0.0 ? 0.01 : 0.1;
    return trimmed(fixed(round_to(value_mm, step), 2)) + " mm";
  }
  if (units == UnitSystem::inch_decimal || (size_in > 0.0 && size_in < 1.0 / 64.0))
    return fixed(round_to(value_in, 0.001), 3) + " in";
  const int parts = size_in < 0.25 ? 64 : 16;
  return inch_fraction(inch(round_to(value_in, 1.0 / parts)), parts) + " in";
}

std::string length_text(double value_mm, const std::string& gauge_id, UnitSystem units, Rounding rounding) {
  const BenchGaugeInfo* gauge = find_gauge(gauge_id);
  if (!gauge) return size_text(value_mm, units);
  const std::vector<ReadingStep> steps = reading_steps(*gauge, units);
  // Nothing shows as none: what is less than a part of an inch is told in decimals.
  const auto shows = [&](const ReadingStep& step) {
    return step.parts == 0 || value_mm == 0.0 || std::abs(value_mm) / step.unit_mm >= step.size;
  };
  const std::string text = reading(value_mm, *std::find_if(steps.begin(), steps.end(), shows), rounding);
  const bool halves = units == UnitSystem::metric && in_mm(gauge->step) >= 0.5;
  return halves ? trimmed(text.substr(0, text.size() - 3)) + " mm" : text;
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
    return fixed(to_step(metric ? value : value * 1.8 + 32.0, 1.0, rounding), 0) + (metric ? " C" : " F");
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
  if (units == UnitSystem::metric) return size_text(value_mm, units);
  const double value_in = value_mm / kMmPerInch;
  const double step_in = value_in >= 3.0 ? 1.0 : value_in >= 0.75 ? 0.25 : value_in >= 0.25 ? 0.125 : 0.0625;
  const double round_in = std::max(round_to(value_in, step_in), step_in);
  if (units == UnitSystem::inch_decimal) return plain(round_in, 3) + " in";
  return inch_fraction(inch(round_in), 16) + " in";
}

std::string place_text(double value_mm, UnitSystem units) {
  const double value_in = value_mm / kMmPerInch;
  if (units == UnitSystem::metric) return plain(round_to(value_mm, 0.5), 1) + " mm";
  if (units == UnitSystem::inch_decimal) return fixed(round_to(value_in, 0.02), 2) + " in";
  return inch_fraction(inch(value_in), 16) + " in";
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
