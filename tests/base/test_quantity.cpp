// Quantities carry their unit; what is missing or wrong is said with what to write instead.
#include "support/catch.h"
#include "support/table.h"

#include "base/quantity.h"
#include "base/random.h"

#include <functional>
#include <locale>
#include <map>
#include <optional>

using namespace tacksquare;
using test::Table;

namespace {

using Reading = std::variant<double, ParseFault>;

template <class Q> std::function<Reading(std::string_view)> stored(Parsed<Q> (*parse)(std::string_view)) {
  return [parse](std::string_view text) -> Reading {
    const auto result = parse(text);
    if (const auto* fault = std::get_if<ParseFault>(&result)) return *fault;
    return std::get<Q>(result).stored();
  };
}

const std::map<std::string, std::function<Reading(std::string_view)>>& kinds() {
  static const std::map<std::string, std::function<Reading(std::string_view)>> all{
      {"length", stored(parse_length)},
      {"angle", stored(parse_angle)},
      {"duration", stored(parse_duration)},
      {"temperature", stored(parse_temperature)},
      {"speed", stored(parse_speed)},
      {"force", stored(parse_force)},
      {"mass", stored(parse_mass)},
      {"current", stored(parse_current)},
      {"voltage", stored(parse_voltage)},
      {"flow", stored(parse_flow)},
      {"stress", stored(parse_stress)},
      {"density", stored(parse_density)},
      {"expansion", stored(parse_expansion)},
      {"conductivity", stored(parse_conductivity)},
      {"specific-heat", stored(parse_specific_heat)},
      {"pace", stored(parse_pace)},
      {"heat", stored(parse_heat)},
      {"number", [](std::string_view text) -> Reading { return parse_number(text); }},
      {"count",
       [](std::string_view text) -> Reading {
         const auto result = parse_count(text);
         if (const auto* fault = std::get_if<ParseFault>(&result)) return *fault;
         return double(std::get<int>(result));
       }},
  };
  return all;
}

} // namespace

