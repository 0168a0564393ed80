// check_plan on row, flat patterns, bends, readings and first-off: silent on what adds up, and one sentence
// for each way in which it does not.
#include "plan/verify/check_plan.h"
#include "planning/bending/find_bend_order.h"
#include "support/planned.h"

#include <functional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// A tool set as small shops have it; common practice, no source.
Brake small_brake() {
  Brake brake;
  brake.name = "brake";
  brake.punch_angle = deg(85);
  brake.punch_height = mm(260);
  brake.punch_thickness = mm(16);
  brake.ram_thickness = mm(60);
  brake.die_opening = mm(24);
  brake.die_width = mm(40);
  brake.die_height = mm(80);
  brake.bed_thickness = mm(60);
  brake.gauge_least = mm(5);
  brake.gauge_most = mm(1000);
  return brake;
}

Chance chance_of(double value) {
  const double half = 1.645 * std::sqrt(value * (1.0 - value) / 100000.0);
  return {value, value - half, value + half, 100000};
}

// Two trays side by side, made as stated: 1 mm of the opening is left by the worst case.
RowFit row_of(const Job& job, const BoxPlan& box, double width_mm) {
  const Source source{"by hand", Mark::common_practice};
  RowFit row;
  row.name = "ALCOVE";
  row.clearance_mm = 0.3;
  row.coating_mm = 0.08;
  row.wanted_chance = 0.95;
  row.budget = {{"coating", 0.32, 0.1, 0.05, 0.35, source}, {"blank", 0.0, 0.4, 0.12, 0.1, source}};
  row.clear.width = {2.0 * width_mm + 4.0, 2.0 * width_mm + 4.0, "middle", 0.0, 0.0, {}};
  const auto by = [&](double takes) {
    const double needs = 2.0 * width_mm + row.clearance_mm + takes;
    return Reckoned{needs, row.clear.width.mm - needs, width_mm};
  };
  row.worst = by(0.82);
  row.rss = by(0.32 + 0.13);
  row.drawn = by(0.45);
  row.as_stated = row.as_aimed = chance_of(0.97);
  for (int copy = 1; copy <= 2; ++copy)
    row.stands.push_back({box.id,
                          copy,
                          width_mm,
                          width_mm,
                          width_mm + 1.5,
                          width_mm - 3.0,
                          0.0,
                          0.0,
                          copy == 2,
                          false,
                          "slide",
                          150.0,
                          {width_mm, width_mm - 0.2, width_mm + 0.2},
                          {},
                          false,
                          {},
                          width_mm + 1.0,
                          width_mm + 0.5,
                          width_mm + 0.25,
                          "coating"});
  row.last_mm = width_mm;
  row.go_stick_mm = row.clear.width.mm;
  row.flush = {{box.id, "seam-cap", job.boxes[0].seams[0].id, box.faces[0].id, 0.2, source}};
  return row;
}

