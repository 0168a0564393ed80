// Reading of quantities as people write them, each with its unit: "600 mm", "23 5/8 in", "2 min 30 s".
//
// Every function reads the whole text or gives a fault: missing or unknown unit, no number, not a finite
// number, hexadecimal, too large, text left over, a decimal comma. Spaces between parts are free. No locale
// is used. The sign is not judged: whether a length may be negative is up to the one who asks.
#pragma once

#include "base/units.h"

#include <string>
#include <string_view>
#include <variant>

namespace tacksquare {

struct ParseFault {
  std::string message;           // one sentence without a full stop
  std::string remedy;            // what to write instead, may be empty
  std::string code = "quantity"; // "unit-missing", "unit-unknown", "number-bad", "number-range"
};

template <class Q> using Parsed = std::variant<Q, ParseFault>;

Parsed<Length> parse_length(std::string_view text);     // mm cm m um in " ft '; "23 5/8 in", "2 ft 3 in"
Parsed<Angle> parse_angle(std::string_view text);       // deg rad min ' "; "1 deg 30 min", "20'"
Parsed<Duration> parse_duration(std::string_view text); // s min h; "2 min 30 s"
Parsed<Temperature> parse_temperature(std::string_view text);    // C degC F degF K
Parsed<Speed> parse_speed(std::string_view text);                // mm/s mm/min cm/min m/min in/min ipm
Parsed<Force> parse_force(std::string_view text);                // N kN lbf
Parsed<Mass> parse_mass(std::string_view text);                  // kg g t lb
Parsed<Current> parse_current(std::string_view text);            // A
Parsed<Voltage> parse_voltage(std::string_view text);            // V
Parsed<FlowRate> parse_flow(std::string_view text);              // L/min l/min cfh
Parsed<Stress> parse_stress(std::string_view text);              // MPa GPa N/mm2 ksi
Parsed<Density> parse_density(std::string_view text);            // kg/m3 g/cm3
Parsed<Expansion> parse_expansion(std::string_view text);        // 1e-6/K um/m/K /K; "12e-6/K"
Parsed<Conductivity> parse_conductivity(std::string_view text);  // W/mK W/m/K W/(m K)
Parsed<SpecificHeat> parse_specific_heat(std::string_view text); // J/kgK J/kg/K J/(kg K), kJ the same
Parsed<MinutesPerMetre> parse_pace(std::string_view text);       // min/m s/m min/ft
Parsed<HeatInput> parse_heat(std::string_view text);             // J/mm kJ/mm

Parsed<double> parse_number(std::string_view text); // plain, no unit
Parsed<int> parse_count(std::string_view text);     // whole number, a sign allowed

// The shortest text that the functions above read back to the very same value, in the stored unit
// (angles in deg where that is exact, else in rad).
std::string written(Length q);
std::string written(Angle q);
std::string written(Duration q);
std::string written(Temperature q);
std::string written(Speed q);
std::string written(Force q);
std::string written(Mass q);
std::string written(Current q);
std::string written(Voltage q);
std::string written(FlowRate q);
std::string written(Stress q);
std::string written(Density q);
std::string written(Expansion q);
std::string written(Conductivity q);
std::string written(SpecificHeat q);
std::string written(MinutesPerMetre q);
std::string written(HeatInput q);

} // namespace tacksquare
