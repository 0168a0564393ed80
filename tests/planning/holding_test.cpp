// What holds a box while it is tacked and welded: where it sits, when it comes off, and what that changes.
#include "physics/elastic/piece.h"
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const BoxPlan& first_box(const std::string& name, bool sample) {
  static std::map<std::string, Planned> made;
  auto found = made.find(name);
  if (found == made.end())
    found = made.emplace(name, planned(sample ? sample_text(name) : odd_job_text(name), false)).first;
  CHECK(joined(check_plan(found->second.job, found->second.geometry, found->second.plan)).empty());
  return found->second.plan.boxes.at(0);
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

} // namespace

// The step says 40 mm below the rim, corners clear of the seams.
TEST_CASE(
    "a former touches all four walls below the rim and clear of the corners, and goes where it is told") {
  const BoxPlan& box = first_box("gear-locker.xml", true);
  REQUIRE(box.elastic);
  REQUIRE(box.elastic->pieces.size() == 1);
  const HoldingPiece& former = box.elastic->pieces[0];
  CHECK(former.id == "former");
  REQUIRE(former.at.size() == 8);
  const Vec3 size = box.high - box.low;
  for (std::size_t i = 0; i < 8; ++i) {
    const Vec3 at = former.at[i] - box.low, out = former.out[i];
    CHECK(at.y == Approx(40.0).margin(1.5)); // the rim is in front
    CHECK(std::abs(out.y) < 1e-9);
    const bool side = std::abs(out.x) > 0.5;
    const double across = side ? at.x : at.z, along = side ? at.z : at.x, wide = side ? size.x : size.z,
                 tall = side ? size.z : size.x;
    CHECK(std::min(across, wide - across) == Approx(1.0).margin(0.1)); // in the middle of the sheet
    CHECK(std::min(along, tall - along) == Approx(41.0).margin(1.5));
  }
  // Untrue by 1 mm: the diagonals of a rectangle through its places differ by just that.
  elastic::Piece piece{former.at, former.out, 1.0, former.off, 1.0};
  const double w = size.x - 2.0, h = size.z - 2.0, d = std::hypot(w, h);
  double shear = 0.0;
  for (std::size_t i = 0; i < 8; ++i)
    if (std::abs(former.out[i].x) > 0.5) shear = std::max(shear, std::abs(former.off[i]) / (0.5 * h - 40.0));
  CHECK(2.0 * 2.0 * shear * w * h / d == Approx(1.0).epsilon(0.02));
  CHECK(elastic::holds_of(piece).cols() == 5);

  // Until the step that takes it out, and nothing after it.
  const auto out =
      std::find_if(box.steps.begin(), box.steps.end(), [](const Step& s) { return !s.off.empty(); });
  REQUIRE(out != box.steps.end());
  CHECK(out->phase == Phase::release);
  CHECK(box.elastic->states.back().after == "former");
  CHECK_FALSE(box.elastic->states.back().holding_N);
  CHECK(box.elastic->states.front().holding_N);
}

TEST_CASE("while the former is in the rim stays as square as the former; when it is out the box springs") {
  const BoxPlan& box = first_box("gear-locker.xml", true);
  const std::size_t rim = reading_of(box, "diagonals-rim");
  const std::vector<ElasticState>& states = box.elastic->states;
  const ElasticState &held = states[states.size() - 2], &out = states.back();
  // Not less than half of what the former itself may be off, nor much more than that.
  CHECK(held.high[rim] > 0.5 * box.elastic->pieces[0].untrue_mm);
  CHECK(held.high[rim] < 1.5 * box.elastic->pieces[0].untrue_mm);
  const std::size_t middle = reading_of(box, "width-2"); // the middle of the rim
  CHECK(out.value[middle] - held.value[middle] > 0.05);
}

// Fillets inside, then the squares are counted out, then the last face: the model does it in that order, and
// every check on the way has its figure.
TEST_CASE("a closed box that is welded inside first has figures at every step between") {
  const BoxPlan& box = first_box("inside-fillets-closed.xml", false);
  REQUIRE(box.elastic);
  const auto inside =
      std::find_if(box.steps.begin(), box.steps.end(), [](const Step& s) { return !s.runs.empty(); });
  REQUIRE(inside != box.steps.end());
  const std::size_t first_run = state_after(box, inside->runs.front());
  const std::size_t squares = state_after(box, box.elastic->pieces.front().id);
  const std::size_t last_tack = state_after(box, box.tacks.back().id);
  const std::size_t last_run = box.elastic->states.size() - 1;
  CHECK(first_run < squares);
  CHECK(squares < last_tack);
  CHECK(last_tack < last_run);
  CHECK(box.elastic->pieces.size() == 4);
  for (std::size_t i = squares + box.elastic->pieces.size(); i < box.elastic->states.size(); ++i)
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

TEST_CASE("the sheet asks for as many squares as stand in the corners") {
  for (const auto& [name, sample] :
       {std::pair{"divided-tray.xml", true}, {"inside-fillets-closed.xml", false}}) {
    INFO(name);
    const BoxPlan& box = first_box(name, sample);
    int told = 0;
    for (const Step& step : box.steps)
      for (const char* key : {"step.corner-squares", "step.inside-squares", "step.tooling-out"})
        if (step.what.key == key) {
          CHECK(step.what.args.at(0).number == static_cast<double>(box.elastic->pieces.size()));
          ++told;
        }
    CHECK(told >= 1);
  }
}

TEST_CASE("squares sit in the corners of the walls, also where a lip stands in the rim and where the form is "
          "its own") {
  const BoxPlan& tray = first_box("divided-tray.xml", true);
  REQUIRE(tray.elastic);
  REQUIRE(tray.elastic->pieces.size() == 4);
  for (const HoldingPiece& square : tray.elastic->pieces) {
    REQUIRE(square.at.size() == 4);
    CHECK(std::abs(dot(square.out[0], square.out[2])) < 1e-9);
    CHECK(norm(square.at[1] - square.at[0]) == Approx(norm(square.at[3] - square.at[2])).epsilon(0.6));
  }
  const BoxPlan& bracket = first_box("bracket.xml", false);
  REQUIRE(bracket.elastic);
  for (const HoldingPiece& square : bracket.elastic->pieces)
    CHECK(square.at.size() == 4);
}
