// What holds a box while it is tacked and welded: where it sits, when it comes off, and what that changes.
#include "job/file/read_job.h"
#include "physics/elastic/piece.h"
#include "plan/file/fixture_of.h"
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const BoxPlan& first_box(const Planned& made) {
  CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  return made.plan.boxes.at(0);
}

std::size_t state_after(const BoxPlan& box, const std::string& id) {
  const std::vector<ElasticState>& states = box.elastic->states;
  const auto found =
      std::find_if(states.begin(), states.end(), [&](const ElasticState& s) { return s.after == id; });
  REQUIRE(found != states.end());
  return static_cast<std::size_t>(found - states.begin());
}

std::size_t reading_of(const BoxPlan& box, const std::string& id) {
  const std::vector<ElasticReading>& all = box.elastic->readings;
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const ElasticReading& r) { return r.id == id; });
  REQUIRE(found != all.end());
  return static_cast<std::size_t>(found - all.begin());
}

const HoldingPiece& piece_of(const BoxPlan& box, const std::string& id) {
  const std::vector<HoldingPiece>& all = box.elastic->pieces;
  const auto found = std::find_if(all.begin(), all.end(), [&](const HoldingPiece& p) { return p.id == id; });
  REQUIRE(found != all.end());
  return *found;
}

} // namespace

// The step says 40 mm below the rim, corners clear of the seams.
TEST_CASE("a former touches all four walls below the rim and clear of the corners, and goes where it is told",
          "[together]") {
  const BoxPlan& box = first_box(whole_sample("gear-locker.xml"));
  REQUIRE(box.elastic);
  const HoldingPiece& former = piece_of(box, "M1");
  // Eight in the corners, and two for each of the three bars that press the walls against it.
  REQUIRE(former.at.size() == 14);
  const Vec3 size = box.high - box.low;
  for (std::size_t i = 0; i < former.at.size(); ++i) {
    const Vec3 at = former.at[i] - box.low, out = former.out[i];
    CHECK(at.y == Approx(40.0).margin(1.5)); // the rim is in front
    CHECK(std::abs(out.y) < 1e-9);
    const bool side = std::abs(out.x) > 0.5;
    const double across = side ? at.x : at.z, along = side ? at.z : at.x, wide = side ? size.x : size.z,
                 tall = side ? size.z : size.x;
    CHECK(std::min(across, wide - across) == Approx(1.0).margin(0.1)); // in the middle of the sheet
    if (i < 8) CHECK(std::min(along, tall - along) == Approx(41.0).margin(1.5));
  }
  // Untrue by 1 mm: the diagonals of a rectangle through its places differ by just that.
  elastic::Piece piece{former.at, former.out, 1.0, former.off, 1.0};
  const double w = size.x - 2.0, h = size.z - 2.0, d = std::hypot(w, h);
  double shear = 0.0;
  for (std::size_t i = 0; i < 8; ++i)
    if (std::abs(former.out[i].x) > 0.5) shear = std::max(shear, std::abs(former.off[i]) / (0.5 * h - 40.0));
  CHECK(2.0 * 2.0 * shear * w * h / d == Approx(1.0).epsilon(0.02));
  CHECK(elastic::holds_of(piece).cols() == 11); // places less three motions in its own plane

  // Until the step that takes it out, and nothing after it.
  const auto out = std::find_if(box.steps.begin(), box.steps.end(), [](const Step& s) {
    return std::find(s.off.begin(), s.off.end(), "M1") != s.off.end();
  });
  REQUIRE(out != box.steps.end());
  CHECK(out->phase == Phase::release);
  CHECK(box.elastic->states.back().after == "M1");
  CHECK_FALSE(box.elastic->states.back().holding_N);
  CHECK(box.elastic->states.front().holding_N);
}

TEST_CASE("while the former is in the rim stays as square as the former; when it is out the box springs",
          "[together]") {
  const BoxPlan& box = first_box(whole_sample("gear-locker.xml"));
  const std::size_t rim = reading_of(box, "diagonals-rim");
  const std::vector<ElasticState>& states = box.elastic->states;
  const ElasticState &held = states[states.size() - 2], &out = states.back();
  // Not less than half of what the former itself may be off, nor much more than that.
  CHECK(held.high[rim] > 0.5 * piece_of(box, "M1").untrue_mm);
  CHECK(held.high[rim] < 1.5 * piece_of(box, "M1").untrue_mm);
  const std::size_t middle = reading_of(box, "width-2"); // the middle of the rim
  CHECK(out.value[middle] - held.value[middle] > 0.05);
}

