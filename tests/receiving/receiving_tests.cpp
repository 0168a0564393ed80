#include "receiving/verdicts.h"

#include "formulas/wall.h"
#include "geometry/flat_pattern.h"
#include "receiving/walls.h"
#include "support/table.h"
#include "work/boxes.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::size_t face_of(const Case& c, const std::string& id) {
  for (std::size_t f = 0; f < c.job.boxes[0].faces.size(); ++f)
    if (c.job.boxes[0].faces[f].id == id) return f;
  FAIL("no face " << id);
  return 0;
}
std::size_t seam_of(const Case& c, const std::string& a, const std::string& b) {
  for (std::size_t s = 0; s < c.job.boxes[0].seams.size(); ++s) {
    const Seam& seam = c.job.boxes[0].seams[s];
    const std::string one = c.job.boxes[0].faces[seam.face_a].id, two = c.job.boxes[0].faces[seam.face_b].id;
    if ((one == a && two == b) || (one == b && two == a)) return s;
  }
  FAIL("no seam between " << a << " and " << b);
  return 0;
}

MeasuredBox& measured(Case& c) {
  if (c.job.measured.empty()) c.job.measured.emplace_back();
  return c.job.measured[0];
}
void lean(Case& c, const std::string& face, double one, double other) {
  measured(c).leans.push_back({face_of(c, face), mm(one), mm(other), {}});
}
void gaps(Case& c, std::size_t seam, double start, double middle, double end) {
  measured(c).fits.push_back({seam, {mm(start), mm(middle), mm(end)}, {}, {}});
}

std::vector<PartReading> judged(const Case& c, std::optional<double> room = std::nullopt) {
  return judge_parts(c.job, 0, c.geometry, c.work, room);
}
const PartReading& reading(const std::vector<PartReading>& all, const std::string& kind,
                           const std::string& where) {
  for (const PartReading& r : all)
    if (r.kind == kind && r.where == where) return r;
  FAIL("no reading " << kind << " " << where);
  return all.front();
}
const ReceivingLimit& limit(const std::vector<ReceivingLimit>& all, const std::string& kind,
                            const std::string& where) {
  for (const ReceivingLimit& l : all)
    if (l.kind == kind && l.where == where) return l;
  FAIL("no limit " << kind << " " << where);
  return all.front();
}

} // namespace

TEST_CASE("Limits of the locker's receiving step are those of the bench") {
  Case c = locker().make();
  const auto limits = receiving_limits(c.job, c.box(), c.geometry, c.work);
  const Table table("receiving.tsv", {"what", "where", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 10);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const std::string what = row.text("what");
    const std::size_t space = what.find(' ');
    const ReceivingLimit& l = limit(limits, what.substr(0, space), row.text("where"));
    const std::string figure = what.substr(space + 1);
    REQUIRE((figure == "go" || figure == "dress" || figure == "force"));
    if (figure == "force") REQUIRE(l.force_N);
    const double got = figure == "go" ? l.go_mm : figure == "dress" ? l.dress_mm : l.force_N->value;
    CHECK(got == Approx(row.number("value")).margin(row.number("tolerance")));
    CHECK_FALSE(l.source.text.empty());
  }
}

TEST_CASE("Both ends of each wall of the locker are held by its corner seams, so it bellies at mid-wall") {
  Case c = locker().make();
  const auto walls = receiving::bent_walls(c.job, c.box(), c.geometry);
  REQUIRE(walls.size() == 4);
  for (const auto& wall : walls) {
    const std::string& id = c.box().faces[wall.face].id;
    INFO(id);
    CHECK(wall.held);
    CHECK(wall.axis == (id == "L" || id == "R" ? 0 : 2));
    CHECK(wall.tall_mm == Approx(300.0));
    CHECK(wall.deep_mm == Approx(id == "L" || id == "R" ? 598.0 : 398.0).margin(2.1));
  }
  const auto limits = receiving_limits(c.job, c.box(), c.geometry, c.work);
  const ReceivingLimit& l = limit(limits, "wall-lean", "L");
  REQUIRE(l.belly_mm);
  // Between the bounds of the plate, under the free lean.
  CHECK(l.belly_mm->low > 0.5);
  CHECK(l.belly_mm->high < 2.6);
  const auto levy = formulas::held_wall(300, walls[0].deep_mm, 0.5 * 3.14159265 / 180, 2, 210e3, 0.3);
  CHECK(limit(limits, "wall-lean", c.box().faces[walls[0].face].id).belly_mm->value ==
        Approx(levy.largest_mm.value).epsilon(1e-6));
  CHECK(receiving_limits(c.job, c.box(), c.geometry, c.work, 100.0).size() == limits.size());
}