// The folded tray with all that a job with an opening and a brake adds.
Planned fitted() {
  Planned made = planned_sample("divided-tray.xml");
  BoxPlan& box = made.plan.boxes.at(0);
  const double width_mm = in_mm(made.job.boxes.at(0).width.value());
  HardOpening opening;
  opening.name = "ALCOVE";
  opening.widths[1] = {mm(2.0 * width_mm + 4.0)};
  opening.clearance = mm(0.3);
  opening.coating = mm(0.08);
  opening.row = {{0, 1, mm(0), false, false, {}, {}, {}}, {0, 2, mm(0), false, true, {}, {}, {}}};
  made.job.opening = opening;
  made.job.brake = small_brake();
  made.plan.row = row_of(made.job, box, width_mm);
  for (PlannedMeasure& measure : box.measures)
    if (measure.id.rfind("width-", 0) == 0) measure.over_mm = measure.under_mm = 1.0;
  Diagnostics faults;
  box.patterns = flat_patterns(made.job, made.job.boxes[0], made.geometry[0], {}, faults);
  REQUIRE(!faults.has_errors());
  box.sheets.clear();
  for (const Sheet& sheet : made.job.sheets)
    box.sheets.push_back({sheet.id, "metal", in_mm(sheet.thickness)});
  box.bend_orders.clear();
  for (const FlatPattern& pattern : box.patterns)
    if (!pattern.bends.empty()) box.bend_orders.push_back(find_bend_order(*made.job.brake, pattern));
  REQUIRE(!box.bend_orders.empty());
  REQUIRE(!box.bend_orders[0].blocked);
  const Source source{"by hand", Mark::common_practice};
  box.receiving = {{"wall-lean", "L", 2.6, 5.2, PartVerdict::back_to_brake, Band{25, 20, 30}, {}, source}};
  box.part_readings = {{"wall-lean", "L", 1, 3.0, PartVerdict::dress, Band{25, 20, 30}, {}, {}, "lean"}};
  box.first_off = FirstOff{box.id,
                           1,
                           Release::correct,
                           "common-offset",
                           'x',
                           {{'x',
                             width_mm,
                             {width_mm + 0.4, width_mm + 0.3, width_mm + 0.5},
                             {{"blank", {0, -0.2, 0.2}, {0.1, 0.0, 0.2}, {0.1, 0.0, 0.2}}},
                             {width_mm + 0.4, width_mm + 0.2, width_mm + 0.6},
                             -0.4}},
                           chance_of(0.6),
                           chance_of(0.97)};
  return made;
}

const Planned& good() {
  static const Planned made = fitted();
  return made;
}

using Spoil = std::function<void(Plan&)>;
void spoilt(const Spoil& spoil, const std::vector<std::string>& pieces) {
  Plan bad = good().plan;
  spoil(bad);
  CHECK_FALSE(bad == good().plan);
  const std::vector<std::string> lines = check_plan(good().job, good().geometry, bad);
  const bool told_so = std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return std::all_of(pieces.begin(), pieces.end(),
                       [&](const std::string& piece) { return line.find(piece) != std::string::npos; });
  });
  INFO("wanted: " << joined(pieces) << "told:\n" << joined(lines));
  CHECK(told_so);
}
void spoilt_row(const std::function<void(RowFit&)>& spoil, const std::vector<std::string>& pieces) {
  spoilt([&](Plan& plan) { spoil(*plan.row); }, pieces);
}
void spoilt_box(const std::function<void(BoxPlan&)>& spoil, const std::vector<std::string>& pieces) {
  spoilt([&](Plan& plan) { spoil(plan.boxes.at(0)); }, pieces);
}
// The first pattern that is bent.
FlatPattern& folded(BoxPlan& box) {
  for (FlatPattern& pattern : box.patterns)
    if (!pattern.bends.empty()) return pattern;
  FAIL("no part is folded");
  return box.patterns.front();
}

} // namespace

TEST_CASE("a row, patterns, bends and readings that add up break no rule") {
  CHECK(joined(check_plan(good().job, good().geometry, good().plan)) == "");
}

TEST_CASE("the row has the boxes of the job, in their places") {
  spoilt([](Plan& plan) { plan.row.reset(); }, {"no row is planned"});
  spoilt_row([](RowFit& row) { row.stands.pop_back(); }, {"has 1 boxes, the job 2"});
  spoilt_row([](RowFit& row) { row.stands[1].copy = 1; }, {"stands in it twice"});
  spoilt_row([](RowFit& row) { row.stands[1].copy = 7; }, {"which is not planned"});
  spoilt_row([](RowFit& row) { row.stands[1].gap_mm = 0.2; }, {"another gap than the job states"});
  spoilt_row([](RowFit& row) { row.stands[1].cut_last = false; }, {"cut last, or not, against the job"});
  spoilt_row([](RowFit& row) { row.clear.width.narrowest_mm += 1.0; }, {"is narrowest at", "the job says"});
  spoilt_row([](RowFit& row) { row.clear.width.lost_to_plumb_mm = 0.5; }, {"mm clear, its parts"});
}

