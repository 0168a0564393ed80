// The catalogue has a text for every key in every language, and a text takes exactly the arguments that it is
// given.
#include "base/diagnostic.h"
#include "sheet/catalogue.h"
#include "sheet/quantities.h"
#include "support/catch.h"
#include "support/table.h"

#include <algorithm>

namespace tacksquare {
namespace {

UnitSystem system_of(const std::string& name) {
  if (name == "inch-decimal") return UnitSystem::inch_decimal;
  if (name == "inch-fractions") return UnitSystem::inch_fractions;
  REQUIRE(name == "metric");
  return UnitSystem::metric;
}

ArgKind kind_of(const std::string& name) {
  const std::pair<const char*, ArgKind> kinds[] = {{"length", ArgKind::length_mm},
                                                   {"fine", ArgKind::fine_mm},
                                                   {"area", ArgKind::area_mm2},
                                                   {"volume", ArgKind::volume_mm3},
                                                   {"angle", ArgKind::angle_deg},
                                                   {"time", ArgKind::time_s},
                                                   {"temperature", ArgKind::temperature_C},
                                                   {"difference", ArgKind::difference_K},
                                                   {"mass", ArgKind::mass_kg},
                                                   {"gram", ArgKind::mass_g},
                                                   {"feed", ArgKind::wire_feed_mm_s},
                                                   {"travel", ArgKind::travel_mm_s},
                                                   {"current", ArgKind::current_A},
                                                   {"voltage", ArgKind::voltage_V},
                                                   {"flow", ArgKind::flow_l_min},
                                                   {"gas", ArgKind::gas_l},
                                                   {"heat", ArgKind::heat_J_mm},
                                                   {"force", ArgKind::force_N},
                                                   {"pressure", ArgKind::pressure_kPa},
                                                   {"pace", ArgKind::pace_min_m},
                                                   {"count", ArgKind::count},
                                                   {"ratio", ArgKind::ratio},
                                                   {"chance", ArgKind::chance}};
  for (const auto& [word, kind] : kinds)
    if (name == word) return kind;
  FAIL("no such kind: " << name);
  return ArgKind::count;
}

TEST_CASE("British and US texts have the same keys, and no text is empty") {
  const Catalogue gb("en-GB"), us("en-US");
  REQUIRE(gb.entries().size() > 200);
  REQUIRE(gb.entries().size() == us.entries().size());
  for (const auto& [key, text] : gb.entries()) {
    INFO(key);
    CHECK(us.has(key));
    CHECK(!text.empty());
    CHECK(!us.text(key).empty());
  }
}

TEST_CASE("English texts are plain ASCII: they print on any terminal") {
  const Catalogue words("en-GB");
  for (const auto& [key, text] : words.entries()) {
    INFO(key << ": " << text);
    CHECK(std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; }));
  }
}

TEST_CASE("a word that another text takes in exists and takes no arguments") {
  const Catalogue words("en-GB");
  int taken_in = 0;
  for (const auto& [key, text] : words.entries())
    for (std::size_t at = text.find("{="); at != std::string::npos; at = text.find("{=", at + 1)) {
      const std::string name = text.substr(at + 2, text.find('}', at) - at - 2);
      INFO(key << " takes in " << name);
      CHECK_NOTHROW(words.word(name));
      ++taken_in;
    }
  CHECK(taken_in > 0);
}

// Shop words of both sides of the Atlantic; common practice, no source.
TEST_CASE("a US shop reads US words and spelling, a British shop British ones") {
  const Catalogue gb("en-GB"), us("en-US");
  CHECK(gb.word("word.work-clamp") == "earth clamp");
  CHECK(us.word("word.work-clamp") == "work clamp");
  CHECK(gb.word("word.former") == "former");
  CHECK(us.word("word.former") == "inside frame");
  CHECK(gb.word("gauge.calliper") == "calliper");
  CHECK(us.word("gauge.calliper") == "caliper");
  CHECK(us.word("orders.worst").find("center") != std::string::npos);
}

TEST_CASE("US spelling leaves the names of arguments alone") {
  const auto names = [](std::string_view text) {
    std::vector<std::string_view> out;
    for (std::size_t at = text.find('{'); at != std::string_view::npos; at = text.find('{', at + 1))
      out.push_back(text.substr(at, text.find('}', at) - at));
    std::sort(out.begin(), out.end());
    return out;
  };
  const Catalogue gb("en-GB"), us("en-US");
  for (const auto& [key, text] : gb.entries()) {
    INFO(key << ": " << text);
    CHECK(names(text) == names(us.text(key)));
  }
}

TEST_CASE("a shop word starts with a capital where a sentence starts") {
  const Catalogue words("en-GB");
  const std::string text = render(Text{"look.work-clamp", {}}, words, UnitSystem::metric);
  CHECK(text.rfind("Earth clamp", 0) == 0);
}

TEST_CASE("unknown key, missing argument, unused argument and a wrong language are bugs of ours") {
  const Catalogue words("en-GB");
  const auto say = [&](const Text& text) { return render(text, words, UnitSystem::metric); };
  CHECK(say({}).empty());
  CHECK(say({"plain", {word("text", "S1")}}) == "S1");
  CHECK_THROWS_AS(say({"no.such.key", {}}), InternalError);
  CHECK_THROWS_AS(say({"plain", {}}), InternalError);
  CHECK_THROWS_AS(say({"plain", {word("text", "a"), word("more", "b")}}), InternalError);
  CHECK_THROWS_AS(say({"plain", {length("text", 5, "no-such-gauge")}}), InternalError);
  CHECK_THROWS_AS(Catalogue("xx"), InternalError);
}

