// The gear lockers in their alcove, by hand: the row, flat patterns, bends, readings and the first-off.
#pragma once

#include "sheet/sample_plan.h"

#include <cmath>

namespace tacksquare::test {

inline RowFit sample_row() {
  const Source practice{"shop practice", Mark::common_practice}, derived{"docs/theory.md, wall", Mark::derived};
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
    row.stands.push_back({"locker", copy, 400.0, 399.8, 400.3, 398.6, 0.0, copy == 3, false, "slide", 600.0,
                          {399.9, 399.4, 400.3}, {}});
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

inline Plan sample_plan_in_row() {
  Plan plan = sample_plan();
  plan.row = sample_row();
  return plan;
}

} // namespace tacksquare::test