TEST_CASE("what people write is read to the last digit") {
  const Table table("quantities.tsv", {"kind", "text", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 72);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const Reading reading = kinds().at(row.text("kind"))(row.text("text"));
    if (const auto* fault = std::get_if<ParseFault>(&reading))
      FAIL_CHECK(fault->message);
    else
      CHECK(std::get<double>(reading) ==
            Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("what is no quantity is told, with what to write") {
  const Table table("bad_quantities.tsv", {"kind", "text", "code", "message", "remedy"});
  REQUIRE(table.size() == 40);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const Reading reading = kinds().at(row.text("kind"))(row.text("text"));
    const auto* fault = std::get_if<ParseFault>(&reading);
    REQUIRE(fault != nullptr);
    CHECK(fault->code == row.text("code"));
    CHECK(fault->message == row.text("message"));
    CHECK(fault->remedy == row.text("remedy"));
  }
}

TEST_CASE("a unit of one kind is no unit of another") {
  const std::map<std::string, std::string> sample{
      {"length", "5 mm"},      {"angle", "5 deg"},         {"duration", "5 h"},
      {"temperature", "5 C"},  {"speed", "5 mm/s"},        {"force", "5 N"},
      {"mass", "5 kg"},        {"current", "5 A"},         {"voltage", "5 V"},
      {"flow", "5 L/min"},     {"stress", "5 MPa"},        {"density", "5 kg/m3"},
      {"expansion", "5e-6/K"}, {"conductivity", "5 W/mK"}, {"specific-heat", "5 J/kgK"},
      {"pace", "5 min/m"},     {"heat", "5 J/mm"}};
  for (const auto& [kind, own] : sample) {
    for (const auto& [other, text] : sample) {
      INFO(kind << " from " << text);
      CHECK(std::holds_alternative<double>(kinds().at(kind)(text)) == (kind == other));
    }
  }
}

TEST_CASE("the units of a unit's maker and of the reader round alike") {
  // Otherwise 90 deg of a file and deg(90) of the program would differ in the last bit.
  for (const double v : {90.0, 45.0, 0.1, 33.3}) {
    const std::string number = std::to_string(v);
    CHECK(std::get<Angle>(parse_angle(number + " deg")) == deg(v));
    CHECK(std::get<Length>(parse_length(number + " in")) == inch(v));
    CHECK(std::get<Speed>(parse_speed(number + " cm/min")) == cm_per_min(v));
    CHECK(std::get<Speed>(parse_speed(number + " m/min")) == m_per_min(v));
    CHECK(std::get<Duration>(parse_duration(number + " min")) == minutes(v));
  }
}

TEST_CASE("what is written reads back to the very same value") {
  const std::uint64_t seed = GENERATE(1u, 2u, 3u);
  INFO("seed " << seed);
  Random random(seed);
  for (int i = 0; i < 300; ++i) {
    const double v = random.normal() * (i % 3 == 0 ? 1e-3 : i % 3 == 1 ? 1.0 : 1e4);
    const double positive = v < 0.0 ? -v : v;
    CHECK(std::get<Length>(parse_length(written(Length(v)))) == Length(v));
    CHECK(std::get<Angle>(parse_angle(written(Angle(v)))) == Angle(v));
    CHECK(std::get<Duration>(parse_duration(written(Duration(v)))) == Duration(v));
    CHECK(std::get<Temperature>(parse_temperature(written(Temperature(positive)))) == Temperature(positive));
    CHECK(std::get<Speed>(parse_speed(written(Speed(v)))) == Speed(v));
    CHECK(std::get<Force>(parse_force(written(Force(v)))) == Force(v));
    CHECK(std::get<Mass>(parse_mass(written(Mass(v)))) == Mass(v));
    CHECK(std::get<Current>(parse_current(written(Current(v)))) == Current(v));
    CHECK(std::get<Voltage>(parse_voltage(written(Voltage(v)))) == Voltage(v));
    CHECK(std::get<FlowRate>(parse_flow(written(FlowRate(v)))) == FlowRate(v));
    CHECK(std::get<Stress>(parse_stress(written(Stress(v)))) == Stress(v));
    CHECK(std::get<Density>(parse_density(written(Density(v)))) == Density(v));
    CHECK(std::get<Expansion>(parse_expansion(written(Expansion(v)))) == Expansion(v));
    CHECK(std::get<Conductivity>(parse_conductivity(written(Conductivity(v)))) == Conductivity(v));
    CHECK(std::get<SpecificHeat>(parse_specific_heat(written(SpecificHeat(v)))) == SpecificHeat(v));
    CHECK(std::get<MinutesPerMetre>(parse_pace(written(MinutesPerMetre(v)))) == MinutesPerMetre(v));
    CHECK(std::get<HeatInput>(parse_heat(written(HeatInput(v)))) == HeatInput(v));
  }
  CHECK(written(mm(600.0)) == "600 mm");
  CHECK(written(mm(-0.0)) == "0 mm");
  CHECK(written(deg(90.0)) == "90 deg");
  CHECK(written(deg(0.1)) == "0.1 deg");
}

TEST_CASE("no text crashes the reader, and a long one is not repeated whole") {
  Random random(7);
  const std::string signs = "0123456789 .,-+/'\"mincftdegrsxeE\xc2\xb0";
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (std::uint64_t n = random.below(12); n > 0; --n)
      text += signs[random.below(signs.size())];
    for (const auto& [kind, parse] : kinds()) {
      const Reading reading = parse(text);
      if (const auto* fault = std::get_if<ParseFault>(&reading)) {
        if (fault->message.empty() || fault->code == "quantity") FAIL_CHECK(kind << ": " << text);
      } else if (!(std::get<double>(reading) - std::get<double>(reading) == 0.0)) {
        FAIL_CHECK(kind << " read no finite number from " << text);
      }
    }
  }
  std::string endless = "5 ";
  endless.append(1000000, 'q');
  const Reading reading = kinds().at("length")(endless);
  const auto* fault = std::get_if<ParseFault>(&reading);
  REQUIRE(fault != nullptr);
  CHECK(fault->message.size() < 200);
  CHECK(fault->remedy.size() < 200);
}

TEST_CASE("a locale with a decimal comma changes nothing") {
  struct Comma : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
  };
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new Comma));
  const Reading point = kinds().at("length")("2.5 mm");
  const std::string text = written(mm(2.5));
  std::locale::global(before);
  REQUIRE(std::holds_alternative<double>(point));
  CHECK(std::get<double>(point) == 2.5);
  CHECK(text == "2.5 mm");
}
