// Every plan that the planner makes of the samples has its words, in every language and in all units.
#include "sheet/document.h"
#include "sheet/plain_text.h"
#include "support/planned.h"

namespace tacksquare {
namespace {

const Plan& sample(const std::string& name) {
  return test::planned_sample(name).plan;
}

// Every text that the plan needs is there and is filled; nothing is wider than a terminal.
void check_printed(const std::string& name, const Plan& plan) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inch_decimal, UnitSystem::inch_fractions})
    for (const char* language : {"en-GB", "en-US"}) {
      INFO(name << ", " << language << ", units " << static_cast<int>(units));
      const Document document = make_document(plan, {units, language});
      const std::string text = write_text(document);
      for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = text.find('\n', from);
        if (columns_of(text.substr(from, end - from)) > 80) FAIL_CHECK(text.substr(from, end - from));
        from = end + 1;
      }
      CHECK(write_html(document).find(document.signature) != std::string::npos);
    }
}

TEST_CASE("each sample, and each odd job, is printed in each language and system of units, 80 columns wide") {
  for (const std::string& name : test::sample_names())
    check_printed(name, sample(name));
  for (const std::string& name : test::odd_job_names())
    check_printed(name, test::planned(test::odd_job_text(name)).plan);
}

TEST_CASE("the bench card of the gear locker: at most forty steps, three holds, eight cautions") {
  const Document document = make_document(sample("gear-locker.xml"), {});
  std::size_t steps = 0, holds = 0;
  for (const DocumentPhase& phase : document.boxes.at(0).phases)
    for (const DocumentStep& step : phase.steps) {
      ++steps;
      holds += step.hold.empty() ? 0 : 1;
    }
  CHECK(steps > 20);
  CHECK(steps <= 40);
  CHECK(holds >= 1);
  CHECK(holds <= 3);
  for (const DocumentBlock& block : document.boxes[0].before)
    if (block.title == "CARE") CHECK(block.lines.size() <= 8);
}

} // namespace
} // namespace tacksquare
