// `check` holds a plan against its job: silent on what `plan` wrote, and a line for each thing that was
// changed by hand since, whether the one who changed it signed anew or not.
#include "cli/run.h"
#include "plan/file/plan_file.h"
#include "support/catch.h"

#include <algorithm>
#include <fstream>
#include <functional>
#include <sstream>

using namespace tacksquare;

namespace {

std::string sample(const std::string& name) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE) + "/samples/" + name, std::ios::binary);
  if (!in) FAIL("no sample " << name);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

struct Said {
  int exit = -1;
  std::string out, err;
};

// The tray, in which S3 waits for S1 and S2.
std::string tray() {
  std::string job = sample("divided-tray.xml");
  const std::size_t at = job.find("</box>");
  REQUIRE(at != std::string::npos);
  return job.insert(at, "<seam id=\"S3\" after=\"S1 S2\"/>");
}

Said said(const std::vector<std::string>& arguments, const std::string& job, const std::string& plan = "") {
  MemoryFiles files;
  files.files["job.xml"] = job;
  if (!plan.empty()) files.files["plan.xml"] = plan;
  std::istringstream in(job);
  std::ostringstream out, err;
  Console console{in, out, err, files};
  const int exit = run(arguments, console);
  return {exit, out.str(), err.str()};
}

const std::string& planned_tray() {
  static const std::string text = said({"plan", "job.xml", "--quick", "--form", "xml"}, tray()).out;
  return text;
}

Plan plan_of(const std::string& text) {
  PlanReading reading = read_plan(text);
  REQUIRE(reading.plan);
  return *reading.plan;
}

using Change = std::function<void(BoxPlan&)>;

// What is said of the plan when one thing in it was changed; the same must be said when it was signed anew,
// but for the signature.
std::string told_of(const Change& change) {
  const std::string good = planned_tray();
  const Plan before = plan_of(good);
  Plan after = before;
  change(after.boxes.at(0));
  REQUIRE_FALSE(after == before);
  const Said old = said({"check", "job.xml", "plan.xml"}, tray(), write_plan(after, plan_signature(before)));
  const Said fresh = said({"check", "job.xml", "plan.xml"}, tray(), write_plan(after));
  CHECK(old.exit == 3);
  CHECK(fresh.exit == 3);
  CHECK(old.err == "");
  const std::string signature = "  it was changed since it was written: its signature does not fit\n";
  CHECK(old.out.find(signature) != std::string::npos);
  CHECK(fresh.out.find(signature) == std::string::npos);
  const auto lines = [](const std::string& text) { return text.substr(text.find('\n') + 1); };
  CHECK(lines(old.out) == signature + lines(fresh.out));
  return fresh.out;
}

// wanted: the end of a line.
void told(const Change& change, const std::string& wanted) {
  const std::string all = told_of(change);
  INFO("wanted: " << wanted << "\ntold:\n" << all);
  CHECK(all.find(wanted + "\n") != std::string::npos);
  CHECK(all.find("  box tray: ") != std::string::npos);
}

// Of a seam, those that are no dab.
std::size_t run_of(const BoxPlan& box, const std::string& seam) {
  const auto found = std::find_if(box.runs.begin(), box.runs.end(),
                                  [&](const PlannedRun& run) { return run.seam == seam && !run.dab; });
  if (found == box.runs.end()) FAIL("no run of " << seam);
  return static_cast<std::size_t>(found - box.runs.begin());
}
Step& step_with(BoxPlan& box, const std::string& run) {
  const auto found = std::find_if(box.steps.begin(), box.steps.end(), [&](const Step& step) {
    return std::find(step.runs.begin(), step.runs.end(), run) != step.runs.end();
  });
  if (found == box.steps.end()) FAIL("no step makes " << run);
  return *found;
}

} // namespace

TEST_CASE("a plan as it was written keeps its rules, be the job a file or standard input") {
  for (const char* job : {"job.xml", "-"}) {
    const Said all = said({"check", job, "plan.xml"}, tray(), planned_tray());
    CHECK(all.exit == 0);
    CHECK(all.err == "");
    CHECK(all.out == "plan.xml keeps its own rules: 1 box, 14 seams, 34 tacks, 34 runs, " +
                         std::to_string(plan_of(planned_tray()).boxes[0].steps.size()) + " steps checked\n");
  }
}

TEST_CASE("runs and tacks that were changed by hand are told, one line each") {
  const Plan good = plan_of(planned_tray());
  const std::string first = good.boxes[0].runs.at(run_of(good.boxes[0], "S3")).id;

  told(
      [&](BoxPlan& box) {
        box.runs.erase(box.runs.begin() + static_cast<std::ptrdiff_t>(run_of(box, "S3")));
      },
      "seam S3: nothing welds it from 0.0 to 147.0 mm");
  told([&](BoxPlan& box) { step_with(box, first).runs.clear(); }, "no step makes run " + first);
  told([&](BoxPlan& box) { box.steps.back().runs.push_back(first); },
       "makes run " + first + " a second time");
  told([&](BoxPlan& box) { box.runs.push_back(box.runs[run_of(box, "S3")]); },
       "run " + first + " is listed twice");
  // S3 waits for S1 and S2: S3 and S2 change places, in the list, in the steps and in the order compared.
  told(
      [&](BoxPlan& box) {
        const std::string other = box.runs[run_of(box, "S2")].id;
        std::swap(box.runs[run_of(box, "S3")], box.runs[run_of(box, "S2")]);
        const auto swap_ids = [&](std::vector<std::string>& ids) {
          for (std::string& id : ids)
            if (id == first || id == other) id = id == first ? other : first;
        };
        for (Step& step : box.steps)
          swap_ids(step.runs);
        swap_ids(box.orders[0].runs);
      },
      "run S2a of seam S2 comes after run S3a, but seam S2 is to be welded before seam S3");
  told(
      [&](BoxPlan& box) {
        std::rotate(box.tacks.begin(), box.tacks.begin() + 1, box.tacks.end());
        const std::string tack = box.tacks.back().id;
        for (Step& step : box.steps)
          step.tacks.erase(std::remove(step.tacks.begin(), step.tacks.end(), tack), step.tacks.end());
        box.steps.back().tacks.push_back(tack); // after its weld
      },
      "welds run S1a before step 54 has made tack S1@130");
}

TEST_CASE("words that were changed by hand are told by the signature alone") {
  Plan plan = plan_of(planned_tray());
  const std::string signature = plan_signature(plan);
  plan.boxes[0].name += " 2";
  const Said all = said({"check", "job.xml", "plan.xml"}, tray(), write_plan(plan, signature));
  CHECK(all.exit == 3);
  CHECK(all.out == "plan.xml breaks its rules in 1 place:\n  it was changed since it was written: its "
                   "signature does not fit\n");
}

TEST_CASE("the plan of another job is told") {
  const Said all = said({"check", "job.xml", "plan.xml"}, sample("gear-locker.xml"), planned_tray());
  CHECK(all.exit == 3);
  CHECK(all.out.find("  box locker: is not planned\n") != std::string::npos);
  CHECK(all.out.find("  box tray: is planned, but the job does not state it\n") != std::string::npos);
}
