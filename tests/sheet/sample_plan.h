// A gear locker's plan written by hand, so that the sheet is tested without the planner.
#pragma once

#include "plan/plan.h"

#include <string>
#include <utility>
#include <vector>

namespace tacksquare::test {

inline Text say(std::string text) {
  return {"plain", {word("text", std::move(text))}};
}

inline FaceOutline face(std::string id, Text name, Placement placement, double x_mm, double y_mm) {
  FaceOutline out;
  out.id = std::move(id);
  out.part = "blank";
  out.name = std::move(name);
  out.placement = placement;
  out.outline = {{0, 0}, {x_mm, 0}, {x_mm, y_mm}, {0, y_mm}};
  return out;
}

inline PlannedSeam seam(std::string id, std::string a, std::string b, Vec3 start, Vec3 end) {
  PlannedSeam out;
  out.id = std::move(id);
  out.face_a = std::move(a);
  out.face_b = std::move(b);
  out.joint = "corner";
  out.corner = "half-open-corner";
  out.weld = "square";
  out.side = "outside";
  out.finish = "flush";
  out.settings = "mag-2";
  out.start = start;
  out.end = end;
  out.length_mm = out.welded_mm = norm(end - start);
  out.bead_mm2 = {4.0, 3.6, 4.6};
  out.heat_J_mm = {149.6, 130.0, 172.0};
  out.wire_g = {9.8, 8.8, 11.2};
  out.gas_l = {8.0, 7.2, 9.2};
  out.throat_mm = {1.6, 1.4, 1.9};
  return out;
}

inline Step step(int number, Phase phase, Who who, std::string what) {
  Step out;
  out.number = number;
  out.phase = phase;
  out.who = who;
  out.what = say(std::move(what));
  out.seconds = 120.0;
  out.start_s = 120.0 * (number - 1);
  out.end_s = out.start_s + out.seconds;
  return out;
}

inline Check check(std::string what, std::string gauge, double low_mm, double high_mm, int readings) {
  Check out;
  out.what = say(std::move(what));
  out.gauge = std::move(gauge);
  out.accept_low_mm = low_mm;
  out.accept_high_mm = high_mm;
  out.readings = readings;
  return out;
}

inline void add_seams(BoxPlan& box) {
  box.seams = {
      seam("S1", "T", "L", {0, 0, 600}, {0, 300, 600}), seam("S2", "T", "R", {400, 0, 600}, {400, 300, 600}),
      seam("S3", "U", "R", {400, 0, 0}, {400, 300, 0}), seam("S4", "U", "L", {0, 0, 0}, {0, 300, 0})};
  for (const double at : {12.0, 150.0, 285.0, 80.0, 220.0})
    for (const char* id : {"S1", "S3", "S2", "S4"}) {
      PlannedTack tack;
      tack.seam = id;
      tack.id = tack.seam + "@" + std::to_string(static_cast<int>(at));
      tack.at_mm = at;
      tack.length_mm = 6.0;
      box.tacks.push_back(tack);
    }
  double warmth = 0.0;
  for (const bool back : {true, false})
    for (const char* id : {"S1", "S3", "S2", "S4"}) {
      PlannedRun run;
      run.seam = id;
      run.id = run.seam + (back ? "b" : "a");
      run.from_mm = back ? 150.0 : 12.0;
      run.to_mm = back ? 300.0 : 150.0;
      run.tie_in_mm = back ? 0.0 : 10.0;
      run.arc_s = back ? 20.0 : 18.4;
      run.heat_J = back ? 22440.0 : 20645.0;
      run.warmth_K = warmth;
      run.down = "B";
      run.position = "downhill";
      box.runs.push_back(run);
      warmth += 3.7;
    }
}

inline void add_steps(BoxPlan& box) {
  auto& steps = box.steps;
  steps.push_back(
      step(1, Phase::check_parts, Who::grinder, "Count parts and kit. Thickness on three edges."));
  steps.back().checks = {check("thickness", "calliper", 1.9, 2.1, 3)};
  steps.back().checks[0].ladder = {
      {Who::foreman, 300, say("Thinner or thicker than ordered: tell before the first arc.")}};
  steps.push_back(step(2, Phase::prepare, Who::welder,
                       "Seam edges: burr off, oxide and oil off 20 mm back, inside and out."));
  steps.back().look = say("Bright metal, no rainbow.");
  steps.push_back(step(3, Phase::tack, Who::both, "Tack at 12: S1, S3, S2, S4."));
  steps.back().look = say("The other holds the faces level with a block.");
  steps.back().tacks = {"S1@12", "S3@12", "S2@12", "S4@12"};
  steps.push_back(
      step(4, Phase::tack, Who::grinder, "Fit-up: read the diagonals. Point tacks still act as hinges."));
  steps.back().hold = 1;
  steps.back().second = Who::welder;
  steps.back().safe_stop_after = true;
  steps.back().checks = {check("diagonals at the rim", "pinch-sticks", -1.0, 1.0, 2)};
  steps.back().checks[0].ladder = {
      {Who::both, 120,
       say("Clamp across the LONG diagonal: pull to equal, then the same again past it; let go, read.")},
      {Who::foreman, 300, say("Still off: the foreman decides.")}};
  int number = 5;
  for (const PlannedRun& run : box.runs) {
    steps.push_back(step(number++, Phase::weld, Who::welder,
                         run.seam + (run.from_mm > 100 ? "  150 to 300" : "  12 to 150")));
    steps.back().runs = {run.id};
    steps.back().arc_s = run.arc_s;
  }
  steps[5].alongside = true;
  steps[5].record = say("USED: wire feed ____");
  steps[4].meanwhile = say("check the parts of the next box");
  steps[4].odd = say("Away from the middle: the rim end stays cool for the second round.");
  steps.push_back(step(13, Phase::cool, Who::both, "COOL. Leave everything clamped."));
  steps.back().until = say("Not before the 60 C crayon stays dry on all four.");
  steps.push_back(step(14, Phase::check, Who::grinder, "As welded, cold: widths, diagonals, rock."));
  steps.back().hold = 2;
  steps.back().second = Who::foreman;
  steps.back().checks = {check("widths, nine places", "calliper", 398.8, 400.0, 9),
                         check("diagonals at the rim", "pinch-sticks", -1.5, 1.5, 2),
                         check("rock", "feeler", 0.0, 1.0, 1)};
  steps.back().checks[0].has_expected = true;
  steps.back().checks[0].expected_mm = {399.72, 399.53, 399.87};
  steps.back().checks[1].has_expected = true;
  steps.back().checks[1].expected_mm = {0.08, -0.1, 0.2};
  steps.back().checks[1].no_change_seen = true;
  steps.push_back(step(15, Phase::grind, Who::grinder,
                       "60 flap, along the seam, disc flat: S1, S3, S2, S4. Twice round."));
  steps.push_back(step(16, Phase::final_check, Who::both, "Final size."));
  steps.back().checks = {check("over L-R, nine places", "gap-gauge", 0.0, 400.0, 1)};
  steps.push_back(step(17, Phase::sign, Who::foreman,
                       "First-off: release the rest [ ]  correct blank by ____ [ ]  stop [ ]"));
  steps.back().hold = 3;
}

inline void add_foreman(BoxPlan& box) {
  const Source practice{"sheet practice", Mark::common_practice};
  const Source derived{"docs/theory.md, bow of a section", Mark::derived};
  PlannedMeasure width;
  width.id = "width-1";
  width.kind = "width";
  width.where = "rim";
  width.gauge = "calliper";
  width.nominal_mm = 400.0;
  width.under_mm = 1.2;
  width.expected_mm = {399.72, 399.53, 399.87};
  width.chance_kept = 0.97;
  width.limit_source = {"order", Mark::stated};
  width.source = derived;
  PlannedMeasure diagonals = width;
  diagonals.id = "diagonals-rim";
  diagonals.kind = "diagonals";
  diagonals.gauge = "pinch-sticks";
  diagonals.nominal_mm = 0.0;
  diagonals.under_mm = diagonals.over_mm = 1.5;
  diagonals.expected_mm = {0.0, -0.4, 0.4};
  diagonals.bound_only = true;
  diagonals.chance_kept = -1.0;
  diagonals.limit_source = practice;
  box.measures = {width, diagonals};

  Figure across;
  across.what = say("S1 shrinkage across");
  across.value = {0.16, 0.05, 0.31};
  across.source = {"handbook of arc welding, sheet table", Mark::published};
  across.notes = {say("below 3 mm of thickness the formula is stretched")};
  Figure mass;
  mass.what = say("mass, all parts");
  mass.kind = ArgKind::mass_kg;
  mass.value = {13.2, 13.2, 13.2};
  mass.has_band = false;
  mass.source = derived;
  box.figures = {across, mass};

  for (const char* key : {"planned", "by-id", "round-and-round", "longest-first"}) {
    OrderCompared order;
    order.key = key;
    for (const PlannedRun& run : box.runs)
      order.runs.push_back(run.id);
    order.heat_moment = box.orders.empty() ? 0.31 : 0.52;
    order.mean_moment = 0.12;
    order.worst_warmth_K = 26.0;
    box.orders.push_back(order);
  }
  box.order_proven_best = true;
}

inline BoxPlan gear_locker() {
  BoxPlan box;
  box.id = "locker";
  box.name = "GEAR LOCKER";
  box.count = 3;
  box.facts = {
      say("400 wide x 600 high x 300 deep, outside. 2 mm mild steel, one blank, four bends, open front."),
      {"time.used",
       {number("value", ArgKind::mass_g, 45.0), number("low", ArgKind::mass_g, 40.0),
        number("high", ArgKind::mass_g, 51.0)}},
      say("13.2 kg: one person lifts, two turn. Starts on its back."),
      say("Stand in front, look in: T top, R right, U under, L left, B back. RIM = the open front edge.")};
  const auto at = [](Vec3 origin, Vec3 u, Vec3 v) { return Placement{origin, u, v}; };
  box.faces = {face("T", say("top"), at({0, 0, 600}, {1, 0, 0}, {0, 1, 0}), 400, 300),
               face("R", say("right"), at({400, 0, 0}, {0, 1, 0}, {0, 0, 1}), 300, 600),
               face("U", say("under"), at({0, 0, 0}, {0, 1, 0}, {1, 0, 0}), 300, 400),
               face("L", say("left"), at({0, 0, 0}, {0, 0, 1}, {0, 1, 0}), 600, 300),
               face("B", say("back"), at({0, 300, 0}, {0, 0, 1}, {1, 0, 0}), 600, 400)};
  box.faces[4].cutouts = {{{480, 150}, {520, 150}, {520, 250}, {480, 250}}};
  add_seams(box);
  box.settings = {
      {"mag-2",
       "mag",
       true,
       {say("0.8 wire"), say("wire feed 4.3 m/min"), say("16.5 V, about 85 A"), say("Ar/18 CO2, 12 L/min"),
        say("stick-out 10 mm"), say("downhill, torch pointing up 10-15 deg")},
       {say("Amps and feed do not go together: 85 A wants 4.6 m/min.")}}};
  box.kit = {say("2 bar clamps 600, 2 bar clamps 900, 4 corner clamps"),
             say("try square, pinch sticks, calliper, feelers"), say("3 flap discs 60, 1 of 120"),
             say("paint pen, crayon 60 C")};
  box.care = {say("Hood, gloves, ears. Screen between you two."),
              say("Burnables away. Fire watch 30 min after the last spark.")};
  box.where_mm = {say("bends, at the rim: 2.6 either way"), say("weld: 0.1 to 0.2 smaller")};
  box.cautions = {{say("Diagonals at the rim: the limit holds with 40 % only."), true},
                  {say("Face B may buckle."), false}};
  add_steps(box);
  add_foreman(box);
  box.first_off_s = {3600, 2800, 4600};
  box.repeat_s = {2280, 1700, 2950};
  box.arc_s = {153.6, 137.5, 175.0};
  box.grind_s = {720, 540, 936};
  box.wire_g = {45, 40, 51};
  box.gas_l = {32, 28.5, 36.5};
  box.mass_kg = 13.2;
  box.high = {400, 300, 600};
  return box;
}

inline Plan sample_plan() {
  Plan plan;
  plan.job = "Pilot station lockers";
  plan.number = "PS-0412";
  plan.date = "3 June";
  plan.boxes = {gear_locker()};
  return plan;
}

} // namespace tacksquare::test
