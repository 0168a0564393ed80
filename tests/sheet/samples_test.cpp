// Every plan that the planner makes of the samples has its words, in every language and in all units.
#include "sheet/document.h"
#include "sheet/plain_text.h"
#include "support/planned.h"

#include <algorithm>
#include <regex>

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

TEST_CASE("each sample, and each odd job, is printed in each language and system of units, 80 columns wide",
          "[together]") {
  for (const std::string& name : test::sample_names())
    check_printed(name, sample(name));
  for (const std::string& name : test::odd_job_names())
    check_printed(name, test::planned_odd_job(name).plan);
}

// The others are printed from quick plans, by closed forms.
TEST_CASE("a plan with figures step by step is printed whole: checks, tables, the shape, what buckles",
          "[together]") {
  for (const char* name : {"gear-locker.xml", "battery-box.xml"}) {
    INFO(name);
    const Plan& plan = test::whole_sample(name).plan;
    check_printed(name, plan);
    const BoxPlan& box = plan.boxes.at(0);
    const Document document = make_document(plan, {});
    const std::string text = write_text(document);
    CHECK(text.find("By formula: closed forms beside it") != std::string::npos);
    CHECK(text.find("Blanks are cut larger than drawn") != std::string::npos);
    const auto stands = text.find("Fixture: what the box stands on after " + box.elastic->stands.at(0).after);
    CHECK(stands != std::string::npos);
    CHECK(text.find("Stops carry nothing while the box lies still.") != std::string::npos);
    const bool bars =
        text.find("Not weighed, and left as they are: P1, P2, P3, C3 and C4.") != std::string::npos;
    CHECK(bars == (plan.job == "BATTERY BOX")); // low across its loose panels
    const auto& drawings = document.boxes.at(0).foreman_drawings;
    const auto shape = std::find_if(drawings.begin(), drawings.end(), [](const Drawing& d) {
      return d.title.find("How the welds pull the box") != std::string::npos;
    });
    REQUIRE(shape != drawings.end());
    CHECK(shape->lines.size() == 2 * box.elastic->shape.size()); // as drawn, and moved
    for (const DrawnLine& line : shape->lines)
      for (const Vec2 p : line.points) {
        CHECK((p.x >= 0.0 && p.x <= shape->width_mm));
        CHECK((p.y >= 0.0 && p.y <= shape->height_mm));
      }
  }
}

const std::vector<std::pair<std::string, Plan>>& all_plans() {
  static const std::vector<std::pair<std::string, Plan>> plans = [] {
    std::vector<std::pair<std::string, Plan>> made;
    for (const std::string& name : test::sample_names())
      made.emplace_back(name, sample(name));
    for (const std::string& name : test::odd_job_names())
      made.emplace_back(name, test::planned_odd_job(name).plan);
    return made;
  }();
  return plans;
}

// The bench card alone, each paragraph on one line.
std::string bench_text(Document document) {
  document.first.clear();
  for (DocumentBox& box : document.boxes) {
    box.cards.clear();
    box.foreman.clear();
    box.notes.clear();
  }
  return write_text(document, 2000);
}

TEST_CASE("in inches no metric unit is on a bench card, but for the sheet as it was ordered, in brackets",
          "[together]") {
  const std::regex metric("[0-9] (cm/min|m/min|L/min|kg|g|C|K|J/mm|kPa)\\b");
  int as_ordered = 0;
  for (const auto& [name, plan] : all_plans()) {
    for (const UnitSystem units : {UnitSystem::inch_decimal, UnitSystem::inch_fractions}) {
      const Document document = make_document(plan, {units, "en-US"});
      const std::string text = bench_text(document);
      INFO(name << ", units " << static_cast<int>(units));
      std::smatch found;
      if (std::regex_search(text, found, metric)) FAIL_CHECK(found.str());
      CHECK(text.find("MILLIMET") == std::string::npos);
      for (std::size_t at = text.find(" mm"); at != std::string::npos; at = text.find(" mm", at + 1)) {
        const std::size_t from = text.rfind('\n', at) + 1;
        const std::string line = text.substr(from, text.find('\n', at) - from);
        INFO(line);
        CHECK(line.rfind("Sheet: ", 0) == 0);
        CHECK(text.compare(at, 5, " mm).") == 0);
        ++as_ordered;
      }
      for (const Drawing& drawing : document.boxes[0].bench_drawings) {
        CHECK(drawing.title.find(" mm") == std::string::npos);
        for (const DrawnLabel& label : drawing.labels)
          CHECK(label.text.find(" mm") == std::string::npos);
      }
    }
  }
  CHECK(as_ordered >= 8); // one sheet at least for each sample and system of units
}

