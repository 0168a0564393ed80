// Three lockers in an alcove, the first one built and measured: released, corrected or held.
#include "opening/first_off.h"

#include "opening/rowing.h"
#include "opening/rows.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr double kAlcove = 1201.6;

Row lockers() {
  return Row(locker(), kAlcove, 3);
}

// What the first box is made to, and what is expected of its width on top.
double aimed(Row row) {
  row.one.job.measured.clear();
  return row.fit().stands[0].target_mm;
}
double aimed() {
  static const double target = aimed(lockers());
  return target;
}
double expected(const Row& row, bool ground) {
  double mean = 0.0;
  for (const SizeCause& c : size_budget(row.one.job, row.known(), 1, 'x').causes)
    if (c.key != "coating" && c.key != "rack" && c.key != "gauge" && (ground || c.key != "grinding"))
      mean += moments_of(c).mean_mm;
  return mean;
}
// Nine widths of the first box, all of one size.
void read(Row& row, BuildStage stage, double width_mm) {
  SizeReading sizes;
  sizes.stage = stage;
  sizes.widths = std::vector<Length>(9, mm(width_mm));
  row.measured(1).sizes.push_back(sizes);
}
// As ground, off what was expected.
Row ground_off(double off_mm, Row row = lockers()) {
  const bool plain = row.opening().row.empty() && !row.one.job.limits.size_under;
  const double width = (plain ? aimed() : aimed(row)) + expected(row, true) + off_mm;
  read(row, BuildStage::ground, width);
  return row;
}

struct Judged {
  std::vector<FirstOff> all;
  std::optional<RowFit> row; // reckoned anew with what was learnt
};
Judged judge(Row& row) {
  Judged judged{{}, row.fit()};
  judged.all = judge_first_off(row.one.job, {row.known()}, judged.row);
  return judged;
}

FirstOff judged(Row& row) {
  const std::vector<FirstOff> all = judge(row).all;
  REQUIRE(all.size() == 1);
  CHECK(all[0].box == "locker");
  CHECK(all[0].copy == 1);
  return all[0];
}

bool line_of_key(const RowFit& fit, const std::string& key) {
  for (const BudgetLine& line : fit.budget)
    if (line.key == key) return true;
  return false;
}

} // namespace

TEST_CASE("Nothing measured, or a dry fit alone, is no first box yet") {
  Row row = lockers();
  const RowFit plain = row.fit();
  CHECK(judge(row).all.empty());
  CHECK(*judge(row).row == plain);
  read(row, BuildStage::dry_fit, 400.0);
  CHECK(judge(row).all.empty());
}

TEST_CASE("A first box as expected is released: the rest comes as the first") {
  Row row = ground_off(0.0);
  const FirstOff told = judged(row);
  CHECK(told.release == Release::release);
  CHECK(told.why == "in-limits");
  CHECK(told.uncorrected.value >= 0.95);
  CHECK(told.uncorrected.low <= told.uncorrected.value);
  REQUIRE(told.sizes.size() == 1);
  CHECK(told.sizes[0].axis == 'x');
  CHECK(told.sizes[0].aimed_mm == Approx(aimed()));
  CHECK(told.sizes[0].correction_mm == 0.0);
  const Band& rest = told.sizes[0].rest_mm;
  CHECK(rest.value == Approx(aimed() + expected(lockers(), true)).margin(1e-6));
  for (const CauseFound& cause : told.sizes[0].causes) {
    INFO(cause.key);
    // A reading makes surer, and never less sure.
    CHECK(cause.after_mm.high - cause.after_mm.low <= cause.before_mm.high - cause.before_mm.low + 1e-12);
  }
}