TEST_CASE("A row without much room lets its side walls lean outward by less, the others as ever") {
  Case c = locker().make();
  const auto limits = receiving_limits(c.job, c.box(), c.geometry, c.work, 1.0);
  const ReceivingLimit& out = limit(limits, "wall-lean-out", "L");
  CHECK(out.go_mm < limit(limits, "wall-lean", "L").go_mm);
  // Both walls' bellies fill the room.
  CHECK(out.belly_mm->value == Approx(0.5).epsilon(0.001));
  CHECK(out.source.mark == Mark::derived);
  for (const ReceivingLimit& l : limits)
    if (l.kind == "wall-lean-out") CHECK((l.where == "L" || l.where == "R"));
  CHECK(limit(receiving_limits(c.job, c.box(), c.geometry, c.work, -1.0), "wall-lean-out", "R").go_mm == 0.0);
}

TEST_CASE("A wall is used, dressed or sent back to the brake by the worse of its two ends") {
  Case c = locker().make();
  lean(c, "L", 2.6, 2.6);
  lean(c, "R", -2.6, -4.0);
  lean(c, "T", 5.3, 3.0);
  const auto all = judged(c);
  REQUIRE(all.size() == 6);
  CHECK(reading(all, "wall-lean", "L").verdict == PartVerdict::use);
  CHECK(reading(all, "wall-lean", "L").why == "within");
  CHECK(reading(all, "wall-lean", "R").verdict == PartVerdict::dress);
  CHECK(reading(all, "wall-lean", "R").reading_mm == -4.0);
  CHECK(reading(all, "wall-lean", "T").verdict == PartVerdict::back_to_brake);
  CHECK(reading(all, "wall-lean", "T").why == "lean");
}

TEST_CASE(
    "Closing a wall 5.2 mm off at both ends takes a hand's push of about 50 N, and all of it springs back") {
  Case c = locker().make();
  lean(c, "L", 5.2, 5.2);
  const PartReading l = reading(judged(c), "wall-lean", "L");
  REQUIRE(l.force_N);
  CHECK(l.force_N->value == Approx(50.0).margin(2.5));
  CHECK(l.force_N->low < l.force_N->value);
  CHECK(l.force_N->high > l.force_N->value);
  REQUIRE(l.springs_mm);
  CHECK(l.springs_mm->value == Approx(5.2));
  CHECK(l.springs_mm->high - l.springs_mm->low == Approx(0.1));
}

TEST_CASE("A wall held square bellies outward for an outward lean and takes no width for an inward one") {
  Case c = locker().make();
  lean(c, "L", 2.0, 2.0);
  lean(c, "R", -2.0, -2.0);
  const auto all = judged(c);
  const Band out = *reading(all, "wall-lean", "L").size_mm;
  CHECK(out.value > 0.5);
  CHECK(out.high < 2.0);
  CHECK(*reading(all, "wall-lean", "R").size_mm == Band{});
}

TEST_CASE(
    "Ends that lean apart are told as twist: its force is that of both rim corners, it takes no belly") {
  Case c = locker().make();
  lean(c, "L", 2.0, -2.0);
  const auto all = judged(c);
  const PartReading& twist = reading(all, "wall-twist", "L");
  CHECK(twist.reading_mm == 4.0);
  CHECK(twist.verdict == PartVerdict::dress);
  CHECK(twist.why == "twist");
  const auto pulls = formulas::rim_pulls_n(300, 598, 2, 210e3, 0.3, 2.0, -2.0);
  CHECK(twist.force_N->value == Approx(2.0 * pulls.one_n).epsilon(0.01));
  CHECK(reading(all, "wall-lean", "L").size_mm->value == Approx(0.0).margin(1e-9));
}

TEST_CASE(
    "Gaps go by the rule of quarters of the thickness, over it back to the brake; panels are rejected") {
  const auto verdict = [](double gap) {
    Case c = locker().make();
    gaps(c, 0, 0.0, 0.1, gap);
    const PartReading r = judged(c).front();
    return std::make_pair(r.verdict, r.why);
  };
  CHECK(verdict(0.5) == std::make_pair(PartVerdict::use, std::string("within")));
  CHECK(verdict(1.0) == std::make_pair(PartVerdict::use, std::string("copper")));
  CHECK(verdict(1.1) == std::make_pair(PartVerdict::dress, std::string("gap-rule")));
  CHECK(verdict(2.0).first == PartVerdict::dress);
  CHECK(verdict(2.1).first == PartVerdict::back_to_brake);
  Case panels = ballast_float().make();
  gaps(panels, 0, 0, 0, 3.2);
  CHECK(judged(panels).front().verdict == PartVerdict::reject);
  CHECK_FALSE(judged(panels).front().force_N);
}

