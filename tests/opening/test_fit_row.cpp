// A row of boxes in its opening: budget, chance, targets, gauges.
#include "opening/rowing.h"
#include "opening/rows.h"

#include "base/random.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

Row tight(double width_mm = 1201.6) {
  Row row(locker(), width_mm, 3);
  row.opening().clearance = mm(0.5);
  row.opening().coating = mm(0.08);
  return row;
}
// Nothing is off but the blanks: what stands in the job beats every default.
Row only_blanks(double blank_mm) {
  Case c = locker();
  c.job.incoming = {deg(0), mm(0), mm(blank_mm), {}};
  c.job.limits.belly = mm(0);
  c.job.limits.diagonals = mm(0);
  c.job.rules.step = mm(0);
  c.job.rules.gap = mm(0);
  c.job.rules.proud = mm(0);
  for (Seam& seam : c.box().seams)
    seam.own = {mm(0), newton(0), deg(0), {}};
  return Row(std::move(c), 1201.6, 3);
}
const BudgetLine& line_of(const RowFit& fit, const std::string& key) {
  for (const BudgetLine& line : fit.budget)
    if (line.key == key) return line;
  FAIL("no budget line " << key);
  return fit.budget.front();
}
// Draws of the row as fit_row reckons them: its boxes and the gauge that read the opening.
double chance_at(const Row& row, double sum_of_sizes) {
  std::vector<SizeBudget> budgets;
  for (int copy = 1; copy <= row.one.job.boxes[0].count; ++copy)
    budgets.push_back(size_budget(row.one.job, row.known(), copy, 'x'));
  SizeBudget hole;
  hole.tall_mm = opening::kSideOfHole;
  hole.causes.push_back({"gauge", Spread::normal, 0.0, 0.5, 0.5, 0.0, "", {}});
  budgets.push_back(hole);
  const HardOpening& o = *row.one.job.opening;
  const double clear = clear_space(o, 600).width.mm;
  return opening::chance_of(draw_row(budgets, kRowDraws, kRowSeed), clear - in_mm(o.clearance) - sum_of_sizes)
      .value;
}

} // namespace

TEST_CASE("Three boxes at +-0.5 mm with 0.08 mm of coating use 2.0 of 1.6 mm") {
  // 3 x 0.5 + 3 x 2 x 0.08 = 1.98, said before anything is cut; by root-sum-square 0.866 + 0.48 = 1.35.
  SizeBudget box;
  box.nominal_mm = 400.0;
  box.causes = {{"blank", Spread::normal, 0.0, 0.5, 0.5, 0.0, "", {}},
                {"coating", Spread::uniform, 0.16, 0.0, 0.0, 0.0, "", {}}};
  const opening::Reckoning row = opening::reckon({box, box, box}, 0.95);
  CHECK(row.excess.worst_mm == Approx(1.98));
  CHECK(row.excess.worst_mm > 1.6);
  CHECK(row.excess.rss_mm == Approx(0.5 * std::sqrt(3.0) + 0.48));
  CHECK(row.excess.drawn_mm == Approx(row.excess.rss_mm).margin(0.012));

  Row built = only_blanks(0.5);
  built.opening().coating = mm(0.08);
  built.opening().coating_least = built.opening().coating_most = mm(0.08);
  const RowFit fit = built.fit();
  CHECK(line_of(fit, "blank").worst_mm + line_of(fit, "coating").middle_mm == Approx(1.98));
  CHECK(fit.worst.left_mm < 0.0);
  CHECK(fit.worst.target_mm < 400.0);
  CHECK(fit.budget.front().key == "blank"); // the dearest
}

