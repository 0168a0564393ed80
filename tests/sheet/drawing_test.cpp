// Drawings show what is there: each seam where it lies, what is behind metal dashed, no label on another.
#include "sheet/draw.h"
#include "sheet/sample_plan.h"
#include "support/catch.h"
#include "support/locker_fixture.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

struct Area {
  double x0, y0, x1, y1;
};

Area area_of(const DrawnLabel& label) {
  const double width = text_width_mm(label);
  const double left = label.anchor == Anchor::start ? label.at.x
                      : label.anchor == Anchor::end ? label.at.x - width
                                                    : label.at.x - width / 2;
  return {left, label.at.y - label.size_mm / 2, left + width, label.at.y + label.size_mm / 2};
}

double drawn_length(const Drawing& drawing, Stroke stroke) {
  double sum = 0.0;
  for (const DrawnLine& line : drawing.lines)
    if (line.stroke == stroke)
      for (std::size_t i = 1; i < line.points.size(); ++i)
        sum += norm(line.points[i] - line.points[i - 1]);
  return sum;
}

bool has_label(const Drawing& drawing, const std::string& text) {
  return std::any_of(drawing.labels.begin(), drawing.labels.end(),
                     [&](const DrawnLabel& label) { return label.text == text; });
}

// The closed box: the locker with a front.
BoxPlan with_front() {
  BoxPlan box = test::gear_locker();
  box.faces.push_back(
      test::face("F", test::say("front"), Placement{{0, 0, 0}, {1, 0, 0}, {0, 0, 1}}, 400, 600));
  return box;
}

// Twelve seams with many tacks and two runs each.
BoxPlan crowded() {
  BoxPlan box = with_front();
  box.seams.clear();
  box.tacks.clear();
  box.runs.clear();
  const Vec3 corners[] = {{0, 0, 0}, {400, 0, 0}, {400, 300, 0}, {0, 300, 0}};
  const char* walls[] = {"F", "R", "B", "L"};
  for (std::size_t i = 0; i < 4; ++i) {
    const std::size_t next = (i + 1) % 4;
    const Vec3 up{0, 0, 600};
    const auto id = [&](std::size_t row) { return "S" + std::to_string(1 + row * 4 + i); };
    box.seams.push_back(test::seam(id(0), walls[i], "U", corners[i], corners[next]));
    box.seams.push_back(test::seam(id(1), walls[i], walls[(i + 3) % 4], corners[i], corners[i] + up));
    box.seams.push_back(test::seam(id(2), walls[i], "T", corners[i] + up, corners[next] + up));
  }
  for (const PlannedSeam& seam : box.seams) {
    for (double at = 12.0; at < seam.length_mm; at += 70.0) {
      PlannedTack tack;
      tack.seam = seam.id;
      tack.at_mm = at;
      box.tacks.push_back(tack);
    }
    for (const bool second : {false, true}) {
      PlannedRun run;
      run.seam = seam.id;
      run.from_mm = second ? seam.length_mm / 2 : 0.0;
      run.to_mm = second ? seam.length_mm : seam.length_mm / 2;
      box.runs.push_back(run);
    }
  }
  return box;
}

// The locker on its table; with more: on pads, with squares and a spreader, and hold-downs in two rows.
BoxPlan held(bool with_more) {
  BoxPlan box = test::gear_locker();
  box.fixture = test::locker_fixture(box);
  if (!with_more) return box;
  std::vector<PlannedPiece>& pieces = box.fixture->pieces;
  for (const Vec3 at : {Vec3{80, 80, 0}, {320, 80, 0}, {200, 520, 0}})
    pieces.push_back(test::piece("PAD-" + std::to_string(pieces.size()), "support", {at}, {"B"}));
  for (const Vec3 at : {Vec3{0, 0, 40}, {400, 0, 40}, {400, 600, 40}})
    pieces.push_back(test::piece("SQ-" + std::to_string(pieces.size()), "square", {at}, {"U", "L"}));
  pieces.push_back(test::piece("SPREADER", "spreader", {{2, 310, 150}, {398, 310, 150}}, {"L", "R"}));
  for (int i = 0; i < 8; ++i)
    pieces.push_back(test::piece("H" + std::to_string(i), "hold-down",
                                 {{60.0 + 7.0 * i + 150.0 * (i % 2), 200.0 + 9.0 * i, 2.0}}, {"B"}));
  return box;
}

