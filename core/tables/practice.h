// Defaults of the trade. All common practice without a source unless a row's source says otherwise; a job may
// state its own.
#pragma once

#include "base/band.h"
#include "base/units.h"
#include "tables/metals.h"
#include "tables/settings.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// --- Tacks. Of the sheet rule, by the thinner sheet: between rows linear, beyond 1 and 6 mm the nearest row.
// The other two are made for plate, and long for sheet: such a tack keeps its end as far from a free rim as
// one of sheet its middle. Their pitch, where they have none, is that of sheet.
enum class TackRule {
  sheet,     // common practice
  handbook,  // 30 mm up to 3.2 mm, 40 mm beyond; pitch 15 to 30 times the thinner sheet
  en_1011_2, // at least four times the thicker sheet below 12 mm, else 50 mm
};
struct TackPractice {
  Span<Length> length;
  Span<Length> pitch;
  Span<Length> first; // from a free rim: on the edge it melts back
  Source source;
};
TackPractice tack_practice(Length thinner, Length thicker, TackRule rule = TackRule::sheet);

// --- Runs.
struct RunPractice {
  Length one_run_up_to;   // 150: a seam no longer than this is one run
  Length longest_run;     // 150: longer seams are cut into equal runs no longer than this
  Length back_step_over;  // 400: back-step is worth asking for from here
  Span<Length> back_step; // 100-150
  Length tie_in;          // 10, over the run before
  Source source;
};
const RunPractice& run_practice();
// Equal runs of a seam: 1 up to 150 mm, 2 to 300, 3 to 450. Precondition: both > 0.
int run_count(Length seam, Length longest_run);

// --- Fit-up.
enum class GapVerdict { go, colder_or_copper, dress_or_fill, back_to_brake };
struct GapLimits {
  Length go, colder, dress; // up to t/4, t/2, t; over the last: back to the brake
  Source source;
};
GapLimits gap_limits(Length thickness);
GapVerdict gap_verdict(Length gap, Length thickness);
// A wall as it comes from the brake, out of square by: up to go as it is, up to dress by hand over a block,
// beyond back to the brake. Welding does not need it true: a hand's push closes it.
struct IncomingLean {
  Angle go, dress;
  Source source;
};
const IncomingLean& incoming_lean(); // 0.5 and 1 deg
struct SourcedLength {
  Length value;
  Source source;
};
SourcedLength step_limit(Length thickness); // between faces at a seam: 0.2 + 0.15 t

// Receiving, beyond gaps, steps and leans.
struct ReceivingPractice {
  Length stack;       // edges of opposite panels laid on each other
  Length trim;        // too large by up to this: a strip that a grinder takes off
  double thickness;   // off, as a share: still this sheet
  double other_sheet; // beyond: another sheet
  Length lowest_wall; // lower ones (lips) are not looked at for lean
  Source source;
};
const ReceivingPractice& receiving_practice(); // 0.3 mm, 1 mm, 5 %, 10 %, 50 mm

// --- Temperatures.
struct SourcedTemperature {
  Temperature value;
  Source source;
};
std::optional<SourcedTemperature> start_limit(MetalFamily family); // no arc above; nothing: no limit
SourcedTemperature bare_hand_limit();                              // 45 C
SourcedTemperature touch_limit();                                  // 60 C, gloved: handling and grinding

// --- Grinding.
struct GrindPractice {
  MinutesPerMetre pace; // per grit, with moves and looks
  Span<MinutesPerMetre> pace_range;
  std::vector<int> grits;    // in order of use
  Length proud;              // 0.2 at most
  double dig_fraction = 0.1; // of the thickness at most
  Length metres_per_disc;
  Source source;
};
GrindPractice grind_practice(MetalFamily family, Length thickness);

// --- What holds a box from within: a former in the rim, or squares in the corners.
struct HoldingPractice {
  Length below_rim;      // where it sits
  Length clear;          // from a corner to where it first touches a wall
  Length reach;          // of a square's arm
  double stiffness_N_mm; // of each place where it is clamped to a wall
  Length former_untrue;  // 90 %, what its diagonals differ by
  Length square_untrue;  // 90 %, at the end of an arm
  Source source;
};
const HoldingPractice& holding_practice(); // 40, 40, 100 mm, 10,000 N/mm, 0.5 and 0.1 mm

// --- Limits of a finished box.
struct BoxLimits {
  Length opposite_sides; // difference of two opposite sides
  Length rock;           // under the fourth corner
  Source source;
};
const BoxLimits& box_limits();
Length diagonals_limit(Length diagonal);    // 1.0 up to 700 long, else 1.5
Length wall_lean_limit(Length wall_height); // 1.0 at 300, in proportion
Length belly_limit(Length longer_side);     // 1.0 per 400, in proportion; never outward past the size

// --- Parts as they come and boxes in a row.
// Misfit to reckon with where nothing was measured: plus or minus, 90 %.
struct IncomingMisfit {
  Angle bend;        // a bend's angle against drawn
  Length bend_place; // a bend line against drawn
  Length blank;      // a cut edge to edge size
  Source source;
};
const IncomingMisfit& incoming_misfit(); // 0.5 deg, 0.2 mm, 0.2 mm
// What all boxes of one order have in common of a cause's variance, 0..1: one cutter, one set-up of the
// brake, one pair of hands, one powder batch.
struct CommonShares {
  double blank, bend_place, bend_lean, fit, grinding, coating, rack, belly;
  Source source;
};
const CommonShares& common_shares();
SourcedLength bend_bulge(Length thickness); // at each end of a press-brake bend, along it: 0.15 t
struct SourcedShare {
  double value = 0.0;
  Source source;
};
SourcedShare smallest_size(); // of the stated one that is still good where no limit is stated: 0.98

// --- The pair's rates.
struct CrewPractice {
  Duration fit;        // dry fit, clamps and gap check, per seam
  Duration turn;       // one person turns the box once
  Duration turn_two;   // two together
  Duration turn_hoist; // with a hoist
  Duration look;       // at one seam, or one reading of one gauge
  Duration tack;       // one, moves included
  Duration weld_start; // moves and hood before a run
  Duration knock_down; // one tack, ends feathered
  Duration disc_change;
  Source source;
};
const CrewPractice& crew_rates();

// What a pair needs by hand, in parts of what the rates say: quick and slow end of a 90 % interval, median 1.
// A pair is quick or slow at all it does.
struct PairPace {
  double quick, slow;
  Source source;
};
const PairPace& pair_pace(); // 0.75 and 1.3

enum class Lift { one_person, two_people, hoist };
Lift lift_for(Mass mass); // one person up to 15 kg, two up to 40
const Source& lift_source();

// --- Care.
struct SourcedDuration {
  Duration value;
  Source source;
};
SourcedDuration fire_watch(); // 30 min after the last spark
Stress leak_test_limit();     // 2 kPa on flat panels
const Source& leak_test_source();
Span<Length> vent_diameter(); // 6-8 mm
const Source& vent_source();
SourcedLength zinc_clear_width();    // 25 mm each side of a seam
SourcedLength edge_clean_width();    // 20 mm each side of a seam
Span<Length> powder_coat_per_face(); // 0.05-0.125
const Source& powder_coat_source();

} // namespace tacksquare
