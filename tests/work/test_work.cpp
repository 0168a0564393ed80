#include "boxes.h"

#include "base/numbers.h"
#include "formulas/deposit.h"
#include "support/table.h"

#include <set>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

double arc_of(const Work& work) {
  double sum = 0.0;
  for (const Run& r : work.runs)
    sum += r.arc_s;
  return sum;
}

Case tube() {
  // Four sides of 200 on middle surfaces of 197, 1 m long, open at both ends.
  Case c;
  c.job.sheets.push_back(sheet_of("mild-steel", 3.0));
  c.job.boxes.emplace_back();
  Box& box = c.box();
  box.id = "tube";
  const auto add = [&](const std::string& id, Vec3 origin, Vec3 u) {
    Face f;
    f.id = id;
    f.part = box.parts.size();
    f.outline = {{0, 0}, {197, 0}, {197, 1000}, {0, 1000}};
    f.setback_mm.assign(4, 0.0);
    f.placement = {origin, u, {0, 0, 1}};
    box.faces.push_back(f);
    box.parts.push_back({id, 0, false, {}, {}});
  };
  add("A", {0, 0, 0}, {1, 0, 0});
  add("B", {197, 0, 0}, {0, 1, 0});
  add("C", {197, 197, 0}, {-1, 0, 0});
  add("D", {0, 197, 0}, {0, -1, 0});
  for (std::size_t i = 0; i < 4; ++i) {
    Seam s;
    s.id = "S" + std::to_string(i + 1);
    s.face_a = i;
    s.face_b = (i + 1) % 4;
    s.corner = CornerStyle::open;
    s.own.along = newton(40e3);
    box.seams.push_back(s);
  }
  return c;
}

double figure(const std::string& box, const std::string& name) {
  Case c = box == "locker" ? locker() : box == "float" ? ballast_float() : tube();
  c.make();
  REQUIRE_FALSE(c.out.has_errors());
  const Prediction p = c.predicted();
  double wire = 0.0, gas = 0.0, seams = 0.0, shortening = 0.0;
  for (const WorkSeam& w : c.work.seams) {
    wire += w.wire_g;
    gas += w.gas_l;
    seams += w.length_mm;
  }
  for (const SeamShrinkage& s : p.seams)
    shortening += s.shortening_mm.value;
  const auto contribution = [&](const std::string& key) {
    for (const Contribution& k : p.contributions)
      if (k.key == key) return k.mm;
    return Band{};
  };
  if (name == "seams") return static_cast<double>(c.work.seams.size());
  if (name == "run_s") return c.work.runs[0].arc_s;
  if (name == "arc_s") return arc_of(c.work);
  if (name == "wire_g") return wire;
  if (name == "gas_l") return gas;
  if (name == "heat_J_mm") return c.work.seams[0].heat_J_mm;
  if (name == "t85_s") return *c.work.seams[0].t85_s;
  if (name == "weld_width_mm") return contribution("weld-across").value;
  if (name == "bend_lean_mm") return contribution("bends").high;
  if (name == "first_tack_mm") return c.work.rules.first_tack_mm.value;
  if (name == "tack_mm") return c.work.rules.tack_length_mm.value;
  if (name == "diagonal_mm") {
    const std::vector<Vec3>& ring = c.measure("diagonals-rim").points;
    CHECK(norm(ring[2] - ring[0]) == Approx(norm(ring[3] - ring[1])));
    return norm(ring[2] - ring[0]);
  }
  if (name == "free_racking_mm") return c.expected(p, "diagonals-rim").mm.high;
  if (name == "seam_mm") return seams;
  if (name == "corner_dabs")
    return static_cast<double>(
        std::count_if(c.work.runs.begin(), c.work.runs.end(), [](const Run& r) { return r.dab; }));
  if (name == "bulge_clamped_mm") return p.trapped_air_bulge_mm->low;
  if (name == "bulge_supported_mm") return p.trapped_air_bulge_mm->high;
  if (name == "shortening_mm") return shortening;
  if (name == "bow_mm") return p.seams[0].bow_mm.value;
  FAIL("no figure " << name);
  return 0.0;
}