TEST_CASE("A gap that widens towards the rim is closed by one rim corner of the softer wall") {
  Case c = locker().make();
  const std::size_t s = seam_of(c, "L", "T");
  REQUIRE(c.geometry.seams[s].start_at_rim);
  gaps(c, s, 2.0, 1.0, 0.2);
  const PartReading r = judged(c).front();
  REQUIRE(r.force_N);
  const auto of = [](double deep) {
    const auto p = formulas::rim_pulls_n(300, deep, 2, 210e3, 0.3, 1.8, 0.0);
    const double even = formulas::rim_pull_n(300, deep, 2, 210e3, 0.9).value;
    return std::max(std::fabs(p.one_n) + std::fabs(p.other_n), even);
  };
  CHECK(r.force_N->value == Approx(std::min(of(598), of(398))).epsilon(0.02));
  CHECK(r.springs_mm->value == Approx(1.8));
  gaps(c, s, 0.2, 0.2, 0.2); // a gap as wide at the foot is cut short: no pull closes it
  CHECK_FALSE(judged(c).back().force_N);
}

TEST_CASE("Steps: in line, dressed up to half the thickness, beyond back to the brake") {
  const auto verdict = [](double step) {
    Case c = locker().make();
    measured(c).fits.push_back({0, {}, {mm(0.0), mm(-step), mm(0.1)}, {}});
    return judged(c).front().verdict;
  };
  CHECK(verdict(0.5) == PartVerdict::use);
  CHECK(verdict(0.9) == PartVerdict::dress);
  CHECK(verdict(1.1) == PartVerdict::back_to_brake);
}

TEST_CASE("A blank too large is trimmed, one too small is used while the size may be that small") {
  const auto of = [](double off) {
    Case c = locker();
    c.job.limits.size_under = mm(1.2);
    c.make();
    measured(c).blanks.push_back({0, mm(off), std::nullopt, {}});
    const PartReading r = judged(c).front();
    CHECK(r.kind == "blank-length");
    CHECK(r.size_mm->value == off);
    return std::make_pair(r.verdict, r.why);
  };
  CHECK(of(0.2) == std::make_pair(PartVerdict::use, std::string("within")));
  CHECK(of(0.6) == std::make_pair(PartVerdict::dress, std::string("trim")));
  CHECK(of(1.4).first == PartVerdict::reject);
  CHECK(of(-1.0) == std::make_pair(PartVerdict::use, std::string("short")));
  CHECK(of(-1.3).first == PartVerdict::reject);
}

TEST_CASE("The two figures of a blank are those of the flat pattern, in its order") {
  Case c = locker().make();
  Diagnostics out;
  const auto patterns = flat_patterns(c.job, c.box(), c.geometry, {}, out);
  REQUIRE(patterns.size() == 1);
  // B lies as it is seen from the outside: 400 + 2 x 300 across, 600 + 2 x 300 up, the bends' deductions off.
  CHECK(patterns[0].length_mm == Approx(1000.0).margin(8.0));
  CHECK(patterns[0].width_mm == Approx(1200.0).margin(8.0));
  const auto axes = receiving::blank_axes(c.box(), 0);
  CHECK(axes.length == 0);
  CHECK(axes.width == 2);
}

TEST_CASE("Only what lies along the width adds to the width") {
  Case c = locker().make();
  measured(c).blanks.push_back({0, mm(0.2), mm(0.3), {}});
  lean(c, "L", 1.0, 1.0);
  lean(c, "T", 1.0, 1.0);
  const std::size_t s = seam_of(c, "L", "T");
  gaps(c, s, 0.2, 0.2, 0.2);
  REQUIRE(c.box().seams[s].over == face_of(c, "T"));
  const auto all = judged(c);
  CHECK(reading(all, "blank-length", "body").size_mm->value == 0.2);
  CHECK_FALSE(reading(all, "blank-width", "body").size_mm);
  CHECK(reading(all, "wall-lean", "L").size_mm);
  CHECK_FALSE(reading(all, "wall-lean", "T").size_mm);
  CHECK_FALSE(reading(all, "gap", c.box().seams[s].id).size_mm);
  c.job.boxes[0].seams[s].over = face_of(c, "L");
  CHECK(reading(judged(c), "gap", c.box().seams[s].id).size_mm->value == Approx(0.2));
}

