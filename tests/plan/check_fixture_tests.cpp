// check_plan on plans with a fixture.
#include "plan/verify/check_plan.h"
#include "support/locker_fixture.h"
#include "support/planned.h"

#include <Eigen/Dense>

#include <array>
#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::size_t first_of(const BoxPlan& plan, Phase phase) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                  [&](const Step& step) { return step.phase == phase; });
  if (found == plan.steps.end()) FAIL("the sample has no such step");
  return static_cast<std::size_t>(found - plan.steps.begin());
}

// All on before the first tack; corner clamps off before the first run, the rest at the release.
void use(BoxPlan& plan, const FixturePlan& fixture) {
  for (Step& step : plan.steps) // its own fixture is another
    step.on = step.off = {};
  Step& set_up = plan.steps[first_of(plan, Phase::set_up)];
  Step& clear = plan.steps[first_of(plan, Phase::weld) - 1];
  Step& release = plan.steps[first_of(plan, Phase::release)];
  for (const PlannedPiece& each : fixture.pieces) {
    set_up.on.push_back(each.id);
    (each.leaves.empty() ? release : clear).off.push_back(each.id);
  }
  plan.fixture = fixture;
}

// By Eigen: rank, determinant, and the furthest of all corners and signs.
struct ByEigen {
  long rank = 0;
  double determinant = 0.0, worst_mm = 0.0;
};
ByEigen by_eigen(const std::array<std::pair<Vec3, Vec3>, 6>& six, Vec3 size, double error_mm) {
  using Matrix = Eigen::Matrix<double, 6, 6>;
  const auto vector = [](Vec3 v) { return Eigen::Vector3d(v.x, v.y, v.z); };
  Matrix rows;
  for (int i = 0; i < 6; ++i) {
    const auto& [at, along] = six[static_cast<std::size_t>(i)];
    rows.row(i) << vector(along).transpose(), vector(at).cross(vector(along)).transpose();
  }
  const Eigen::FullPivLU<Matrix> lu(rows);
  ByEigen out{lu.rank(), std::abs(lu.determinant()), 0.0};
  if (out.rank < 6) return out;
  for (int corner = 0; corner < 8; ++corner)
    for (int signs = 0; signs < 64; ++signs) {
      Eigen::Matrix<double, 6, 1> off;
      for (int i = 0; i < 6; ++i)
        off[i] = (signs >> i) & 1 ? error_mm : -error_mm;
      const Eigen::Matrix<double, 6, 1> moved = lu.solve(off);
      const Eigen::Vector3d p((corner & 1) * size.x, (corner >> 1 & 1) * size.y, (corner >> 2 & 1) * size.z);
      out.worst_mm = std::max(out.worst_mm, (moved.head<3>() + moved.tail<3>().cross(p)).norm());
    }
  return out;
}

std::array<std::pair<Vec3, Vec3>, 6> six_on(const FixturePlan& fixture, std::array<Vec3, 3> under) {
  std::array<std::pair<Vec3, Vec3>, 6> six;
  for (std::size_t i = 0; i < 3; ++i) {
    six[i] = {under[i], {0, 0, 1}};
    six[i + 3] = {fixture.pieces.at(i).table.at(0), fixture.pieces[i].towards};
  }
  return six;
}

const Planned& held_locker() {
  static const Planned made = [] {
    Planned all = planned(sample_text("gear-locker.xml"));
    BoxPlan& plan = all.plan.boxes.at(0);
    FixturePlan fixture = locker_fixture(plan);
    const Vec3 size = fixture.size_mm;
    fixture.locating.worst_mm =
        by_eigen(six_on(fixture, {{{1, 1, 0}, {size.x - 1, 1, 0}, {1, size.y - 1, 0}}}), size, 0.2).worst_mm;
    use(plan, fixture);
    settle_numbers(all.plan);
    return all;
  }();
  return made;
}

std::string told_of(const Planned& made, const std::function<void(BoxPlan&)>& change) {
  Plan plan = made.plan;
  change(plan.boxes.at(0));
  CHECK_FALSE(plan == made.plan);
  return joined(check_plan(made.job, made.geometry, plan));
}

// Altered in one thing, it must be told with a line that holds the words.
void spoilt(const std::function<void(BoxPlan&)>& spoil, const std::string& words) {
  const std::string lines = told_of(held_locker(), spoil);
  INFO("wanted: " << words << "\ntold:\n" << lines);
  CHECK(lines.find(words) != std::string::npos);
}

PlannedPiece& piece_of(BoxPlan& plan, const std::string& id) {
  for (PlannedPiece& each : plan.fixture->pieces)
    if (each.id == id) return each;
  FAIL("no piece " << id);
  return plan.fixture->pieces.front();
}

