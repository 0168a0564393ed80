// "What would help, and what would not" on the foreman's pages.
#include "sheet/catalogue.h"
#include "sheet/document.h"
#include "sheet/sample_plan.h"
#include "support/catch.h"

#include <algorithm>

namespace tacksquare {
namespace {

DocumentTable table_of(const std::vector<Lever>& levers, UnitSystem units = UnitSystem::metric) {
  Plan plan = test::sample_plan();
  plan.boxes.at(0).levers = levers;
  SheetOptions options;
  options.units = units;
  const Document document = make_document(plan, options);
  const std::vector<DocumentTable>& all = document.boxes.at(0).foreman;
  const auto found = std::find_if(all.begin(), all.end(), [](const DocumentTable& table) {
    return table.title == "What would help, and what would not";
  });
  REQUIRE(found != all.end());
  return *found;
}

Lever lever(const char* key, std::vector<Arg> args, double before, double after, bool advised) {
  return {key, {std::string("lever.") + key, std::move(args)}, before, after, advised};
}

TEST_CASE("the foreman reads each change with both chances, and what to do of those that help") {
  const std::vector<Lever> levers = {lever("pitch", {length("pitch", 50)}, 0.48, 0.6, true),
                                     lever("bends", {}, 0.48, 0.491, true),
                                     lever("heat", {}, 0.48, 0.4, false)};
  const DocumentTable table = table_of(levers);
  REQUIRE(table.rows.size() == 3);
  CHECK(table.rows[0] == std::vector<std::string>{"tacks at half the distance, 50 mm at most", "48", "60"});
  CHECK(table.rows[2] == std::vector<std::string>{"a fifth less heat", "48", "40"});
  REQUIRE(table.below.size() == 3);
  CHECK(table.below[0] ==
        "Put the tacks at half the distance, 50 mm at most: of 100 boxes 12 more keep all limits.");
  CHECK(table.below[1] == "Have bends that come in half as far off: of 100 boxes 1 more keeps all limits.");
  CHECK(table.below[2].find("2000 draws") != std::string::npos);
  CHECK(table_of(levers, UnitSystem::inch_fractions).rows[0][0] ==
        "tacks at half the distance, 2 in at most");
}

TEST_CASE("where nothing helps the foreman is told so, and of the fixture's own draws") {
  const DocumentTable table = table_of({lever("fixture-without", {word("piece", "C1")}, 0.5, 0.505, false)});
  REQUIRE(table.below.size() == 3);
  CHECK(table.below[0] == "Nothing on this list would help to speak of.");
  CHECK(table.below[2].rfind("What holds the box", 0) == 0);
  CHECK(table.rows.at(0).at(0) == "held without C1");
}

TEST_CASE("what a change is called and what to do of it go with the same arguments") {
  const Catalogue words("en-GB");
  int pairs = 0;
  for (const auto& [key, text] : words.entries()) {
    if (key.rfind("lever.", 0) != 0) continue;
    const std::string advice = "advice." + key.substr(6);
    INFO(key);
    REQUIRE(words.has(advice));
    const std::string_view done = text, to_do = words.text(advice);
    const auto argument = [](std::string_view all) {
      const std::size_t at = all.find('{');
      return at == std::string_view::npos ? std::string_view() : all.substr(at, all.find('}', at) - at);
    };
    CHECK(argument(done) == argument(to_do));
    ++pairs;
  }
  CHECK(pairs == 18);
}

} // namespace
} // namespace tacksquare