std::vector<Drawing> all_drawings(const Composer& compose, const BoxPlan& box) {
  std::vector<Drawing> out = bench_drawings(compose, box);
  if (!box.fixture) return out;
  out.push_back(draw_fixture(compose, box));
  for (Drawing& wall : draw_fixture_walls(compose, box))
    out.push_back(std::move(wall));
  return out;
}

TEST_CASE("no label covers another and none leaves the paper, in long units either") {
  const Composer compose({UnitSystem::inch_fractions, "en-US"});
  for (const BoxPlan& box : {test::gear_locker(), with_front(), crowded(), held(false), held(true)})
    for (const Drawing& drawing : all_drawings(compose, box)) {
      REQUIRE(!drawing.labels.empty());
      for (std::size_t i = 0; i < drawing.labels.size(); ++i) {
        const Area a = area_of(drawing.labels[i]);
        INFO(drawing.title << ": " << drawing.labels[i].text);
        CHECK((a.x0 >= 0.0 && a.y0 >= 0.0 && a.x1 <= drawing.width_mm && a.y1 <= drawing.height_mm));
        for (std::size_t j = 0; j < i; ++j) {
          const Area b = area_of(drawing.labels[j]);
          INFO("and " << drawing.labels[j].text);
          CHECK_FALSE((a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1));
        }
      }
    }
}

TEST_CASE(
    "the paper of a drawing ends where the drawing ends, in a wide font, too") { // DejaVu against Liberation
  Drawing drawing;
  drawing.width_mm = 100.0;
  drawing.height_mm = 80.0;
  drawing.lines = {{{{40, 30}, {60, 50}}, Stroke::outline, false, false}};
  drawing.labels = {{{62, 40}, "AB", Anchor::start, 3.0, false}};
  const double label_mm = text_width_mm(drawing.labels[0]);
  crop(drawing);
  CHECK(drawing.width_mm == Approx(20.0 + 2.0 + 1.18 * label_mm).margin(1.5));
  CHECK(drawing.height_mm == Approx(20.0).margin(2.0));
  CHECK(drawing.labels[0].at.x - drawing.lines[0].points[0].x == Approx(22.0));
  CHECK(drawing.lines[0].points[0].x > 0.0);
  CHECK(drawing.lines[0].points[0].x < 1.5);
  Drawing empty;
  empty.width_mm = empty.height_mm = 10.0;
  crop(empty);
  CHECK(empty.width_mm == 10.0);
}

TEST_CASE("an open front shows the inside: the seams' front ends are seen, what the side covers is dashed") {
  const Composer compose({});
  const Drawing open = draw_box(compose, test::gear_locker());
  const Drawing closed = draw_box(compose, with_front());
  for (const char* id : {"S1", "S2", "S3", "S4"})
    CHECK(has_label(open, id));
  for (const char* id : {"T", "R", "U", "L", "B"})
    CHECK(has_label(open, id));
  CHECK(has_label(open, "RIM"));
  CHECK_FALSE(has_label(closed, "RIM"));
  // S1, S2 and S3 lie on edges that are seen from the front, above and right; S4 is inside at the bottom
  // left.
  CHECK(drawn_length(open, Stroke::seam_hidden) == Approx(0.0).margin(1e-9));
  const double one = drawn_length(closed, Stroke::seam) / 3.0;
  CHECK(drawn_length(closed, Stroke::seam_hidden) == Approx(one).epsilon(0.02));
  CHECK(drawn_length(closed, Stroke::hidden) > drawn_length(open, Stroke::hidden));
}