TEST_CASE("A first box that came out wide: what all have in common of it is taken off the next blanks") {
  Row row = ground_off(2.0);
  const FirstOff told = judged(row);
  CHECK(told.release == Release::correct);
  CHECK(told.why == "common-offset");
  CHECK(told.uncorrected.value < 0.95);
  CHECK(told.corrected.value >= 0.95);
  const SizeFound& width = told.sizes.at(0);
  CHECK(width.correction_mm < 0.0);
  CHECK(std::fabs(width.correction_mm * 10.0 - std::round(width.correction_mm * 10.0)) < 1e-9);
  double before = 0.0, after = 0.0, common = 0.0;
  for (const CauseFound& cause : width.causes) {
    before += cause.before_mm.value;
    after += cause.after_mm.value;
    common += cause.common_mm.value;
  }
  // The causes of the box itself carry nearly all that it is off, those that all boxes share a good part of
  // it; that part is what the blank gives back.
  CHECK(after - before > 1.9);
  CHECK(after - before < 2.0);
  CHECK(common - before < after - before);
  CHECK(-width.correction_mm == Approx(common - before).margin(0.051));
  CHECK(width.rest_mm.value == Approx(width.aimed_mm + common));
}

TEST_CASE("After the first box the row is reckoned with what it taught, and aims at what was decided") {
  Row good = ground_off(0.0);
  const Judged released = judge(good);
  REQUIRE(released.all.at(0).release == Release::release);
  // The rest from the same blanks, measured to be what was hoped for: surer than before.
  CHECK(released.row->stands[1].target_mm == Approx(aimed()));
  CHECK(released.row->as_aimed == released.all[0].uncorrected);
  CHECK(released.row->as_aimed.value > lockers().fit().as_aimed.value);
  Row wide = ground_off(2.0);
  const Judged corrected = judge(wide);
  REQUIRE(corrected.all.at(0).release == Release::correct);
  const double correction = corrected.all[0].sizes.at(0).correction_mm;
  for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
    const StandFit& rest = corrected.row->stands[i];
    CHECK(rest.target_mm == Approx(aimed() + correction));
    // What the blanks are made smaller by comes out again of what all have in common.
    CHECK(rest.width_mm.value == Approx(aimed() + expected(lockers(), true)).margin(0.25));
  }
  CHECK(corrected.row->as_aimed == corrected.all[0].corrected);
  CHECK(line_of_key(*corrected.row, "common"));
}

TEST_CASE("Boxes that stand in no row are judged by their limits") {
  Row row = ground_off(0.0);
  row.one.job.opening.reset();
  const double limit = row.one.job.limits.size_over ? in_mm(*row.one.job.limits.size_over) : 1.0;
  const auto of = [&](double off) {
    Row own = lockers();
    own.one.job.opening.reset();
    read(own, BuildStage::ground, 400.0 + expected(lockers(), true) + off);
    std::optional<RowFit> none;
    const std::vector<FirstOff> all = judge_first_off(own.one.job, {own.known()}, none);
    CHECK_FALSE(none);
    REQUIRE(all.size() == 1);
    return all[0];
  };
  const FirstOff wide = of(2.0 * limit);
  CHECK(wide.release == Release::correct);
  CHECK(wide.sizes.at(0).correction_mm < 0.0);
  CHECK(wide.sizes.at(0).rest_mm.value + wide.sizes.at(0).correction_mm == Approx(400.0).margin(0.051));
  CHECK(wide.corrected.value > wide.uncorrected.value);
  const FirstOff narrow = of(-2.0);
  CHECK(narrow.uncorrected.value > wide.uncorrected.value);
}

TEST_CASE("Less than the row can bear is no reason to change anything") {
  Row row = ground_off(0.7);
  const FirstOff told = judged(row);
  CHECK(told.release == Release::release);
  CHECK(told.uncorrected == told.corrected);
  // It takes of what the others may: wider than expected is less likely to go in.
  Row plain = ground_off(0.0);
  CHECK(told.uncorrected.value < judged(plain).uncorrected.value);
}