TEST_CASE("what the causes take adds up to what the row takes, by each way of reckoning") {
  spoilt_row([](RowFit& row) { row.budget[0].worst_mm += 0.1; }, {"by the worst case", "its causes"});
  spoilt_row([](RowFit& row) { row.budget[0].rss_mm += 0.1; }, {"by root-sum-square", "its causes"});
  spoilt_row([](RowFit& row) { row.budget[1].share_mm -= 0.1; }, {"by chance", "its causes"});
  spoilt_row([](RowFit& row) { row.worst.left_mm += 0.1; }, {"which is not clear width less row"});
  spoilt_row([](RowFit& row) { std::swap(row.budget[0], row.budget[1]); }, {"dearest first"});
  spoilt_row([](RowFit& row) { row.budget[0].source.text.clear(); }, {"has no source"});
}

TEST_CASE("boxes that just pass their gap gauges go in together") {
  spoilt_row([](RowFit& row) { row.stands[0].largest_mm += 1.0; }, {"just pass their gap gauges"});
  spoilt_row([](RowFit& row) { row.stands[0].target_mm += 1.0; }, {"aims at more than is stated"});
  spoilt_row([](RowFit& row) { row.stands[0].largest_mm -= 2.0; }, {"a box to size does not pass"});
  spoilt_row([](RowFit& row) { row.stands[0].width_mm.low += 9.0; }, {"a width that is not in order"});
  spoilt_row([](RowFit& row) { row.last_mm.reset(); }, {"cut last, or does not"});
  spoilt_row([](RowFit& row) { row.go_stick_mm += 1.0; }, {"longer than the opening"});
  spoilt_box(
      [](BoxPlan& box) {
        for (PlannedMeasure& measure : box.measures)
          if (measure.id == "width-1") measure.over_mm = 2.0;
      },
      {"width-1", "passes a box that the row does not"});
}

// The width of the interval of a share of many draws: normal distribution.
TEST_CASE("chances are chances, as sure as their draws make them, and told red when they are bad") {
  spoilt_row([](RowFit& row) { row.as_aimed.high = 1.2; }, {"a chance as aimed that is none"});
  spoilt_row([](RowFit& row) { row.as_aimed.low = 0.9; }, {"as aimed that is sure to"});
  spoilt_row([](RowFit& row) { row.as_stated = chance_of(0.98); }, {"less often as aimed than as stated"});
  spoilt_row([](RowFit& row) { row.as_aimed = row.as_stated = chance_of(0.9); },
             {"less often than wanted, and no caution"});
  spoilt_row([](RowFit& row) { row.as_aimed = row.as_stated = chance_of(0.4); },
             {"and no red caution says so"});
}

TEST_CASE("a nesting order holds each box once and takes no more; what is flush is there") {
  spoilt_row([](RowFit& row) { row.nested = {0, 0}; }, {"an order that is none"});
  spoilt_row(
      [](RowFit& row) {
        row.nested = {1, 0};
        row.nested_row_mm = 2.0;
        row.as_listed_row_mm = 1.0;
      },
      {"takes more when it nests"});
  spoilt_row([](RowFit& row) { row.flush[0].where = "S99"; }, {"S99", "does not have"});
  spoilt_row([](RowFit& row) { row.flush[0].proud_mm = 0.0; }, {"not proud"});
}

