// Each blank of a check says which reading goes into it, and none is lost.
#include "sheet/document.h"
#include "sheet/sample_plan.h"
#include "support/planned.h"

#include <algorithm>
#include <set>

namespace tacksquare {
namespace {

std::size_t times_in(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size()))
    ++count;
  return count;
}

std::size_t blanks_of(const DocumentCheck& check) {
  std::size_t count = 0;
  for (const DocumentBlanks& group : check.blanks)
    count += group.each.size();
  return count;
}

// Places that tell one blank from another, as they stand on the sheet.
std::set<std::string> labels_of(const DocumentCheck& check) {
  std::set<std::string> labels;
  for (const DocumentBlanks& group : check.blanks)
    for (const std::string& label : group.each)
      labels.insert(group.place + "|" + label);
  return labels;
}

struct Counted {
  std::size_t checks = 0, named = 0;
};

// Without records and signatures, so that each blank on the page is one of a check.
Document bare(Document document) {
  for (DocumentBox& box : document.boxes) {
    box.sign_off.clear();
    for (DocumentPhase& phase : box.phases)
      for (DocumentStep& step : phase.steps) {
        step.record.clear();
        step.hold.clear();
        step.names.clear();
      }
  }
  return document;
}

Counted hold_blanks(const Plan& plan) {
  Counted counted;
  const Document document = bare(make_document(plan, {}));
  std::size_t all = 0;
  for (std::size_t b = 0; b < plan.boxes.size(); ++b) {
    std::vector<DocumentStep> steps;
    for (const DocumentPhase& phase : document.boxes[b].phases)
      steps.insert(steps.end(), phase.steps.begin(), phase.steps.end());
    REQUIRE(steps.size() == plan.boxes[b].steps.size());
    for (std::size_t s = 0; s < steps.size(); ++s) {
      const std::vector<Check>& checks = plan.boxes[b].steps[s].checks;
      REQUIRE(steps[s].checks.size() == checks.size());
      std::set<std::string> names;
      for (std::size_t i = 0; i < checks.size(); ++i) {
        const DocumentCheck& shown = steps[s].checks[i];
        INFO("step " << steps[s].number << ": " << shown.what);
        CHECK(blanks_of(shown) == static_cast<std::size_t>(checks[i].readings));
        all += blanks_of(shown);
        ++counted.checks;
        std::string first = shown.what;
        for (const std::string& label : labels_of(shown))
          first += "; " + label;
        CHECK(names.insert(first).second); // two checks of a step are not the same to the reader
        if (checks[i].measures.size() < 2) continue;
        ++counted.named;
        for (const DocumentBlanks& group : shown.blanks)
          CHECK(!group.place.empty());
      }
    }
  }
  CHECK(times_in(write_text(document), "_____") == all);
  CHECK(times_in(write_html(document), "<span class=\"blank\">") == all);
  return counted;
}

TEST_CASE("every reading has its blank in the document, in the text and on the page, and its place",
          "[together]") {
  Counted all;
  const auto add = [&](const Plan& plan) {
    const Counted counted = hold_blanks(plan);
    all.checks += counted.checks;
    all.named += counted.named;
  };
  for (const std::string& name : test::sample_names()) {
    INFO(name);
    add(test::planned_sample(name).plan);
  }
  for (const std::string& name : test::odd_job_names()) {
    INFO(name);
    add(test::planned_odd_job(name).plan);
  }
  CHECK(all.checks > 200);
  CHECK(all.named > 100);
}

const DocumentCheck& check_named(const Document& document, const std::string& what) {
  for (const DocumentPhase& phase : document.boxes.at(0).phases)
    for (const DocumentStep& step : phase.steps)
      for (const DocumentCheck& check : step.checks)
        if (check.what == what) return check;
  FAIL("no check " << what);
  return document.boxes[0].phases[0].steps[0].checks[0];
}

TEST_CASE("widths are read by row, gaps by seam, opposite sides by what they make, diagonals by face") {
  const Document locker = make_document(test::planned_sample("gear-locker.xml").plan, {});
  const DocumentCheck& widths = check_named(locker, "widths, left to right");
  REQUIRE(widths.blanks.size() == 3);
  CHECK(widths.blanks[0].place == "rim:");
  CHECK(widths.blanks[0].each == std::vector<std::string>{"top", "middle", "bottom"});
  const DocumentCheck& gaps = check_named(locker, "gap");
  REQUIRE(gaps.blanks.size() == 4);
  CHECK(gaps.blanks[3].place == "S4");
  CHECK(gaps.blanks[3].each == std::vector<std::string>(3));
  const DocumentCheck& sides = check_named(locker, "opposite sides differ");
  REQUIRE(sides.blanks.size() == 1);
  CHECK(sides.blanks[0].each == std::vector<std::string>{"widths", "heights"});
  CHECK(check_named(locker, "diagonals differ").blanks[0].place.empty()); // only one
  const Document closed = make_document(test::planned_sample("ballast-float.xml").plan, {});
  const DocumentCheck& diagonals = check_named(closed, "diagonals differ");
  std::set<std::string> faces;
  for (const DocumentBlanks& group : diagonals.blanks)
    faces.insert(group.place);
  CHECK(faces == std::set<std::string>{"B", "F", "L", "R", "T", "U"});
  CHECK(write_text(locker).find("rim: top _____ middle _____ bottom _____") != std::string::npos);
  CHECK(write_text(locker).find("S1 _____ _____ _____  S2 _____ _____ _____") != std::string::npos);
}

TEST_CASE("two checks of one step with the same name tell their place, also with one blank each") {
  Plan plan = test::sample_plan();
  BoxPlan& box = plan.boxes[0];
  PlannedMeasure back = box.measures[1];
  back.id = "diagonals-back";
  back.where = "back";
  box.measures.push_back(back);
  Check rim = box.steps[3].checks[0];
  rim.measures = {"diagonals-rim"};
  rim.readings = 1;
  box.steps[3].checks = {rim};
  CHECK(check_named(make_document(plan, {}), "diagonals at the rim").blanks[0].place.empty());
  Check other = rim;
  other.measures = {"diagonals-back"};
  box.steps[3].checks.push_back(other);
  const Document document = make_document(plan, {});
  const DocumentStep& step = document.boxes[0].phases[2].steps.back();
  REQUIRE(step.checks.size() == 2);
  CHECK(step.checks[0].blanks[0].place == "rim");
  CHECK(step.checks[1].blanks[0].place == "back");
}

TEST_CASE("readings that are not one for each measure keep their number, without places") {
  Plan plan = test::sample_plan();
  Check& check = plan.boxes[0].steps[13].checks[0];
  check.measures = {"width-1", "diagonals-rim"};
  for (const int readings : {9, 2, 0}) {
    if (readings == 2) check.measures[1] = "no-such-measure";
    check.readings = readings;
    const Document document = make_document(plan, {});
    const DocumentCheck& shown = check_named(document, "widths, nine places");
    CHECK(blanks_of(shown) == static_cast<std::size_t>(readings));
    CHECK(shown.blanks.size() == (readings > 0 ? 1 : 0));
  }
}

} // namespace
} // namespace tacksquare
