// What the plan expects by the elastic model, step by step, and what it says when it expects nothing.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const PlannedMeasure& measure_of(const BoxPlan& box, const std::string& id) {
  const auto found = std::find_if(box.measures.begin(), box.measures.end(),
                                  [&](const PlannedMeasure& m) { return m.id == id; });
  REQUIRE(found != box.measures.end());
  return *found;
}

double before_grinding_change(const PlannedMeasure& m) {
  return m.before_grinding_mm.value - m.nominal_mm;
}

bool has_caution(const BoxPlan& box, const std::string& key, const std::string& face) {
  return std::any_of(box.cautions.begin(), box.cautions.end(), [&](const Caution& c) {
    if (c.what.key != key || c.what.args.empty()) return false;
    const std::vector<Text>& faces = c.what.args.front().list;
    return std::any_of(faces.begin(), faces.end(),
                       [&](const Text& t) { return !t.args.empty() && t.args.front().word == face; });
  });
}

} // namespace

TEST_CASE("plans with figures step by step keep all rules, whoever looks at them", "[together]") {
  for (const char* name : {"gear-locker.xml", "battery-box.xml"}) {
    INFO(name);
    const Planned& made = whole_sample(name);
    CHECK(joined(check_plan(made.job, made.geometry, made.plan)).empty());
    const BoxPlan& box = made.plan.boxes.at(0);
    REQUIRE(box.elastic);
    CHECK(box.elastic->states.size() > box.tacks.size());
  }
}

TEST_CASE("squareness has a figure in every step from the first tack on, and a chance at the end",
          "[together]") {
  const BoxPlan& box = whole_sample("gear-locker.xml").plan.boxes.at(0);
  int told = 0;
  bool tacked = false;
  for (const Step& step : box.steps) {
    tacked = tacked || !step.tacks.empty();
    for (const Check& check : step.checks)
      for (const std::string& id : check.measures)
        if (const std::string& kind = measure_of(box, id).kind; kind == "diagonals") {
          INFO("step " << step.number);
          CHECK(check.has_expected == tacked);
          told += tacked ? 1 : 0;
        }
  }
  CHECK(told >= 5); // rim tacked, fully tacked, half welded, as welded, ground
  for (const PlannedMeasure& m : box.measures) {
    const bool moved = m.kind != "gap" && m.kind != "step" && m.kind != "proud";
    INFO(m.id);
    CHECK(m.has_expected == moved);
    CHECK_FALSE((moved && m.bound_only));
    CHECK((m.chance_kept >= 0.0) == moved);
    CHECK(m.by_formula_mm.has_value() == moved);
  }
}