std::string runs_text(const Work& work, const std::string& seam) {
  std::string text;
  for (const Run& r : work.runs) {
    if (work.seams[r.seam].id != seam || r.dab) continue;
    if (!text.empty()) text += ' ';
    text += rounded(r.from_mm, 1) + "-" + rounded(r.to_mm, 1);
  }
  return text;
}

} // namespace

TEST_CASE("the boxes agree with hand calculations and with the bench") {
  const Table table("work_hand.tsv", {"box", "figure", "value", "tolerance", "source", "mark"});
  CHECK(table.size() == 20);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    CHECK(figure(row.text("box"), row.text("figure")) ==
          Approx(row.number("value")).margin(row.number("tolerance") + 1e-9));
  }
}

TEST_CASE("runs follow the rule for the length of the seam") {
  const Table table("work_runs.tsv", {"seam_mm", "back_step", "value", "runs", "source", "mark"});
  CHECK(table.size() == 7);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    Case c;
    c.job.sheets.push_back(sheet_of("mild-steel", 2.0));
    c.job.boxes.emplace_back();
    OpenBoxForm form;
    form.width = mm(400);
    form.height = mm(400);
    form.depth = mm(row.number("seam_mm") + 1.0); // the seam ends on the back's middle surface
    form.inside_radius = mm(2);
    expand(form, c.job.sheets, c.box(), c.out);
    c.job.rules.back_step = row.text("back_step") == "yes";
    c.make();
    CHECK(runs_text(c.work, "S1") == row.text("runs"));
    const auto runs = std::count_if(c.work.runs.begin(), c.work.runs.end(),
                                    [&](const Run& r) { return r.seam == 0 && !r.dab; });
    CHECK(static_cast<double>(runs) == row.number("value"));
  }
}

TEST_CASE("runs and dabs cover every seam once, in order of rank, with ids of their own") {
  for (Case c : {locker(), ballast_float()}) {
    c.make();
    std::set<std::string> ids;
    for (std::size_t s = 0; s < c.work.seams.size(); ++s) {
      double covered = 0.0, heat = 0.0;
      int rank = 0;
      for (const Run& r : c.work.runs) {
        if (r.seam != s) continue;
        covered += r.length_mm();
        if (r.length_mm() > 0.0) heat += r.heat_J;
        CHECK(r.rank == rank++);
        CHECK(ids.insert(r.id).second);
        CHECK(r.length_mm() <= 150.5);
        CHECK(r.arc_s > 0.0);
        if (!r.dab) CHECK(r.to_mm > r.from_mm); // away from the rim
      }
      CHECK(covered == Approx(c.work.seams[s].length_mm));
      CHECK(heat == Approx(c.work.seams[s].heat_J_mm * c.work.seams[s].welded_mm));
    }
  }
}

TEST_CASE("a free rim gets a dab from the first tack outward, the relief hole at the back a dab, both after "
          "the runs") {
  Case c = locker();
  c.make();
  REQUIRE(c.work.runs.size() == 16);
  CHECK(c.work.runs[1].tie_in_mm == 10.0);
  CHECK(c.work.runs[2].dab);
  CHECK(c.work.runs[2].from_mm == 12.0);
  CHECK(c.work.runs[2].to_mm == 0.0);
  CHECK(c.work.runs[3].dab);
  CHECK(c.work.runs[3].from_mm == c.work.runs[3].to_mm);
  CHECK(c.work.runs[3].id == "S1d");
}

TEST_CASE("a stitched seam has one run a stitch, centred, and its welded share in deposit and heat") {
  Seam seam;
  seam.stitch = Stitch{mm(25), mm(100)};
  Case c = locker(2.0, CornerStyle::half_open, seam), whole = locker();
  c.make();
  whole.make();
  // 299 mm: three stitches, 37 mm from either end.
  CHECK(runs_text(c.work, "S1") == "37-62 137-162 237-262");
  CHECK(c.work.seams[0].welded_mm == 75.0);
  CHECK(c.work.seams[0].wire_g == Approx(whole.work.seams[0].wire_g * 75.0 / 299.0));
  const Prediction p = c.predicted(), q = whole.predicted();
  CHECK(p.seams[0].force_N.value == Approx(q.seams[0].force_N.value * 75.0 / 299.0));
}