// Fillets inside, then the squares are counted out, then the last face: the model does it in that order, and
// every check on the way has its figure.
TEST_CASE("a closed box that is welded inside first has figures at every step between", "[together]") {
  const BoxPlan& box = first_box(whole_odd_job("inside-fillets-closed.xml"));
  REQUIRE(box.elastic);
  const auto inside =
      std::find_if(box.steps.begin(), box.steps.end(), [](const Step& s) { return !s.runs.empty(); });
  REQUIRE(inside != box.steps.end());
  const std::size_t first_run = state_after(box, inside->runs.front());
  const std::size_t squares = state_after(box, "Q1");
  const std::size_t last_tack = state_after(box, box.tacks.back().id);
  const std::size_t last_run = box.elastic->states.size() - 1;
  CHECK(squares < last_tack);
  CHECK(first_run < last_tack);
  CHECK(last_tack < last_run);
  for (std::size_t i = last_tack; i < box.elastic->states.size(); ++i) // what is inside is out
    CHECK_FALSE(box.elastic->states[i].holding_N);

  bool tacked = false;
  int told = 0;
  for (const Step& step : box.steps) {
    tacked = tacked || !step.tacks.empty();
    for (const Check& check : step.checks)
      for (const PlannedMeasure& m : box.measures)
        if (m.kind == "diagonals" && tacked && !check.measures.empty() && m.id == check.measures.front()) {
          INFO("step " << step.number << ", " << m.id);
          CHECK(check.has_expected);
          ++told;
        }
  }
  CHECK(told >= 3);
}

TEST_CASE("squares sit in the corners of the walls, also where a lip stands in the rim and where the form is "
          "its own",
          "[together]") {
  const BoxPlan& tray = first_box(whole_sample("divided-tray.xml"));
  REQUIRE(tray.elastic);
  REQUIRE(tray.elastic->pieces.size() == 4); // no corner clamps: its walls are low
  for (const HoldingPiece& square : tray.elastic->pieces) {
    REQUIRE(square.at.size() == 4);
    CHECK(std::abs(dot(square.out[0], square.out[2])) < 1e-9);
    CHECK(norm(square.at[1] - square.at[0]) == Approx(norm(square.at[3] - square.at[2])).epsilon(0.6));
  }
  const BoxPlan& bracket = first_box(whole_odd_job("bracket.xml"));
  REQUIRE(bracket.elastic);
  for (const HoldingPiece& square : bracket.elastic->pieces)
    CHECK(square.at.size() == 4);
}

// Each way to hold it is told with what it gives; what is worth nothing is left out.
TEST_CASE("a planned fixture is the one of the fewest pieces that loses nothing, and what is worse than none "
          "is seen",
          "[together]") {
  const auto kept = [](const BoxPlan& box, const std::string& key) {
    for (const FixtureCompared& each : box.fixture->compared)
      if (each.key == key) return each.kept;
    FAIL("not weighed: " << key);
    return 0.0;
  };
  const auto chosen = [](const BoxPlan& box) {
    for (const FixtureCompared& each : box.fixture->compared)
      if (each.chosen) return each;
    FAIL("nothing is chosen");
    return FixtureCompared{};
  };
  const auto count = [](const BoxPlan& box, const std::string& kind) {
    return std::count_if(box.fixture->pieces.begin(), box.fixture->pieces.end(),
                         [&](const PlannedPiece& piece) { return piece.kind == kind; });
  };
  // The former is worth much, the clamps nothing.
  const BoxPlan& locker = first_box(whole_sample("gear-locker.xml"));
  CHECK(chosen(locker).key == "as-planned");
  CHECK(count(locker, "former") == 1);
  CHECK(count(locker, "corner-clamp") == 0);
  CHECK(chosen(locker).kept >= kept(locker, "throughout") - 0.01);
  CHECK(chosen(locker).kept > kept(locker, "none") + 0.05);
  CHECK(kept(locker, "without") < chosen(locker).kept - 0.01);
  REQUIRE(locker.fixture->smaller_weighed);

  // Rim corners that are held through the welds make this one worse than nothing: its corners are held by
  // clamps, one to each, since its panels stand loose.
  const BoxPlan& battery = first_box(whole_sample("battery-box.xml"));
  CHECK(kept(battery, "throughout") < kept(battery, "none"));
  CHECK(kept(battery, "rim-alone") < kept(battery, "none"));
  CHECK(count(battery, "former") == 0);
  CHECK(count(battery, "corner-clamp") == 4);
  CHECK(chosen(battery).kept > kept(battery, "for-tacks"));

  // Of a folded box no piece is left in that is missed by less than one box of a hundred.
  const BoxPlan& tray = first_box(whole_sample("divided-tray.xml"));
  for (const FixtureCompared& each : tray.fixture->compared)
    if (each.key == "without") CHECK(each.kept < kept(tray, "throughout") - 0.01);
}

