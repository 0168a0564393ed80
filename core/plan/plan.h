// The plan as a value: everything that the sheet prints and that plan.xml holds, in the order in which it is
// read.
#pragma once

#include "base/band.h"
#include "base/vec.h"
#include "geometry/flat_pattern.h"
#include "opening/first_off.h"
#include "opening/row_fit.h"
#include "plan/elastic_plan.h"
#include "plan/fixture_plan.h"
#include "plan/order_plan.h"
#include "plan/text.h"
#include "receiving/verdicts.h"
#include "work/bend_order.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

enum class Who { welder, grinder, both, foreman };

// Parts of the job in the order of the sheet.
enum class Phase {
  check_parts,
  prepare,
  mark,
  coupon,
  set_up,
  dry_fit,
  tack,
  knock_down,
  weld,
  cool,
  release,
  check,
  grind,
  final_check,
  sign
};

// One rung of a put-it-right ladder, cheapest first.
struct Remedy {
  Who who = Who::grinder;
  double seconds = 0.0;
  Text what;
  bool operator==(const Remedy&) const = default;
};

// Something to read off a gauge, what to expect, and what to do when it is off.
struct Check {
  Text what;                         // "widths L-R, nine places"
  std::vector<std::string> measures; // ids in BoxPlan::measures; several when one limit holds for all
  std::string gauge;                 // id in tables/bench_gauges.h
  int readings = 1;                  // blanks to fill
  double accept_low_mm = 0.0, accept_high_mm = 0.0; // go between these
  bool has_expected = false;                        // expected_mm is computed; false before any heat
  Band expected_mm;            // of the worst of the measures; for no_change_seen: the deviation
  bool no_change_seen = false; // expected deviation is below what the gauge reads
  std::vector<Remedy> ladder;
  bool operator==(const Check&) const = default;
};

struct Step {
  int number = 0; // from 1, through the box
  Phase phase = Phase::check_parts;
  Who who = Who::both;
  Text what;      // one thing to do
  Text look;      // where to look, what good is; may be empty
  Text odd;       // why, only where the step looks odd; may be empty
  Text meanwhile; // what the other one does; may be empty
  Text until;     // wait: the sign that it is over ("not before the 60 C crayon stays dry"); may be empty
  Text record;    // what to write down, with blanks; may be empty
  std::vector<Check> checks;
  std::vector<std::string> tacks, runs; // ids made in this step
  std::vector<std::string> on, off;     // ids of pieces that hold the box, put on and taken off in it
  bool alongside = false;               // goes on beside the step before it, by the other one
  std::optional<int> hold;              // hold point 1..3: not on without another's name
  std::optional<Who> second;            // who signs the hold beside the one who does the step
  bool safe_stop_after = false;         // good place to stop
  double seconds = 0.0;                 // of the person who does it, fixed times in
  double arc_s = 0.0;
  double start_s = 0.0, end_s = 0.0; // in the pair's schedule
  bool operator==(const Step&) const = default;
};

// A figure of the foreman's pages.
struct Figure {
  Text what;
  ArgKind kind = ArgKind::fine_mm;
  Band value;
  bool has_band = true;    // false: exact, or an input
  bool bound_only = false; // low and high are bounds, not a 90 % band
  Source source;
  std::vector<Text> notes;
  bool operator==(const Figure&) const = default;
};

struct FaceOutline {
  std::string id;
  std::string part;
  Text name; // "top", "left"
  Placement placement;
  std::vector<Vec2> outline; // mm, in the placement's frame
  std::vector<std::vector<Vec2>> cutouts;
  std::vector<Vec3> vents; // x, y in the placement's frame and diameter, mm
  bool operator==(const FaceOutline&) const = default;
};

struct PlannedSeam {
  std::string id, face_a, face_b;
  std::string joint, corner, weld, side, finish; // words of the job file: "corner", "half-open-corner", ...
  std::optional<double> leg_mm, groove_deg;
  std::optional<double> stitch_length_mm, stitch_pitch_mm;
  std::string settings; // id in BoxPlan::settings
  Vec3 start, end;      // box frame, mm; 0 mm of the seam is at start
  double length_mm = 0.0, welded_mm = 0.0;
  Band bead_mm2, heat_J_mm, wire_g, gas_l;
  Band throat_mm;
  bool operator==(const PlannedSeam&) const = default;
};

struct PlannedTack {
  std::string id, seam;
  double at_mm = 0.0, length_mm = 0.0;
  int round = 0;
  std::string then; // "knock-down": ground down to the sheet; "feather": it stays, its ends taken down
  bool operator==(const PlannedTack&) const = default;
};

struct PlannedRun {
  std::string id, seam;
  double from_mm = 0.0, to_mm = 0.0, tie_in_mm = 0.0;
  double arc_s = 0.0, heat_J = 0.0, warmth_K = 0.0;
  std::string down;     // face that lies on the table, or "rim"
  std::string position; // "flat", "downhill", ...
  bool dab = false;
  bool operator==(const PlannedRun&) const = default;
};