TEST_CASE("the throat after grinding is what the joint keeps, less the deepest dig") {
  Case c = locker();
  c.make();
  const Band throat = c.work.seams[0].throat_mm;
  CHECK(throat.value == Approx(1.0 + 0.35 * 2.0)); // half of the covered edge and the usual penetration
  CHECK(throat.low == Approx(1.0 - 0.2));
  CHECK(c.work.seams[0].throat_needed_mm == Approx(1.4));
}

TEST_CASE("flush on a joint that keeps no throat is an error, unless the root is proven or welded inside") {
  Case c = locker(2.0, CornerStyle::lapped);
  c.make();
  REQUIRE(c.errors().size() == 1); // one cause, one error
  CHECK(c.errors()[0] ==
        "flush-no-throat: seams S1, S2, S3 and S4: grinding a lapped-corner flush leaves about 0.7 mm of "
        "throat where 1.4 mm are needed | make it a half-open-corner, leave it as welded, weld it inside, "
        "too, with a fillet of 2.0 mm leg that stays, or state a procedure with proven full-penetration");
  CHECK(c.work.runs.empty());

  Seam proven;
  proven.procedure = 0;
  Case d = locker(2.0, CornerStyle::lapped, proven);
  d.job.procedures.emplace_back();
  d.job.procedures[0].id = "p1";
  d.job.procedures[0].full_penetration = true;
  CHECK(d.make().errors().empty());

  Case e = locker(2.0, CornerStyle::lapped, proven);
  e.job.procedures.emplace_back();
  e.job.procedures[0].id = "p1";
  e.job.procedures[0].penetration = mm(1.5); // of 1.4 needed
  CHECK(e.make().errors().empty());
  e.job.procedures[0].penetration = mm(1.0);
  CHECK(e.make().errors().size() == 1);

  Seam fillet;
  fillet.weld = WeldKind::fillet;
  fillet.leg = mm(2);
  Case f = locker(2.0, CornerStyle::open, fillet);
  f.make();
  REQUIRE(f.errors().size() == 1);
  CHECK(f.errors()[0] ==
        "flush-no-throat: seams S1, S2, S3 and S4: grinding a fillet flush leaves about 0.7 mm of throat "
        "where 1.4 mm are needed | leave it as welded, weld the other side, too, with a fillet of 2.0 mm leg "
        "that stays, or state a procedure with proven full-penetration");
}

TEST_CASE("what the hint for a flush lapped corner says can be done: an inside fillet holds it, and so does "
          "its bead when it is left") {
  const auto with_inside = [](double leg_mm) {
    Case c = locker(2.0, CornerStyle::lapped);
    for (std::size_t i = 0; i < 4; ++i) {
      Seam inside = c.box().seams[i];
      inside.id = std::string("I") + std::to_string(i + 1);
      inside.weld = WeldKind::fillet;
      inside.leg = mm(leg_mm);
      inside.side = WeldSide::inside;
      inside.finish = Finish::left;
      c.box().seams.push_back(inside);
    }
    c.make();
    return c;
  };
  const Case held = with_inside(2.0);
  CHECK(held.errors().empty());
  CHECK(held.work.seams[0].throat_mm.value == Approx(2.0 / std::sqrt(2.0))); // throat of a fillet: leg/sqrt 2
  CHECK(held.work.seams[0].throat_mm.value >= held.work.seams[0].throat_needed_mm);
  // One line, two welds: the gap is felt once, the heat of both counts.
  const auto gaps = std::count_if(held.work.measures.begin(), held.work.measures.end(),
                                  [](const Measure& m) { return m.kind == MeasureKind::gap; });
  CHECK(gaps == 12);
  CHECK(held.work.seams[0].heat_J_mm > 0.0);
  CHECK(held.work.seams[4].heat_J_mm > 0.0);
  CHECK(with_inside(1.0).errors().size() == 1); // throat of 0.7 where 1.4 are needed

  Seam left;
  left.finish = Finish::left;
  Case d = locker(2.0, CornerStyle::lapped, left);
  CHECK(d.make().errors().empty());
  CHECK(d.work.seams[0].throat_mm.value >= d.work.seams[0].throat_needed_mm); // no red caution on the plan
  CHECK(d.work.seams[0].throat_mm.low < d.work.seams[0].throat_mm.value);
}

