// Misfit, clamps, stops and what lets go: the path of a box through its making.
#include "elastic/made_box.h"
#include "elastic/walls.h"
#include "formulas/wall.h"
#include "physics/elastic/history.h"
#include "support/catch.h"
#include "support/table.h"

#include <cmath>
#include <sstream>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// The base's corners and middle held where they are.
void hold_base(StatedBox& b, double deep, std::vector<std::size_t>& held) {
  for (const Vec3 at : {Vec3{0, 200, 0}, {deep, 200, 0}, {0, 100, 0}, {deep, 100, 0}})
    for (const Vec3 direction : {Vec3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}})
      held.push_back(point(b, at, direction));
}

BoxModel model_of(const StatedBox& b, const std::vector<Misfit>& misfits, double mesh_mm) {
  Diagnostics out;
  ModelOptions options;
  options.mesh_mm = mesh_mm;
  const auto model = make_box_model(b.job, b.box, b.geometry, b.tacks, {}, b.figures, misfits, options, out);
  REQUIRE(model);
  return *model;
}

constexpr double kFirm = 1e7; // N/mm

std::vector<double> arguments(const Table::Row& row) {
  std::istringstream in(row.text("arguments"));
  std::vector<double> values;
  for (double v = 0.0; in >> v;)
    values.push_back(v);
  return values;
}

} // namespace

// The rows of formulas_wall.tsv were solved with bricks by CalculiX, the held ones on a firm foot: an outside
// check of bends, misfit and holds together.
TEST_CASE("a wall off square, its ends held square, bellies at its rim as CalculiX says") {
  const Table table("formulas_wall.tsv", {"function", "arguments", "value", "tolerance", "source", "mark"});
  int checked = 0;
  for (const auto& row : table.rows()) {
    if (row.text("function") != "held_firm" || row.text("source").rfind("CalculiX", 0) != 0) continue;
    INFO(row.shown());
    const auto a = arguments(row);
    const double tall = a[0], deep = a[1], lean = a[2];
    StatedBox b = wall(tall, deep, a[3], a[4], a[5]);
    std::vector<std::size_t> held;
    hold_base(b, deep, held);
    for (double z = 25.0; z <= tall; z += 25.0)
      for (const double x : {0.0, deep})
        held.push_back(point(b, {x, 0, z}, {0, -1, 0}));
    const std::size_t rim = point(b, {deep / 2, 0, tall}, {0, -1, 0});
    const BoxModel model = model_of(b, {{Misfit::Kind::lean, 0, 0, {}}}, 25.0);
    std::vector<Hold> holds;
    std::vector<Event> events;
    for (const std::size_t h : held) {
      holds.push_back({model.measures[h], kFirm, false, 0.0});
      events.push_back({Event::Kind::hold, holds.size() - 1});
    }
    const Cases cases = cases_of(model, 0);
    const auto moments = make_history(model, events, holds, cases, VectorXd::Constant(1, lean), {});
    CHECK(moments.back().measures(static_cast<Index>(rim), 0) == Approx(row.number("value")).epsilon(0.02));
    ++checked;
  }
  CHECK(checked == 3);
}

TEST_CASE("pulls at the rim corners of a wall are those of CalculiX") {
  const Table table("formulas_wall.tsv", {"function", "arguments", "value", "tolerance", "source", "mark"});
  int checked = 0;
  for (const auto& row : table.rows()) {
    const bool together = row.text("function") == "corner_together";
    if ((!together && row.text("function") != "corner_against") ||
        row.text("source").rfind("CalculiX", 0) != 0)
      continue;
    INFO(row.shown());
    const auto a = arguments(row);
    StatedBox b = wall(a[0], a[1], a[2], a[3], a[4]);
    std::vector<std::size_t> held;
    hold_base(b, a[1], held);
    const std::size_t one = point(b, {0, 0, a[0]}, {0, -1, 0}), other = point(b, {a[1], 0, a[0]}, {0, -1, 0});
    const BoxModel model = model_of(b, {}, 25.0);
    std::vector<Hold> holds;
    std::vector<Event> events;
    for (const std::size_t h : held)
      holds.push_back({model.measures[h], kFirm, false, 0.0});
    holds.push_back({model.measures[one], kFirm, false, 1.0});
    holds.push_back({model.measures[other], kFirm, false, together ? 1.0 : -1.0});
    for (std::size_t i = 0; i < holds.size(); ++i)
      events.push_back({Event::Kind::hold, i});
    const auto moments = make_history(model, events, holds, cases_of(model, 0), MatrixXd::Zero(0, 1), {});
    const double pull = -moments.back().reactions(static_cast<Index>(holds.size()) - 2, 0);
    CHECK(pull == Approx(row.number("value")).epsilon(0.02));
    ++checked;
  }
  CHECK(checked == 4);
}