// To another place, in both frames.
void move(BoxPlan& plan, const std::string& id, Vec3 by, std::size_t which = 0) {
  const FixturePlan& fixture = *plan.fixture;
  PlannedPiece& each = piece_of(plan, id);
  each.table.at(which) = each.table[which] + by;
  each.at.at(which) = each.at[which] + fixture.x * by.x + fixture.y * by.y + fixture.z * by.z;
}

void drop(std::vector<std::string>& ids, const std::string& id) {
  ids.erase(std::remove(ids.begin(), ids.end(), id), ids.end());
}

void drop(BoxPlan& plan, std::vector<std::string> Step::*list, const std::string& id) {
  for (Step& step : plan.steps)
    drop(step.*list, id);
}

} // namespace

TEST_CASE("a fixture made by hand keeps every rule, and a plan without one, too") {
  CHECK(joined(check_plan(held_locker().job, held_locker().geometry, held_locker().plan)) == "");
  CHECK(told_of(held_locker(), [](BoxPlan& p) {
          p.fixture.reset();
          for (Step& step : p.steps)
            step.on = step.off = {};
        }) == "");
}

TEST_CASE("a piece that is put on or taken off at the wrong time is told") {
  spoilt([](BoxPlan& p) { piece_of(p, "P2").id = "P1"; }, "two pieces are called P1");
  spoilt([](BoxPlan& p) { drop(p, &Step::on, "P6"); }, "piece P6 goes on 0 times");
  spoilt([](BoxPlan& p) { p.steps[first_of(p, Phase::weld)].on = {"P6"}; }, "piece P6 goes on 2 times");
  spoilt([](BoxPlan& p) { drop(p, &Step::off, "P6"); }, "piece P6 comes off 0 times");
  spoilt([](BoxPlan& p) { p.steps[first_of(p, Phase::final_check)].off = {"P6"}; },
         "piece P6 comes off 2 times");
  spoilt(
      [](BoxPlan& p) {
        drop(p, &Step::off, "P6");
        p.steps[first_of(p, Phase::set_up)].off = {"P6"};
      },
      "piece P6 comes off before it is on");
  spoilt(
      [](BoxPlan& p) {
        drop(p, &Step::off, "P6");
        p.steps[first_of(p, Phase::final_check)].off = {"P6"};
      },
      "piece P6 is still on after the release");
  spoilt(
      [](BoxPlan& p) {
        drop(p, &Step::on, "P1");
        p.steps[first_of(p, Phase::tack)].on = {"P1"};
      },
      "piece P2 goes on before one that stands before it");
  spoilt(
      [](BoxPlan& p) {
        drop(p, &Step::off, "P10");
        p.steps[first_of(p, Phase::release)].off.push_back("P10");
      },
      "piece P10 is still in the way of " + held_locker().plan.boxes[0].fixture->pieces.at(9).leaves_before);
  spoilt([](BoxPlan& p) { piece_of(p, "P10").leaves_before = "S9z"; }, "leaves before S9z, which no step");
  spoilt([](BoxPlan& p) { piece_of(p, "P10").leaves.clear(); }, "does not say both why and before what");
  spoilt([](BoxPlan& p) { piece_of(p, "P10").leaves = "boredom"; }, "does not say both why and before what");
  spoilt([](BoxPlan& p) { p.steps[first_of(p, Phase::grind)].off = {"P99"}; }, "P99, which is no piece");
  spoilt(
      [](BoxPlan& p) {
        p.steps[first_of(p, Phase::grind)].look = {"plain", {words("text", {"P6"})}};
      },
      "names P6, which is off");
}

TEST_CASE("a piece that is not where it is said to be, or touches no metal, is told") {
  spoilt([](BoxPlan& p) { piece_of(p, "P1").at[0].x += 0.01; }, "P1 stands elsewhere on the table");
  spoilt([](BoxPlan& p) { piece_of(p, "P1").at.clear(); }, "P1 has not the same places");
  spoilt([](BoxPlan& p) { piece_of(p, "P7").kind = "magnet"; }, "P7 is of no known kind");
  spoilt([](BoxPlan& p) { piece_of(p, "P1").faces = {"Q"}; }, "P1 touches no face Q");
  spoilt([](BoxPlan& p) { move(p, "P1", {0, -2.5, 0}); }, "P1 touches no metal"); // off the surface
  spoilt([](BoxPlan& p) { move(p, "P3", {0, 160, 0}); }, "P3 touches no metal");  // beyond the edge
  spoilt([](BoxPlan& p) { move(p, "P4", {0, 0, 6.5}); }, "P4 touches no metal");
  spoilt([](BoxPlan& p) { move(p, "P7", {7, 0, 0}, 1); }, "P7 touches no metal of its faces at its place 2");
  spoilt([](BoxPlan& p) { std::swap(piece_of(p, "P7").faces[0], piece_of(p, "P7").faces[1]); },
         "P7 touches no metal of its faces at its place 1");
  spoilt([](BoxPlan& p) { piece_of(p, "P7").faces.pop_back(); }, "P7 has not a face for each end");
  spoilt(
      [](BoxPlan& p) {
        piece_of(p, "P7").at.pop_back();
        piece_of(p, "P7").table.pop_back();
      },
      "P7 touches in 1 places");
  spoilt([](BoxPlan& p) { piece_of(p, "P7").kind = "spreader"; }, "the bill has 3 of kind bar-clamp");
  spoilt([](BoxPlan& p) { piece_of(p, "P4").towards = {0, 0, 1}; }, "P4 presses away from its metal");
  spoilt([](BoxPlan& p) { piece_of(p, "P14").seam = "S9"; }, "P14 lies behind no seam");
  spoilt([](BoxPlan& p) { piece_of(p, "P14").to_mm += 10.0; }, "P14 lies behind no seam");
}

