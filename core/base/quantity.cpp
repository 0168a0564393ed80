#include "base/quantity.h"

#include "base/numbers.h"
#include "base/quantity_reader.h"

#include <array>
#include <charconv>

namespace tacksquare {

using namespace reading;

namespace {

template <class Q> Parsed<Q> parsed_as(const QuantityKind& kind, std::string_view text) {
  const auto result = read_quantity(kind, text);
  if (const auto* fault = std::get_if<ParseFault>(&result)) return *fault;
  return Q(std::get<double>(result));
}

const QuantityKind length_kind{"length",
                               {{"mm"},
                                {"cm", 10.0},
                                {"m", 1000.0},
                                {"um", 1.0, 1000.0},
                                {"\xc2\xb5m", 1.0, 1000.0},
                                {"in", kMmPerInch},
                                {"inch", kMmPerInch},
                                {"\"", kMmPerInch},
                                {"\xe2\x80\xb3", kMmPerInch},
                                {"ft", 12.0 * kMmPerInch},
                                {"'", 12.0 * kMmPerInch},
                                {"\xe2\x80\xb2", 12.0 * kMmPerInch}},
                               "in",
                               "inches",
                               true,
                               true};
const QuantityKind angle_kind{"angle",
                              {{"deg", kPi, 180.0},
                               {"\xc2\xb0", kPi, 180.0},
                               {"rad"},
                               {"min", kPi, 10800.0},
                               {"'", kPi, 10800.0},
                               {"\xe2\x80\xb2", kPi, 10800.0},
                               {"\"", kPi, 648000.0},
                               {"\xe2\x80\xb3", kPi, 648000.0}},
                              "rad",
                              "radians",
                              false,
                              true};
const QuantityKind duration_kind{"time", {{"s"}, {"min", 60.0}, {"h", 3600.0}}, "min", "minutes", false,
                                 true};
const QuantityKind temperature_kind{"temperature",
                                    {{"C"},
                                     {"degC"},
                                     {"\xc2\xb0"
                                      "C"},
                                     {"F", 5.0, 9.0, -160.0 / 9.0},
                                     {"degF", 5.0, 9.0, -160.0 / 9.0},
                                     {"\xc2\xb0"
                                      "F",
                                      5.0, 9.0, -160.0 / 9.0},
                                     {"K", 1.0, 1.0, -273.15}},
                                    "F",
                                    "degrees Fahrenheit",
                                    false,
                                    false,
                                    -273.1500001};
const QuantityKind speed_kind{"speed",
                              {{"mm/s"},
                               {"mm/min", 1.0, 60.0},
                               {"cm/min", 1.0, 6.0},
                               {"m/min", 1000.0, 60.0},
                               {"in/min", kMmPerInch, 60.0},
                               {"ipm", kMmPerInch, 60.0}},
                              "in/min",
                              "inches a minute"};
const QuantityKind force_kind{"force", {{"N"}, {"kN", 1000.0}, {"lbf", 4.4482216152605}}, "lbf", "pounds"};
const QuantityKind mass_kind{
    "mass", {{"kg"}, {"g", 1.0, 1000.0}, {"t", 1000.0}, {"lb", 0.45359237}}, "lb", "pounds"};
const QuantityKind current_kind{"current", {{"A"}}};
const QuantityKind voltage_kind{"voltage", {{"V"}}};
const QuantityKind flow_kind{"gas flow",
                             {{"L/min"}, {"l/min"}, {"cfh", 28.316846592, 60.0}, {"CFH", 28.316846592, 60.0}},
                             "cfh",
                             "cubic feet an hour"};
const QuantityKind stress_kind{
    "stress",
    {{"MPa"}, {"GPa", 1000.0}, {"kPa", 1.0, 1000.0}, {"N/mm2"}, {"ksi", 6.894757293168361}},
    "ksi",
    "thousands of pounds a square inch"};
const QuantityKind density_kind{"density", {{"kg/m3"}, {"g/cm3", 1000.0}, {"lb/in3", 27679.904710203125}}};
const QuantityKind expansion_kind{"thermal expansion",
                                  {{"1e-6/K"}, {"um/m/K"}, {"um/(mK)"}, {"/K", 1e6}, {"1/K", 1e6}}};
const QuantityKind conductivity_kind{"heat conductivity", {{"W/mK"}, {"W/m/K"}, {"W/(mK)"}}};
const QuantityKind specific_heat_kind{
    "specific heat",
    {{"J/kgK"}, {"J/kg/K"}, {"J/(kgK)"}, {"kJ/kgK", 1000.0}, {"kJ/kg/K", 1000.0}, {"kJ/(kgK)", 1000.0}}};
const QuantityKind pace_kind{
    "pace", {{"min/m"}, {"s/m", 1.0, 60.0}, {"min/ft", 1.0, 0.3048}}, "min/ft", "minutes a foot"};
const QuantityKind heat_kind{
    "heat input", {{"J/mm"}, {"kJ/mm", 1000.0}, {"kJ/in", 1000.0, kMmPerInch}}, "kJ/mm", "kilojoules"};

std::string with_unit(double stored, const QuantityKind& kind) {
  return shortest(stored) + " " + std::string(kind.units[0].name);
}

} // namespace

Parsed<Length> parse_length(std::string_view text) {
  return parsed_as<Length>(length_kind, text);
}
Parsed<Angle> parse_angle(std::string_view text) {
  return parsed_as<Angle>(angle_kind, text);
}
Parsed<Duration> parse_duration(std::string_view text) {
  return parsed_as<Duration>(duration_kind, text);
}
Parsed<Temperature> parse_temperature(std::string_view text) {
  return parsed_as<Temperature>(temperature_kind, text);
}
Parsed<Speed> parse_speed(std::string_view text) {
  return parsed_as<Speed>(speed_kind, text);
}
Parsed<Force> parse_force(std::string_view text) {
  return parsed_as<Force>(force_kind, text);
}
Parsed<Mass> parse_mass(std::string_view text) {
  return parsed_as<Mass>(mass_kind, text);
}
Parsed<Current> parse_current(std::string_view text) {
  return parsed_as<Current>(current_kind, text);
}
Parsed<Voltage> parse_voltage(std::string_view text) {
  return parsed_as<Voltage>(voltage_kind, text);
}
Parsed<FlowRate> parse_flow(std::string_view text) {
  return parsed_as<FlowRate>(flow_kind, text);
}
Parsed<Stress> parse_stress(std::string_view text) {
  return parsed_as<Stress>(stress_kind, text);
}
Parsed<Density> parse_density(std::string_view text) {
  return parsed_as<Density>(density_kind, text);
}
Parsed<Expansion> parse_expansion(std::string_view text) {
  return parsed_as<Expansion>(expansion_kind, text);
}
Parsed<Conductivity> parse_conductivity(std::string_view text) {
  return parsed_as<Conductivity>(conductivity_kind, text);
}
Parsed<SpecificHeat> parse_specific_heat(std::string_view text) {
  return parsed_as<SpecificHeat>(specific_heat_kind, text);
}
Parsed<MinutesPerMetre> parse_pace(std::string_view text) {
  return parsed_as<MinutesPerMetre>(pace_kind, text);
}
Parsed<HeatInput> parse_heat(std::string_view text) {
  return parsed_as<HeatInput>(heat_kind, text);
}

Parsed<double> parse_number(std::string_view original) {
  std::string_view text = trimmed(original);
  const bool negative = !text.empty() && text[0] == '-';
  if (!text.empty() && (negative || text[0] == '+')) text = trimmed(text.substr(1));
  double value = 0.0;
  if (auto fault = take_number(text, value)) return *fault;
  if (!text.empty()) return bad_number(trimmed(original), "write a plain number without a unit");
  return (negative ? -value : value) + 0.0;
}

Parsed<int> parse_count(std::string_view original) {
  const std::string_view all = trimmed(original);
  const std::string_view text = !all.empty() && all[0] == '+' ? all.substr(1) : all;
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc::result_out_of_range) return out_of_range(all);
  if (error != std::errc{} || end != text.data() + text.size() ||
      (text.size() != all.size() && text[0] == '-')) {
    return ParseFault{quoted(all) + " is no whole number", "write a whole number such as 4", "number-bad"};
  }
  return value;
}