TEST_CASE("A lip that is read is judged as a wall is; a face that no bend turns has no lean") {
  Case c = locker();
  FlangeForm flange;
  flange.width = mm(25);
  flange.inside_radius = mm(2);
  expand(flange, c.job.sheets, c.box(), c.out);
  c.make();
  const auto of = [&](double off) {
    measured(c).leans.clear();
    lean(c, "L-lip", off, off);
    const PartReading r = reading(judged(c), "wall-lean", "L-lip");
    CHECK_FALSE(r.force_N); // no hand pulls it
    return std::make_pair(r.verdict, r.why);
  };
  // 25 mm: 0.5 deg is 0.22 mm at its edge, 1 deg 0.44 mm.
  CHECK(of(0.2) == std::make_pair(PartVerdict::use, std::string("within")));
  CHECK(of(0.4) == std::make_pair(PartVerdict::dress, std::string("lean")));
  CHECK(of(0.5) == std::make_pair(PartVerdict::back_to_brake, std::string("lean")));
  for (const ReceivingLimit& l : receiving_limits(c.job, c.box(), c.geometry, c.work))
    CHECK(l.where != "L-lip");
  measured(c).leans.clear();
  lean(c, "B", 1.0, 1.0);
  CHECK_THROWS_AS(judged(c), InternalError);
}

TEST_CASE("Thickness: within 5 % the same sheet, within 10 % to be stated, beyond another sheet") {
  const auto of = [](double is) {
    Case c = locker().make();
    measured(c).thicknesses.push_back({0, mm(is), {}});
    const PartReading r = judged(c).front();
    return std::make_pair(r.verdict, r.why);
  };
  CHECK(of(1.9) == std::make_pair(PartVerdict::use, std::string("within")));
  CHECK(of(1.85) == std::make_pair(PartVerdict::use, std::string("thin")));
  CHECK(of(2.2) == std::make_pair(PartVerdict::use, std::string("thick")));
  CHECK(of(1.7) == std::make_pair(PartVerdict::reject, std::string("other-sheet")));
}

TEST_CASE("Thicker sheet from the same blank makes a folded box wider by what its two side bends take less") {
  Case c = locker().make();
  measured(c).thicknesses.push_back({0, mm(1.0), {}}); // rows of DIN 6935 need r/s of the table: 2, 2 -> 2, 1
  const PartReading r = judged(c).front();
  // v(2, 2) = -3.837; v(2, 1) = pi/2 (2 + k/2) - 2 x 3 with k = 0.65 + 0.5 log10 2 = 0.8005: -2.230
  CHECK(r.size_mm->value == Approx(-3.837 + 2.230).margin(0.002));
}

TEST_CASE("Opposite panels stacked: within 0.3, trimmed up to 1 mm, else rejected") {
  const auto of = [](double off) {
    Case c = ballast_float().make();
    measured(c).stacks.push_back({face_of(c, "L"), face_of(c, "R"), mm(off), {}});
    return reading(judged(c), "stack", "L-R").verdict;
  };
  CHECK(of(0.3) == PartVerdict::use);
  CHECK(of(0.8) == PartVerdict::dress);
  CHECK(of(1.2) == PartVerdict::reject);
  Case c = ballast_float().make();
  std::size_t stacks = 0;
  for (const ReceivingLimit& l : receiving_limits(c.job, c.box(), c.geometry, c.work))
    stacks += l.kind == "stack";
  CHECK(stacks == 3);
}

TEST_CASE(
    "What the row has no room for together is dressed, the largest first; what it has room for is not") {
  Case c = locker().make();
  lean(c, "L", 2.4, 2.4);
  lean(c, "R", 1.2, 1.2);
  lean(c, "T", 2.4, 2.4); // not in the width
  const auto free = judged(c);
  const double large = reading(free, "wall-lean", "L").size_mm->value,
               small = reading(free, "wall-lean", "R").size_mm->value;
  REQUIRE(large == Approx(2.0 * small).epsilon(1e-3));
  const auto verdicts = [&](double room) {
    const auto all = judged(c, room);
    CHECK(reading(all, "wall-lean", "T").verdict == PartVerdict::use);
    return std::make_pair(reading(all, "wall-lean", "L").why, reading(all, "wall-lean", "R").why);
  };
  using Words = std::pair<std::string, std::string>;
  CHECK(verdicts(large + small + 0.01) == Words{"within", "within"});
  CHECK(verdicts(large + 0.01) == Words{"fit", "within"});
  CHECK(verdicts(0.5 * small) == Words{"fit", "fit"});
  CHECK(reading(judged(c, 0.0), "wall-lean", "L").verdict == PartVerdict::dress);
}

TEST_CASE("Without readings there is nothing to judge; readings of another box are not this one's") {
  Case c = locker().make();
  CHECK(judged(c).empty());
  lean(c, "L", 5, 5);
  measured(c).box = 1;
  CHECK(judged(c).empty());
}
