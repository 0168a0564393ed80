// The gear lockers in their alcove, by hand: the row, flat patterns, bends, readings and the first-off.
#pragma once

#include "sheet/sample_plan.h"

#include <cmath>

namespace tacksquare::test {

inline RowFit sample_row() {
  const Source practice{"shop practice", Mark::common_practice},
      derived{"docs/theory.md, wall", Mark::derived};
  RowFit row;
  row.name = "ALCOVE 2";
  row.clear.width = {1201.6, 1202.4, "under-back", 0.0, 0.8, {"rivet heads"}};
  row.clear.height = ClearSize{603.5, 603.5, "right-middle", 0.0, 0.0, {}};
  row.clear.depth = ClearSize{311.0, 311.0, "right", 0.0, 0.0, {}};
  row.clearance_mm = 0.3;
  row.coating_mm = 0.08;
  row.as_stated = {0.17, 0.168, 0.172, 100000};
  row.as_aimed = {0.962, 0.961, 0.963, 100000};
  row.height = Chance{0.999, 0.9985, 0.9993, 100000};
  row.depth = Chance{0.999, 0.9985, 0.9993, 100000};
  row.budget = {{"bend-lean", 0.35, 1.42, 0.71, 1.02, derived}, {"coating", 0.48, 0.27, 0.18, 0.55, practice},
                {"grinding", 0.3, 0.3, 0.12, 0.34, practice},   {"blank", 0.0, 0.6, 0.4, 0.28, practice},
                {"gauge", 0.0, 0.3, 0.17, 0.05, practice},      {"weld", -0.42, 0.24, 0.1, -0.4, derived}};
  double middle = 0.0, worst = 0.0, square = 0.0, share = 0.0;
  for (const BudgetLine& line : row.budget) {
    middle += line.middle_mm;
    worst += line.worst_mm;
    square += line.rss_mm * line.rss_mm;
    share += line.share_mm;
  }
  const double least = 1200.0 + row.clearance_mm;
  const auto by = [&](double takes) {
    const double needs = least + takes, left = row.clear.width.mm - needs;
    return Reckoned{needs, left, 400.0 + std::floor(left / 3.0 * 10.0) / 10.0};
  };
  row.worst = by(middle + worst);
  row.rss = by(middle + std::sqrt(square));
  row.drawn = by(share);
  row.stated_target_mm = 399.7;
  for (int copy = 1; copy <= 3; ++copy)
    row.stands.push_back({"locker",
                          copy,
                          400.0,
                          399.8,
                          400.3,
                          398.6,
                          0.0,
                          0.0,
                          copy == 3,
                          false,
                          "slide",
                          600.0,
                          {399.9, 399.4, 400.3},
                          {},
                          false,
                          {},
                          401.75,
                          400.5,
                          400.25,
                          "belly"});
  row.last_mm = 399.9;
  row.go_stick_mm = 1201.6;
  row.go_stick_height_mm = 600.3;
  row.packer_mm = 0.5;
  row.flush = {{"locker", "seam-cap", "S1", "L", 0.2, practice},
               {"locker", "seam-cap", "S2", "R", 0.2, practice},
               {"locker", "seam-cap", "S4", "L", 0.2, practice},
               {"locker", "bend-bulge", "B-L", "L", 0.15, practice}};
  return row;
}

// Back, top, right, under and left side of the locker in one blank; t 2, r 2.5, all bends by 90 degrees.
inline FlatPattern sample_pattern() {
  constexpr double kWide = 395.0, kHigh = 595.0, kLeg = 295.5, kZone = 5.4; // flat, and of a bent zone
  constexpr double kSide = kLeg + kZone;
  FlatPattern out;
  out.part = "blank";
  out.sheet = "s2";
  out.thickness_mm = 2.0;
  out.length_mm = kWide + 2 * kSide;
  out.width_mm = kHigh + 2 * kSide;
  const double x0 = kSide, x1 = kSide + kWide, y0 = kSide, y1 = kSide + kHigh;
  out.outline = {{x0, 0},
                 {x1, 0},
                 {x1, y0},
                 {out.length_mm, y0},
                 {out.length_mm, y1},
                 {x1, y1},
                 {x1, out.width_mm},
                 {x0, out.width_mm},
                 {x0, y1},
                 {0, y1},
                 {0, y0},
                 {x0, y0}};
  out.holes = {{{350, 780}, {450, 780}, {450, 820}, {350, 820}}};
  const auto face = [](std::string id, Vec2 low, Vec2 high) {
    FlatFace made;
    made.id = std::move(id);
    made.origin = low;
    made.outline = made.flat = {low, {high.x, low.y}, high, {low.x, high.y}};
    return made;
  };
  out.faces = {face("B", {x0, y0}, {x1, y1}), face("T", {x0, y1 + kZone}, {x1, out.width_mm}),
               face("R", {x1 + kZone, y0}, {out.length_mm, y1}), face("U", {x0, 0}, {x1, kLeg}),
               face("L", {0, y0}, {kLeg, y1})};
  const auto bend = [](std::string to, Vec2 start, Vec2 end) {
    return FlatBend{"B", std::move(to), start, end, 1.5707963, 2.5, 5.4, 3.6, false};
  };
  const double half = kZone / 2;
  out.bends = {bend("T", {x0, y1 + half}, {x1, y1 + half}), bend("R", {x1 + half, y1}, {x1 + half, y0}),
               bend("U", {x1, y0 - half}, {x0, y0 - half}), bend("L", {x0 - half, y0}, {x0 - half, y1})};
  out.area_mm2 = kWide * out.width_mm + 2 * kSide * kHigh - 4000.0;
  out.mass_kg = out.area_mm2 * 2.0 * 7.85e-6;
  out.centroid = {out.length_mm / 2, out.width_mm / 2};
  out.tolerance_mm = 0.2;
  return out;
}

inline BendOrder sample_bend_order() {
  BendOrder out;
  out.part = "blank";
  const auto step = [](std::size_t bend, std::string to, double length, double punch, double clear,
                       bool turned) {
    BendStep made;
    made.bend = bend;
    made.face_a = "B";
    made.face_b = to;
    made.angle_deg = 90.0;
    made.length_mm = length;
    made.punch_mm = punch;
    made.gauged_on = {std::move(to)};
    made.gauge_mm = 298.2;
    made.clear_mm = clear;
    made.nearest = "ram";
    made.turned = turned;
    return made;
  };
  out.steps = {step(1, "R", 595, 600, 120, true), step(3, "L", 595, 600, 95, true),
               step(0, "T", 395, 390, 12.5, true), step(2, "U", 395, 390, 8.5, true)};
  out.orders_seen = 16;
  out.turns = 4;
  out.proven = true;
  return out;
}

inline void add_parts(BoxPlan& box) {
  const Source practice{"shop practice", Mark::common_practice},
      derived{"docs/theory.md, wall", Mark::derived};
  box.sheets = {{"s2", "mild steel", 2.0}};
  box.patterns = {sample_pattern()};
  box.bend_orders = {sample_bend_order()};
  for (const char* wall : {"L", "R", "T", "U"})
    box.receiving.push_back({"wall-lean", wall, 2.6, 5.2, PartVerdict::back_to_brake, Band{25, 20, 30},
                             Band{0.55, 0.5, 0.6}, derived});
  for (const char* seam : {"S1", "S2", "S3", "S4"})
    box.receiving.push_back({"gap", seam, 0.5, 2.0, PartVerdict::reject, {}, {}, practice});
  box.part_readings = {{"wall-lean", "L", 1, 1.8, PartVerdict::use, Band{17, 14, 20}, Band{1.8, 1.7, 1.9},
                        Band{0.35, 0.3, 0.4}, "within"},
                       {"wall-lean", "R", 1, 3.4, PartVerdict::dress, Band{33, 28, 38}, Band{3.4, 3.2, 3.6},
                        Band{0.66, 0.6, 0.72}, "lean"},
                       {"gap", "S2", 1, 2.3, PartVerdict::reject, {}, {}, {}, "gap-rule"}};
  box.first_off = FirstOff{"locker",
                           1,
                           Release::correct,
                           "common-offset",
                           'x',
                           {{'x',
                             399.8,
                             {400.3, 400.2, 400.4},
                             {{"blank", {0, -0.2, 0.2}, {0.12, 0.02, 0.22}, {0.1, 0.0, 0.2}},
                              {"bend-lean", {0.35, -0.4, 1.1}, {0.7, 0.5, 0.9}, {0.4, 0.1, 0.7}},
                              {"weld", {-0.14, -0.2, -0.08}, {-0.12, -0.18, -0.06}, {-0.12, -0.16, -0.08}}},
                             {400.2, 399.8, 400.6},
                             -0.4}},
                           {0.62, 0.61, 0.63, 100000},
                           {0.97, 0.968, 0.972, 100000}};
}

inline Plan sample_plan_in_row() {
  Plan plan = sample_plan();
  plan.row = sample_row();
  add_parts(plan.boxes[0]);
  return plan;
}

} // namespace tacksquare::test
