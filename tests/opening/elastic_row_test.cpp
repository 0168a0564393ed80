// What the elastic box says of its welds in place of the closed forms: in the causes of a size, in what a dry
// fit has still to lose.
#include "opening/first_off.h"
#include "opening/rows.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

WeldEffect effect() {
  WeldEffect e;
  e.corner_mm[0] = Band{0.20, 0.05, 0.40};
  e.corner_mm[1] = Band{0.10, 0.0, 0.2};
  e.put_back_mm = {0.15, 0.3, 0.0};
  e.belly_mm = {{"L", {0.50, 0.10, 0.90}}, {"R", {-0.20, -0.50, 0.10}}};
  return e;
}

SizeBudget width_of(const Row& row) {
  return size_budget(row.one.job, row.known(), 1, 'x');
}

const SizeCause& only(const SizeBudget& budget, const std::string& key) {
  REQUIRE(count_of(budget, key) == 1);
  return *cause_of(budget, key);
}

} // namespace

TEST_CASE("Where the elastic box was reckoned its corners and bellies stand in the budget, not the bounds") {
  Row row(locker(), 1202, 1);
  CHECK(count_of(width_of(row), "belly") == 2);
  row.elastic = effect();
  const SizeBudget width = width_of(row);
  const SizeCause& weld = only(width, "weld");
  CHECK(weld.middle_mm == Approx(0.20)); // what is put back is in it
  CHECK(weld.under_mm == Approx(0.15));
  CHECK(weld.over_mm == Approx(0.20));
  CHECK(count_of(width, "belly") == 2);
  double middle = 0.0, low = 0.0, high = 0.0;
  for (const SizeCause& c : width.causes)
    if (c.key == "belly") {
      middle += c.middle_mm;
      low += c.middle_mm - c.under_mm;
      high += c.middle_mm + c.over_mm;
    }
  // A wall that is hollow does not make the box narrower: its corners are the widest then.
  CHECK(middle == Approx(0.50));
  CHECK(low == Approx(0.10));
  CHECK(high == Approx(1.00));
  // An axis without sizes at corners keeps the closed forms.
  Row plain(locker(), 1202, 1);
  const auto of_z = [](const Row& r) { return size_budget(r.one.job, r.known(), 1, 'z'); };
  CHECK(only(of_z(row), "weld") == only(of_z(plain), "weld"));

  // Of a wall that buckles the bound is all that is known.
  const double bound = [] {
    const Row other(locker(), 1202, 1);
    double most = 0.0;
    for (const SizeCause& c : width_of(other).causes)
      if (c.key == "belly") most = std::max(most, c.over_mm);
    return most;
  }();
  row.elastic->belly_mm.erase("L");
  double over = 0.0;
  for (const SizeCause& c : width_of(row).causes)
    if (c.key == "belly" && c.spread == Spread::triangular) over = c.over_mm;
  CHECK(over == Approx(bound));

  // What the job allows for belly stands for it here, too.
  row.opening().allowance = mm(0.4);
  CHECK(count_of(width_of(row), "belly") == 1);
  CHECK(only(width_of(row), "belly").over_mm == Approx(0.2));
  CHECK(only(width_of(row), "weld").middle_mm == Approx(0.20));
}

TEST_CASE("A dry fit has to lose what was put back into its blank, and gets what the corners grow") {
  Row row(locker(), 1202, 1);
  row.elastic = effect();
  SizeReading read;
  read.stage = BuildStage::dry_fit;
  read.widths = lengths({400.3});
  row.measured(1).sizes.push_back(read);
  const SizeBudget width = width_of(row);
  CHECK(width.nominal_mm == Approx(400.3));
  CHECK(only(width, "weld").middle_mm == Approx(0.20 - 0.15));
}

TEST_CASE("A dry fit that is just as large as its blank was cut teaches nothing") {
  const auto moved = [](double dry_off_mm) {
    Row row(locker(), 1201.6, 3);
    row.elastic = effect();
    const double aimed = row.fit().stands[0].target_mm;
    double parts = 0.0;
    for (const SizeCause& c : width_of(row).causes)
      if (c.key == "blank" || c.key.starts_with("bend") || c.key.starts_with("fit"))
        parts += moments_of(c).mean_mm;
    for (const auto& [stage, width] :
         {std::pair{BuildStage::dry_fit, aimed + parts + effect().put_back_mm[0] + dry_off_mm},
          std::pair{BuildStage::ground, aimed + parts + 1.0}}) {
      SizeReading sizes;
      sizes.stage = stage;
      sizes.widths = std::vector<Length>(9, mm(width));
      row.measured(1).sizes.push_back(sizes);
    }
    std::optional<RowFit> fit = row.fit();
    const std::vector<FirstOff> all = judge_first_off(row.one.job, {row.known()}, fit);
    REQUIRE(all.size() == 1);
    double sum = 0.0;
    for (const CauseFound& c : all[0].sizes.at(0).causes)
      if (c.key == "blank" || c.key.starts_with("bend") || c.key.starts_with("fit"))
        sum += c.after_mm.value - c.before_mm.value;
    return sum;
  };
  CHECK(std::fabs(moved(0.0)) < 0.05);
  CHECK(moved(0.4) > 0.25);
}
