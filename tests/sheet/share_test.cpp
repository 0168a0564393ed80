// What is the same of several seams, parts, places or checks stands on the sheet once.
#include "sheet/share.h"

#include "sheet/sample_plan.h"
#include "support/catch.h"

#include <algorithm>

namespace tacksquare {
namespace {

const Composer kCompose({});

Text caution(const std::string& face, const std::string& seam, double factor) {
  return {"caution.may-buckle",
          {word("face", face), word("seam", seam), number("factor", ArgKind::ratio, factor)}};
}

const DocumentTable& table_of(const Document& document, const std::string& title) {
  const auto& tables = document.boxes.at(0).foreman;
  const auto found =
      std::find_if(tables.begin(), tables.end(), [&](const DocumentTable& t) { return t.title == title; });
  if (found == tables.end()) FAIL("no table " << title);
  return *found;
}

const DocumentStep& step_of(const Document& document, const std::string& number) {
  for (const DocumentPhase& phase : document.boxes.at(0).phases)
    for (const DocumentStep& step : phase.steps)
      if (step.number == number) return step;
  FAIL("no step " << number);
  return document.boxes[0].phases[0].steps[0];
}

TEST_CASE("three or more seams in a row are named as a range, fewer one by one") {
  const BoxPlan box = test::gear_locker();
  CHECK(names(kCompose, box, {"S1"}) == "S1");
  CHECK(names(kCompose, box, {"S1", "S2"}) == "S1 and S2");
  CHECK(names(kCompose, box, {"S1", "S2", "S3", "S4"}) == "S1 to S4");
  CHECK(names(kCompose, box, {"S1", "S3", "S4"}) == "S1, S3 and S4");
  CHECK(names(kCompose, box, {"S2", "S1", "S3"}) == "S2, S1 and S3");
  CHECK(names(kCompose, box, {"lid", "tray"}) == "lid and tray");
}

TEST_CASE("places with the same parts are named together, none twice") {
  const BoxPlan box = test::gear_locker();
  CHECK(places(kCompose, box, {"rim"}) == "rim");
  CHECK(places(kCompose, box, {"rim-top"}) == "rim, top");
  CHECK(places(kCompose, box, {"rim-top", "rim-bottom", "back-top", "back-bottom"}) ==
        "rim and back, each at top and bottom");
  CHECK(places(kCompose, box, {"rim-top", "back-bottom"}) == "rim, top; back, bottom");
  CHECK(places(kCompose, box, {"L", "L", "R", "R"}) == "L and R");
  CHECK(places(kCompose, box, {"S1-rim", "S1-back", "S2-rim", "S2-back", "S3-rim", "S3-back"}) ==
        "S1 to S3, each at rim and back");
  BoxPlan other = box;
  other.seams[0].id = "A-1"; // a seam's own dash parts nothing
  CHECK(places(kCompose, other, {"A-1", "A-1-rim"}) == "A-1, rim");
}

TEST_CASE("texts that say the same of several seams share a line; what differs otherwise stays apart") {
  const BoxPlan box = test::gear_locker();
  SharedText shared{caution("L", "S1", 1.5), {}, {}};
  CHECK(take_in(kCompose, shared, caution("L", "S1", 1.5))); // said twice
  CHECK(take_in(kCompose, shared, caution("L", "S4", 1.5)));
  CHECK(!take_in(kCompose, shared, caution("R", "S2", 1.5)));
  CHECK(!take_in(kCompose, shared, caution("R", "S1", 1.5)));
  CHECK(!take_in(kCompose, shared, caution("L", "S2", 1.7)));
  CHECK(!take_in(kCompose, shared, {"plain", {word("text", "S1")}}));
  CHECK(shared_text(kCompose, box, shared).find("shrinkage of S1 and S4 takes") != std::string::npos);
}

TEST_CASE("cautions, figures and seams that are the same of several seams take one line each") {
  Plan plan = test::sample_plan();
  BoxPlan& box = plan.boxes[0];
  box.cautions = {
      {caution("L", "S1", 1.5), false}, {caution("R", "S2", 1.5), false}, {caution("L", "S4", 1.5), false}};
  box.figures.clear();
  for (const PlannedSeam& seam : box.seams) {
    Figure bead;
    bead.what = {"figure.bead", {word("seam", seam.id)}};
    bead.kind = ArgKind::area_mm2;
    bead.value = {4.0, 4.0, 4.0};
    bead.has_band = false;
    box.figures.push_back(bead);
  }
  box.figures[2].value.value = 5.0; // S3
  const Document document = make_document(plan, {});
  REQUIRE(document.boxes[0].notes.at(0).lines.size() == 2);
  CHECK(document.boxes[0].notes[0].lines[0].find("S1 and S4") != std::string::npos);
  const DocumentTable& figures = table_of(document, "Figures");
  REQUIRE(figures.rows.size() == 2);
  CHECK(figures.rows[0][0] == "S1, S2 and S4 bead area");
  CHECK(figures.rows[1][0] == "S3 bead area");
  const DocumentTable& seams = table_of(document, "Seams and weld symbols");
  REQUIRE(seams.rows.size() == 1);
  CHECK(seams.rows[0][0] == "S1 to S4");
  CHECK(seams.rows[0][1] == "T-L, T-R, U-R, U-L");
}

TEST_CASE("a ladder of several rungs is printed once on a card, then referred to") {
  Plan plan = test::sample_plan();
  auto& steps = plan.boxes[0].steps;
  const std::vector<Remedy> ladder = {{Who::grinder, 300, test::say("Dress the caps.")},
                                      {Who::foreman, 300, test::say("The foreman decides.")}};
  auto& checks = steps[13].checks; // widths, diagonals, rock in step 14
  REQUIRE(checks.size() == 3);
  checks[0].ladder = checks[1].ladder = ladder;
  checks[2].ladder = steps[3].checks[0].ladder; // that of the diagonals in step 4
  steps[15].checks.push_back(checks[0]);        // widths again in step 16
  steps[15].checks.push_back(checks[2]);
  const Document document = make_document(plan, {});
  const auto& read = step_of(document, "14").checks;
  CHECK(read[0].put_right.size() == 2);
  CHECK(read[0].put_right_as.empty());
  CHECK(read[1].put_right.empty());
  CHECK(read[1].put_right_as == "as above");
  CHECK(read[2].put_right_as == "as in step 4");
  const auto& again = step_of(document, "16").checks;
  REQUIRE(again.size() == 3);
  CHECK(again[1].put_right_as == "as in step 14");
  CHECK(again[2].put_right_as == "as in step 4");
  const std::string page = write_text(document);
  CHECK(page.find("Dress the caps.") == page.rfind("Dress the caps."));
  CHECK(page.find("Off? as in step 14") != std::string::npos);
}

TEST_CASE("a ladder that is not the same in every rung is printed again, and so is one of a single rung") {
  Plan plan = test::sample_plan();
  auto& checks = plan.boxes[0].steps[13].checks;
  checks[0].ladder = {{Who::grinder, 300, test::say("Dress.")}, {Who::foreman, 300, test::say("Decide.")}};
  checks[1].ladder = checks[0].ladder;
  checks[1].ladder[0].seconds = 600;
  checks[2].ladder = {checks[0].ladder[1]};
  plan.boxes[0].steps[15].checks[0].ladder = checks[2].ladder;
  const Document document = make_document(plan, {});
  for (const DocumentCheck& check : step_of(document, "14").checks)
    CHECK((!check.put_right.empty() && check.put_right_as.empty()));
  CHECK(step_of(document, "16").checks.at(0).put_right.size() == 1);
}

TEST_CASE("the seconds of a run stand beside the step only where its words do not tell them") {
  Plan plan = test::sample_plan();
  Step& run = plan.boxes[0].steps[4];
  CHECK(step_of(make_document(plan, {}), "5").time == "20 s");
  run.what = {"step.run",
              {word("seam", "S1"), length("from", 150), length("to", 300),
               number("time", ArgKind::time_s, run.arc_s)}};
  CHECK(step_of(make_document(plan, {}), "5").time.empty());
}

} // namespace
} // namespace tacksquare