TEST_CASE("The dry fit tells whether blank and bends or weld and grinder made it wide") {
  const auto weld_of = [](double dry_off, double ground) {
    Row row = ground_off(ground);
    Row plain = lockers();
    // At the dry fit, by the budget's own causes: weld, belly and grinding still to come.
    double mean = 0.0, loss = 0.0;
    for (const SizeCause& c : size_budget(plain.one.job, plain.known(), 1, 'x').causes)
      if (c.key == "blank" || c.key.starts_with("bend") || c.key.starts_with("fit"))
        mean += moments_of(c).mean_mm;
    Row dry = lockers();
    read(dry, BuildStage::dry_fit, 400.0);
    for (const SizeCause& c : size_budget(dry.one.job, dry.known(), 1, 'x').causes)
      if (c.key == "weld") loss = c.middle_mm;
    CHECK(loss < 0.0);
    read(row, BuildStage::dry_fit, aimed() + mean - loss + dry_off);
    double weld = 0.0, parts = 0.0;
    const FirstOff told = judged(row);
    for (const CauseFound& c : told.sizes.at(0).causes) {
      const double moved = c.after_mm.value - c.before_mm.value;
      (c.key == "weld" || c.key == "belly" || c.key == "grinding" ? weld : parts) += moved;
    }
    return std::make_pair(weld, parts);
  };
  const auto [weld_a, parts_a] = weld_of(0.5, 0.5); // wide before the weld
  CHECK(parts_a > 3.0 * std::fabs(weld_a));
  const auto [weld_b, parts_b] = weld_of(0.0, 0.4); // wide after it
  CHECK(weld_b > std::fabs(parts_b));
}

TEST_CASE("A reading that cannot be right holds the batch and is named") {
  Row row = ground_off(12.0);
  const FirstOff told = judged(row);
  CHECK(told.release == Release::hold);
  CHECK(told.why == "contradicts-ground");
  CHECK(told.sizes.at(0).correction_mm == 0.0);
  Row weld = ground_off(0.0);
  read(weld, BuildStage::as_welded, aimed() - 9.0);
  CHECK(judged(weld).why == "contradicts-as-welded");
}

TEST_CASE("The one box that is left, cut last, is trimmed to what the first one leaves") {
  Row row(locker(), 801.2, 2);
  for (int copy = 1; copy <= 2; ++copy) {
    RowPlace place;
    place.copy = copy;
    place.cut_last = copy == 2;
    row.opening().row.push_back(place);
  }
  Row wide = ground_off(2.0, std::move(row));
  const FirstOff told = judged(wide);
  CHECK(told.release == Release::correct);
  CHECK(told.why == "last-trimmed");
  CHECK(told.uncorrected.value < 0.95);
  CHECK(told.corrected.value >= 0.95);
  // Not more than it needs: 0.1 mm wider it would not be sure to go in.
  CHECK(told.corrected.value < 0.97);
  CHECK(told.sizes.at(0).correction_mm < 0.0);
}

TEST_CASE("Boxes that may not be smaller are held when the row has no room for them") {
  Row tight = lockers();
  tight.one.job.limits.size_under = mm(0.6);
  Row row = ground_off(1.0, std::move(tight));
  const FirstOff told = judged(row);
  CHECK(told.release == Release::hold);
  CHECK(told.why == "no-chance");
  CHECK(told.corrected.value < 0.95);
  CHECK(told.sizes.at(0).correction_mm == 0.0);
}

TEST_CASE("Heights that come out over their limit ask for another blank, too") {
  Row row = ground_off(0.0);
  double nominal = 0.0, over = 0.0;
  for (const Measure& m : row.one.work.measures)
    if (m.id == "height-1") {
      nominal = m.nominal_mm;
      over = m.over_mm;
    }
  REQUIRE(nominal == 600.0);
  row.measured(1).sizes[0].heights = std::vector<Length>(6, mm(nominal + over + 1.5));
  const FirstOff told = judged(row);
  REQUIRE(told.sizes.size() == 2);
  CHECK(told.sizes[1].axis == 'z');
  CHECK(told.sizes[1].correction_mm < -over);
  CHECK(told.sizes[1].rest_mm.value + told.sizes[1].correction_mm == Approx(nominal).margin(0.051));
  CHECK(told.release == Release::correct);
  Row right = ground_off(0.0);
  right.measured(1).sizes[0].heights = std::vector<Length>(6, mm(nominal));
  CHECK(judged(right).sizes.at(1).correction_mm == 0.0);
}

TEST_CASE("The same readings give the same judgement to the last digit") {
  Row a = ground_off(0.45), b = ground_off(0.45);
  CHECK(judged(a) == judged(b));
}
