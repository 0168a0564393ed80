#include "tables/practice.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace tacksquare {

namespace {

const Source practice{"common practice of the trade", Mark::common_practice};

struct TackRow {
  double t, length_low, length_high, pitch_low, pitch_high;
};
constexpr std::array<TackRow, 5> tack_rows{{{1.0, 3, 5, 25, 40},
                                            {2.0, 5, 8, 50, 75},
                                            {3.0, 8, 12, 75, 100},
                                            {4.0, 12, 20, 100, 150},
                                            {6.0, 12, 20, 100, 150}}};

TackPractice sheet_tacks(Length thickness) {
  const double t = std::clamp(in_mm(thickness), tack_rows.front().t, tack_rows.back().t);
  std::size_t upper = 1;
  while (t > tack_rows[upper].t)
    ++upper;
  const TackRow& a = tack_rows[upper - 1];
  const TackRow& b = tack_rows[upper];
  const double share = (t - a.t) / (b.t - a.t);
  const auto mix = [share](double x, double y) { return mm(x + share * (y - x)); };
  return {{mix(a.length_low, b.length_low), mix(a.length_high, b.length_high)},
          {mix(a.pitch_low, b.pitch_low), mix(a.pitch_high, b.pitch_high)},
          {mm(10.0), mm(15.0)},
          practice};
}

} // namespace

TackPractice tack_practice(Length thinner, Length thicker, TackRule rule) {
  TackPractice made = sheet_tacks(thinner);
  // A tack as long as that keeps its end as far from the rim as a short one its middle.
  const auto lengthen = [&](Length length) {
    made.length = {length, length};
    made.first = {made.first.low + length * 0.5, made.first.high + length * 0.5};
  };
  switch (rule) {
  case TackRule::sheet:
    return made;
  case TackRule::handbook:
    lengthen(thinner <= mm(3.2) ? mm(30.0) : mm(40.0));
    made.pitch = {thinner * 15.0, thinner * 30.0};
    made.source = {"published handbook table of tack lengths for plate", Mark::published};
    return made;
  case TackRule::en_1011_2:
    lengthen(thicker < mm(12.0) ? thicker * 4.0 : mm(50.0));
    made.source = {"EN 1011-2 clause 13, as EN 1090-2:2018 has it", Mark::standard};
    return made;
  }
  throw InternalError("unknown rule for tacks");
}

const RunPractice& run_practice() {
  static const RunPractice rule{mm(150.0), mm(150.0), mm(400.0), {mm(100.0), mm(150.0)}, mm(10.0), practice};
  return rule;
}

int run_count(Length seam, Length longest_run) {
  if (!(seam > mm(0.0)) || !(longest_run > mm(0.0)))
    throw InternalError("run_count: lengths must be positive");
  return std::max(1, static_cast<int>(std::ceil(seam / longest_run - 1e-9)));
}

GapLimits gap_limits(Length thickness) {
  return {thickness / 4.0, thickness / 2.0, thickness, practice};
}

GapVerdict gap_verdict(Length gap, Length thickness) {
  const GapLimits limits = gap_limits(thickness);
  if (gap <= limits.go) return GapVerdict::go;
  if (gap <= limits.colder) return GapVerdict::colder_or_copper;
  if (gap <= limits.dress) return GapVerdict::dress_or_fill;
  return GapVerdict::back_to_brake;
}

SourcedLength step_limit(Length thickness) {
  return {mm(0.2) + thickness * 0.15, {"ISO 5817 level C, thin range", Mark::from_memory}};
}

const ReceivingPractice& receiving_practice() {
  static const ReceivingPractice rule{mm(0.3), mm(1.0), 0.05, 0.1, mm(50.0), practice};
  return rule;
}

const HoldingPractice& holding_practice() {
  static const HoldingPractice rule{mm(40.0), mm(40.0), mm(100.0), 1e4, mm(0.5), mm(0.1), practice};
  return rule;
}

