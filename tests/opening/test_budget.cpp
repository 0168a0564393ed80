// Which causes stand behind a size, from the box's geometry, the readings and what the job states.
#include "opening/rows.h"

#include "formulas/wall.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

SizeBudget width_of(const Row& row, int copy = 1) {
  return size_budget(row.one.job, row.known(), copy, 'x');
}
std::size_t face_of(const Row& row, const std::string& id) {
  const Box& box = row.one.job.boxes[0];
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    if (box.faces[f].id == id) return f;
  FAIL("no face " << id);
  return 0;
}
Case locker_over(std::vector<std::string> over) {
  Case c;
  c.job.sheets.push_back(sheet_of("mild-steel", 2.0));
  c.job.boxes.emplace_back();
  c.box().id = "locker";
  OpenBoxForm form;
  form.width = mm(400);
  form.depth = mm(300);
  form.height = mm(600);
  form.inside_radius = mm(2);
  form.over = std::move(over);
  expand(form, c.job.sheets, c.box(), c.out);
  return c;
}

} // namespace

TEST_CASE("Which sheet covers the other's edge decides whether a gap or a step goes into a size") {
  const Row top_over(locker(), 1202, 1); // top and under cover the sides' edges
  const SizeBudget width = width_of(top_over),
                   height = size_budget(top_over.one.job, top_over.known(), 1, 'z');
  CHECK(count_of(width, "fit-step") == 2);
  CHECK(count_of(width, "fit-gap") == 0);
  CHECK(count_of(height, "fit-step") == 0);
  CHECK(count_of(height, "fit-gap") == 2);
  const Row sides_over(locker_over({"L", "R"}), 1202, 1);
  CHECK(count_of(width_of(sides_over), "fit-gap") == 2);
  CHECK(count_of(width_of(sides_over), "fit-step") == 0);
  CHECK(count_of(size_budget(sides_over.one.job, sides_over.known(), 1, 'z'), "fit-step") == 2);
  // A gap only makes larger, up to what may be welded; a step goes either way.
  const SizeCause& gap = *cause_of(height, "fit-gap");
  CHECK(gap.middle_mm - gap.under_mm == Approx(0.0).margin(1e-12));
  CHECK(gap.middle_mm + gap.over_mm == Approx(top_over.one.work.rules.gap_go_mm.value));
  const SizeCause& step = *cause_of(width, "fit-step");
  CHECK(step.under_mm == Approx(step.over_mm));
  CHECK(step.over_mm == Approx(top_over.one.work.rules.step_mm.value));
  // Edges that meet at the inside corner leave both to chance.
  const Row open(locker(2.0, CornerStyle::open), 1202, 1);
  CHECK(count_of(width_of(open), "fit-gap") == 2);
  CHECK(count_of(width_of(open), "fit-step") == 2);
}

TEST_CASE("A folded locker is widest at its rim: the top's cut width, and walls that stand out between their "
          "ends") {
  const Row row(locker(), 1202, 1);
  const SizeBudget width = width_of(row);
  CHECK(width.nominal_mm == 400.0);
  CHECK(count_of(width, "blank") == 1);
  CHECK(cause_of(width, "blank")->over_mm == Approx(0.2));
  CHECK(count_of(width, "bend-place") == 0);
  CHECK(count_of(width, "bend-lean") == 2);
  // 300 from bend to rim, 600 between its ends, 2 mm, half a degree: the plate's own figure, about 1 mm of
  // the 2.6 that the rim would stand off free.
  const Metal& steel = row.one.job.sheets[0].metal;
  const SizeCause& lean = *cause_of(width, "bend-lean");
  CHECK(lean.under_mm == 0.0);
  CHECK(lean.over_mm ==
        Approx(formulas::held_wall(300, 600, 0.5 * kPi / 180.0, 2.0, steel.youngs_MPa, steel.poisson)
                   .largest_mm.value)
            .epsilon(0.02));
  CHECK(lean.over_mm < 2.62);
  // Its depth is from the bend to a free edge: one bend line off its place, nothing else before the weld.
  const SizeBudget depth = size_budget(row.one.job, row.known(), 1, 'y');
  CHECK(count_of(depth, "bend-place") == 1);
  CHECK(count_of(depth, "blank") + count_of(depth, "fit-gap") + count_of(depth, "bend-lean") == 0);
}

TEST_CASE("Where corners are tight and bends are true the bend lines of the back govern") {
  Row row(locker(), 1202, 1);
  row.one.job.rules.step = mm(0.0);
  row.one.job.limits.belly = mm(0.0);
  row.one.job.incoming.bend = deg(0.0);
  row.one.job.incoming.blank = mm(0.05);
  row.one.make();
  row.prediction = row.one.predicted();
  const SizeBudget width = width_of(row);
  CHECK(count_of(width, "bend-place") == 2);
  CHECK(count_of(width, "blank") == 1); // flanges are gauged from their edges: the back gets the rest
}

