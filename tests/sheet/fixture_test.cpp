// The set-up card: what to get first, where each piece stands, how to check it; and the foreman's tables.
#include "sheet/draw.h"
#include "sheet/plain_text.h"
#include "sheet/sample_plan.h"
#include "support/locker_fixture.h"

#include <algorithm>
#include <cmath>
#include <regex>
#include <set>

namespace tacksquare {
namespace {

Plan held_plan() {
  Plan plan = test::sample_plan();
  plan.boxes[0].fixture = test::locker_fixture(plan.boxes[0]);
  return plan;
}

DocumentPage card_of(const Plan& plan, const SheetOptions& options = {}) {
  const Document document = make_document(plan, options);
  const auto& cards = document.boxes.at(0).cards;
  const auto found = std::find_if(cards.begin(), cards.end(),
                                  [](const DocumentPage& page) { return page.page == "SET-UP CARD"; });
  if (found == cards.end()) FAIL("no set-up card");
  return *found;
}

const DocumentTable& table_of(const DocumentPage& page) {
  for (const DocumentSection& section : page.sections)
    if (!section.tables.empty()) return section.tables.front();
  FAIL("no table");
  return page.sections.front().tables.front();
}

std::vector<std::string> row_of(const DocumentTable& table, const std::string& id) {
  for (const auto& row : table.rows)
    if (row.front() == id) return row;
  FAIL("no row " << id);
  return {};
}

std::vector<std::string> block_of(const DocumentPage& page, const std::string& title) {
  for (const DocumentSection& section : page.sections)
    if (section.block.title == title) return section.block.lines;
  FAIL("no block " << title);
  return {};
}
std::vector<std::string> checks_of(const DocumentPage& page) {
  return block_of(page, "CHECK THE TABLE BEFORE THE BOX GOES ON IT");
}

const DrawnLabel& label_of(const Drawing& drawing, const std::string& text) {
  const auto found = std::find_if(drawing.labels.begin(), drawing.labels.end(),
                                  [&](const DrawnLabel& label) { return label.text == text; });
  if (found == drawing.labels.end()) FAIL("no label " << text << " in " << drawing.title);
  return *found;
}

// The lowest and highest of the box's own lines.
std::pair<Vec2, Vec2> outline_of(const Drawing& drawing) {
  Vec2 low{1e9, 1e9}, high{-1e9, -1e9};
  for (const DrawnLine& line : drawing.lines)
    if (line.stroke == Stroke::outline)
      for (const Vec2 p : line.points) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
      }
  return {low, high};
}

Vec2 middle_of(const DrawnLine& line) {
  Vec2 sum;
  for (const Vec2 p : line.points)
    sum = sum + p;
  return sum * (1.0 / static_cast<double>(line.points.size()));
}

bool is_near(Vec2 a, Vec2 b, double mm) {
  return norm(a - b) < mm;
}

} // namespace

TEST_CASE("a plan with a fixture has a set-up card behind the bench card, which names it; others have none") {
  const Document without = make_document(test::sample_plan(), {});
  CHECK(without.boxes[0].cards.empty());
  CHECK(write_text(without).find("set-up card") == std::string::npos);
  const Document with = make_document(held_plan(), {});
  CHECK(with.boxes[0].cards.front().page == "SET-UP CARD");
  CHECK(with.boxes[0].facts.back() == "Fixture locker on its back: set-up card.");
  CHECK(with.boxes[0].facts.size() == without.boxes[0].facts.size() + 1);
}

TEST_CASE("what the shop lacks stands first and red, what it has or may have does not") {
  const DocumentPage card = card_of(held_plan());
  CHECK(card.red == std::vector<std::string>{"1 x sash cramp, opens 600 mm: 1 needed, 0 in the shop",
                                             "1 x backing bar, 300 mm long: 1 needed, 0 in the shop"});
  const std::string text = write_text(make_document(held_plan(), {}));
  const std::size_t red = text.find("!!! GET FIRST: YOU DO NOT HAVE IT: 1 x sash cramp");
  REQUIRE(red != std::string::npos);
  CHECK(red < text.find("What goes where"));
  const std::string page = write_html(make_document(held_plan(), {}));
  CHECK(page.find("<h2>GET FIRST: YOU DO NOT HAVE IT</h2>") != std::string::npos);
  Plan enough = held_plan();
  for (BillLine& line : enough.boxes[0].fixture->bill)
    line.owned = line.wanted;
  CHECK(card_of(enough).red.empty());
  CHECK(write_text(make_document(enough, {})).find("GET FIRST") == std::string::npos);
}