TEST_CASE("clamps press at least what the walls pull away from what they are pressed against", "[together]") {
  const BoxPlan& box = first_box(whole_sample("gear-locker.xml"));
  double pull = 0.0;
  for (const double n : piece_of(box, "M1").pull_N)
    pull += n;
  double needs = 0.0;
  for (const PlannedPiece& piece : box.fixture->pieces)
    if (piece.kind == "bar-clamp") {
      CHECK(piece.force_N >= piece.needs_N);
      needs += 2.0 * piece.needs_N; // a bar presses on two walls
    }
  CHECK(needs >= 0.99 * pull); // each bar is told what the harder of its walls asks for
  CHECK(needs <= 4.0 * pull + 1e-9);
}

// Next month: the same job with the fixture that this one's plan wrote.
TEST_CASE("a job that uses a saved fixture is planned as the job that saved it") {
  for (const char* name : {"gear-locker.xml", "battery-box.xml", "divided-tray.xml", "ballast-float.xml"}) {
    INFO(name);
    const Planned& once = planned_sample(name);
    const BoxPlan& box = once.plan.boxes.at(0);
    REQUIRE(box.fixture);
    const std::string saved = write_fixture(fixture_of(*box.fixture), once.job.boxes.at(0));
    std::string job = sample_text(name);
    job.insert(job.rfind("</tacksquare-job>"), "<fixture box=\"" + box.id + "\" file=\"saved.xml\"/>");
    const JobReading reading =
        read_job(job, [&](const std::string& path) -> std::variant<FileRead, FileFault> {
          CHECK(path == "saved.xml");
          return FileRead{path, saved};
        });
    INFO(told(reading.diagnostics));
    REQUIRE(reading.job);
    Diagnostics faults;
    const std::optional<Plan> again = make_plan(*reading.job, faults, true);
    INFO(told(faults));
    REQUIRE(again);
    const BoxPlan& built = again->boxes.at(0);
    CHECK(built.steps == box.steps);
    REQUIRE(built.fixture);
    CHECK(built.fixture->stated);
    CHECK(built.fixture->bill == box.fixture->bill);
    CHECK(built.fixture->locating == box.fixture->locating);
    REQUIRE(built.fixture->pieces.size() == box.fixture->pieces.size());
    for (std::size_t i = 0; i < built.fixture->pieces.size(); ++i) {
      const PlannedPiece &a = built.fixture->pieces[i], &b = box.fixture->pieces[i];
      CHECK(a.id == b.id);
      CHECK(a.table == b.table);
      CHECK(a.leaves == b.leaves);
      CHECK(a.leaves_before == b.leaves_before);
      CHECK(a.force_N == b.force_N);
    }
  }
}

namespace {

// The sample with a fixture of these pieces for its first box; what is told, or the plan.
std::pair<std::string, std::optional<Plan>> with_fixture(const std::string& name,
                                                         const std::string& fixture) {
  std::string job = sample_text(name);
  job.insert(job.rfind("</tacksquare-job>"), fixture);
  const JobReading reading = read_job(job);
  INFO(told(reading.diagnostics));
  REQUIRE(reading.job);
  Diagnostics faults;
  std::optional<Plan> plan = make_plan(*reading.job, faults, true);
  if (plan) {
    std::vector<BoxGeometry> geometry;
    for (const Box& box : reading.job->boxes)
      geometry.push_back(resolve_geometry(*reading.job, box, faults));
    CHECK(joined(check_plan(*reading.job, geometry, *plan)) == "");
  }
  return {told(faults), std::move(plan)};
}

const char* const kFloatStops = "<stop id=\"P1\" at=\"50 mm, 0 mm, 20 mm\" towards=\"y\"/>"
                                "<stop id=\"P2\" at=\"550 mm, 0 mm, 20 mm\" towards=\"y\"/>"
                                "<stop id=\"P3\" at=\"0 mm, 155 mm, 20 mm\" towards=\"x\"/>";

} // namespace