TEST_CASE("Panels have no bends: blanks, gaps and steps, belly within its limit") {
  const Row row(ballast_float(), 1202, 1);
  const SizeBudget width = width_of(row);
  CHECK(count_of(width, "blank") == 1);
  CHECK(count_of(width, "bend-lean") + count_of(width, "bend-place") == 0);
  CHECK(count_of(width, "belly") == 2);
  CHECK(cause_of(width, "belly")->over_mm <= row.one.measure("belly-L").over_mm);
  CHECK(count_of(width, "grinding") == 2);
}

TEST_CASE("The weld's loss is put back into the blank, so only its band counts") {
  const Row row(locker(), 1202, 1);
  const SizeBudget width = width_of(row);
  const SizeCause& weld = *cause_of(width, "weld");
  Band widest;
  for (const Expected& e : row.prediction.measures)
    if (row.one.work.measures[e.measure].id.rfind("width", 0) == 0 &&
        e.weld_mm.high - e.weld_mm.low > widest.high - widest.low)
      widest = e.weld_mm;
  CHECK(weld.middle_mm == 0.0);
  CHECK(weld.under_mm == Approx(widest.value - widest.low));
  CHECK(weld.over_mm == Approx(widest.high - widest.value));
  CHECK(widest.value < 0.0);
}

TEST_CASE("What the job states of incoming parts, coating and allowance is reckoned with") {
  Row row(locker(), 1202, 1);
  row.one.job.incoming.blank = mm(0.35);
  row.opening().coating = mm(0.08);
  row.opening().coating_least = mm(0.06);
  row.opening().coating_most = mm(0.12);
  const SizeBudget width = width_of(row);
  CHECK(cause_of(width, "blank")->over_mm == 0.35);
  CHECK(cause_of(width, "blank")->source.mark == Mark::stated);
  const SizeCause& coating = *cause_of(width, "coating");
  CHECK(coating.middle_mm == Approx(0.16)); // two faces
  CHECK(coating.under_mm == Approx(0.04));
  CHECK(coating.over_mm == Approx(0.08));
  row.opening().allowance = mm(0.3);
  const SizeBudget allowed = width_of(row);
  CHECK(count_of(allowed, "grinding") == 0);
  CHECK(count_of(allowed, "belly") == 1);
  CHECK(cause_of(allowed, "belly")->middle_mm + cause_of(allowed, "belly")->over_mm == Approx(0.3));
  RowPlace place;
  place.coating = mm(0.2);
  row.opening().row = {place};
  CHECK(cause_of(width_of(row), "coating")->middle_mm == Approx(0.4));
}

TEST_CASE("Readings take the place of causes: the later the stage, the fewer are left") {
  Row row(locker(), 1202, 3);
  row.opening().coating = mm(0.08);
  SizeReading read;
  read.stage = BuildStage::dry_fit;
  read.widths = lengths({399.8, 400.3, 400.1});
  row.measured(2).sizes.push_back(read);
  const SizeBudget dry = width_of(row, 2);
  CHECK(dry.nominal_mm == Approx(400.3));
  CHECK(count_of(dry, "gauge") == 1);
  CHECK(count_of(dry, "blank") + count_of(dry, "fit-step") + count_of(dry, "bend-lean") == 0);
  CHECK(cause_of(dry, "weld")->middle_mm < 0.0); // still to come
  CHECK(count_of(dry, "belly") == 2);
  CHECK(count_of(dry, "grinding") == 2);

  read.stage = BuildStage::as_welded;
  read.widths = lengths({399.9, 400.0, 400.2});
  row.measured(2).sizes.push_back(read);
  const SizeBudget welded = width_of(row, 2);
  CHECK(welded.nominal_mm == Approx(400.2));
  CHECK(count_of(welded, "weld") + count_of(welded, "belly") == 0);
  CHECK(count_of(welded, "grinding") == 2);

  read.stage = BuildStage::ground;
  read.widths = lengths({400.4});
  row.measured(2).sizes.push_back(read);
  const SizeBudget ground = width_of(row, 2);
  CHECK(ground.nominal_mm == Approx(400.4));
  CHECK(count_of(ground, "grinding") == 0);
  CHECK(count_of(ground, "belly") == 2); // one reading may have missed it
  CHECK(count_of(ground, "coating") == 1);
  CHECK(width_of(row, 1).nominal_mm == 400.0); // the other copies are as they were
}