std::optional<SourcedTemperature> start_limit(MetalFamily family) {
  switch (family) {
  case MetalFamily::stainless:
    return SourcedTemperature{celsius(177.0), {"NAVSEA S9074-AR-GIB-010/278, austenitic", Mark::published}};
  case MetalFamily::aluminium:
    return SourcedTemperature{celsius(120.0), {"structural practice for 5052 and 6061", Mark::from_memory}};
  case MetalFamily::mild_steel:
  case MetalFamily::galvanized:
    break;
  }
  return std::nullopt;
}

SourcedTemperature bare_hand_limit() {
  return {celsius(45.0), practice};
}
SourcedTemperature touch_limit() {
  return {celsius(60.0), practice};
}

GrindPractice grind_practice(MetalFamily family, Length thickness) {
  const double slower = family == MetalFamily::stainless ? 2.0 : 1.0;
  GrindPractice rule;
  rule.pace_range = {MinutesPerMetre(3.0 * slower), MinutesPerMetre(5.0 * slower)};
  rule.pace = rule.pace_range.middle();
  rule.grits = {thickness < mm(3.0) ? 60 : 40, 120};
  rule.proud = mm(0.2);
  rule.dig_fraction = 0.1;
  rule.metres_per_disc = mm(3000.0);
  rule.source = practice;
  return rule;
}

const IncomingLean& incoming_lean() {
  static const IncomingLean lean{deg(0.5), deg(1.0), practice};
  return lean;
}

const BoxLimits& box_limits() {
  static const BoxLimits limits{mm(0.5), mm(1.0), practice};
  return limits;
}

Length diagonals_limit(Length diagonal) {
  return diagonal <= mm(700.0) ? mm(1.0) : mm(1.5);
}
Length wall_lean_limit(Length wall_height) {
  return wall_height / 300.0;
}
Length belly_limit(Length longer_side) {
  return longer_side / 400.0;
}

const IncomingMisfit& incoming_misfit() {
  static const IncomingMisfit misfit{deg(0.5), mm(0.2), mm(0.2), practice};
  return misfit;
}
const CommonShares& common_shares() {
  static const CommonShares shares{0.5, 0.5, 0.7, 0.0, 0.3, 0.8, 0.3, 0.7, practice};
  return shares;
}
SourcedLength bend_bulge(Length thickness) {
  return {thickness * 0.15, practice};
}
SourcedShare smallest_size() {
  return {0.98, practice};
}

const CrewPractice& crew_rates() {
  static const CrewPractice rates{seconds(90.0), seconds(60.0), seconds(90.0), seconds(300.0), seconds(20.0),
                                  seconds(15.0), seconds(15.0), seconds(10.0), seconds(60.0),  practice};
  return rates;
}

const PairPace& pair_pace() {
  static const PairPace pace{0.75, 1.3, practice};
  return pace;
}

Lift lift_for(Mass mass) {
  if (mass <= kg(15.0)) return Lift::one_person;
  return mass <= kg(40.0) ? Lift::two_people : Lift::hoist;
}

const Source& lift_source() {
  return practice;
}

SourcedDuration fire_watch() {
  return {minutes(30.0), {"29 CFR 1910.252", Mark::from_memory}};
}

Stress leak_test_limit() {
  return megapascal(0.002);
}
const Source& leak_test_source() {
  return practice;
}

Span<Length> vent_diameter() {
  return {mm(6.0), mm(8.0)};
}
const Source& vent_source() {
  return practice;
}

SourcedLength zinc_clear_width() {
  return {mm(25.0), practice};
}
SourcedLength edge_clean_width() {
  return {mm(20.0), practice};
}

Span<Length> powder_coat_per_face() {
  return {mm(0.05), mm(0.125)};
}
const Source& powder_coat_source() {
  static const Source source{"usual range of powder coats", Mark::published};
  return source;
}

} // namespace tacksquare