TEST_CASE("the table has every piece in its order, measured from 0") {
  const Plan plan = held_plan();
  const DocumentTable table = table_of(card_of(plan));
  const auto& pieces = plan.boxes[0].fixture->pieces;
  REQUIRE(table.rows.size() == pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i)
    CHECK(table.rows[i][0] == pieces[i].id);
  using Row = std::vector<std::string>;
  CHECK(row_of(table, "P1") == Row{"P1", "stop", "U", "60", "0", "40", "-", "[ ]"});
  CHECK(row_of(table, "P3") == Row{"P3", "stop", "L", "0", "450", "40", "-", "[ ]"});
  CHECK(row_of(table, "P4") == Row{"P4", "hold-down", "B", "110", "150", "2", "400 N", "[ ]"});
  CHECK(row_of(table, "P6") == Row{"P6", "former 395.5 mm x 595.5 mm, corners cut off 25 mm",
                                   "inside T, R, U, L", "-", "-", "260", "-", "[ ]"});
  CHECK(row_of(table, "P7") == Row{"P7", "sash cramp", "L, R", "0 to 400", "120", "260", "1200 N", "[ ]"});
  CHECK(row_of(table, "P10") == Row{"P10", "corner clamp", "corner T, L", "0", "600", "150", "800 N", "[ ]"});
  CHECK(row_of(table, "P14") ==
        Row{"P14", "backing bar 25 mm wide", "behind S1, 0 to 298", "0", "600", "300 to 2", "-", "[ ]"});
}

TEST_CASE("the card tells which step takes pieces off before the rest, and why") {
  Plan plan = held_plan();
  std::vector<Step>& steps = plan.boxes[0].steps;
  const auto weld = std::find_if(steps.begin(), steps.end(), [](const Step& s) { return !s.runs.empty(); });
  REQUIRE(weld != steps.end());
  weld->off = {"P10", "P11"};
  const auto early = block_of(card_of(plan), "COMES OFF EARLY");
  REQUIRE(early.size() == 2);
  CHECK(early[0] == "P10 and P11 OFF in step " + std::to_string(weld->number) + ": in the way of the torch.");
  CHECK(early[1] == "All others stay until the box is let go.");
}

// Euclid I.47: 3, 4 and 5 make a right angle.
TEST_CASE("the three figures of the short stop's check make a right angle and fit the table") {
  const std::regex figures("mark ([0-9.]+) mm from 0 on the first line and ([0-9.]+) mm from 0 away from "
                           "you, the marks ([0-9.]+) mm apart");
  const auto triangle = [&](std::optional<Vec2> table, Vec3 size) {
    Plan plan = held_plan();
    plan.boxes[0].fixture->table_mm = table;
    plan.boxes[0].fixture->size_mm = size;
    std::smatch found;
    const std::string line = checks_of(card_of(plan)).at(1);
    INFO(line);
    REQUIRE(std::regex_search(line, found, figures));
    const double x = std::stod(found[1]), y = std::stod(found[2]), across = std::stod(found[3]);
    CHECK(x * x + y * y == Approx(across * across));
    CHECK(std::min(x, y) / std::max(x, y) == Approx(0.75));
    return Vec2{x, y};
  };
  const Vec3 locker{400, 600, 300};
  CHECK(triangle({}, locker) == Vec2{300, 400});              // in the box
  CHECK(triangle(Vec2{1200, 800}, locker) == Vec2{800, 600}); // 800 and 700 from 0 to the table's edges
  CHECK(triangle(Vec2{500, 2000}, locker) == Vec2{300, 400});
  CHECK(triangle({}, {130, 95, 40}) == Vec2{120, 90}); // smaller than a round one
  Plan inches = held_plan();
  const std::string line = checks_of(card_of(inches, {UnitSystem::inch_fractions, "en-US"})).at(1);
  INFO(line);
  CHECK(line.find("mark 24 in from 0 on the first line and 18 in from 0 away from you") != std::string::npos);
  CHECK(line.find("(tape, not over 1/32 in off)") != std::string::npos);
  CHECK(line.find(" mm") == std::string::npos);
  inches.boxes[0].fixture->table_mm.reset();
  CHECK(
      checks_of(card_of(inches, {UnitSystem::inch_fractions, "en-US"}))
          .at(1)
          .find(
              "mark 12 in from 0 on the first line and 16 in from 0 away from you, the marks 20 in apart") !=
      std::string::npos);
}