struct PlannedMeasure {
  std::string id, kind, where, gauge;
  std::vector<Vec3> points;
  double nominal_mm = 0.0, under_mm = 0.0, over_mm = 0.0;
  bool has_expected = false;
  Band expected_mm;
  Band before_grinding_mm; // sizes: what to expect before the seams are ground
  bool bound_only = false;
  double chance_kept = -1.0; // -1: not given
  Source limit_source, source;
  // The closed forms beside the elastic model: the same figure by them.
  std::optional<Band> by_formula_mm;
  bool formula_bound_only = false;
  bool operator==(const PlannedMeasure&) const = default;
};

// A block of settings as it stands on the sheet.
struct SettingsBlock {
  std::string id;
  std::string process; // "mag", "tig", ...
  bool starting_point = false;
  std::vector<Text> lines; // each one setting: key "setting.volts" with its argument
  std::vector<Text> oddities;
  bool operator==(const SettingsBlock&) const = default;
};

// An order of the tacks by what is met on its way, in parts of the limits: means over what is not known.
struct TackOrderCompared {
  std::string key;    // "planned": rim first, crosswise, halving; "round-about", "seam-by-seam", "searched"
  double worst = 0.0; // the worse of the next two
  double square = 0.0, gap = 0.0; // the tacked box; what stands open ahead of a tack
  Band gap_mm;                    // the largest ahead of a tack
  bool chosen = false;
  bool operator==(const TackOrderCompared&) const = default;
};

// Something that could be changed, and what that does to the chance that every limit holds.
struct Lever {
  // "pitch", "tack-length", "fixture", "fixture-none", "runs", "back-step", "heat", "side", "bends",
  // "thicker", "order"
  std::string key;
  Text what;                                      // key "lever."; with "advice." instead what to do
  double chance_before = 0.0, chance_after = 0.0; // by the same draws
  bool advised = false;                           // of the few that help most, and to be seen
  double gain() const { return chance_after - chance_before; }
  bool seen() const { return gain() > 0.01 - 1e-9; } // one of a hundred boxes more
  bool operator==(const Lever&) const = default;
};
inline constexpr std::size_t kMostAdvised = 3;
inline constexpr int kLeverDraws = 2000;

struct Caution {
  Text what;
  bool red = false; // planned, but do not build it like this: exit code 3
  bool operator==(const Caution&) const = default;
};

// A sheet that parts of the box are cut from.
struct PlannedSheet {
  std::string id, metal; // metal: its name, as in fact.sheet
  double thickness_mm = 0.0;
  bool operator==(const PlannedSheet&) const = default;
};

struct BoxPlan {
  std::string id, name;
  int count = 1;
  std::vector<Text> facts; // size, sheet, mass and lifting, how it lies, letters
  std::vector<FaceOutline> faces;
  std::vector<PlannedSeam> seams;
  std::vector<SettingsBlock> settings;
  std::vector<Text> kit;          // what to get before starting
  std::vector<Text> care;         // at most eight, of this very box
  std::vector<Text> where_mm;     // where the millimetres come from
  std::vector<PlannedTack> tacks; // in order
  std::vector<PlannedRun> runs;   // in order
  std::vector<PlannedMeasure> measures;
  std::vector<Step> steps;
  std::vector<Caution> cautions; // red ones first
  std::vector<Figure> figures;
  std::vector<PlannedSheet> sheets;   // of the patterns
  std::vector<FlatPattern> patterns;  // blanks to cut, with the weld's shrinkage put back; as parts
  std::vector<BendOrder> bend_orders; // of folded parts, where the job states a brake
  std::vector<ReceivingLimit> receiving;
  std::vector<PartReading> part_readings; // of measured copies
  std::optional<FirstOff> first_off;      // once a copy was measured as welded or ground
  std::optional<ElasticPlan> elastic;     // unless the plan was made by closed forms alone
  std::optional<FixturePlan> fixture;     // what holds the box while it is made
  std::vector<TackOrderCompared> tack_orders;
  std::vector<Lever> levers;             // what gains most first; none of a plan by closed forms alone
  std::vector<OrderCompared> orders;     // the planned one first
  bool order_proven_best = false;        // by heat
  std::optional<OrderProof> order_proof; // where the elastic model was asked
  Band first_off_s, repeat_s, batch_s;   // of the pair; see planning/planner/timeline.h
  Band arc_s, grind_s;                   // of one box
  std::optional<double> takt_s;          // what the pair has for one box, where stated
  Band wire_g, gas_l;
  double mass_kg = 0.0;
  Vec3 low, high; // outside, box frame
  bool operator==(const BoxPlan&) const = default;
};

struct Plan {
  std::string job, number, date;
  std::optional<RowFit> row; // of the opening, where the job states one
  std::vector<BoxPlan> boxes;
  bool operator==(const Plan&) const = default;
};

// A stated limit is more likely missed than kept, a red caution stands, or the row is more likely not to go
// into its opening than to.
bool more_likely_missed(const Plan& plan);

// Every number to nine significant digits, far below what any gauge reads: so that the last bit of a
// machine's mathematics library shows neither in the file nor in the signature.
void settle_numbers(Plan& plan);

// Hash of the whole plan, the same on every machine: stands on every page.
std::string plan_signature(const Plan& plan);

} // namespace tacksquare