TEST_CASE("a stop may push against the cut edge of a wall, whichever way it stands") {
  const auto at_rim = [](double beyond_mm) {
    return told_of(held_locker(), [=](BoxPlan& p) {
      const Vec3 size = p.fixture->size_mm;
      PlannedPiece edge = piece("P15", "hold-down", {{1.0, 300.0, size.z + beyond_mm}}, {"L"});
      edge.towards = {0, 0, -1};
      edge.at = {p.fixture->origin + p.fixture->x * 1.0 + p.fixture->y * 300.0 +
                 p.fixture->z * edge.table[0].z};
      p.fixture->pieces.push_back(edge);
      p.fixture->bill[3].wanted = 3;
      std::rotate(p.fixture->bill.begin(), p.fixture->bill.begin() + 3, p.fixture->bill.begin() + 4);
      p.steps[first_of(p, Phase::set_up)].on.push_back("P15");
      p.steps[first_of(p, Phase::release)].off.push_back("P15");
    });
  };
  CHECK(at_rim(0.0) == "");
  CHECK(at_rim(3.0).find("P15 touches no metal") != std::string::npos);
}

TEST_CASE("the planned fixture is among those that it was weighed against, and loses nothing") {
  const auto compared = [](auto change) {
    return [=](BoxPlan& p) {
      const int pieces = static_cast<int>(p.fixture->pieces.size());
      p.fixture->compared = {{"throughout", "", pieces + 1, 0.8, false},
                             {"none", "", 3, 0.9, false},
                             {"as-planned", "", pieces, 0.795, true},
                             {"without", "P6", pieces - 1, 0.7, false}};
      change(p.fixture->compared);
    };
  };
  using All = std::vector<FixtureCompared>;
  CHECK(told_of(held_locker(), compared([](All&) {})) == "");
  spoilt(compared([](All& all) { all[2].chosen = false; }), "not among those compared");
  spoilt(compared([](All& all) { all[2].pieces -= 1; }), "not among those compared");
  spoilt(compared([](All& all) { all[1].chosen = true; }), "two fixtures compared are the planned one");
  spoilt(compared([](All& all) { all[2].kept = 0.78; }), "loses against all of it");
  spoilt(compared([](All& all) { all[1].kept = 1.5; }), "keeps 1.5 of all boxes");
  spoilt(compared([](All& all) { all[3].without = "P99"; }), "a fixture compared is without P99");
  spoilt(compared([](All& all) { all[3].pieces += 1; }), "without P6 there are as many pieces");
}

TEST_CASE("a frame that does not fit the box is told") {
  spoilt([](BoxPlan& p) { p.fixture->z = {0, 1, 0}; }, "not square and right-handed");
  spoilt([](BoxPlan& p) { p.fixture->x = {1.001, 0, 0}; }, "not square and right-handed");
  spoilt([](BoxPlan& p) { p.fixture->origin.x += 5.0; }, "not lie in the datum corner along x");
  spoilt([](BoxPlan& p) { p.fixture->size_mm.y -= 10.0; }, "not lie in the datum corner along y");
}

