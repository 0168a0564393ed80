// What the runs that could come next do to a box that is looked at half way.
#include "planning/made_case.h"
#include "planning/planner/next_runs.h"
#include "planning/planner/seam_order.h"
#include "planning/planner/steps.h"
#include "planning/planner/weigh_fixture.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// Ordered, and held by nothing that could be left out, so that what is read half way is the box itself.
std::unique_ptr<Made> ordered(const std::string& name) {
  auto all = made(odd_job_text(name));
  hold_by(FewPieces{}, *all->box);
  const std::optional<SeamOrder> order = order_seams(*all->box);
  REQUIRE(order);
  weld_by(*order, *all->box);
  return all;
}

std::size_t half_way(const std::vector<Step>& steps) {
  const auto look = std::find_if(steps.begin(), steps.end(),
                                 [](const Step& step) { return step.what.key == "step.look-half-way"; });
  REQUIRE(look != steps.end());
  return static_cast<std::size_t>(look - steps.begin());
}

} // namespace

TEST_CASE("a run that could come next does to the diagonals what going through the box with it says") {
  const auto all = ordered("bait-box.xml");
  const BoxCase& box = *all->box;
  REQUIRE(box.next_runs.size() > 1);
  const ElasticCase made = coarse_case(box);
  Diagnostics faults;
  const auto prepared =
      elastic::prepared_of(box.job, box.box, box.geometry, made.making, made.options, faults);
  REQUIRE(prepared);
  const std::optional<OrderModel> model = OrderModel::make(box, 1e9);
  REQUIRE(model);
  const Eigen::MatrixXd amounts = model->amounts().middleCols(1, elastic::kStepDraws);
  const std::vector<Step> steps = write_steps(box);
  const std::size_t look = half_way(steps);
  std::vector<elastic::Event> events; // until the look
  for (std::size_t i = 0; i < made.making.events.size(); ++i)
    if (made.step[i] < look) events.push_back(made.making.events[i]);
  const auto row =
      std::find_if(made.measure.begin(), made.measure.end(),
                   [&](std::size_t m) { return box.work.measures[m].id == box.next_runs.front().measure; }) -
      made.measure.begin();
  const auto read = [&](const std::vector<elastic::Event>& happened) -> Eigen::RowVectorXd {
    return elastic::make_history(*prepared->model, elastic::course_of(happened, *prepared).events,
                                 prepared->holding.holds, prepared->cases, amounts, {false, false})
        .back()
        .measures.row(row);
  };
  const Eigen::RowVectorXd before = read(events);
  for (const NextRun& next : box.next_runs) {
    std::vector<elastic::Event> with = events;
    for (std::size_t i = 0; i < made.making.events.size(); ++i)
      if (made.made[i] == next.run) with.push_back(made.making.events[i]);
    REQUIRE(with.size() == events.size() + 1);
    const Eigen::RowVectorXd change = read(with) - before;
    std::vector<double> each(change.begin(), change.end());
    const Band mm = elastic::band_of(each);
    INFO(next.run);
    // The model makes the lengths of a run at once; gone through, one after the other.
    const double near_mm = 0.02 + 0.05 * std::abs(mm.value);
    CHECK(next.mm.value == Approx(mm.value).margin(near_mm));
    CHECK(next.mm.low == Approx(mm.low).margin(2.0 * near_mm));
    CHECK(next.mm.high == Approx(mm.high).margin(2.0 * near_mm));
  }
}

TEST_CASE("the ladder names the run that pulls the long diagonal back, where that can be read") {
  const auto all = ordered("bait-box.xml");
  BoxCase& box = *all->box;
  const auto measure = std::find_if(box.work.measures.begin(), box.work.measures.end(),
                                    [&](const Measure& m) { return m.id == box.next_runs.front().measure; });
  REQUIRE(measure != box.work.measures.end());
  const auto rungs = [&] {
    const std::vector<Step> steps = write_steps(box);
    std::vector<Remedy> some;
    for (const Remedy& rung : steps[half_way(steps)].checks.front().ladder)
      if (rung.what.key == "fix.next-run") some.push_back(rung);
    return some;
  };
  const auto word_of = [](const Remedy& rung, const char* name) {
    for (const Arg& arg : rung.what.args)
      if (arg.name == name) return arg.word;
    return std::string();
  };
  const auto ends_at = [&](const std::string& seam, Vec3 corner) {
    for (const WorkSeam& each : box.work.seams)
      if (each.id == seam) {
        const SeamLine& line = box.geometry.seams[each.seam];
        return std::min(norm(line.start - corner), norm(line.end - corner)) < 25.0;
      }
    return false;
  };
  // As the reading has it: positive where the first diagonal, from point 0 to 2, is the long one.
  box.next_runs = {{"S1a", "S1", measure->id, {-0.8, -1.0, -0.5}},
                   {"S2a", "S2", measure->id, {0.7, 0.4, 1.0}},
                   {"S3a", "S3", measure->id, {-0.6, -0.9, -0.2}}};
  std::vector<Remedy> some = rungs();
  REQUIRE(some.size() == 2);
  CHECK(word_of(some[0], "run") == "S1");
  CHECK(ends_at(word_of(some[0], "from"), measure->points[0]));
  CHECK(ends_at(word_of(some[0], "to"), measure->points[2]));
  CHECK(word_of(some[1], "run") == "S2");
  CHECK(ends_at(word_of(some[1], "from"), measure->points[1]));
  CHECK(ends_at(word_of(some[1], "to"), measure->points[3]));
  // Below what pinch sticks can tell (half a millimetre) nothing is promised.
  box.next_runs = {{"S1a", "S1", measure->id, {-0.4, -0.5, -0.3}},
                   {"S2a", "S2", measure->id, {0.6, 0.4, 1.0}}};
  some = rungs();
  REQUIRE(some.size() == 1);
  CHECK(word_of(some[0], "run") == "S2");
}

TEST_CASE("tacks to cut are named with their places") {
  const auto all = made(sample_text("gear-locker.xml"));
  const BoxCase& box = *all->box;
  for (const Step& step : write_steps(box))
    for (const Check& check : step.checks)
      for (const Remedy& rung : check.ladder) {
        if (rung.what.key != "fix.cut-last-tacks") continue;
        REQUIRE(rung.what.args.size() == 1);
        CHECK(rung.what.args.front().list == tack_places(box, 1));
        CHECK_FALSE(rung.what.args.front().list.empty());
        return;
      }
  FAIL("no rung cuts tacks");
}