TEST_CASE(
    "what is inside a closed box is counted out before it is shut, also when it is to come out when all is "
    "tacked") {
  const auto [faults, plan] = with_fixture(
      "ballast-float.xml", "<fixture box=\"float\" name=\"F\" down=\"U\" long-side=\"F\">" +
                               std::string(kFloatStops) +
                               "<square id=\"Q1\" corner=\"B L\" at=\"1.5 mm, 398.5 mm, 258.5 mm\" "
                               "size=\"100 mm\" until=\"tacked\"/></fixture>");
  INFO(faults);
  REQUIRE(plan);
  bool out = false;
  for (const Step& step : plan->boxes.at(0).steps)
    if (step.what.key == "step.tooling-out") {
      CHECK(step.off == std::vector<std::string>{"Q1"});
      out = true;
    }
  CHECK(out);
}

TEST_CASE("a fixture for another face than the box is tacked on, or measured from the far side, is told") {
  CHECK(with_fixture("ballast-float.xml", "<fixture box=\"float\" name=\"F\" down=\"B\" long-side=\"U\">" +
                                              std::string(kFloatStops) + "</fixture>")
            .first.starts_with("down-other: "));
  const std::string far = "<fixture box=\"float\" name=\"F\" down=\"U\" long-side=\"F\">"
                          "<stop id=\"P1\" at=\"50 mm, 400 mm, 20 mm\" towards=\"-y\"/>"
                          "<stop id=\"P2\" at=\"550 mm, 400 mm, 20 mm\" towards=\"-y\"/>"
                          "<stop id=\"P3\" at=\"0 mm, 155 mm, 20 mm\" towards=\"x\"/></fixture>";
  CHECK(with_fixture("ballast-float.xml", far).first.starts_with("stop-other-side: "));
}

TEST_CASE("a spreader a little out of square still holds both walls, and along itself") {
  const std::string stops = "<stop id=\"P1\" at=\"100 mm, 0 mm, 20 mm\" towards=\"y\"/>"
                            "<stop id=\"P2\" at=\"500 mm, 0 mm, 20 mm\" towards=\"y\"/>"
                            "<stop id=\"P3\" at=\"0 mm, 200 mm, 20 mm\" towards=\"x\"/>";
  std::string job = sample_text("gear-locker.xml");
  job.insert(job.rfind("</tacksquare-job>"),
             "<fixture box=\"locker\" name=\"F\" down=\"B\" long-side=\"R\">" + stops +
                 "<spreader id=\"A1\" at=\"2 mm, 250 mm, 200 mm\" to=\"598 mm, 248 mm, 200 mm\"/></fixture>");
  const Planned made = planned(job, false);
  const BoxPlan& box = made.plan.boxes.at(0);
  const HoldingPiece& spreader = piece_of(box, "A1");
  REQUIRE(spreader.out.size() == 2);
  CHECK(norm(spreader.out[0] + spreader.out[1]) < 1e-9);
  CHECK(spreader.pull_N[0] == Approx(spreader.pull_N[1]).margin(0.2));
  CHECK(std::max(spreader.pull_N[0], spreader.push_N[0]) > 0.1);
}

TEST_CASE("parts in one plane have no fixture, and are planned all the same") {
  const auto plate = [](const std::string& id, double from) {
    const auto point = [](double x, double y) {
      return "<point x=\"" + std::to_string(x) + " mm\" y=\"" + std::to_string(y) + " mm\"/>";
    };
    return "<part id=\"p" + id + "\"><face id=\"" + id + "\" origin=\"" + std::to_string(from) +
           " mm, 0 mm, 0 mm\" along=\"1, 0, 0\" up=\"0, -1, 0\">" + point(0, -80) + point(100, -80) +
           point(100, 0) + point(0, 0) + "</face></part>";
  };
  const Planned made = planned("<tacksquare-job name=\"PLATES\"><sheet id=\"s\" metal=\"mild-steel\" "
                               "thickness=\"2 mm\"/><box id=\"b\">" +
                                   plate("A", 0) + plate("E", 100) +
                                   "<seam id=\"S1\" between=\"A E\" joint=\"butt\"/></box></tacksquare-job>",
                               false);
  CHECK_FALSE(made.plan.boxes.at(0).fixture);
}