TEST_CASE("Parts that an order has in common add before squaring, and the lines of the budget add up") {
  Row row = only_blanks(0.5);
  const RowFit fit = row.fit();
  // 3 normals of +-0.5, half of the variance in common: 0.5 sqrt(3 x 0.5 + 9 x 0.5).
  CHECK(line_of(fit, "blank").rss_mm == Approx(0.5 * std::sqrt(6.0)));
  CHECK(fit.rss.row_mm == Approx(1200.0 + std::hypot(0.5 * std::sqrt(6.0), 0.5))); // and the tape at the hole
  CHECK(fit.drawn.row_mm == Approx(fit.rss.row_mm).margin(0.03));
  Row all = tight();
  const RowFit whole = all.fit();
  double shares = 0.0, worst = 0.0;
  for (const BudgetLine& line : whole.budget) {
    shares += line.share_mm;
    worst += line.middle_mm + line.worst_mm;
  }
  CHECK(1200.0 + shares + 0.5 == Approx(whole.drawn.row_mm));
  CHECK(1200.0 + worst + 0.5 == Approx(whole.worst.row_mm));
  CHECK(std::is_sorted(whole.budget.begin(), whole.budget.end(),
                       [](const BudgetLine& a, const BudgetLine& b) { return a.share_mm > b.share_mm; }));
}

TEST_CASE("The target by the rule of the trade, by hand") {
  Row row = tight();
  row.opening().allowance = mm(0.2);
  const RowFit fit = row.fit();
  CHECK(fit.stated_target_mm == Approx((1201.6 - 0.5 - 3 * 2 * 0.08 - 3 * 0.2) / 3.0));
  CHECK(fit.allowance_mm == 0.2);
}

TEST_CASE("Aimed at their targets the boxes go in with the wanted chance, and a tenth larger they do not") {
  Row row = tight();
  const RowFit fit = row.fit();
  CHECK(row.out.items().empty());
  CHECK(fit.as_stated.value < 0.5);
  CHECK(fit.as_aimed.value >= 0.95);
  CHECK(fit.as_aimed.low < fit.as_aimed.value);
  CHECK(fit.as_aimed.value < fit.as_aimed.high);
  CHECK(fit.as_aimed.draws == kRowDraws);
  const double target = fit.stands[0].target_mm;
  CHECK(fit.drawn.target_mm == target);
  CHECK(chance_at(row, 3 * target) == fit.as_aimed.value);
  CHECK(chance_at(row, 3 * (target + 0.1)) < 0.95);
  CHECK(fit.worst.target_mm < fit.drawn.target_mm);
  CHECK(10.0 * target == Approx(std::round(10.0 * target))); // what a rule reads
  for (const StandFit& stand : fit.stands) {
    CHECK(stand.target_mm == target);
    CHECK(stand.width_mm.low < stand.width_mm.value);
    CHECK(stand.width_mm.high > stand.target_mm);
  }
  row.opening().by = TargetRule::worst_case;
  CHECK(row.fit().stands[0].target_mm == fit.worst.target_mm);
  row.opening().by = TargetRule::root_sum_square;
  CHECK(row.fit().stands[0].target_mm == fit.rss.target_mm);
}

TEST_CASE("Where the stated size is fine it stays, and the rest is for a packer") {
  Row row = tight(1230.0);
  const RowFit fit = row.fit();
  for (const StandFit& stand : fit.stands)
    CHECK(stand.target_mm == 400.0);
  CHECK(fit.as_stated.value == 1.0);
  CHECK(fit.packer_mm > 15.0);
  CHECK(fit.packer_mm < 29.5);
}

TEST_CASE("Boxes that have passed their gap gauge go in, and the go-stick is the row at its largest") {
  Row row = tight();
  row.one.job.limits.size_over = mm(0.5);
  const RowFit fit = row.fit();
  double largest = 0.0;
  for (const StandFit& stand : fit.stands) {
    CHECK(stand.largest_mm > stand.target_mm);
    CHECK(stand.largest_mm <= 400.5);
    largest += stand.largest_mm;
  }
  // Paint in any case; racks and its spread on top.
  CHECK(largest + 0.48 + 0.5 < 1201.6);
  CHECK(fit.go_stick_mm > largest + 0.48 + 0.5);
  CHECK(fit.go_stick_mm <= 1201.6);
}