std::string written(Length q) {
  return with_unit(q.stored(), length_kind);
}
std::string written(Angle q) {
  // The fewest digits of degrees that read back to the very same angle.
  for (int digits = 1; digits <= 17; ++digits) {
    std::array<char, 40> buffer{};
    char* const begin = buffer.data();
    const char* const end =
        std::to_chars(begin, begin + buffer.size(), in_deg(q), std::chars_format::general, digits).ptr;
    double rounded_deg = 0.0;
    std::from_chars(begin, end, rounded_deg);
    const std::string text = shortest(rounded_deg) + " deg";
    const auto back = parse_angle(text);
    if (const Angle* angle = std::get_if<Angle>(&back); angle != nullptr && *angle == q) return text;
  }
  return shortest(q.stored()) + " rad";
}
std::string written(Duration q) {
  return with_unit(q.stored(), duration_kind);
}
std::string written(Temperature q) {
  return with_unit(q.stored(), temperature_kind);
}
std::string written(Speed q) {
  return with_unit(q.stored(), speed_kind);
}
std::string written(Force q) {
  return with_unit(q.stored(), force_kind);
}
std::string written(Mass q) {
  return with_unit(q.stored(), mass_kind);
}
std::string written(Current q) {
  return with_unit(q.stored(), current_kind);
}
std::string written(Voltage q) {
  return with_unit(q.stored(), voltage_kind);
}
std::string written(FlowRate q) {
  return with_unit(q.stored(), flow_kind);
}
std::string written(Stress q) {
  return with_unit(q.stored(), stress_kind);
}
std::string written(Density q) {
  return with_unit(q.stored(), density_kind);
}
std::string written(Expansion q) {
  return with_unit(q.stored(), expansion_kind);
}
std::string written(Conductivity q) {
  return with_unit(q.stored(), conductivity_kind);
}
std::string written(SpecificHeat q) {
  return with_unit(q.stored(), specific_heat_kind);
}
std::string written(MinutesPerMetre q) {
  return with_unit(q.stored(), pace_kind);
}
std::string written(HeatInput q) {
  return with_unit(q.stored(), heat_kind);
}

} // namespace tacksquare