// The blanks are cut larger by what the corners lose: then the corners measure what is drawn, on average.
TEST_CASE("what the welds take at the corners is put back, and told once", "[together]") {
  const Planned& made = whole_sample("gear-locker.xml");
  const BoxPlan& box = made.plan.boxes.at(0);
  double sum = 0.0;
  int corners = 0;
  for (const PlannedMeasure& m : box.measures)
    if (m.id.starts_with("height-") && !m.formula_bound_only) {
      sum += before_grinding_change(m);
      ++corners;
    }
  REQUIRE(corners >= 4);
  CHECK(std::abs(sum / corners) < 0.03); // medians of what is drawn, not their middle
  // The folded blank is as tall as the box and twice its depth: it grows by just that.
  const BoxPlan& quick = planned_sample("gear-locker.xml").plan.boxes.at(0);
  const std::vector<double>& put_back = box.elastic->put_back_mm;
  REQUIRE(put_back.size() == 3);
  const auto by_formula = [&](const std::string& size, double elastic_mm) {
    const double drawn = measure_of(box, size).by_formula_mm->value - elastic_mm;
    return measure_of(quick, size).expected_mm.value - drawn;
  };
  const auto tall = [](const BoxPlan& of) {
    double low = 1e9, high = -1e9;
    for (const Vec2 p : of.patterns.at(0).outline) {
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
    return high - low;
  };
  const double grown = put_back[2] + 2.0 * put_back[1] - by_formula("height-1", put_back[2]) -
                       2.0 * by_formula("depth-1", put_back[1]);
  CHECK(std::abs(grown) > 0.02);
  CHECK(tall(box) - tall(quick) == Approx(grown).margin(1e-6));
}

TEST_CASE("of a face that buckles nothing is promised, and the sheet says what to change", "[together]") {
  const BoxPlan& box = whole_sample("battery-box.xml").plan.boxes.at(0);
  REQUIRE_FALSE(box.elastic->buckling.empty());
  int beyond = 0;
  for (const FaceBuckling& b : box.elastic->buckling) {
    INFO(b.face);
    CHECK(b.factor.low <= b.factor.value);
    CHECK(b.depth_mm.has_value() == (b.factor.value < 1.0));
    if (b.factor.value >= 1.0) continue;
    ++beyond;
    CHECK(*b.depth_mm > 0.0);
    CHECK(has_caution(box, "caution.face-buckles", b.face));
    const PlannedMeasure& belly = measure_of(box, "belly-" + b.face);
    CHECK_FALSE(belly.has_expected);
    CHECK(belly.by_formula_mm);
  }
  CHECK(beyond > 0);
  CHECK(measure_of(box, "diagonals-rim").has_expected); // it is the flatness alone that goes
}

// Left and right, top and bottom of the locker are alike but for the order of their seams.
TEST_CASE("walls that are alike buckle alike", "[together]") {
  const std::vector<FaceBuckling>& faces = whole_sample("gear-locker.xml").plan.boxes.at(0).elastic->buckling;
  const auto factor = [&](const std::string& id) {
    const auto found =
        std::find_if(faces.begin(), faces.end(), [&](const FaceBuckling& b) { return b.face == id; });
    REQUIRE(found != faces.end());
    return found->factor.value;
  };
  CHECK(factor("L") == Approx(factor("R")).epsilon(0.05));
  CHECK(factor("T") == Approx(factor("U")).epsilon(0.05));
}

TEST_CASE("a quick plan has closed forms alone: bounds, and no figure before heat") {
  const BoxPlan& box = planned_sample("gear-locker.xml").plan.boxes.at(0);
  CHECK_FALSE(box.elastic);
  CHECK(measure_of(box, "diagonals-rim").bound_only);
  CHECK_FALSE(measure_of(box, "diagonals-rim").by_formula_mm);
  double sum = 0.0;
  int corners = 0;
  for (const PlannedMeasure& m : box.measures)
    if (m.id.starts_with("width-") && !m.bound_only) {
      sum += before_grinding_change(m);
      ++corners;
    }
  CHECK(std::abs(sum / corners) < 1e-6);
}

TEST_CASE("the same job gives the same figures, to the last digit") {
  const Plan one = planned(odd_job_text("bracket.xml"), false).plan,
             other = planned(odd_job_text("bracket.xml"), false).plan;
  CHECK(one == other);
  REQUIRE(one.boxes.at(0).elastic);
}

TEST_CASE("a welded box is handed to viewers") {
  const JobReading reading = read_job(odd_job_text("bracket.xml"));
  REQUIRE(reading.job);
  Diagnostics faults;
  std::vector<ShapeFile> shapes;
  REQUIRE(make_plan(*reading.job, faults, false, &shapes));
  REQUIRE(shapes.size() == 1);
  CHECK(shapes[0].box == "bracket");
  CHECK(shapes[0].vtk.find("<VTKFile type=\"UnstructuredGrid\"") != std::string::npos);
  shapes.clear();
  REQUIRE(make_plan(*reading.job, faults, true, &shapes));
  CHECK(shapes.empty());
}

TEST_CASE("a box of very many tacks is planned by the closed forms, and that is told") {
  JobReading reading = read_job(sample_text("ballast-float.xml"));
  REQUIRE(reading.job);
  reading.job->rules.tack_length = mm(5);
  reading.job->rules.tack_pitch = mm(12);
  Diagnostics faults;
  const std::optional<Plan> plan = make_plan(*reading.job, faults);
  REQUIRE(plan);
  CHECK_FALSE(plan->boxes.at(0).elastic);
  CHECK(std::any_of(faults.items().begin(), faults.items().end(), [](const Diagnostic& d) {
    return d.code == "elastic-large" && d.message.find("tacks") != std::string::npos;
  }));
}

TEST_CASE("every face's buckling has its band, the locker's back without a seam, too", "[together]") {
  for (const char* name : {"gear-locker.xml", "battery-box.xml"})
    for (const FaceBuckling& b : whole_sample(name).plan.boxes.at(0).elastic->buckling) {
      INFO(name << ", " << b.face);
      CHECK(b.factor.low < b.factor.value);
      CHECK(b.factor.value < b.factor.high);
    }
  const std::vector<FaceBuckling>& locker =
      whole_sample("gear-locker.xml").plan.boxes.at(0).elastic->buckling;
  CHECK(std::any_of(locker.begin(), locker.end(), [](const FaceBuckling& b) { return b.face == "B"; }));
}

// The row is reckoned with what the welds do by the elastic box: its middle is that of the box's widest
// place.
TEST_CASE("a row in its opening and the boxes that stand in it expect the same", "[together]") {
  const Planned& made = whole_sample("gear-locker.xml");
  REQUIRE(made.plan.row);
  const StandFit& stand = made.plan.row->stands.at(0);
  const BoxPlan& box = made.plan.boxes.at(0);
  double widest = 0.0;
  for (const PlannedMeasure& m : box.measures)
    if (m.id.starts_with("width-")) widest = std::max(widest, m.expected_mm.value);
  CHECK(stand.width_mm.value == Approx(widest).margin(0.3));
  const Planned& quick = planned_sample("gear-locker.xml");
  const auto belly_of = [](const Plan& plan) {
    for (const BudgetLine& line : plan.row->budget)
      if (line.key == "belly") return line;
    FAIL("the row has no belly");
    return BudgetLine{};
  };
  CHECK(belly_of(made.plan).source.text.starts_with("elastic box"));
  CHECK_FALSE(belly_of(quick.plan).source.text.starts_with("elastic box"));
}

// Reckoned for a row at the size that the closed forms wanted, told of boxes that came out tenths of a
// millimetre larger or smaller: as good as reckoned at that size.
TEST_CASE("a box that was reckoned at nearly its size moves as one of just that size", "[together]") {
  const Planned& in_row = whole_sample("battery-box.xml");
  const BoxPlan& box = in_row.plan.boxes.at(0);
  Job alone = in_row.job;
  alone.opening.reset();
  const double target = in_row.plan.row->stands.at(0).target_mm;
  REQUIRE(std::abs(target - in_row.plan.row->stands.at(0).nominal_mm) > 0.05);
  Box& cut = alone.boxes.at(0);
  cut = enlarged(cut, {target - in_row.plan.row->stands.at(0).nominal_mm, 0.0, 0.0});
  Diagnostics out;
  const std::optional<Plan> plan = make_plan(alone, out);
  REQUIRE(plan);
  const ElasticPlan &a = *box.elastic, &b = *plan->boxes.at(0).elastic;
  REQUIRE(a.states.size() == b.states.size());
  double apart = 0.0, most = 0.0;
  for (std::size_t k = 0; k < a.states.size(); ++k)
    for (std::size_t i = 0; i < a.readings.size(); ++i) {
      apart = std::max(apart, std::abs(a.states[k].high[i] - b.states[k].high[i]));
      most = std::max(most, std::abs(b.states[k].high[i]));
    }
  CHECK(apart < 0.02 * most);
}