TEST_CASE("A rack that was read by diagonals stands for the one that was reckoned with") {
  Row row(locker(), 1202, 1);
  CHECK(cause_of(width_of(row), "rack")->middle_mm == 0.0);
  SizeReading read;
  // 400 x 600, top 1.5 to the right: d^2 = (400 + 1.5)^2 + 600^2 and (400 - 1.5)^2 + 600^2.
  read.diagonal_up_right = mm(std::sqrt(401.5 * 401.5 + 360000.0));
  read.diagonal_up_left = mm(std::sqrt(398.5 * 398.5 + 360000.0));
  row.measured(1).sizes.push_back(read);
  const SizeBudget width = width_of(row);
  CHECK(count_of(width, "rack") == 1);
  CHECK(cause_of(width, "rack")->middle_mm == Approx(1.5));
  CHECK(width.tall_mm == 600.0);
}

TEST_CASE(
    "A wall's lean, a seam's gap, a blank and the sheet that were read replace what was reckoned with") {
  Row row(locker(), 1202, 1);
  MeasuredBox& read = row.measured(1);
  read.leans.push_back({face_of(row, "L"), mm(2.7), mm(2.5), {}});
  read.leans.push_back({face_of(row, "R"), mm(-2.0), mm(-1.0), {}});
  const SizeBudget width = width_of(row);
  std::vector<double> leans;
  for (const SizeCause& c : width.causes)
    if (c.key == "bend-lean") {
      leans.push_back(c.middle_mm);
      CHECK(c.over_mm == 0.0);
    }
  std::sort(leans.begin(), leans.end());
  REQUIRE(leans.size() == 2);
  CHECK(leans[0] == 0.0); // hollow between its ends: the corners are the widest place
  CHECK(leans[1] > 0.8);
  CHECK(leans[1] < 2.6);

  Row panels(ballast_float(), 1202, 1);
  const std::size_t before = panels.one.job.boxes[0].seams.size();
  REQUIRE(before == 12);
  MeasuredBox& parts = panels.measured(1);
  for (std::size_t p = 0; p < panels.one.job.boxes[0].parts.size(); ++p)
    parts.blanks.push_back({p, mm(0.15), mm(0.15), {}});
  for (std::size_t s = 0; s < before; ++s)
    parts.fits.push_back({s, lengths({0.1, 0.6, 0.2}), lengths({0.0, 0.1, 0.3}), {}});
  const SizeBudget known = width_of(panels);
  CHECK(cause_of(known, "blank")->middle_mm == Approx(0.15));
  CHECK(cause_of(known, "blank")->over_mm == 0.0);
  if (const SizeCause* gap = cause_of(known, "fit-gap")) CHECK(gap->middle_mm == Approx(0.6));
  if (const SizeCause* step = cause_of(known, "fit-step")) CHECK(step->over_mm == Approx(0.3));
  parts.thicknesses.push_back({0, mm(3.1), {}});
  const double thicker = cause_of(width_of(panels), "blank")->middle_mm;
  CHECK(thicker > 0.15);
  CHECK(thicker <= 0.15 + 0.2 + 1e-9); // at most the whole of both walls
}

TEST_CASE("What is dressed, trimmed or sent back is read again, and counts as not read") {
  Row row(ballast_float(), 1202, 1);
  const SizeBudget unread = width_of(row);
  MeasuredBox& parts = row.measured(1);
  for (std::size_t p = 0; p < row.one.job.boxes[0].parts.size(); ++p)
    parts.blanks.push_back({p, mm(0.9), mm(0.9), {}});
  for (std::size_t s = 0; s < row.one.job.boxes[0].seams.size(); ++s)
    parts.fits.push_back({s, lengths({0.1, 2.5, 0.2}), lengths({0.0, 1.4, 0.3}), {}});
  CHECK(width_of(row) == unread);
  Row leaning(locker(), 1202, 1);
  const SizeBudget square = width_of(leaning);
  leaning.measured(1).leans.push_back({face_of(leaning, "L"), mm(5.0), mm(5.0), {}}); // 2.6 is 0.5 deg
  CHECK(width_of(leaning) == square);
}

TEST_CASE("What the blank of a folded part is off goes into the face between two bends") {
  Row row(locker(), 1202, 1);
  MeasuredBox& parts = row.measured(1);
  parts.blanks.push_back({0, mm(0.15), mm(0.15), {}});
  int read = 0;
  for (const SizeCause& c : width_of(row).causes)
    read += c.key == "blank" && c.middle_mm == 0.15 && c.over_mm == 0.0;
  // Whether the back, bent at both ends, or a wall with cut edges is the widest place depends on the rest.
  CHECK(read <= 1);
  CHECK(count_of(width_of(row), "blank") == 1);
}
