// The row, patterns, bend orders, readings and first-off of the hand-made plan: no field has its default
// value.
#pragma once

#include "plan/plan.h"

namespace tacksquare::test {

inline RowFit hand_row() {
  const Source source{"ISO 9013:2017 & others", Mark::from_memory};
  RowFit row;
  row.name = "ALCOVE <2>";
  row.clear.width = {1201.6, 1202.5, "under-back", 0.5, 0.4, {"rivet heads", "hinge"}};
  row.clear.height = ClearSize{605.25, 606.0, "left", 0.25, 0.5, {"pipe"}};
  row.clear.depth = ClearSize{310.5, 311.0, "middle", 0.125, 0.375, {"bracket"}};
  row.clearance_mm = 1.0;
  row.coating_mm = 0.08;
  row.wanted_chance = 0.9;
  row.by = TargetRule::worst_case;
  row.worst = {1205.1, -3.5, 398.6};
  row.rss = {1202.5, -0.9, 399.5};
  row.drawn = {1202.2, -0.6, 399.75};
  row.stated_target_mm = 399.25;
  row.allowance_mm = 0.3;
  row.as_stated = {0.17, 0.155, 0.19, 100000};
  row.as_aimed = {0.96, 0.955, 0.965, 18'000'000'000'000'000'001ULL};
  row.height = Chance{0.99, 0.985, 0.995, 5000};
  row.depth = Chance{0.98, 0.975, 0.9875, 6000};
  row.budget = {{"coating", 0.48, 0.26, 0.15, 0.5, source}, {"bend-lean", 0.1, 1.5, 0.9, 0.7, source}};
  row.stands = {{"locker",
                 1,
                 400.0,
                 399.8,
                 400.1,
                 399.0,
                 0.2,
                 8.5,
                 true,
                 true,
                 "lower",
                 640.5,
                 {399.9, 399.5, 400.2},
                 -0.4,
                 true,
                 12.5,
                 401.5,
                 400.75,
                 400.5,
                 "belly"},
                {"locker",
                 2,
                 400.0,
                 399.7,
                 400.05,
                 398.9,
                 0.15,
                 7.5,
                 true,
                 true,
                 "tip",
                 671.25,
                 {399.8, 399.4, 400.1},
                 {},
                 true,
                 {},
                 401.25,
                 400.625,
                 400.375,
                 "blank"}};
  row.nested = {1, 2};
  row.nested_row_mm = 1199.5;
  row.as_listed_row_mm = 1200.75;
  row.last_mm = 399.3;
  row.go_stick_mm = 1201.2;
  row.go_stick_height_mm = 604.5;
  row.packer_mm = 0.7;
  row.flush = {{"locker", "seam-cap", "S1", "L", 0.2, source}};
  row.fits_never = true;
  return row;
}

inline FlatPattern hand_pattern() {
  FlatPattern out;
  out.part = "shell";
  out.sheet = "s2";
  out.thickness_mm = 2.0;
  out.outline = {{0, 0}, {996.125, 0}, {996.125, 1195.5}, {0, 1195.5}};
  out.holes = {{{10, 10}, {20, 10}, {15, 20}}, {{30, 10}, {40, 10}, {35, 20}}};
  out.faces = {
      {"T", {298.1, 897.5}, {0, 1}, {-1, 0}, {{0, 0}, {400, 0}, {400, 298}}, {{0, 2}, {400, 2}, {400, 298}}}};
  out.bends = {{"B", "T", {298.1, 896.5}, {698.1, 896.5}, 1.5708, 2.5, 5.25, 3.875, true}};
  out.reliefs = {{{297.5, 896.75}, 2.5, 4.5, {{296, 895}, {299, 895}, {299, 899}}}};
  out.marks = {{"seam-number", "S1", {5, 6}, {7, 8}, 12.5}};
  out.length_mm = 996.125;
  out.width_mm = 1195.5;
  out.area_mm2 = 850000.5;
  out.mass_kg = 13.25;
  out.centroid = {498.0, 597.75};
  out.tolerance_mm = 0.2;
  return out;
}

inline BendOrder hand_bend_order() {
  BendOrder out;
  out.part = "shell";
  out.steps = {
      {3, {5}, "B", "T", 90.5, 400.0, 395.0, {"T", "U"}, true, 298.4, true, true, 12.25, "punch", true}};
  out.blocked = BendBlocked{"B", "L", "ram", 320.5};
  out.orders_seen = 2'000'000'000'456LL;
  out.turns = 3;
  out.far = 1;
  out.changes = 5;
  out.proven = true;
  return out;
}

// The fit of a plan made by hand.
inline void add_fit(BoxPlan& box) {
  const Source source{"rule of the gap", Mark::published};
  box.sheets = {{"s2", "mild steel", 2.0}};
  box.patterns = {hand_pattern()};
  box.bend_orders = {hand_bend_order()};
  box.receiving = {
      {"wall-lean", "L", 2.5, 5.0, PartVerdict::reject, Band{50.5, 40, 60}, Band{0.4, 0.25, 0.5}, source}};
  box.part_readings = {{"gap", "S2", 2, 0.75, PartVerdict::dress, Band{12, 10, 14}, Band{0.1, 0.05, 0.2},
                        Band{0.3, 0.2, 0.4}, "gap-rule"}};
  box.first_off = FirstOff{"locker",
                           2,
                           Release::correct,
                           "common-offset",
                           'z',
                           {{'z',
                             600.5,
                             {600.9, 600.8, 601.0},
                             {{"blank", {0, -0.2, 0.2}, {0.15, 0.1, 0.2}, {0.12, 0.05, 0.19}}},
                             {600.8, 600.5, 601.1},
                             -0.3}},
                           {0.6, 0.55, 0.65, 7000},
                           {0.97, 0.96, 0.98, 8000}};
}

} // namespace tacksquare::test
