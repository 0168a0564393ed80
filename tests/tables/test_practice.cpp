// Defaults of the trade: most have no source, so the rows only hold us to what was agreed.
#include "support/catch.h"
#include "support/table.h"

#include "base/diagnostic.h"
#include "tables/practice.h"

#include <functional>
#include <map>

using namespace tacksquare;
using test::Table;

namespace {

const std::map<std::string, std::function<double(double)>>& rules() {
  using F = MetalFamily;
  static const std::map<std::string, std::function<double(double)>> all{
      {"tack_length_low", [](double t) { return in_mm(tack_practice(mm(t), mm(t)).length.low); }},
      {"tack_length_high", [](double t) { return in_mm(tack_practice(mm(t), mm(t)).length.high); }},
      {"tack_pitch_low", [](double t) { return in_mm(tack_practice(mm(t), mm(t)).pitch.low); }},
      {"tack_pitch_high", [](double t) { return in_mm(tack_practice(mm(t), mm(t)).pitch.high); }},
      {"tack_length_handbook",
       [](double t) { return in_mm(tack_practice(mm(t), mm(t), TackRule::handbook).length.low); }},
      {"tack_pitch_low_handbook",
       [](double t) { return in_mm(tack_practice(mm(t), mm(t), TackRule::handbook).pitch.low); }},
      {"tack_pitch_high_handbook",
       [](double t) { return in_mm(tack_practice(mm(t), mm(t), TackRule::handbook).pitch.high); }},
      {"tack_length_en", // beside sheet half as thick: the thicker counts
       [](double t) { return in_mm(tack_practice(mm(t / 2), mm(t), TackRule::en_1011_2).length.low); }},
      {"first_tack_low", [](double t) { return in_mm(tack_practice(mm(t), mm(t)).first.low); }},
      {"first_tack_high", [](double t) { return in_mm(tack_practice(mm(t), mm(t)).first.high); }},
      {"runs", [](double l) { return double(run_count(mm(l), run_practice().longest_run)); }},
      {"tie_in", [](double) { return in_mm(run_practice().tie_in); }},
      {"gap_go", [](double t) { return in_mm(gap_limits(mm(t)).go); }},
      {"gap_colder", [](double t) { return in_mm(gap_limits(mm(t)).colder); }},
      {"gap_dress", [](double t) { return in_mm(gap_limits(mm(t)).dress); }},
      {"step", [](double t) { return in_mm(step_limit(mm(t)).value); }},
      {"start_limit_stainless", [](double) { return in_celsius(start_limit(F::stainless).value().value); }},
      {"start_limit_aluminium", [](double) { return in_celsius(start_limit(F::aluminium).value().value); }},
      {"bare_hand", [](double) { return in_celsius(bare_hand_limit().value); }},
      {"touch", [](double) { return in_celsius(touch_limit().value); }},
      {"grind_pace_low",
       [](double t) { return grind_practice(F::mild_steel, mm(t)).pace_range.low.stored(); }},
      {"grind_pace_high",
       [](double t) { return grind_practice(F::mild_steel, mm(t)).pace_range.high.stored(); }},
      {"grind_pace_low_304",
       [](double t) { return grind_practice(F::stainless, mm(t)).pace_range.low.stored(); }},
      {"grind_pace_high_304",
       [](double t) { return grind_practice(F::stainless, mm(t)).pace_range.high.stored(); }},
      {"first_grit", [](double t) { return double(grind_practice(F::mild_steel, mm(t)).grits.front()); }},
      {"last_grit", [](double t) { return double(grind_practice(F::mild_steel, mm(t)).grits.back()); }},
      {"proud", [](double t) { return in_mm(grind_practice(F::mild_steel, mm(t)).proud); }},
      {"dig_fraction", [](double t) { return grind_practice(F::mild_steel, mm(t)).dig_fraction; }},
      {"opposite_sides", [](double) { return in_mm(box_limits().opposite_sides); }},
      {"rock", [](double) { return in_mm(box_limits().rock); }},
      {"diagonals", [](double l) { return in_mm(diagonals_limit(mm(l))); }},
      {"wall_lean", [](double l) { return in_mm(wall_lean_limit(mm(l))); }},
      {"belly", [](double l) { return in_mm(belly_limit(mm(l))); }},
      {"fire_watch_min", [](double) { return in_min(fire_watch().value); }},
      {"leak_test_kPa", [](double) { return in_mpa(leak_test_limit()) * 1000.0; }},
      {"vent_low", [](double) { return in_mm(vent_diameter().low); }},
      {"vent_high", [](double) { return in_mm(vent_diameter().high); }},
      {"zinc_clear", [](double) { return in_mm(zinc_clear_width().value); }},
      {"edge_clean", [](double) { return in_mm(edge_clean_width().value); }},
      {"powder_low", [](double) { return in_mm(powder_coat_per_face().low); }},
      {"powder_high", [](double) { return in_mm(powder_coat_per_face().high); }},
      {"incoming_bend_deg", [](double) { return in_deg(incoming_misfit().bend); }},
      {"incoming_bend_place", [](double) { return in_mm(incoming_misfit().bend_place); }},
      {"incoming_blank", [](double) { return in_mm(incoming_misfit().blank); }},
      {"common_blank", [](double) { return common_shares().blank; }},
      {"common_bend_place", [](double) { return common_shares().bend_place; }},
      {"common_bend_lean", [](double) { return common_shares().bend_lean; }},
      {"common_fit", [](double) { return common_shares().fit; }},
      {"common_grinding", [](double) { return common_shares().grinding; }},
      {"common_coating", [](double) { return common_shares().coating; }},
      {"common_rack", [](double) { return common_shares().rack; }},
      {"common_belly", [](double) { return common_shares().belly; }},
      {"bend_bulge", [](double t) { return in_mm(bend_bulge(mm(t)).value); }},
      {"smallest_size", [](double) { return smallest_size().value; }},
  };
  return all;
}

} // namespace