TEST_CASE("One box keeps its size: the others give way, each alike; what is measured is as it is") {
  Row row = tight();
  const double even = row.fit().stands[0].target_mm;
  row.opening().row.resize(3);
  for (int i = 0; i < 3; ++i)
    row.opening().row[static_cast<std::size_t>(i)].copy = i + 1;
  row.opening().row[1].keep_size = true;
  const RowFit kept = row.fit();
  CHECK(kept.stands[1].target_mm == 400.0);
  CHECK(kept.stands[0].target_mm == kept.stands[2].target_mm);
  CHECK(2.0 * (400.0 - kept.stands[0].target_mm) == Approx(3.0 * (400.0 - even)).margin(0.31));

  row.opening().row[1].keep_size = false;
  SizeReading read;
  read.widths = lengths({399.2, 399.4, 399.1});
  row.measured(1).sizes.push_back(read);
  const RowFit first = row.fit();
  CHECK(first.stands[0].measured);
  CHECK(first.stands[0].target_mm == Approx(399.4));
  CHECK(first.stands[0].largest_mm == Approx(399.4));
  CHECK(first.as_aimed.value >= 0.95);
}

TEST_CASE("The box that is cut last takes what the measured ones leave") {
  Row row = only_blanks(0.2);
  row.opening().clearance = mm(1.0);
  row.opening().row.resize(3);
  for (int i = 0; i < 3; ++i)
    row.opening().row[static_cast<std::size_t>(i)].copy = i + 1;
  row.opening().row[2].cut_last = true;
  row.opening().row[1].gap = mm(0.4);
  for (const int copy : {1, 2}) {
    SizeReading read;
    read.widths = lengths({400.5, 400.6, 400.4});
    read.diagonal_up_right = read.diagonal_up_left = mm(std::hypot(400.0, 600.0));
    row.measured(copy).sizes.push_back(read);
  }
  const RowFit fit = row.fit();
  REQUIRE(fit.last_mm.has_value());
  // By hand without spread: 1201.6 - 1.0 - 0.4 - 2 x 400.6 = 399.0; the spread of the rest takes off more.
  CHECK(*fit.last_mm < 399.0);
  CHECK(*fit.last_mm > 399.0 - 3.0);
  CHECK(fit.stands[2].target_mm == *fit.last_mm);
  CHECK(fit.as_aimed.value >= 0.95);
  CHECK_FALSE(row.fit().stands[2].measured);
}

TEST_CASE("What is left for the last box before the others are made is what their expected sizes leave") {
  Row row = only_blanks(0.5);
  row.opening().widths[1] = lengths({1199.0});
  row.opening().coating = mm(0.08);
  row.opening().coating_least = row.opening().coating_most = mm(0.08);
  row.opening().row.resize(3);
  for (int i = 0; i < 3; ++i)
    row.opening().row[static_cast<std::size_t>(i)].copy = i + 1;
  row.opening().row[2].cut_last = true;
  const RowFit fit = row.fit();
  REQUIRE(fit.last_mm.has_value());
  // By hand: both others as wide as expected and read with a rule (0.5), the hole with a tape (0.5), the last
  // blank +-0.5: 90 % reaches of 1.645 deviations, so their root-sum-square is that of 95 %.
  const double others = fit.stands[0].width_mm.value + fit.stands[1].width_mm.value;
  const double by_hand = 1199.0 - 3 * 0.16 - others - std::sqrt(4 * 0.25);
  CHECK(*fit.last_mm == Approx(by_hand).margin(0.11)); // rounded down to 0.1
  CHECK(*fit.last_mm > fit.stands[2].target_mm);       // which has to allow for what the others may become
  // The same once they stand and have come out so.
  for (const int copy : {1, 2}) {
    SizeReading read;
    read.widths = lengths({400.0, 400.0, fit.stands[0].width_mm.value});
    std::fill(read.widths.begin(), read.widths.end(), read.widths.back());
    row.measured(copy).sizes.push_back(read);
  }
  CHECK(*row.fit().last_mm == Approx(*fit.last_mm).margin(0.11));
}

TEST_CASE("A loose lid that stands out takes its width, and outward lips theirs") {
  Row row = only_blanks(0.0);
  const RowFit plain = row.fit();
  row.one.geometry.overall_low.x -= 4.0;
  row.one.geometry.overall_high.x += 4.0;
  row.opening().widths[1] = lengths({1201.6 + 3 * 8.0});
  const RowFit lidded = row.fit();
  CHECK(lidded.stands[0].overhang_mm == Approx(8.0));
  CHECK(line_of(lidded, "overhang").middle_mm == Approx(24.0));
  CHECK(lidded.stands[0].target_mm == plain.stands[0].target_mm);
  CHECK(lidded.stands[0].largest_mm == plain.stands[0].largest_mm); // its gauge passes over the walls
  CHECK(lidded.go_stick_mm == Approx(plain.go_stick_mm + 24.0));
  CHECK(lidded.stated_target_mm == Approx(plain.stated_target_mm));
}

