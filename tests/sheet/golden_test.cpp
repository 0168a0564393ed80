// Each writer's output is pinned, whole.
#include "sheet/document.h"
#include "sheet/sample_plan.h"
#include "support/golden.h"

namespace tacksquare {
namespace {

TEST_CASE("golden: text, metric, British", "[golden]") {
  test::check_golden("locker-gb.txt",
                     write_text(make_document(test::sample_plan(), {UnitSystem::metric, "en-GB"})));
}

TEST_CASE("golden: text, inch fractions, US, 120 columns", "[golden]") {
  test::check_golden(
      "locker-us.txt",
      write_text(make_document(test::sample_plan(), {UnitSystem::inch_fractions, "en-US"}), 120));
}

TEST_CASE("golden: page, metric, British", "[golden]") {
  test::check_golden("locker-gb.html",
                     write_html(make_document(test::sample_plan(), {UnitSystem::metric, "en-GB"})));
}

} // namespace
} // namespace tacksquare