TEST_CASE("defaults are those of the reference") {
  const Table table("practice.tsv", {"rule", "at", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 93);
  std::map<std::string, int> seen;
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    const auto rule = rules().find(row.text("rule"));
    REQUIRE(rule != rules().end());
    ++seen[row.text("rule")];
    CHECK(rule->second(row.number("at")) ==
          Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
  CHECK(seen.size() == rules().size());
}

TEST_CASE("tacks between rows lie between theirs; thinner than 1 and thicker than 6 mm take the end rows") {
  CHECK(in_mm(tack_practice(mm(1.5), mm(1.5)).length.middle()) == Approx(5.25));
  CHECK(tack_practice(mm(0.7), mm(0.7)).pitch == tack_practice(mm(1.0), mm(1.0)).pitch);
  CHECK(tack_practice(mm(8.0), mm(8.0)).length == tack_practice(mm(6.0), mm(6.0)).length);
  for (double t = 0.5; t < 7.0; t += 0.1) {
    const TackPractice tack = tack_practice(mm(t), mm(t));
    INFO(t);
    CHECK(tack.length.low < tack.length.high);
    CHECK(tack.pitch.low > tack.length.high);
  }
}

TEST_CASE("runs are never longer than asked for, and one fewer would be") {
  for (double seam = 1.0; seam < 2000.0; seam += 7.3) {
    const int n = run_count(mm(seam), mm(150.0));
    INFO(seam);
    CHECK(seam / n <= 150.0 + 1e-6);
    if (n > 1) CHECK(seam / (n - 1) > 150.0);
  }
  CHECK_THROWS_AS(run_count(mm(0.0), mm(150.0)), InternalError);
}

TEST_CASE("a gap is judged by quarters of the thickness, its limits included") {
  const Length t = mm(2.0);
  CHECK(gap_verdict(mm(0.0), t) == GapVerdict::go);
  CHECK(gap_verdict(mm(0.5), t) == GapVerdict::go);
  CHECK(gap_verdict(mm(0.51), t) == GapVerdict::colder_or_copper);
  CHECK(gap_verdict(mm(1.0), t) == GapVerdict::colder_or_copper);
  CHECK(gap_verdict(mm(2.0), t) == GapVerdict::dress_or_fill);
  CHECK(gap_verdict(mm(2.01), t) == GapVerdict::back_to_brake);
}

TEST_CASE("plain carbon steel has no start limit: a wait there would be laughed at") {
  CHECK_FALSE(start_limit(MetalFamily::mild_steel));
  CHECK_FALSE(start_limit(MetalFamily::galvanized));
}

TEST_CASE("who lifts: a locker of 13.2 kg one person, a float of 25.4 kg two, a heavier one a hoist") {
  CHECK(lift_for(kg(13.2)) == Lift::one_person);
  CHECK(lift_for(kg(25.4)) == Lift::two_people);
  CHECK(lift_for(kg(60.0)) == Lift::hoist);
}

TEST_CASE("the rates add up to the locker that was timed at the bench") {
  // Common practice, no source: four seams of 300 mm; dry fit 6 min, 20 tacks with their reading 6 min,
  // knocking down 3 min, eight runs with 160 s of arc 5 min. Each within a third.
  const CrewPractice& r = crew_rates();
  CHECK(in_min(r.fit) * 4 == Approx(6.0).epsilon(0.34));
  CHECK(in_min(r.tack) * 20 + in_min(r.look) * 2 == Approx(6.0).epsilon(0.34));
  CHECK(in_min(r.knock_down) * 20 == Approx(3.0).epsilon(0.34));
  CHECK(in_min(r.weld_start) * 8 + 160.0 / 60.0 == Approx(5.0).epsilon(0.34));
  CHECK(r.turn < r.turn_two);
  CHECK(r.turn_two < r.turn_hoist);
}
