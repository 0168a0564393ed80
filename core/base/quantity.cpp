#include "base/quantity.h"

#include "base/numbers.h"
#include "base/suggest.h"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

namespace tacksquare {

namespace {

// stored = number * top / bottom + offset. Top and bottom apart round as the makers of units.h do.
struct Unit {
  std::string_view name; // without spaces
  double top = 1.0;
  double bottom = 1.0;
  double offset = 0.0;
};

struct Kind {
  std::string_view what;
  std::vector<Unit> units;     // the one to suggest first
  std::string_view other = {}; // a second one to suggest, and its word: "in", "inches"
  std::string_view other_word = {};
  bool fractions = false;   // "23 5/8"
  bool compound = false;    // "2 ft 3 in": units in falling order
  double least = -HUGE_VAL; // stored
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_space(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_space(text.back()))
    text.remove_suffix(1);
  return text;
}

std::string without_spaces(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (!is_space(c)) out += c;
  }
  return out;
}

// The text for a message: at most 40 bytes, never cut inside a UTF-8 character.
std::string quoted(std::string_view text) {
  constexpr std::size_t most = 40;
  if (text.size() <= most) return '"' + std::string(text) + '"';
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0u) == 0x80u)
    --end;
  return '"' + std::string(text.substr(0, end)) + "...\"";
}

ParseFault bad_number(std::string_view text, std::string remedy) {
  return {quoted(text) + " is no number", std::move(remedy), "number-bad"};
}

ParseFault out_of_range(std::string_view text) {
  return {quoted(text) + " is too large or too small a number", "write a number of ordinary size",
          "number-range"};
}

// Takes an unsigned decimal number off the front of the text.
std::optional<ParseFault> take_number(std::string_view& text, double& value, bool* whole = nullptr) {
  const std::string_view from_here = text;
  if (text.empty() || !(is_digit(text[0]) || (text.size() > 1 && text[0] == '.' && is_digit(text[1])))) {
    return bad_number(from_here, "begin with digits, for example 12.5");
  }
  if (text.size() > 1 && text[0] == '0' && (text[1] == 'x' || text[1] == 'X')) {
    return bad_number(from_here, "write a decimal number");
  }
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const std::string_view digits = text.substr(0, static_cast<std::size_t>(end - text.data()));
  if (error != std::errc{}) return out_of_range(digits);
  text.remove_prefix(digits.size());
  if (!text.empty() && text[0] == ',') {
    std::string with_point(digits);
    with_point += '.';
    for (std::size_t i = 1; i < text.size() && is_digit(text[i]); ++i)
      with_point += text[i];
    return ParseFault{"a comma in the number " + quoted(from_here),
                      "use a point for decimals and nothing for thousands: " + with_point, "number-bad"};
  }
  if (!text.empty() && text[0] == '.') return bad_number(from_here, "one decimal point is enough");
  if (whole != nullptr) *whole = digits.find_first_of(".eE") == std::string_view::npos;
  return std::nullopt;
}

std::size_t digits_at(std::string_view text, std::size_t i) {
  std::size_t n = 0;
  while (i + n < text.size() && is_digit(text[i + n]))
    ++n;
  return n;
}

// Takes "5/8" off the front when it stands there.
std::optional<ParseFault> take_fraction(std::string_view& text, double& value, bool& found) {
  const std::size_t above = digits_at(text, 0);
  found = above > 0 && above < text.size() && text[above] == '/' && digits_at(text, above + 1) > 0;
  if (!found) return std::nullopt;
  const std::size_t below = digits_at(text, above + 1);
  double top = 0.0, bottom = 0.0;
  const char* const data = text.data();
  const bool held = std::from_chars(data, data + above, top).ec == std::errc{} &&
                    std::from_chars(data + above + 1, data + above + 1 + below, bottom).ec == std::errc{};
  if (!held || bottom == 0.0) return bad_number(text, "write a fraction such as 5/8");
  value = top / bottom;
  text.remove_prefix(above + 1 + below);
  return std::nullopt;
}

// Takes "23.625", "5/8", "23 5/8" or "23-5/8" off the front.
std::optional<ParseFault> take_amount(std::string_view& text, double& value, bool fractions) {
  bool found = false;
  if (fractions) {
    if (auto fault = take_fraction(text, value, found)) return fault;
    if (found) return std::nullopt;
  }
  bool whole = false;
  if (auto fault = take_number(text, value, &whole)) return fault;
  if (!fractions || !whole || text.empty() || !(is_space(text[0]) || text[0] == '-')) return std::nullopt;
  std::string_view rest = trimmed(text);
  if (!rest.empty() && rest[0] == '-') rest = trimmed(rest.substr(1));
  double part = 0.0;
  if (auto fault = take_fraction(rest, part, found)) return fault;
  if (found) {
    value += part;
    text = rest;
  }
  return std::nullopt;
}

// Takes a unit off the front: all of the text, or up to the next space, digit or dash for one term of
// several.
std::string take_unit(std::string_view& text, bool compound) {
  std::size_t n = 0;
  while (n < text.size() && !(compound && (is_space(text[n]) || is_digit(text[n]) || text[n] == '-')))
    ++n;
  const std::string unit = without_spaces(text.substr(0, n));
  text = trimmed(text.substr(n));
  return unit;
}

const Unit* find_unit(const Kind& kind, std::string_view name) {
  for (const Unit& u : kind.units) {
    if (u.name == name) return &u;
  }
  return nullptr;
}

