// The opening page, the bend card, the cut list and the first-off say what the plan holds, in all units.
#include "sheet/document.h"
#include "sheet/draw.h"
#include "sheet/sample_row.h"
#include "support/catch.h"

#include <algorithm>
#include <regex>

namespace tacksquare {
namespace {

const DocumentTable& table_named(const DocumentPage& page, const std::string& title) {
  for (const DocumentSection& section : page.sections)
    for (const DocumentTable& table : section.tables)
      if (table.title.rfind(title, 0) == 0) return table;
  FAIL("no table " << title);
  return page.sections.at(0).tables.at(0);
}

std::string cell(const DocumentTable& table, const std::string& row, std::size_t column) {
  for (const auto& cells : table.rows)
    if (cells.front() == row) return cells.at(column);
  FAIL("no row " << row << " in " << table.title);
  return {};
}

std::string lines_of(const DocumentPage& page) {
  std::string out;
  for (const DocumentSection& section : page.sections)
    for (const std::string& line : section.block.lines)
      out += line + "\n";
  return out;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

DocumentPage opening_page(const Plan& plan, const SheetOptions& options = {}) {
  const Document document = make_document(plan, options);
  REQUIRE(document.first.size() == 1);
  return document.first.front();
}

TEST_CASE("a plan without a row has no opening page, one with a row has it before all boxes") {
  CHECK(make_document(test::sample_plan(), {}).first.empty());
  const std::string text = write_text(make_document(test::sample_plan_in_row(), {}));
  CHECK(text.find("OPENING PAGE") < text.find("BENCH CARD"));
  CHECK(text.find("BENCH CARD") < text.find("BEND CARD"));
  CHECK(text.find("BEND CARD") < text.find("CUT LIST"));
  CHECK(text.find("CUT LIST") < text.find("FOREMAN'S PAGES"));
}

// 1202.4 - 0.8 = 1201.6; less three boxes of 400 and 0.3 clearance 1.3 is free. By hand from sample_row.h.
TEST_CASE("the budget goes from the opening down to what is left, worst case beside root-sum-square") {
  const DocumentPage page = opening_page(test::sample_plan_in_row());
  const DocumentTable& budget = table_named(page, "Where the width goes (mm)");
  CHECK(cell(budget, "Opening at its narrowest: under, back", 1) == "1202.40");
  CHECK(cell(budget, "in the way: rivet heads", 1) == "-0.80");
  CHECK(cell(budget, "Clear width", 1) == "1201.60");
  CHECK(cell(budget, "3 boxes as drawn", 1) == "-1200.00");
  CHECK(cell(budget, "Left for all that follows", 1) == "1.30");
  CHECK(cell(budget, "paint or powder", 1) == "0.48");
  CHECK(cell(budget, "paint or powder", 2) == "0.75");
  CHECK(cell(budget, "Together", 1) == "0.71");
  CHECK(cell(budget, "Together", 2) == "3.84");
  CHECK(cell(budget, "Left over as drawn", 2) == "-2.54");
  CHECK(cell(budget, "Left over as drawn", 4) == "-0.54");
  // What stands above a sum adds up to it, as printed, in the columns where things add.
  for (const std::size_t column : {std::size_t{1}, std::size_t{2}, std::size_t{4}}) {
    double sum = 0.0;
    for (const BudgetLine& line : test::sample_row().budget)
      for (const auto& cells : budget.rows)
        if (cells.back() != "" && cells.at(1) != "" &&
            std::abs(std::stod(cells.at(1)) - line.middle_mm) < 0.005 &&
            std::abs(std::stod(cells.at(2)) - line.middle_mm - line.worst_mm) < 0.005)
          sum += std::stod(cells.at(column));
    CHECK(sum == Approx(std::stod(cell(budget, "Together", column))).margin(0.03));
  }
}

TEST_CASE("the page says what to make, how often it goes in, and which rule was used") {
  Plan plan = test::sample_plan_in_row();
  const std::string said = lines_of(opening_page(plan));
  CHECK(has(said, "Make them 399.8 mm wide."));
  CHECK(has(said, "As drawn, of 100 rows go in: 17.0 (16.8 to 17.2)."));
  CHECK(has(said, "Made like this, of 100 rows go in: 96.2 (96.1 to 96.3). Wanted: 95."));
  CHECK(has(table_named(opening_page(plan), "Where the width goes").below.at(0), "go by the chance wanted"));
  plan.row->by = TargetRule::worst_case;
  CHECK(has(table_named(opening_page(plan), "Where the width goes").below.at(0), "go by the worst case"));
  plan.row->stands[2].target_mm = 398.5;
  CHECK(has(lines_of(opening_page(plan)), "Make no. 1 and 2 399.8 mm wide and no. 3 398.5 mm wide."));
  // Few draws are not told sharper than they are.
  plan.row->as_stated = {0.17, 0.12, 0.23, 100};
  CHECK(has(lines_of(opening_page(plan)), "go in: 17 (12 to 23)."));
  plan.row->as_stated = {0.0, 0.0, 0.03, 100};
  CHECK(has(lines_of(opening_page(plan)), "go in: fewer than 1 (fewer than 1 to 3)."));
}

TEST_CASE("a row that more likely does not go in is told red, and so is one that never does") {
  Plan plan = test::sample_plan_in_row();
  CHECK(opening_page(plan).red.empty());
  CHECK_FALSE(more_likely_missed(Plan{"", "", "", plan.row, {}}));
  plan.row->as_aimed = {0.38, 0.37, 0.39, 100000};
  REQUIRE(opening_page(plan).red.size() == 1);
  CHECK(has(opening_page(plan).red[0], "of 100 such rows 38 would"));
  CHECK(more_likely_missed(Plan{"", "", "", plan.row, {}}));
  plan.row->as_aimed = {0.9, 0.89, 0.91, 100000};
  plan.row->fits_never = true;
  CHECK(has(opening_page(plan).red.at(0), "too many for ALCOVE 2"));
  CHECK(more_likely_missed(Plan{"", "", "", plan.row, {}}));
}

// Others at 399.9 expected: 399.9 + 2 x 399.9 = 1199.7 by hand; a measured one stands in as it was read.
TEST_CASE("the box that is cut last has a line to reckon it from the others") {
  Plan plan = test::sample_plan_in_row();
  CHECK(has(lines_of(opening_page(plan)), "No. 3: 1199.70 - ____ - ____ = ____ mm"));
  plan.row->stands[0].measured = true;
  plan.row->stands[0].target_mm = 400.1;
  const std::string said = lines_of(opening_page(plan));
  CHECK(has(said, "No. 3: 1199.90 - 400.10 - ____ = ____ mm"));
  CHECK(has(said, "widest place of no. 2,"));
  plan.row->stands[2].cut_last = false;
  CHECK_FALSE(has(lines_of(opening_page(plan)), "= ____"));
}

TEST_CASE("the head of a bench card has the opening, the gap gauge and the place to tick") {
  Plan plan = test::sample_plan_in_row();
  const auto head = [&] {
    const Document document = make_document(plan, {});
    std::string all;
    for (const std::string& line : document.boxes.at(0).head)
      all += line + "\n";
    return all;
  };
  CHECK(has(head(), "ALCOVE 2: gap gauge 400.3 mm\nleft [ ] middle [ ] right [ ]"));
  plan.row->stands[1].largest_mm = 399.9;
  CHECK(has(head(), "gap gauges 400.3 and 399.9 mm"));
  plan.row->stands.push_back(plan.row->stands[0]);
  CHECK(has(head(), "place from the left ____ of 4"));
  plan.row->stands.clear();
  CHECK_FALSE(has(head(), "ALCOVE"));
}

TEST_CASE("nesting, flush seams and the way in are told with the places in the row") {
  Plan plan = test::sample_plan_in_row();
  plan.row->nested = {1, 0, 2};
  plan.row->nested_row_mm = 1199.4;
  plan.row->as_listed_row_mm = 1200.6;
  plan.row->stands[2].entry = "tip";
  plan.row->stands[2].sweep_mm = 671.2;
  const std::string said = lines_of(opening_page(plan));
  CHECK(has(said,
            "Stand them 2, 1, 3: so their leans nest, 1199.40 mm in all. In the order above: 1200.60 mm."));
  CHECK(
      has(said, "GEAR LOCKER, side L: the cap of S1 and S4. Left as welded it takes 0.20 mm of the width."));
  CHECK(has(said, "No. 1 and 2: slide in from the front, upright."));
  CHECK(has(said, "No. 3: foot first, then swung upright: the swing takes 671.2 mm of height."));
}

TEST_CASE("a gap gauge is rounded down, a smallest size and a go stick up") {
  Plan plan = test::sample_plan_in_row();
  plan.row->stands[0].largest_mm = 400.29;
  plan.row->stands[0].smallest_mm = 398.61;
  plan.row->go_stick_mm = 1201.51;
  const DocumentPage page = opening_page(plan);
  const DocumentTable& stands = table_named(page, "The boxes");
  CHECK(stands.rows[0].at(4) == "400.2 mm");
  CHECK(stands.rows[0].at(5) == "398.7 mm");
  CHECK(has(stands.below.at(0), "1201.6 mm"));
}

TEST_CASE("in inches no millimetre is left on the opening page, the bend card and the cut list") {
  for (const UnitSystem units : {UnitSystem::inch_decimal, UnitSystem::inch_fractions}) {
    Document document = make_document(test::sample_plan_in_row(), {units, "en-US"});
    for (const DocumentPage& card : document.boxes[0].cards)
      document.first.push_back(card);
    document.boxes.clear();
    const std::string text = write_text(document, 2000);
    std::smatch found;
    if (std::regex_search(text, found, std::regex("[0-9] (mm|kg|m2|N)\\b"))) FAIL_CHECK(found.str());
    CHECK(has(text, "Make them 15.740 in wide."));
    CHECK(has(text, "Where the width goes (in)"));
    for (const DocumentPage& page : document.first)
      for (const DocumentSection& section : page.sections)
        for (const Drawing& drawing : section.drawings)
          for (const DrawnLabel& label : drawing.labels)
            CHECK_FALSE(has(label.text, " mm"));
  }
}

TEST_CASE("no label of a row covers another, with one box or with ten, in any units") {
  Plan plan = test::sample_plan_in_row();
  Plan ten = plan, one = plan;
  one.row->stands.resize(1);
  const StandFit stand = ten.row->stands[0];
  ten.row->stands.assign(10, stand);
  for (std::size_t i = 0; i < 10; ++i) {
    ten.row->stands[i].copy = static_cast<int>(i) + 1;
    ten.row->stands[i].gap_mm = 0.5;
  }
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inch_decimal, UnitSystem::inch_fractions})
    for (const Plan* each : {&plan, &ten, &one}) {
      const Drawing drawing = draw_row(Composer({units, "en-GB"}), *each);
      for (std::size_t i = 0; i < drawing.labels.size(); ++i) {
        const LabelArea a = label_area(drawing.labels[i], drawing.labels[i].at);
        INFO(drawing.labels[i].text << ", " << each->row->stands.size() << " boxes");
        CHECK((a.x0 >= -0.01 && a.y0 >= -0.01 && a.x1 <= drawing.width_mm + 0.01 &&
               a.y1 <= drawing.height_mm + 0.01));
        for (std::size_t j = 0; j < i; ++j) {
          const LabelArea b = label_area(drawing.labels[j], drawing.labels[j].at);
          INFO("and " << drawing.labels[j].text);
          CHECK_FALSE((a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1));
        }
      }
      for (std::size_t i = 1; i <= each->row->stands.size(); ++i)
        CHECK(std::any_of(drawing.labels.begin(), drawing.labels.end(),
                          [&](const DrawnLabel& label) { return label.text == std::to_string(i); }));
    }
}

const DocumentPage& card(const Document& document, const std::string& page) {
  for (const DocumentPage& each : document.boxes.at(0).cards)
    if (each.page == page) return each;
  FAIL("no " << page);
  return document.boxes[0].cards.at(0);
}

TEST_CASE("the bend card has a numbered line for each bend, with gauge, edge, face up and punch") {
  const Document document = make_document(test::sample_plan_in_row(), {});
  const DocumentTable& bends = table_named(card(document, "BEND CARD"), "Bends of blank");
  REQUIRE(bends.rows.size() == 4);
  CHECK(bends.rows[0].at(0) == "1");
  CHECK(bends.rows[0].at(1) == "B-R");
  CHECK(bends.rows[0].at(2) == "inside");
  CHECK(bends.rows[1].at(2) == "TURN: inside");
  CHECK(bends.rows[2].at(3) == "edge of T");
  CHECK(bends.rows[2].at(4) == "298.2 mm");
  CHECK(bends.rows[2].at(5) == "90 deg");
  CHECK(bends.rows[2].at(6) == "390 mm");
  CHECK(has(bends.below.at(0), "no order does that with fewer turns"));
  CHECK(card(document, "BEND CARD").red.empty());
}

TEST_CASE("edges at one distance are told together, and so are bends of one stroke; far gauging is counted") {
  Plan plan = test::sample_plan_in_row();
  BendOrder& order = plan.boxes[0].bend_orders[0];
  order.steps[0].gauged_on = {"L", "R"};
  order.steps[1].gauged_on = {"L", "R"};
  order.steps[1].on_bend = true;
  order.steps[2].with = {order.steps[3].bend};
  order.steps.pop_back();
  order.far = 1;
  const Document document = make_document(plan, {});
  const DocumentTable& bends = table_named(card(document, "BEND CARD"), "Bends of blank");
  REQUIRE(bends.rows.size() == 3);
  CHECK(bends.rows[0].at(3) == "edges of L and R");
  CHECK(bends.rows[1].at(3) == "bends of L and R");
  CHECK(bends.rows[2].at(1) == "B-T and B-U");
  CHECK(has(bends.below.at(0), "1 bend is gauged from far; no order has fewer of the two together"));
  // Both have the number of their turn in the drawing.
  int threes = 0;
  for (const DrawnLabel& label : card(document, "BEND CARD").sections.at(1).drawings.at(0).labels)
    threes += label.text == "3" ? 1 : 0;
  CHECK(threes == 2);
}

TEST_CASE("the cut list tells bends by name, so that a number is always a turn at the brake") {
  const Document document = make_document(test::sample_plan_in_row(), {});
  const DocumentSection& blank = card(document, "CUT LIST").sections.at(1);
  int names = 0;
  for (const DrawnLabel& label : blank.drawings.at(0).labels) {
    CHECK_FALSE((label.text.size() == 1 && label.text[0] >= '1' && label.text[0] <= '9'));
    names += label.text.rfind("B-", 0) == 0 ? 1 : 0;
  }
  CHECK(names == 4);
  int rows = 0;
  for (const auto& row : blank.tables.at(0).rows)
    rows += row.at(0) == "bend B-L, deduction" ? 1 : 0;
  CHECK(rows == 1);
}

TEST_CASE("a part that cannot be bent is told red with the bend that is left over") {
  Plan plan = test::sample_plan_in_row();
  BendOrder& order = plan.boxes[0].bend_orders[0];
  order.steps.clear();
  for (const char* by : {"punch", "ram", "die", "bed", "gauge", "short"}) {
    order.blocked = BendBlocked{"B", "U", by, 320.0};
    const Document document = make_document(plan, {});
    REQUIRE(card(document, "BEND CARD").red.size() == 1);
    CHECK(has(card(document, "BEND CARD").red[0], "bend B-U is left over"));
    CHECK(has(card(document, "BEND CARD").red[0], "320 mm"));
    CHECK(card(document, "BEND CARD").sections.empty()); // no order, and nothing on how to read one
  }
}

// 995.8 + ... : length x width of the sample's blank is 996.8 x 1196.8 by hand (395 + 2 x 300.9, 595 + 2 x
// 300.9), two of them 2 x 0.9968 x 1.1968 = 2.386 m2 of sheet; the third
// is cut last.
TEST_CASE("the cut list sums mass and sheet over the batch and lists every dimension") {
  const Document document = make_document(test::sample_plan_in_row(), {});
  const DocumentPage& list = card(document, "CUT LIST");
  const DocumentTable& blanks = table_named(list, "Blanks to order");
  REQUIRE(blanks.rows.size() == 2);
  CHECK(blanks.rows[0].at(1) == "2");
  CHECK(blanks.rows[0].at(2) == "996.80 x 1196.80 mm");
  CHECK(blanks.rows[0].at(4) == "mild steel");
  CHECK(blanks.rows[0].at(5) == "+-0.20 mm");
  CHECK(blanks.rows[1].at(8) == "2.386 m2");
  const DocumentTable& corners = table_named(list, "Cut line of blank");
  CHECK(corners.rows.size() == 12);
  CHECK(table_named(list, "Dimensions of blank").rows.size() > 10);
}

TEST_CASE(
    "readings come with verdict, force and spring-back; the first-off with its correction and chances") {
  const Document document = make_document(test::sample_plan_in_row(), {});
  const DocumentBox& box = document.boxes.at(0);
  const auto titled = [&](const std::string& title) -> const DocumentTable& {
    for (const DocumentTable& table : box.foreman)
      if (table.title == title) return table;
    FAIL("no table " << title);
    return box.foreman.front();
  };
  const DocumentTable& readings = titled("Parts as they came");
  REQUIRE(readings.rows.size() == 3);
  CHECK(readings.rows[0].at(3) == "use");
  CHECK(readings.rows[1].at(1) == "wall lean: R");
  CHECK(readings.rows[1].at(3) == "dress over a block: leans too far");
  CHECK(readings.rows[1].at(4) == "33 N (28 to 38)");
  CHECK(readings.rows[2].at(3) == "reject: by the rule for gaps");
  const DocumentTable& limits = titled("Limits for parts as they come");
  REQUIRE(limits.rows.size() == 2); // walls share a row, seams another
  CHECK(limits.rows[0].at(0) == "wall lean: L, R, T and U");
  REQUIRE(!box.notes.empty());
  CHECK(box.notes[0].title == "FIRST-OFF: BOX 1");
  CHECK(has(box.notes[0].lines.at(0), "CORRECT the rest"));
  CHECK(box.notes[0].lines.at(1) ==
        "Make the rest 399.40 mm, width: their blanks 0.40 mm smaller than the first one.");
  CHECK(has(box.notes[0].lines.at(2),
            "62 (61 to 63) with the rest unchanged, 97.0 (96.8 to 97.2) with the correction"));
}

} // namespace
} // namespace tacksquare