TEST_CASE("the hint leaves out what would not hold: 6 mm lapped and left as welded is too thin") {
  Case c = locker(6.0, CornerStyle::lapped);
  c.make();
  REQUIRE(c.errors().size() == 1);
  CHECK(c.errors()[0].find("half-open-corner, weld it inside") != std::string::npos);
  CHECK(c.errors()[0].find("leave it") == std::string::npos);
}

TEST_CASE("grinding that thins a face by more than a tenth is an error") {
  Case c = locker();
  c.job.rules.dig_fraction = 0.2;
  c.job.rules.edge_radius = mm(5);
  c.make();
  REQUIRE(c.errors().size() == 2);
  CHECK(c.errors()[0] ==
        "grind-too-deep: grinding may dig 0.20 of the thickness by this job, but a face must keep nine "
        "tenths of it | state a dig of at most 0.1");
  CHECK(c.errors()[1] ==
        "grind-radius: an edge radius of 5 mm takes 1.00 mm off a face of 2 mm, more than a tenth | state "
        "an edge-radius of at most 2.0 mm");
  Case good = locker();
  good.job.rules.edge_radius = mm(3); // 0.17 mm
  CHECK(good.make().errors().empty());
}

TEST_CASE("limits below the shop's own warmth and tacks that overlap are errors") {
  Case c = locker();
  c.job.ambient = celsius(30);
  c.job.rules.touch_limit = celsius(25);
  c.job.rules.tack_length = mm(80);
  c.make();
  REQUIRE(c.errors().size() == 2);
  CHECK(c.errors()[0] ==
        "limit-below-ambient: touch-limit of 25 C is not above the shop's 30 C: nothing ever gets that cool "
        "| state a touch-limit above ambient");
  CHECK(c.errors()[1] ==
        "tack-pitch: tacks of 80 mm overlap at a pitch of 75 mm | state a tack-pitch longer than the tacks");
}

TEST_CASE("stitches that do not fit are errors") {
  Seam seam;
  seam.stitch = Stitch{mm(120), mm(100)};
  Case c = locker(2.0, CornerStyle::half_open, seam);
  c.make();
  REQUIRE(c.errors().size() == 1);
  CHECK(c.errors()[0] == "stitch-pitch: seams S1, S2, S3 and S4: stitches of 120 mm do not fit a pitch of "
                         "100 mm | state a length above 0 and "
                         "a pitch of at least that length");
  seam.stitch = Stitch{mm(310), mm(400)};
  Case d = locker(2.0, CornerStyle::half_open, seam);
  d.make();
  REQUIRE(d.errors().size() == 1);
  CHECK(d.errors()[0] ==
        "stitch-long: seams S1, S2, S3 and S4 of 299.0 mm: shorter than one stitch of 310 mm | state a "
        "shorter stitch, or weld it in one");
}

TEST_CASE("stated precedence is kept, and a cycle is an error that names it") {
  Case c = locker();
  c.box().seams[1].after = {"S1"};
  c.make();
  CHECK(c.work.before == std::vector<std::pair<std::size_t, std::size_t>>{{0, 1}});
  Case d = locker();
  d.box().seams[1].after = {"S3"};
  d.box().seams[2].after = {"S4"};
  d.box().seams[3].after = {"S2"};
  d.make();
  REQUIRE(d.errors().size() == 1);
  CHECK(d.errors()[0] ==
        "order-cycle: the order of seams goes round: S2 after S3 after S4 after S2 | take one of these "
        "\"after\" away");
}

