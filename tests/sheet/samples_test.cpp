// Every plan that the planner makes of the samples has its words, in every language and in all units.
#include "job/file/read_job.h"
#include "planning/planner/make_plan.h"
#include "sheet/document.h"
#include "sheet/plain_text.h"
#include "support/catch.h"

#include <fstream>
#include <iterator>

namespace tacksquare {
namespace {

Plan planned(const std::string& sample) {
  std::ifstream file(std::string(TACKSQUARE_SOURCE) + "/samples/" + sample, std::ios::binary);
  REQUIRE(file);
  const JobReading reading =
      read_job(std::string{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()});
  REQUIRE(reading.job);
  Diagnostics diagnostics;
  const std::optional<Plan> plan = make_plan(*reading.job, diagnostics);
  REQUIRE(plan);
  return *plan;
}

TEST_CASE("each sample is printed in each language and system of units, 80 columns wide") {
  for (const char* sample : {"gear-locker.xml", "ballast-float.xml", "battery-box.xml", "divided-tray.xml"}) {
    const Plan plan = planned(sample);
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inch_decimal, UnitSystem::inch_fractions})
      for (const char* language : {"en-GB", "en-US"}) {
        INFO(sample << ", " << language << ", units " << static_cast<int>(units));
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
}

TEST_CASE("the bench card of the gear locker: at most forty steps, three holds, eight cautions") {
  const Document document = make_document(planned("gear-locker.xml"), {});
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
