// A plan made by hand in which no field has its default value.
#pragma once

#include "hand_row.h"
#include "plan/plan.h"

namespace tacksquare::test {

// Signs that XML has to write in another way, and letters beyond ASCII.
inline const std::string kOddText = "a<b> & \"c\" 'd'\n\te  \xc3\xbc";

inline Text hand_text(const std::string& key) {
  return {key,
          {word("id", kOddText), term("place", "rim"), count("grit", 60), length("gap", 0.1, "feeler"),
           words("seams", {"S1", "S2"}),
           list("deep", {{"outer", {list("inner", {{"plain", {word("text", "x")}}})}}})}};
}

inline Plan hand_plan() {
  const Band band{1.0 / 3.0, -2.5e-7, 1e21};
  const Source source{"EN 1011-1:2009, 4.2", Mark::standard};
  const Text text = hand_text("some.key");

  Check check{text, {"width-1", "width-2"}, "calliper", 3, 398.8, 400.0, true, band, true, {}};
  check.ladder = {{Who::foreman, 300.5, text}, {Who::welder, 60.0, text}};

  Step step;
  step.number = 7;
  step.phase = Phase::final_check;
  step.who = Who::foreman;
  step.what = step.look = step.odd = step.meanwhile = step.until = step.record = text;
  step.checks = {check, check};
  step.tacks = {"S1@12", "S2@12"};
  step.runs = {"S1a"};
  step.on = {"P1", "former"};
  step.off = {"former"};
  step.alongside = true;
  step.hold = 2;
  step.second = Who::grinder;
  step.safe_stop_after = true;
  step.seconds = 61.7;
  step.arc_s = 20.25;
  step.start_s = 1000.125;
  step.end_s = 1061.825;
  Step bare;
  bare.number = 8;
  bare.what = {"step.bare", {}};

  FaceOutline face{"T",
                   "shell",
                   text,
                   {{1, 2, 3}, {0, 1, 0}, {0, 0, 1}},
                   {{0, 0}, {400.5, 0}, {0, 299}},
                   {{{1, 1}, {2, 1}, {1, 2}}, {{5, 5}, {6, 5}, {5, 6}}},
                   {{50, 60, 8}}};

  PlannedSeam seam;
  seam.id = "S1";
  seam.face_a = "T";
  seam.face_b = "L";
  seam.joint = "tee";
  seam.corner = "open-corner";
  seam.weld = "fillet";
  seam.side = "inside";
  seam.finish = "left";
  seam.leg_mm = 3.0;
  seam.groove_deg = 60.0;
  seam.stitch_length_mm = 25.0;
  seam.stitch_pitch_mm = 75.0;
  seam.settings = "corner";
  seam.start = {1, 2, 3};
  seam.end = {4, 5, 6};
  seam.length_mm = 299.0;
  seam.welded_mm = 100.0;
  seam.bead_mm2 = {4.2, 3.75, 4.75};
  seam.heat_J_mm = {151.7, 131.5, 175.25};
  seam.wire_g = {11.1, 9.9, 12.6};
  seam.gas_l = {8.2, 7.3, 9.3};
  seam.throat_mm = band;
  PlannedSeam plain = seam;
  plain.id = "S2";
  plain.leg_mm = plain.groove_deg = plain.stitch_length_mm = plain.stitch_pitch_mm = std::nullopt;

  BoxPlan box;
  box.id = "locker";
  box.name = kOddText;
  box.count = 3;
  box.facts = box.kit = box.care = box.where_mm = {text, {"short", {}}};
  box.faces = {face};
  box.seams = {seam, plain};
  box.settings = {{"corner", "mag", true, {text}, {text, text}}};
  box.tacks = {{"S1@12", "S1", 12.0, 6.0, 1, "knock-down"}};
  box.runs = {{"S1a", "S1", 299.0, 149.5, 10.0, 20.0, 22678.5, 31.4, "B", "downhill", true}};
  box.measures = {{"width-1",
                   "width",
                   "rim-left",
                   "calliper",
                   {{1, 2, 3}, {4, 5, 6}},
                   400.0,
                   1.2,
                   0.5,
                   true,
                   band,
                   {399.5, 399.25, 399.75},
                   true,
                   0.875,
                   source,
                   source,
                   Band{399.4, 399.1, 400.5},
                   true}};
  box.elastic = {50.0,
                 336,
                 {0.125, 0.0, -0.25},
                 {{"width-1", "measure", "rim-top", false}, {"bow-F", "face-bow", "F", true}},
                 {{"former",
                   10000.0,
                   0.5,
                   {{1, 2, 3}, {4, 5, 6}},
                   {{1, 0, 0}, {0, 0, -1}},
                   {0.25, -0.5},
                   {12.5, 0.0},
                   {0.0, 31.4}},
                  {"square-1", 1.0, 0.125, {}, {}, {}, {}, {}}},
                 {{"P1", "former", 1, 0.125, 375.0}, {"K1", "K1", 0, 0.0, 0.0}},
                 {{"S1-1",
                   127.5,
                   {"table", "table", "Z1"},
                   {{1, 2, 3}, {4, 5, 6}, {7, 8, 9}},
                   {40.5, 43.5, 43.5},
                   {0.0, 1.5, 2.5},
                   {63.75, 63.75, 60.0},
                   {0.25, 0.125, 0.0}}},
                 {{"S1-1",
                   {0.001, 0.0},
                   {-0.25, 0.0},
                   {0.125, 0.5},
                   Band{0.05, -0.1, 0.25},
                   Band{12.5, 3.0, 40.0},
                   Band{20.0, 5.5, 60.0}},
                  {"S1a", {0.25, 0.125}, {0.0, 0.001}, {0.5, 0.25}, {}, {}, {}}},
                 {{"former", {0.001, -0.5}, {-0.25, -0.75}, {0.125, 0.0}}},
                 {{"F", {{1, 2, 3}, {4, 5, 6}}, {{0.001, 0.0, -0.25}, {0.0, 0.5, 0.0}}}},
                 {{"F", {0.75, 0.5, 1.25}, 1.5}, {"B", {4.5, 3.0, 6.0}, {}}}};
  box.fixture = FixturePlan{
      kOddText,
      true,
      "B",
      "U",
      "L",
      {0.5, 300.0, 0.25},
      {1, 0, 0},
      {0, 0, 1},
      {0, -1, 0},
      {400.0, 600.0, 300.0},
      Vec2{1200.0, 800.0},
      {{"P1",
        "bar-clamp",
        {{1, 2, 3}, {4, 5, 6}},
        {{7, 8, 9}, {10, 11, 12}},
        {"L", "R"},
        {0, 1, 0},
        "S1",
        12.5,
        287.5,
        395.5,
        595.5,
        40.0,
        25.0,
        100.0,
        40.0,
        1500.0,
        250.5,
        Band{1500.0, 1249.5, 1625.5},
        0.125,
        375.0,
        0.25,
        "torch",
        "S1a"},
       {"former", "former", {}, {}, {}, {}, {}, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, {}, 0, 0, 0, {}, {}}},
      {{"table", "P1"}, 6, 1.25e8, 0.125, 0.375, 0.03125},
      {{"bar-clamp", 800.0, 4, 2}, {"stop", 0.0, 3, {}}},
      {{"throughout", "", 12, 0.8335, true}, {"without", "P1", 11, 0.75, false}},
      15};
  box.steps = {step, bare};
  box.cautions = {{text, true}, {text, false}};
  box.figures = {{text, ArgKind::force_N, band, false, true, source, {text}}};
  box.tack_orders = {{"planned", 0.5, 0.45, 0.25, Band{0.125, 0.0625, 0.25}, true}};
  box.levers = {{"pitch", text, 0.625, 0.75, true}};
  box.orders = {{"planned", {"S1a"}, 2, 0.25, 0.125, 31.4, 90.0, 2'000'000'000'123LL, 0.5, 0.75}};
  box.order_proven_best = true;
  box.order_proof = OrderProof{24.0, true, 0.02, 0.25, 0.25, 0.3,     0.29, 0.4,  0.41, 0.35, 0.34,
                               7,    true, 0.35, 0.05, 0.2,  "below", 25.0, 0.45, 0.44, 0.55};
  box.first_off_s = {3600.5, 2800.0, 4600.0};
  box.repeat_s = {2300.25, 1725.0, 2990.0};
  box.batch_s = {8201.0, 6250.0, 10600.0};
  box.arc_s = {160.0, 143.0, 181.0};
  box.grind_s = {600.0, 450.0, 780.0};
  box.takt_s = 2700.0;
  box.wire_g = {45.0, 40.0, 51.0};
  box.gas_l = {32.0, 28.5, 36.5};
  box.mass_kg = 13.2;
  box.low = {-1, -2, -3};
  box.high = {401, 302, 603};
  add_fit(box);

  BoxPlan empty;
  empty.id = "empty";
  return {kOddText, "PS-0412", "2027-03-31", hand_row(), {box, empty}};
}

} // namespace tacksquare::test
