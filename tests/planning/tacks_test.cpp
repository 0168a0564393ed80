// planning/tacks against the tacks of the bench's sheet and the rules of the trade (common practice, no
// source).
#include "planning/fixtures.h"
#include "planning/tacks/tack_plan.h"
#include "support/catch.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

using namespace tacksquare;
using test::BoxCase;
using test::build;
using Ids = std::vector<std::string>;

namespace {

Ids ids_of(const std::vector<Tack>& tacks) {
  Ids ids;
  for (const Tack& tack : tacks)
    ids.push_back(tack.id);
  return ids;
}

std::vector<double> places(const std::vector<Tack>& tacks, std::size_t seam) {
  std::vector<double> at;
  for (const Tack& tack : tacks)
    if (tack.seam == seam) at.push_back(tack.at_mm);
  std::sort(at.begin(), at.end());
  return at;
}

} // namespace

TEST_CASE("The locker's tacks are those of the bench's sheet, place by place and in its order") {
  // Steps 14-18: at 12 S1 S3 S2 S4; at 150 S2 S4 S1 S3; at 285, then 80, then 220, each time S1 S3 S2 S4.
  const BoxCase c = build(test::locker());
  const std::vector<Tack> tacks = plan_tacks(c.box, c.geometry, c.work);
  CHECK(ids_of(tacks) == Ids{"S1@12",  "S3@12",  "S2@12",  "S4@12",  "S2@150", "S4@150", "S1@150",
                             "S3@150", "S1@285", "S3@285", "S2@285", "S4@285", "S1@80",  "S3@80",
                             "S2@80",  "S4@80",  "S1@220", "S3@220", "S2@220", "S4@220"});
  for (std::size_t seam = 0; seam < 4; ++seam)
    CHECK(places(tacks, seam) == std::vector<double>{12, 80, 150, 220, 285});
  std::vector<int> rounds;
  for (std::size_t i = 0; i < tacks.size(); i += 4)
    rounds.push_back(tacks[i].round);
  CHECK(rounds == std::vector<int>{0, 1, 2, 3, 3});
  for (const Tack& tack : tacks) {
    CHECK(tack.length_mm == 6);
    CHECK(tack.flat_after);
  }
}

TEST_CASE("On any box: no gap over the pitch, clear of rims and corners, no two in one place, rounds without "
          "a hole") {
  Random random(43);
  for (int job = 0; job < 200; ++job) {
    BoxCase c = test::random_case(random);
    c.work.rules.tack_pitch_mm.value = random.uniform(25, 150);
    c.work.rules.tack_length_mm.value = random.uniform(4, 12);
    if (random.below(2) == 0) c.work.last_face = std::string("T");
    INFO("seed 43, job " << job);
    const std::vector<Tack> tacks = plan_tacks(c.box, c.geometry, c.work);
    const double length = c.work.rules.tack_length_mm.value, first = c.work.rules.first_tack_mm.value;
    for (std::size_t seam = 0; seam < c.work.seams.size(); ++seam) {
      const std::vector<double> at = places(tacks, seam);
      const double total = c.work.seams[seam].length_mm;
      REQUIRE(at.size() >= 2);
      REQUIRE(at.front() - length / 2 >= first - 0.5);
      REQUIRE(total - at.back() - length / 2 >= first - 0.5);
      for (std::size_t i = 1; i < at.size(); ++i) {
        REQUIRE(at[i] - at[i - 1] <= c.work.rules.tack_pitch_mm.value);
        REQUIRE(at[i] - at[i - 1] >= length);
      }
    }
    std::set<std::string> ids;
    int round = 0;
    REQUIRE(tacks.front().round == 0);
    for (const Tack& tack : tacks) {
      REQUIRE(ids.insert(tack.id).second);
      REQUIRE((tack.round == round || tack.round == round + 1));
      round = tack.round;
    }
  }
}

TEST_CASE(
    "A closed box: the walls stand by the base first, then its rim corners, the last face after all others") {
  test::HandBox hand = test::float_box();
  BoxCase c = build(hand);
  c.work.last_face = "T";
  const std::vector<Tack> tacks = plan_tacks(c.box, c.geometry, c.work);
  const auto touches_top = [&](const Tack& tack) { return tack.seam >= 8; };
  const auto lid = std::find_if(tacks.begin(), tacks.end(), touches_top);
  REQUIRE(lid != tacks.end());
  CHECK(std::all_of(lid, tacks.end(), touches_top));
  CHECK(lid->round > std::prev(lid)->round);
  // Round 0: the four base seams in their middles, then the four uprights at their tops, nothing else.
  std::vector<std::size_t> seams;
  for (const Tack& tack : tacks) {
    if (tack.round != 0) break;
    seams.push_back(tack.seam);
    const double length = c.work.seams[tack.seam].length_mm;
    if (seams.size() <= 4)
      CHECK(tack.at_mm == length / 2);
    else
      CHECK(tack.at_mm == length - 15); // uprights start at the under end
  }
  CHECK(seams == std::vector<std::size_t>{4, 6, 5, 7, 0, 2, 3, 1});
  // The last face is caught at its corners before its middles.
  for (auto tack = lid; tack != lid + 8; ++tack)
    CHECK((tack->at_mm == 15 || tack->at_mm == c.work.seams[tack->seam].length_mm - 15));
}

TEST_CASE("A seam too short for two tacks gets one in its middle") {
  test::HandBox hand = test::locker();
  hand.depth = 20;
  const BoxCase c = build(hand);
  const std::vector<Tack> tacks = plan_tacks(c.box, c.geometry, c.work);
  CHECK(ids_of(tacks) == Ids{"S1@10", "S3@10", "S2@10", "S4@10"});
  CHECK(tacks[0].round == 0);
}

TEST_CASE("Stitched seams are tacked where stitches will lie") {
  test::HandBox hand = test::locker();
  hand.runs = 1;
  BoxCase c = build(hand);
  c.work.runs.clear();
  for (std::size_t seam = 0; seam < 4; ++seam) {
    c.box.seams[seam].stitch = Stitch{mm(20), mm(70)};
    c.box.seams[seam].side = WeldSide::inside;
    for (int k = 0; k < 5; ++k) {
      Run run;
      run.id = c.work.seams[seam].id + static_cast<char>('a' + k);
      run.seam = seam;
      run.rank = k;
      run.from_mm = 70.0 * k;
      run.to_mm = run.from_mm + 20;
      c.work.runs.push_back(run);
    }
  }
  const std::vector<Tack> tacks = plan_tacks(c.box, c.geometry, c.work);
  CHECK(places(tacks, 0) == std::vector<double>{10, 80, 150, 220, 290});
  CHECK_FALSE(tacks[0].flat_after); // inside: no disc gets there
}

TEST_CASE("No tack over a vent") {
  BoxCase c = build(test::locker());
  Vent vent;
  vent.face = 4; // T; its frame laid so that local x runs along S1
  c.box.faces[4].placement = {{0, 0, 600}, {0, 1, 0}, {-1, 0, 0}};
  vent.at = {150, -5};
  vent.diameter = mm(8);
  c.box.vents = {vent};
  const std::vector<double> moved = places(plan_tacks(c.box, c.geometry, c.work), 0);
  CHECK(moved == std::vector<double>{12, 80, 170, 220, 285});
  for (const double at : moved)
    CHECK(std::hypot(at - 150, 5) >= 4 + 12);
}