ParseFault missing_unit(const Kind& kind, std::string_view text) {
  std::string remedy = "write " + std::string(text) + " " + std::string(kind.units[0].name);
  if (!kind.other.empty()) {
    remedy += ", or " + std::string(text) + " " + std::string(kind.other) + " if " +
              std::string(kind.other_word) + " are meant";
  }
  return {quoted(text) + " has no unit", text.size() > 40 ? "write a unit behind it" : remedy,
          "unit-missing"};
}

ParseFault unknown_unit(const Kind& kind, const std::string& unit) {
  std::vector<std::string> names;
  std::string all;
  for (const Unit& u : kind.units) {
    names.emplace_back(u.name);
    all += (all.empty() ? "" : ", ") + std::string(u.name);
  }
  const auto near = closest(unit, names);
  return {quoted(unit) + " is no unit of " + std::string(kind.what),
          near ? "did you mean \"" + *near + "\"?" : "use one of " + all, "unit-unknown"};
}

std::variant<double, ParseFault> parse(const Kind& kind, std::string_view original) {
  const std::string_view all = trimmed(original);
  if (all.empty()) {
    return ParseFault{"no " + std::string(kind.what) + " is written",
                      "write a number and a unit, for example 10 " + std::string(kind.units[0].name),
                      "number-bad"};
  }
  std::string_view text = all;
  const bool negative = text[0] == '-';
  if (negative || text[0] == '+') text = trimmed(text.substr(1));
  double sum = 0.0;
  double last_size = HUGE_VAL;
  do {
    const std::string_view term = text;
    double number = 0.0;
    if (auto fault = take_amount(text, number, kind.fractions)) return *fault;
    const std::string_view shown = term.substr(0, term.size() - text.size());
    text = trimmed(text);
    const std::string unit_name = take_unit(text, kind.compound);
    if (unit_name.empty()) return missing_unit(kind, shown);
    const Unit* const unit = find_unit(kind, unit_name);
    if (unit == nullptr) return unknown_unit(kind, unit_name);
    const double size = unit->top / unit->bottom;
    if (size >= last_size) {
      return ParseFault{quoted(unit_name) + " cannot follow what stands before it",
                        "write the larger unit first, each once", "unit-unknown"};
    }
    last_size = size;
    sum += (negative ? -number : number) * unit->top / unit->bottom + unit->offset;
    if (text.size() > 1 && text[0] == '-') text = trimmed(text.substr(1)); // 2'-3"
  } while (!text.empty());
  if (!std::isfinite(sum)) return out_of_range(all);
  if (sum < kind.least) {
    return ParseFault{quoted(all) + " is below absolute zero", "check the sign and the unit", "number-range"};
  }
  return sum + 0.0; // no -0
}

template <class Q> Parsed<Q> parsed_as(const Kind& kind, std::string_view text) {
  const auto result = parse(kind, text);
  if (const auto* fault = std::get_if<ParseFault>(&result)) return *fault;
  return Q(std::get<double>(result));
}

const Kind length_kind{"length",
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
const Kind angle_kind{"angle",
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
const Kind duration_kind{"time", {{"s"}, {"min", 60.0}, {"h", 3600.0}}, "min", "minutes", false, true};
const Kind temperature_kind{"temperature",
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
const Kind speed_kind{"speed",
                      {{"mm/s"},
                       {"mm/min", 1.0, 60.0},
                       {"cm/min", 1.0, 6.0},
                       {"m/min", 1000.0, 60.0},
                       {"in/min", kMmPerInch, 60.0},
                       {"ipm", kMmPerInch, 60.0}},
                      "in/min",
                      "inches a minute"};
const Kind force_kind{"force", {{"N"}, {"kN", 1000.0}, {"lbf", 4.4482216152605}}, "lbf", "pounds"};
const Kind mass_kind{"mass", {{"kg"}, {"g", 1.0, 1000.0}, {"t", 1000.0}, {"lb", 0.45359237}}, "lb", "pounds"};
const Kind current_kind{"current", {{"A"}}};
const Kind voltage_kind{"voltage", {{"V"}}};
const Kind flow_kind{"gas flow",
                     {{"L/min"}, {"l/min"}, {"cfh", 28.316846592, 60.0}, {"CFH", 28.316846592, 60.0}},
                     "cfh",
                     "cubic feet an hour"};
const Kind stress_kind{
    "stress",
    {{"MPa"}, {"GPa", 1000.0}, {"kPa", 1.0, 1000.0}, {"N/mm2"}, {"ksi", 6.894757293168361}},
    "ksi",
    "thousands of pounds a square inch"};
const Kind density_kind{"density", {{"kg/m3"}, {"g/cm3", 1000.0}, {"lb/in3", 27679.904710203125}}};
const Kind expansion_kind{"thermal expansion",
                          {{"1e-6/K"}, {"um/m/K"}, {"um/(mK)"}, {"/K", 1e6}, {"1/K", 1e6}}};
const Kind conductivity_kind{"heat conductivity", {{"W/mK"}, {"W/m/K"}, {"W/(mK)"}}};
const Kind specific_heat_kind{
    "specific heat",
    {{"J/kgK"}, {"J/kg/K"}, {"J/(kgK)"}, {"kJ/kgK", 1000.0}, {"kJ/kg/K", 1000.0}, {"kJ/(kgK)", 1000.0}}};
const Kind pace_kind{
    "pace", {{"min/m"}, {"s/m", 1.0, 60.0}, {"min/ft", 1.0, 0.3048}}, "min/ft", "minutes a foot"};
const Kind heat_kind{
    "heat input", {{"J/mm"}, {"kJ/mm", 1000.0}, {"kJ/in", 1000.0, kMmPerInch}}, "kJ/mm", "kilojoules"};

std::string with_unit(double stored, const Kind& kind) {
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