TEST_CASE("what only clamps have bent springs back when they are let go, whatever the order") {
  StatedBox b = wall(300, 600, 2, 210000, 0.3);
  std::vector<std::size_t> held;
  hold_base(b, 600, held);
  const std::size_t rim = point(b, {300, 0, 300}, {0, -1, 0});
  const BoxModel model = model_of(b, {}, 50.0);
  std::vector<Hold> holds;
  std::vector<Event> events;
  for (const std::size_t h : held) {
    holds.push_back({model.measures[h], kFirm, false, std::nullopt});
    events.push_back({Event::Kind::hold, holds.size() - 1});
  }
  holds.push_back({model.measures[rim], 1000.0, false, 5.0});
  events.push_back({Event::Kind::hold, holds.size() - 1});
  const auto here = static_cast<Index>(rim);
  auto moments = make_history(model, events, holds, cases_of(model, 0), MatrixXd::Zero(0, 1), {});
  CHECK(moments.back().measures(here, 0) > 4.0);
  events.push_back({Event::Kind::let_go, holds.size() - 1});
  moments = make_history(model, events, holds, cases_of(model, 0), MatrixXd::Zero(0, 1), {});
  CHECK(std::abs(moments.back().measures(here, 0)) < 1e-9);
  CHECK(moments.back().reactions.cwiseAbs().maxCoeff() < 1e-6);
}

TEST_CASE("a stop pushes and never pulls") {
  // The wall leans out by 0.02; a stop stands at 1 mm outside of its rim, another 20 mm outside.
  StatedBox b = wall(300, 600, 2, 210000, 0.3);
  std::vector<std::size_t> held;
  hold_base(b, 600, held);
  const std::size_t rim = point(b, {300, 0, 300}, {0, -1, 0});
  const BoxModel model = model_of(b, {{Misfit::Kind::lean, 0, 0, {}}}, 50.0);
  const auto reached = [&](double stop, double lean) {
    std::vector<Hold> holds;
    std::vector<Event> events;
    for (const std::size_t h : held) {
      holds.push_back({model.measures[h], kFirm, false, 0.0});
      events.push_back({Event::Kind::hold, holds.size() - 1});
    }
    holds.push_back({model.measures[rim], kFirm, true, stop});
    events.push_back({Event::Kind::hold, holds.size() - 1});
    const auto m =
        make_history(model, events, holds, cases_of(model, 0), VectorXd::Constant(1, lean), {}).back();
    return std::pair{m.measures(static_cast<Index>(rim), 0),
                     m.reactions(static_cast<Index>(holds.size()) - 1, 0)};
  };
  const auto [near_mm, near_N] = reached(1.0, 0.02);
  CHECK(near_mm == Approx(1.0).epsilon(1e-3));
  CHECK(near_N > 10.0);
  const auto [far_mm, far_N] = reached(20.0, 0.02);
  CHECK(far_mm == Approx(6.0).epsilon(0.01)); // 300 mm x 0.02
  CHECK(far_N == 0.0);
  const auto [inward_mm, inward_N] = reached(1.0, -0.02);
  CHECK(inward_mm == Approx(-6.0).epsilon(0.01));
  CHECK(inward_N == 0.0);
}

TEST_CASE("a stop among several load cases is our own mistake, told as such") {
  StatedBox b = wall(300, 600, 2, 210000, 0.3);
  const std::size_t rim = point(b, {300, 0, 300}, {0, -1, 0});
  const BoxModel model = model_of(b, {}, 50.0);
  const std::vector<Hold> holds = {{model.measures[rim], 1.0, true, 0.0}};
  CHECK_THROWS_AS(
      make_history(model, {{Event::Kind::hold, 0}}, holds, cases_of(model, 0), MatrixXd::Zero(0, 2), {}),
      InternalError);
}

TEST_CASE("a second taper in one model is the first of another, on corners and on a T, tacks and welds") {
  for (const char* name : {"open", "divider"}) {
    INFO(name);
    StatedBox b = stated_box(name);
    if (b.box.seams.size() > 4) b.box.seams[4].joint = JointKind::tee; // its base shrinks
    ModelOptions both, other;
    both.second_taper_mm = other.jump_taper_mm = 40.0;
    const BoxModel one = made_box(b, both), two = made_box(b, other);
    const auto same = [&](const Joint& of_one, const Joint& of_two) {
      CHECK(of_one.second.across == of_two.shrunk.across);
      CHECK(of_one.second.angle == of_two.shrunk.angle);
      CHECK((of_one.second.across_load >= 0) == (of_two.shrunk.across_load >= 0));
      if (of_one.second.across_load < 0) return;
      const Index in_one = of_one.second.across_load, in_two = of_two.shrunk.across_load;
      CHECK(one.parts.compliance(in_one, in_one) ==
            Approx(two.parts.compliance(in_two, in_two)).epsilon(1e-9));
      CHECK(one.parts.compliance(in_one, of_one.readings[1]) ==
            Approx(two.parts.compliance(in_two, of_two.readings[1])).epsilon(1e-6).margin(1e-12));
    };
    for (std::size_t w = 0; w < one.welds.size(); ++w) {
      same(one.welds[w], two.welds[w]);
      CHECK(one.welds[w].second.angle != one.welds[w].shrunk.angle);
    }
    REQUIRE(one.tacks.size() == two.tacks.size());
    for (std::size_t t = 0; t < one.tacks.size(); ++t)
      same(one.tacks[t], two.tacks[t]);
    Cases cases = cases_of(two, b.box.seams.size());
    cases.second_taper = true;
    const Eigen::MatrixXd amounts = Eigen::MatrixXd::Identity(cases.count(), cases.count());
    CHECK_THROWS_AS(make_history(two, {}, {}, cases, amounts, {}), InternalError);
  }
}