// The determinant in closed form: twice the area of the supports' triangle, times what the two stops stand
// apart. The rest against Eigen's LU with full pivots.
TEST_CASE("locating is recomputed: rank, determinant, worst move and turn, as Eigen has them") {
  const FixturePlan& fixture = *held_locker().plan.boxes[0].fixture;
  const Vec3 size = fixture.size_mm;
  const std::array<Vec3, 3> under{{{80, 80, 0}, {320, 80, 0}, {200, 520, 0}}};
  const ByEigen pads = by_eigen(six_on(fixture, under), size, 0.2);
  CHECK(pads.rank == 6);
  CHECK(pads.determinant ==
        Approx(240.0 * 440.0 * (fixture.pieces[1].table[0].x - fixture.pieces[0].table[0].x)));
  // On three pads instead of the table: no line about locating when told as Eigen has it.
  const auto on_pads = [&](double determinant, double worst_mm) {
    return told_of(held_locker(), [&](BoxPlan& p) {
      p.fixture->locating.six = {"A", "B", "C", "P1", "P2", "P3"};
      p.fixture->locating.determinant_mm3 = determinant;
      p.fixture->locating.worst_mm = worst_mm;
      for (std::size_t i = 0; i < 3; ++i) {
        p.fixture->pieces.push_back(
            piece(std::string(1, static_cast<char>('A' + i)), "support", {under[i]}, {"B"}));
        p.fixture->pieces.back().towards = {0, 0, 1};
      }
    });
  };
  const std::string right = on_pads(pads.determinant, pads.worst_mm);
  for (const char* wrong : {"determinant", "a corner moves", "turn the box", "located"})
    CHECK(right.find(wrong) == std::string::npos);
  CHECK(on_pads(1.001 * pads.determinant, pads.worst_mm).find("the determinant of the six") !=
        std::string::npos);
  CHECK(on_pads(pads.determinant, 1.001 * pads.worst_mm).find("a corner moves by") != std::string::npos);

  spoilt([](BoxPlan& p) { p.fixture->locating.determinant_mm3 *= 1.001; }, "the determinant of the six");
  spoilt([](BoxPlan& p) { p.fixture->locating.worst_mm *= 1.1; }, "a corner moves by");
  spoilt([](BoxPlan& p) { p.fixture->locating.turn_deg *= 1.1; }, "the two stops turn the box");
  spoilt([](BoxPlan& p) { p.fixture->locating.rank = 5; }, "located with rank 6, told as 5");
  spoilt([](BoxPlan& p) { p.fixture->locating.six.pop_back(); },
         "not located by three supports or the table");
  spoilt([](BoxPlan& p) { p.fixture->locating.six[1] = "P3"; }, "not located by three supports or the table");
  // Both stops in one place cannot keep the box from turning.
  spoilt([](BoxPlan& p) { move(p, "P2", piece_of(p, "P1").table[0] - piece_of(p, "P2").table[0]); },
         "located with rank 5, told as 6");
}

TEST_CASE("a bill that has not what the fixture uses is told") {
  spoilt([](BoxPlan& p) { p.fixture->bill[2].wanted = 2; }, "the bill has 2 of kind stop, the fixture 3");
  spoilt([](BoxPlan& p) { p.fixture->bill.pop_back(); }, "the bill has 0 of kind former, the fixture 1");
  spoilt(
      [](BoxPlan& p) {
        p.fixture->bill.push_back({"spreader", 350.0, 1, {}});
      },
      "the bill has 1 of kind spreader, the fixture 0");
  spoilt([](BoxPlan& p) { p.fixture->bill[0].size_mm = 500.0; }, "bar-clamp of the bill is too small");
  spoilt([](BoxPlan& p) { p.fixture->bill[1].size_mm = 200.0; }, "backing-bar of the bill is too small");
  spoilt([](BoxPlan& p) { std::swap(p.fixture->bill[0], p.fixture->bill[2]); },
         "the bill does not begin with what is missing");
}

TEST_CASE("what is inside a closed box is out before its last face is on") {
  const Planned made = planned(sample_text("ballast-float.xml"));
  const auto with = [&](const PlannedPiece& inside, bool early) {
    return told_of(made, [&](BoxPlan& p) {
      p.fixture.emplace().pieces = {inside};
      for (Step& step : p.steps) // its own fixture is another
        step.on = step.off = {};
      const std::size_t out = static_cast<std::size_t>(
          std::find_if(p.steps.begin(), p.steps.end(),
                       [](const Step& step) { return step.what.key == "step.tooling-out"; }) -
          p.steps.begin());
      REQUIRE(out < p.steps.size());
      p.steps[first_of(p, Phase::set_up)].on = {inside.id};
      p.steps[early ? out : first_of(p, Phase::release)].off = {inside.id};
    });
  };
  const std::string shut = "is shut in by the last face T";
  PlannedPiece bar = piece("C1", "backing-bar", {}, {});
  bar.seam = made.plan.boxes[0].seams.at(0).id;
  for (const PlannedPiece& inside :
       {piece("C1", "former", {}, {}), piece("C1", "square", {}, {}), piece("C1", "spreader", {}, {}), bar}) {
    INFO(inside.kind);
    CHECK(with(inside, false).find("C1 " + shut) != std::string::npos);
    CHECK(with(inside, true).find(shut) == std::string::npos);
  }
  CHECK(with(piece("C1", "bar-clamp", {}, {}), false).find(shut) == std::string::npos);
}