TEST_CASE("in inches what nobody measures is round, and travel is the time for four of them") {
  const Plan& plan = sample("gear-locker.xml");
  const std::string fractions = bench_text(make_document(plan, {UnitSystem::inch_fractions, "en-US"}));
  for (const char* said :
       {"14 s for 4 in", "2 bar clamps 20 in", "1 bar clamp 28 in", "copper bar 12 in", "stick-out 3/8 in",
        "oil off 3/4 in back", "offcuts 4 in x 1 1/2 in", "Tie in 3/8 in over", "S1 5 7/8 in -> 11 3/4 in"}) {
    INFO(said);
    CHECK(fractions.find(said) != std::string::npos);
  }
  const std::string decimal = bench_text(make_document(plan, {UnitSystem::inch_decimal, "en-US"}));
  for (const char* said : {"14 s for 4 in", "2 bar clamps 20 in", "oil off 0.75 in back"}) {
    INFO(said);
    CHECK(decimal.find(said) != std::string::npos);
  }
  const std::string metric = bench_text(make_document(plan, {UnitSystem::metric, "en-GB"}));
  CHECK(metric.find("13 s for 100 mm") != std::string::npos);
}

TEST_CASE("of one thing the sheet speaks in the singular", "[together]") {
  const std::regex one_of_many("\\b1 (seams|corner clamps|inside squares|tacks|stitches|places)\\b");
  bool singular = false;
  for (const auto& [name, plan] : all_plans()) {
    INFO(name);
    const std::string text = write_text(make_document(plan, {}), 2000);
    std::smatch found;
    if (std::regex_search(text, found, one_of_many)) FAIL_CHECK(found.str());
    singular = singular || text.find("\n1 seam, ") != std::string::npos;
  }
  CHECK(singular);
}

TEST_CASE("settings that a step names stand on top under that name", "[together]") {
  const std::regex named("Settings ([^ ]+) now|Coupon ([^ ]+), for");
  std::size_t count = 0;
  for (const auto& [name, plan] : all_plans()) {
    const Document document = make_document(plan, {});
    for (const DocumentBox& box : document.boxes)
      for (const DocumentPhase& phase : box.phases)
        for (const DocumentStep& step : phase.steps) {
          std::smatch found;
          if (!std::regex_search(step.what, found, named)) continue;
          const std::string id = found[1].matched ? found[1] : found[2];
          INFO(name << ": " << step.what);
          CHECK(std::any_of(box.settings.begin(), box.settings.end(), [&](const DocumentBlock& block) {
            return block.title.rfind(id + ", ", 0) == 0;
          }));
          ++count;
        }
  }
  CHECK(count > 20);
}

TEST_CASE("a tack has the same place in its step and in the seam map", "[together]") {
  const std::regex place("at ([0-9./ ]+) (mm|in): ([A-Za-z0-9, ]+)");
  std::size_t count = 0;
  for (const auto& [name, plan] : all_plans())
    for (const UnitSystem units :
         {UnitSystem::metric, UnitSystem::inch_decimal, UnitSystem::inch_fractions}) {
      const Document document = make_document(plan, {units, "en-GB"});
      for (const DocumentBox& box : document.boxes)
        for (const DocumentPhase& phase : box.phases)
          for (const DocumentStep& step : phase.steps) {
            if (step.what.rfind("Tack", 0) != 0) continue;
            for (std::sregex_iterator it(step.what.begin(), step.what.end(), place), end; it != end; ++it)
              for (const auto& row : box.seam_map.rows) {
                if (!std::regex_search((*it)[3].str(), std::regex("\\b" + row[0] + "\\b"))) continue;
                INFO(name << ", units " << static_cast<int>(units) << ": " << it->str() << " | " << row[3]);
                CHECK((", " + row[3] + ",").find(", " + (*it)[1].str() + ",") != std::string::npos);
                ++count;
              }
          }
    }
  CHECK(count > 300);
}

TEST_CASE("a face whose name is its letter is called once, and a figure refers to each note once, in order",
          "[together]") {
  const std::regex twice("(^|[ ,:])([A-Za-z0-9-]+) \\2,"), mark(" ([0-9]+)\\)");
  std::size_t captions = 0, marks = 0;
  for (const auto& [name, plan] : all_plans()) {
    const Document document = make_document(plan, {});
    for (const DocumentBox& box : document.boxes) {
      for (const Drawing& drawing : box.bench_drawings) {
        INFO(name << ": " << drawing.title);
        CHECK_FALSE(std::regex_search(drawing.title, twice));
        ++captions;
      }
      for (const DocumentTable& table : box.foreman) {
        if (table.title != "Figures") continue;
        for (const auto& row : table.rows) {
          int last = 0;
          INFO(name << ": " << row[0]);
          for (std::sregex_iterator it(row[0].begin(), row[0].end(), mark), end; it != end; ++it, ++marks) {
            const int number = std::stoi((*it)[1]);
            CHECK(number > last);
            last = number;
          }
        }
      }
    }
  }
  CHECK(captions > 50);
  CHECK(marks > 20);
}

TEST_CASE("a US sheet is spelled as there, the names of metals too") {
  const Document document = make_document(sample("divided-tray.xml"), {UnitSystem::inch_fractions, "en-US"});
  const std::string text = write_text(document);
  CHECK(text.find("aluminum 5052") != std::string::npos);
  for (const char* british : {"luminium", "centre", "calliper", "colour"})
    CHECK(text.find(british) == std::string::npos);
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