TEST_CASE("the stops' line, the former and the pushing home are checked with gauges that read it") {
  const std::vector<std::string> lines = checks_of(card_of(held_plan()));
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].find("against P1 and P2") != std::string::npos);
  CHECK(lines[0].find("60 mm to the left of the middle of P1") != std::string::npos);
  CHECK(lines[1].rfind("P3 square to that", 0) == 0);
  // Between the middles of the cuts: sqrt((395.5 - 25)^2 + (595.5 - 25)^2) = 680.3, to what a tape reads.
  CHECK(lines[2].find("sides first, 395.5 mm twice and 595.5 mm twice (steel rule)") != std::string::npos);
  CHECK(lines[2].find("cut corner") != std::string::npos);
  CHECK(lines[2].find("about 680.5 mm") != std::string::npos);
  CHECK(lines[3].find("a feeler of 0.20 mm goes in nowhere") != std::string::npos);
  Plan plan = held_plan();
  plan.boxes[0].fixture->pieces[5].clip_mm = 0.0;
  for (const char* id : {"A", "B", "C"})
    plan.boxes[0].fixture->pieces.push_back(test::piece(id, "support", {{1, 2, 0}}, {"B"}));
  const std::vector<std::string> more = checks_of(card_of(plan));
  REQUIRE(more.size() == 5);
  CHECK(more[2].find("Straightedge over A, B and C") != std::string::npos);
  CHECK(more[3].find("about 715 mm") != std::string::npos); // sqrt(395.5^2 + 595.5^2) = 714.9
  CHECK(more[3].find("cut corner") == std::string::npos);
}

TEST_CASE("0 has a dot in the lower left corner of the drawing, the long side's stops stand below the box") {
  const BoxPlan box = held_plan().boxes[0];
  const Drawing plan = draw_fixture(Composer({}), box);
  const auto [low, high] = outline_of(plan);
  const Vec2 zero{low.x, high.y};
  CHECK(std::any_of(plan.lines.begin(), plan.lines.end(), [&](const DrawnLine& line) {
    return line.points.size() == 24 && line.stroke == Stroke::bar && is_near(middle_of(line), zero, 0.5);
  }));
  CHECK(std::any_of(plan.labels.begin(), plan.labels.end(), [&](const DrawnLabel& label) {
    return label.text == "0" && label.strong && is_near(label.at, zero, 12.0);
  }));
  // Scale from the box's own size; what is 60 mm from 0 along x stands there.
  const double scale = (high.x - low.x) / 400.0;
  CHECK((high.y - low.y) / 600.0 == Approx(scale).epsilon(0.01));
  CHECK(label_of(plan, "P1").at.y > high.y);
  CHECK(label_of(plan, "P1").at.x == Approx(low.x + 60.0 * scale).margin(8.0));
  CHECK(label_of(plan, "P2").at.x == Approx(low.x + 340.0 * scale).margin(8.0));
  CHECK(label_of(plan, "P3").at.x < low.x);
  CHECK(label_of(plan, "P3").at.y == Approx(high.y - 450.0 * scale).margin(6.0));
  for (const PlannedPiece& piece : box.fixture->pieces)
    label_of(plan, piece.id);
  // Along x: stops, hold-downs, the one cramp from under to top; along y: the short stop, hold-downs, cramps.
  std::set<std::string> below, beside;
  for (const DrawnLabel& label : plan.labels) {
    if (label.strong) continue;
    if (label.at.y > high.y + 8.0) below.insert(label.text);
    if (label.at.x < low.x - 8.0 && label.at.y < high.y + 8.0) beside.insert(label.text);
  }
  for (const char* at : {"60", "110", "200", "290", "340", "400"})
    CHECK(below.count(at) == 1);
  for (const char* at : {"120", "150", "450", "480", "600"})
    CHECK(beside.count(at) == 1);
  CHECK(plan.told.find("P6 former") != std::string::npos);
}