TEST_CASE("A wider opening never lowers the chance, a wider clearance never raises it") {
  constexpr std::uint64_t kSeed = 4711;
  Random random(kSeed);
  for (int trial = 0; trial < 5; ++trial) {
    const double width = random.uniform(1198.0, 1212.0), more = random.uniform(0.0, 4.0);
    INFO("seed " << kSeed << ", trial " << trial << ", width " << width << ", more " << more);
    Row row = tight(width);
    const RowFit fit = row.fit();
    row.opening().widths[1][0] = mm(width + more);
    const RowFit wider = row.fit();
    CHECK(wider.as_stated.value >= fit.as_stated.value);
    CHECK(wider.stands[0].target_mm >= fit.stands[0].target_mm);
    row.opening().clearance = mm(0.5 + more);
    const RowFit as_before = row.fit(); // width and clearance cancel
    CHECK(as_before.as_stated.value == Approx(fit.as_stated.value).margin(2e-5));
  }
}

TEST_CASE("The same row twice is the same to the last bit, and equal boxes may stand in any order") {
  Row row = tight();
  row.opening().heights[1] = lengths({603});
  row.opening().depths[1] = lengths({305});
  const RowFit once = row.fit();
  CHECK(once == row.fit());
  row.opening().row.resize(3);
  for (int i = 0; i < 3; ++i)
    row.opening().row[static_cast<std::size_t>(i)].copy = 3 - i;
  RowFit turned = row.fit();
  for (int i = 0; i < 3; ++i)
    turned.stands[static_cast<std::size_t>(i)].copy = i + 1;
  CHECK(turned == once);
  REQUIRE(once.height.has_value());
  CHECK(once.height->value > 0.3);
  CHECK(once.depth->value > 0.99);
  CHECK(*once.go_stick_height_mm <= 603.0);
}

TEST_CASE("An opening that is too small for the smallest boxes is an error at its place, with by how much") {
  Row row = tight(1180.0);
  row.one.job.limits.size_under = mm(1.0);
  row.opening().where = Origin{77};
  const RowFit fit = row.fit();
  CHECK(fit.fits_never);
  REQUIRE(row.told(Severity::error) == std::vector<std::string>{"row-never"});
  CHECK(row.out.items()[0].where == Origin{77});
  // 3 x 399 + 3 x 2 x 0.08 + 0.5 = 1198.0, rounded; 1180 clear.
  CHECK(row.out.items()[0].message.find("18.0 mm too much") != std::string::npos);
  // 2 % smaller is still good where no limit is stated: 3 x 392 + 0.98.
  row.one.job.limits.size_under.reset();
  row.out = {};
  CHECK_FALSE(row.fit().fits_never);
  CHECK(row.told(Severity::error).empty());
}

TEST_CASE(
    "Boxes that may not be made small enough keep their least size, and the chance that is left is told") {
  Row row = tight(1201.6);
  row.one.job.limits.size_under = mm(0.5);
  const RowFit fit = row.fit();
  CHECK(fit.stands[0].target_mm == Approx(399.5));
  CHECK(fit.as_aimed.value < 0.95);
  CHECK(row.told(Severity::caution) == std::vector<std::string>{"row-tight"});
}

TEST_CASE("A job that lists no row means all copies of all boxes, by id") {
  Job job;
  job.opening = alcove(900);
  job.boxes.resize(2);
  job.boxes[0].id = "B10";
  job.boxes[0].count = 2;
  job.boxes[1].id = "B2";
  const std::vector<RowPlace> row = row_of(job);
  REQUIRE(row.size() == 3);
  CHECK(row[0].box == 1);
  CHECK((row[1].box == 0 && row[1].copy == 1));
  CHECK((row[2].box == 0 && row[2].copy == 2));
}
