// A gear locker's fixture made by hand: the box lies on its back B, the under side U against two stops, the
// left side L against one. Nothing of it comes from the planner.
#pragma once

#include "plan/plan.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace tacksquare::test {

inline PlannedPiece piece(std::string id, std::string kind, std::vector<Vec3> table,
                          std::vector<std::string> faces) {
  PlannedPiece out;
  out.id = std::move(id);
  out.kind = std::move(kind);
  out.table = std::move(table);
  out.faces = std::move(faces);
  return out;
}

inline std::vector<PlannedPiece> locker_pieces(Vec3 size, double t_mm) {
  const double w = size.x, h = size.y, d = size.z;
  std::vector<PlannedPiece> all;
  const auto add = [&](PlannedPiece one) -> PlannedPiece& { return all.emplace_back(std::move(one)); };
  add(piece("P1", "stop", {{60, 0, 40}}, {"U"})).towards = {0, 1, 0};
  add(piece("P2", "stop", {{w - 60, 0, 40}}, {"U"})).towards = {0, 1, 0};
  add(piece("P3", "stop", {{0, h - 150, 40}}, {"L"})).towards = {1, 0, 0};
  for (const auto& [id, at] : {std::pair{"P4", Vec3{110, 150, t_mm}}, {"P5", Vec3{w - 110, h - 150, t_mm}}}) {
    PlannedPiece& down = add(piece(id, "hold-down", {at}, {"B"}));
    down.towards = {0, 0, -1};
    down.force_N = 400.0;
  }
  PlannedPiece& former = add(piece("P6", "former", {{w / 2, h / 2, d - 40}}, {"T", "R", "U", "L"}));
  former.width_mm = w - 2 * t_mm - 0.5;
  former.height_mm = h - 2 * t_mm - 0.5;
  former.below_mm = 40.0;
  former.clip_mm = 25.0;
  const auto clamp = [&](const char* id, Vec3 a, Vec3 b, const char* on_a, const char* on_b) {
    add(piece(id, "bar-clamp", {a, b}, {on_a, on_b})).force_N = 1200.0;
  };
  clamp("P7", {0, 120, d - 40}, {w, 120, d - 40}, "L", "R");
  clamp("P8", {0, h - 120, d - 40}, {w, h - 120, d - 40}, "L", "R");
  clamp("P9", {w / 2, 0, d - 25}, {w / 2, h, d - 25}, "U", "T");
  const std::pair<Vec3, std::vector<std::string>> corners[] = {{{0, h, d / 2}, {"T", "L"}},
                                                               {{w, h, d / 2}, {"T", "R"}},
                                                               {{w, 0, d / 2}, {"U", "R"}},
                                                               {{0, 0, d / 2}, {"U", "L"}}};
  int number = 10;
  for (const auto& [at, faces] : corners) {
    PlannedPiece& at_corner = add(piece("P" + std::to_string(number++), "corner-clamp", {at}, faces));
    at_corner.size_mm = 60.0;
    at_corner.foot_mm = 40.0;
    at_corner.force_N = 800.0;
    at_corner.leaves = "torch";
  }
  PlannedPiece& bar = add(piece("P14", "backing-bar", {{0, h, d}, {0, h, t_mm}}, {"T", "L"}));
  bar.size_mm = 25.0;
  bar.seam = "S1";
  bar.to_mm = d - t_mm;
  return all;
}

// Precondition: faces T, R, U, L, B and a run of each seam S1 to S4, sheet of t_mm, box.low and box.high set.
inline FixturePlan locker_fixture(const BoxPlan& box, double t_mm = 2.0) {
  FixturePlan out;
  out.name = "locker on its back";
  out.down = "B";
  out.long_side = "U";
  out.short_side = "L";
  out.origin = {box.low.x, box.high.y, box.low.z};
  out.x = {1, 0, 0};
  out.y = {0, 0, 1};
  out.z = {0, -1, 0};
  out.size_mm = {box.high.x - box.low.x, box.high.z - box.low.z, box.high.y - box.low.y};
  out.table_mm = Vec2{1200.0, 800.0};
  out.pieces = locker_pieces(out.size_mm, t_mm);
  for (PlannedPiece& each : out.pieces) {
    for (const Vec3 p : each.table)
      each.at.push_back(out.origin + out.x * p.x + out.y * p.y + out.z * p.z);
    if (each.kind != "corner-clamp") continue;
    // Before the first run on its seam.
    const auto seam = std::find_if(box.seams.begin(), box.seams.end(), [&](const PlannedSeam& s) {
      return std::is_permutation(each.faces.begin(), each.faces.end(),
                                 std::vector<std::string>{s.face_a, s.face_b}.begin());
    });
    if (seam == box.seams.end()) FAIL("no seam for " << each.id);
    const auto run = std::find_if(box.runs.begin(), box.runs.end(),
                                  [&](const PlannedRun& r) { return r.seam == seam->id; });
    if (run == box.runs.end()) FAIL("no run on " << seam->id);
    each.leaves_before = run->id;
  }
  // On the table it lies with its back up to the middles of the bends, on three corners of that: twice the
  // area of their triangle, times what the two stops stand apart. The worst move by numpy, for 400 x 600 x
  // 300 mm: 1.2127 to 1.2624, by the three corners.
  const double apart_mm = out.size_mm.x - 120.0;
  out.locating = {{"table", "P1", "P2", "P3"},
                  6,
                  (out.size_mm.x - t_mm) * (out.size_mm.y - t_mm) * apart_mm,
                  0.2,
                  1.25,
                  0.0};
  out.locating.turn_deg = std::atan2(2.0 * out.locating.error_mm, apart_mm) * 180.0 / 3.14159265358979323846;
  out.bill = {{"bar-clamp", 600.0, 1, 0}, {"backing-bar", 300.0, 1, 0}, {"stop", 0.0, 3, 4},
              {"hold-down", 0.0, 2, 2},   {"bar-clamp", 400.0, 2, 2},   {"corner-clamp", 0.0, 4, {}},
              {"former", 0.0, 1, {}}};
  return out;
}

} // namespace tacksquare::test