TEST_CASE("a hole lets what is behind be seen") {
  BoxPlan box = with_front();
  const double before = drawn_length(draw_box(Composer({}), box), Stroke::seam_hidden);
  box.faces.back().cutouts = {{{5, 5}, {395, 5}, {395, 595}, {5, 595}}};
  const double after = drawn_length(draw_box(Composer({}), box), Stroke::seam_hidden);
  CHECK(after < 0.1 * before);
}

TEST_CASE("a face has its seams, a tick for each tack and an arrow for each run, numbered as in the plan") {
  const BoxPlan box = test::gear_locker();
  const Drawing top = draw_face(Composer({}), box, box.faces[0]);
  const auto count = [&](Stroke stroke) {
    return std::count_if(top.lines.begin(), top.lines.end(),
                         [&](const DrawnLine& line) { return line.stroke == stroke; });
  };
  CHECK(count(Stroke::seam) == 2);  // S1 and S2
  CHECK(count(Stroke::tack) == 10); // five each
  CHECK(count(Stroke::run) == 4);
  for (const char* text : {"S1", "S2", "(1)", "(3)", "(5)", "(7)", "12", "285", "T"})
    CHECK(has_label(top, text));
  CHECK_FALSE(has_label(top, "S3"));
  // Seen from above with the front at the bottom: S1, on the left, is drawn left of S2; runs to 300 go away,
  // up.
  const auto& labels = top.labels;
  const auto x_of = [&](const std::string& text) {
    return std::find_if(labels.begin(), labels.end(),
                        [&](const DrawnLabel& label) { return label.text == text; })
        ->at.x;
  };
  CHECK(x_of("S1") < x_of("S2"));
  for (const DrawnLine& line : top.lines)
    if (line.stroke == Stroke::run) CHECK(line.points[1].y < line.points[0].y);
}

TEST_CASE("a vent is drawn where it is and named") {
  BoxPlan box = with_front();
  const std::size_t before = draw_box(Composer({}), box).lines.size();
  box.faces.back().vents = {{100, 500, 8}};
  CHECK(draw_box(Composer({}), box).lines.size() > before);
  CHECK(has_label(draw_face(Composer({}), box, box.faces.back()), "vent"));
}

TEST_CASE("the under face is seen from below: left and right change sides") {
  const BoxPlan box = test::gear_locker();
  const Drawing under = draw_face(Composer({}), box, box.faces[2]);
  const auto x_of = [&](const std::string& text) {
    return std::find_if(under.labels.begin(), under.labels.end(),
                        [&](const DrawnLabel& label) { return label.text == text; })
        ->at.x;
  };
  CHECK(x_of("S3") < x_of("S4"));
}

TEST_CASE("the warmth chart has a bar for each run, in proportion, in charts of twenty-four") {
  BoxPlan box = test::gear_locker();
  while (box.runs.size() < 50)
    box.runs.push_back(box.runs.back());
  const auto charts = draw_warmth(Composer({}), box);
  REQUIRE(charts.size() == 3);
  const auto bars = [](const Drawing& chart) {
    return std::count_if(chart.lines.begin(), chart.lines.end(),
                         [](const DrawnLine& line) { return line.stroke == Stroke::bar; });
  };
  CHECK(bars(charts[0]) == 24);
  CHECK(bars(charts[2]) == 2);
  const auto length = [&](std::size_t i) {
    return charts[0].lines[i].points[1].x - charts[0].lines[i].points[0].x;
  };
  CHECK(length(2) == Approx(length(1) * 2.0));
}

TEST_CASE("a box without faces or runs is still a document") {
  Plan plan = test::sample_plan();
  BoxPlan bare;
  bare.id = "bare";
  plan.boxes = {bare};
  const Document document = make_document(plan, {});
  REQUIRE(document.boxes.size() == 1);
  CHECK(document.boxes[0].bench_drawings.empty());
  CHECK(!write_text(document).empty());
  CHECK(!write_html(document).empty());
}

} // namespace
} // namespace tacksquare