TEST_CASE("a brace in an argument is no place to fill") {
  const Catalogue words("en-GB");
  CHECK(render({"plain", {word("text", "{text} {=word.former}")}}, words, UnitSystem::metric) ==
        "{text} {=word.former}");
}

TEST_CASE("a list joins with commas and a last and, the unit once where all have it") {
  const Catalogue words("en-GB");
  const auto lengths = [&](UnitSystem units, const std::vector<double>& all) {
    std::vector<Text> texts;
    for (const double mm : all)
      texts.push_back({"plain", {length("text", mm)}});
    return render({"plain", {list("text", texts)}}, words, units);
  };
  CHECK(lengths(UnitSystem::metric, {12, 80, 150}) == "12, 80 and 150 mm");
  CHECK(lengths(UnitSystem::metric, {12}) == "12 mm");
  CHECK(lengths(UnitSystem::inch_fractions, {12.7, 80}) == "1/2 and 3 1/8 in");
  CHECK(render({"plain", {tacksquare::words("text", {"2 flap discs", "3 flap discs"})}}, words,
               UnitSystem::metric) == "2 flap discs and 3 flap discs");
}

// Unit factors are exact or standard (inch 25.4 mm, pound 0.45359237 kg, cubic foot 28.3168 L); the rounding
// is the project's own rule, each row recomputed by hand.
TEST_CASE("quantities are rounded to what can be read, in three systems of units") {
  const test::Table table("sheet_quantities.tsv",
                          {"kind", "value", "gauge", "units", "text", "source", "mark"});
  REQUIRE(table.size() == 72);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const std::string gauge = row.empty("gauge") ? std::string() : row.text("gauge");
    CHECK(quantity_text(kind_of(row.text("kind")), row.number("value"), gauge,
                        system_of(row.text("units"))) == row.text("text"));
  }
}

// 1 in = 25.4 mm; which lengths are round is the project's own rule.
TEST_CASE("a length that nobody measures is round in inches and as it is in millimetres") {
  const auto both = [](double mm) {
    return round_length_text(mm, UnitSystem::inch_fractions) + ", " +
           round_length_text(mm, UnitSystem::inch_decimal);
  };
  CHECK(both(600) == "24 in, 24 in");
  CHECK(both(100) == "4 in, 4 in");
  CHECK(both(40) == "1 1/2 in, 1.5 in");
  CHECK(both(20) == "3/4 in, 0.75 in");
  CHECK(both(10) == "3/8 in, 0.375 in");
  CHECK(both(3) == "1/8 in, 0.125 in");
  CHECK(both(0.5) == "1/16 in, 0.063 in");
  CHECK(round_length_text(299, UnitSystem::metric) == "299 mm");
}

TEST_CASE("a text says how it wants an argument shown; a way that does not fit is a bug of ours") {
  const Catalogue words("en-US");
  const auto say = [&](const char* key, std::vector<Arg> args) {
    return render({key, std::move(args)}, words, UnitSystem::inch_fractions);
  };
  CHECK(say("look.tie-in", {length("over", 10, "steel-rule")}) == "Tie in 3/8 in over the run before.");
  CHECK(say("tacks.at", {length("at", 12, "steel-rule"), word("seams", "S1")}) == "at 1/2 in: S1");
  CHECK(say("tacks.at", {length("at", 114.8), word("seams", "S1")}) == "at 4 1/2 in: S1"); // as in the map
  CHECK(say("kit.corner-clamp", {count("pieces", 1)}) == "1 corner clamp");
  CHECK(say("kit.corner-clamp", {count("pieces", 4)}) == "4 corner clamps");
  CHECK(say("kit.crayon", {number("limit", ArgKind::temperature_C, 177)}) == "crayon 350 F");
  CHECK_THROWS_AS(say("look.tie-in", {word("over", "10")}), InternalError);
  CHECK_THROWS_AS(say("kit.corner-clamp", {word("pieces", "1")}), InternalError);
  CHECK_THROWS_AS(say("kit.crayon", {word("limit", "177")}), InternalError);
}

TEST_CASE("a limit never lets more through than was stated") {
  const auto limit = [](double mm, const char* gauge, UnitSystem units, Rounding rounding) {
    return quantity_text(ArgKind::length_mm, mm, gauge, units, rounding);
  };
  CHECK(limit(0.3, "calliper", UnitSystem::metric, Rounding::down) == "0.3 mm");
  CHECK(limit(0.39, "calliper", UnitSystem::metric, Rounding::down) == "0.3 mm");
  CHECK(limit(0.31, "calliper", UnitSystem::metric, Rounding::up) == "0.4 mm");
  CHECK(limit(0.8, "pinch-sticks", UnitSystem::metric, Rounding::down) == "0.5 mm");
  CHECK(limit(1.6, "tape", UnitSystem::inch_fractions, Rounding::down) == "1/16 in"); // 1.5875 mm
  CHECK(limit(1.58, "tape", UnitSystem::inch_fractions, Rounding::down) == "1/32 in");
  const auto celsius = [](double C, UnitSystem units, Rounding rounding) {
    return quantity_text(ArgKind::temperature_C, C, {}, units, rounding);
  };
  CHECK(celsius(177, UnitSystem::inch_decimal, Rounding::down) == "350 F"); // 350.6
  CHECK(celsius(177, UnitSystem::inch_decimal, Rounding::nearest) == "351 F");
  CHECK(celsius(60, UnitSystem::inch_decimal, Rounding::down) == "140 F");
  CHECK(celsius(176.67, UnitSystem::metric, Rounding::down) == "176 C");
}

} // namespace
} // namespace tacksquare