// Shoelace and DIN 6935, each by verify's own few lines.
TEST_CASE("cut lines close, and area, middle, mass and bent zones are what they say") {
  spoilt_box([](BoxPlan& box) { box.patterns.pop_back(); }, {"has 0 flat patterns"});
  spoilt_box([](BoxPlan& box) { folded(box).part = "other"; }, {"part other is cut"});
  spoilt_box([](BoxPlan& box) { folded(box).outline.resize(2); }, {"does not close"});
  spoilt_box([](BoxPlan& box) { std::swap(folded(box).outline[0], folded(box).outline[1]); },
             {"does not close"});
  spoilt_box([](BoxPlan& box) { folded(box).area_mm2 *= 1.01; }, {"mm2, not"});
  spoilt_box([](BoxPlan& box) { folded(box).centroid.x += 1.0; }, {"has its middle elsewhere"});
  spoilt_box([](BoxPlan& box) { folded(box).length_mm += 1.0; }, {"mm flat, not"});
  spoilt_box([](BoxPlan& box) { folded(box).mass_kg += 1.0; }, {"kg, not"});
  spoilt_box([](BoxPlan& box) { folded(box).thickness_mm *= 2.0; }, {"another sheet"});
  spoilt_box([](BoxPlan& box) { folded(box).tolerance_mm = 0.0; }, {"without a tolerance"});
  spoilt_box([](BoxPlan& box) { folded(box).bends[0].flat_mm += 0.1; }, {"by DIN 6935"});
  spoilt_box([](BoxPlan& box) { folded(box).bends[0].deduction_mm += 0.1; }, {"has a deduction of"});
  spoilt_box([](BoxPlan& box) { folded(box).bends[0].own_deduction = true; }, {"measured deduction"});
  spoilt_box([](BoxPlan& box) { folded(box).bends.pop_back(); }, {"bends in the flat, the job"});
  spoilt_box([](BoxPlan& box) { box.sheets[0].thickness_mm += 0.5; }, {"is not one of the job's"});
}

TEST_CASE("each bend is made once where the stops go, or a red caution says that none can") {
  spoilt_box([](BoxPlan& box) { box.bend_orders.clear(); }, {"has 0 orders of bends"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps.pop_back(); }, {"are made"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps[0] = box.bend_orders[0].steps[1]; }, {"twice"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps[0].gauge_mm = 2.0; }, {"where the stops do not go"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps[0].angle_deg += 1.0; }, {"another angle"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps[0].on_bend = true; }, {"not made yet"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps[0].clear_mm = -1.0; }, {"goes through the"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].turns += 1; }, {"times, not"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].far += 1; }, {"gauged far"});
  spoilt_box([](BoxPlan& box) { box.bend_orders[0].steps[0].gauged_on.clear(); }, {"gauged on nothing"});
  spoilt_box(
      [](BoxPlan& box) {
        BendOrder& order = box.bend_orders[0];
        order.steps[0].with = {order.steps[1].bend};
        order.steps.erase(order.steps.begin() + 1);
      },
      {"not on its line"});
  spoilt_box(
      [](BoxPlan& box) {
        box.bend_orders[0].steps.clear();
        box.bend_orders[0].blocked = BendBlocked{"B", "L", "ram", 300.0};
      },
      {"cannot be bent, and no red caution"});
}

TEST_CASE("parts that are not used are told red, and a first-off is one of the batch whose release fits") {
  spoilt_box([](BoxPlan& box) { box.part_readings[0].verdict = PartVerdict::reject; },
             {"is not used, and no red"});
  spoilt_box([](BoxPlan& box) { box.part_readings[0].copy = 9; }, {"box 9 was read"});
  spoilt_box([](BoxPlan& box) { box.receiving[0].dress_mm = 1.0; }, {"passes more than may be dressed"});
  spoilt_box([](BoxPlan& box) { box.first_off->copy = 9; }, {"its first-off is another box"});
  spoilt_box([](BoxPlan& box) { box.first_off->sizes[0].correction_mm = 0.0; }, {"corrects nothing"});
  spoilt_box([](BoxPlan& box) { box.first_off->corrected = chance_of(0.5); }, {"makes it worse"});
  spoilt_box(
      [](BoxPlan& box) {
        box.first_off->release = Release::release;
        box.first_off->why = "in-limits";
      },
      {"less often than wanted"});
  spoilt_box(
      [](BoxPlan& box) {
        box.first_off->sizes[0].causes[0].after_mm = {0, -1, 1};
      },
      {"knows less of"});
}