TEST_CASE("a closed box is closed by its last face, after what is welded inside") {
  Case c = ballast_float();
  c.make();
  CHECK(c.work.last_face == "T");
  CHECK(c.work.inside_first.empty());

  Case d = ballast_float();
  Seam& inner = d.box().seams[4]; // on the under side
  inner.side = WeldSide::inside;
  inner.finish = Finish::left;
  d.make();
  REQUIRE(d.errors().empty());
  CHECK(d.work.inside_first == std::vector<std::size_t>{4});
  const auto on_top =
      std::count_if(d.work.before.begin(), d.work.before.end(), [](const auto& b) { return b.first == 4; });
  CHECK(on_top == 4); // the four seams of the top

  Case e = ballast_float();
  Seam& lid = e.box().seams[8]; // on the top
  lid.side = WeldSide::inside;
  lid.finish = Finish::left;
  e.make();
  REQUIRE(e.errors().size() == 1);
  CHECK(e.errors()[0] ==
        "closed-inside-seam: seam S9 would be welded inside after face T has closed the box | weld it "
        "outside, or close the box with another face");
}

TEST_CASE(
    "measures: nine widths, opposite sides before diagonals, rock, eight leans, bellies, three gaps a seam") {
  Case c = locker();
  c.job.limits.size_over = mm(0);
  c.make();
  const auto count = [&](MeasureKind kind) {
    return std::count_if(c.work.measures.begin(), c.work.measures.end(),
                         [&](const Measure& m) { return m.kind == kind; });
  };
  CHECK(count(MeasureKind::width) == 9 + 6 + 4);
  CHECK(count(MeasureKind::opposite_sides) == 2);
  CHECK(count(MeasureKind::diagonals) == 1);
  CHECK(count(MeasureKind::rock) == 1);
  CHECK(count(MeasureKind::wall_lean) == 8);
  CHECK(count(MeasureKind::belly) == 5);
  CHECK(count(MeasureKind::gap) == 12);
  CHECK(&c.measure("opposite-rim-2") < &c.measure("diagonals-rim"));
  const Measure& width = c.measure("width-1");
  CHECK(width.where == "rim-top");
  CHECK(width.nominal_mm == 400.0);
  CHECK(width.over_mm == 0.0); // a hard fit: nothing above the outside size
  CHECK(width.limit_source.mark == Mark::stated);
  CHECK(c.measure("diagonals-rim").over_mm == 1.5); // over 700 long, common practice
  CHECK(c.measure("lean-L-1").over_mm == Approx(1.0));
  CHECK(c.measure("gap-S1-1").over_mm == 0.5);

  Case f = ballast_float();
  f.job.limits.linear_class = LinearClass::B;
  f.job.limits.flatness_class = FlatnessClass::F;
  f.make();
  CHECK(f.measure("width-1").over_mm == 3.0); // ISO 13920-B, 600 mm
  CHECK(f.measure("belly-B").over_mm == 3.0); // ISO 13920-F, 600 mm
  const std::vector<Vec3>& marks = f.measure("diagonals-F").points;
  CHECK(marks[0].x == 20.0); // witness marks
  CHECK(marks[0].z == 20.0);
}

TEST_CASE("rules and rates that the job states win over those of the trade") {
  Case c = locker();
  c.job.rules.tack_length = mm(9);
  c.job.rules.run_length = mm(100);
  c.job.crew.look = seconds(33);
  c.make();
  CHECK(c.work.rules.tack_length_mm.value == 9.0);
  CHECK(c.work.rules.tack_length_mm.source.mark == Mark::stated);
  CHECK(c.work.rules.tack_pitch_mm.source.mark == Mark::common_practice);
  CHECK(c.work.crew.look_s == 33.0);
  CHECK_FALSE(c.work.rules.start_limit_C); // plain steel
  CHECK(runs_text(c.work, "S1") == "200-299 12-100 100-200");
  Case stainless = locker(2.0, CornerStyle::half_open, outside_flush(), "304");
  stainless.make();
  CHECK(stainless.work.rules.start_limit_C->value == 177.0); // NAVSEA S9074-AR-GIB-010/278
  CHECK(stainless.work.rules.grind_min_per_m.value == Approx(2.0 * c.work.rules.grind_min_per_m.value));
}