TEST_CASE("a wall is drawn only when it shows a piece that no other has shown, with heights from the table") {
  BoxPlan box = held_plan().boxes[0];
  const auto walls = [&] {
    std::vector<std::string> out;
    for (const Drawing& wall : draw_fixture_walls(Composer({}), box))
      out.push_back(wall.title.substr(0, 1));
    return out;
  };
  CHECK(walls() == std::vector<std::string>{"U", "L", "T"}); // R has only what those have
  const Drawing under = draw_fixture_walls(Composer({}), box).front();
  for (const char* height : {"40", "150", "260", "275", "300"})
    label_of(under, height);
  label_of(under, "0"); // the datum corner is on it
  // Seen from outside, from the long side: the first stop is on the left.
  CHECK(label_of(under, "P1").at.x < label_of(under, "P2").at.x);
  const Drawing left = draw_fixture_walls(Composer({}), box).at(1);
  CHECK(label_of(left, "P7").at.x > label_of(left, "P8").at.x); // 0 is on the right there
  auto& pieces = box.fixture->pieces;
  pieces.erase(pieces.begin() + 10, pieces.begin() + 11); // P11, in the corner of T and R
  CHECK(walls() == std::vector<std::string>{"U", "L"});
  pieces.clear();
  CHECK(walls().empty());
}

TEST_CASE("in inches the card has no millimetres, and a US shop reads its own words") {
  for (const UnitSystem units : {UnitSystem::inch_decimal, UnitSystem::inch_fractions}) {
    const DocumentPage card = card_of(held_plan(), {units, "en-US"});
    Document alone;
    alone.first = {card};
    const std::string page = write_text(alone) + write_html(alone).substr(write_html(alone).find("</style>"));
    CHECK_FALSE(std::regex_search(page, std::regex("[0-9] (mm|N|deg C)\\b")));
    CHECK(page.find("bar clamp") != std::string::npos);
    CHECK(page.find("sash cramp") == std::string::npos);
    CHECK(page.find("inside frame") != std::string::npos);
  }
}

TEST_CASE("the foreman reads how well the box is fixed, what presses, and what the shop lacks") {
  const Document document = make_document(held_plan(), {});
  const auto table = [&](const std::string& title) {
    for (const DocumentTable& each : document.boxes[0].foreman)
      if (each.title == title) return each;
    FAIL("no table " << title);
    return DocumentTable();
  };
  const DocumentTable fixed = table("Fixture: how well the box is fixed, and what presses on it");
  using Row = std::vector<std::string>;
  CHECK(row_of(fixed, "located by") == Row{"located by", "the table, P1, P2, P3"});
  CHECK(row_of(fixed, "rank of the six places")[1] == "6");
  CHECK(row_of(fixed, "their determinant")[1] == "66.6 L"); // 400 x 600 x 280 mm
  CHECK(row_of(fixed, "error of each place")[1] == "0.20 mm");
  CHECK(row_of(fixed, "a corner of the box moves by then, at worst")[1] == "1.25 mm");
  CHECK(row_of(fixed, "the two stops turn it by then, at worst")[1] == "0.08 deg"); // 0.4 in 280
  CHECK(row_of(fixed, "P7, sash cramp, presses with")[1] == "1200 N");
  const DocumentTable bill = table("Fixture: what it takes");
  CHECK(bill.rows[0] == Row{"sash cramp", "600 mm", "1", "0", "1"});
  CHECK(bill.rows[2] == Row{"stop", "-", "3", "4", "0"});
  CHECK(bill.rows[5] == Row{"corner clamp", "-", "4", "not stated", "-"});
}

} // namespace tacksquare
