// Each writer's output is pinned, whole. sh tests/accept-golden.sh BUILD writes the files anew; look at the
// difference before you commit it.
#include "sheet/document.h"
#include "sheet/sample_plan.h"
#include "support/catch.h"

#include <cstdlib>
#include <fstream>
#include <iterator>

namespace tacksquare {
namespace {

void hold_against(const std::string& name, const std::string& made) {
  const std::string path = std::string(TACKSQUARE_TEST_DATA) + "/golden/" + name;
  if (std::getenv("TACKSQUARE_ACCEPT")) {
    std::ofstream(path, std::ios::binary) << made;
    SUCCEED("accepted " << path);
    return;
  }
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file);
  const std::string golden{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  // The first place that differs says more than two whole pages do.
  const auto [at, other] = std::mismatch(golden.begin(), golden.end(), made.begin(), made.end());
  const auto from = static_cast<std::size_t>(at - golden.begin());
  INFO(name << " differs at byte " << from << "\nwas: " << golden.substr(from, 100)
            << "\nis:  " << made.substr(std::min(from, made.size()), 100));
  CHECK((golden == made));
}

TEST_CASE("golden: text, metric, British", "[golden]") {
  hold_against("locker-gb.txt",
               write_text(make_document(test::sample_plan(), {UnitSystem::metric, "en-GB"})));
}

TEST_CASE("golden: text, inch fractions, US, 120 columns", "[golden]") {
  hold_against("locker-us.txt",
               write_text(make_document(test::sample_plan(), {UnitSystem::inch_fractions, "en-US"}), 120));
}

TEST_CASE("golden: page, metric, British", "[golden]") {
  hold_against("locker-gb.html",
               write_html(make_document(test::sample_plan(), {UnitSystem::metric, "en-GB"})));
}

} // namespace
} // namespace tacksquare
