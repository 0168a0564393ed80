// What the box stands on while it is tacked, and what hold-downs press onto the table.
#include "plan/verify/check_plan.h"
#include "support/planned.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

constexpr double kGravity = 9.81; // m/s2

// The locker on its back, R against two stops; pieces: what stands on the table beside them.
Planned locker_with(const std::string& pieces) {
  const std::string fixture = "<fixture box=\"locker\" name=\"LOCKER\" down=\"B\" long-side=\"R\">"
                              "<stop id=\"P1\" at=\"100 mm, 0 mm, 20 mm\" towards=\"y\"/>"
                              "<stop id=\"P2\" at=\"500 mm, 0 mm, 20 mm\" towards=\"y\"/>"
                              "<stop id=\"P3\" at=\"0 mm, 200 mm, 20 mm\" towards=\"x\"/>" +
                              pieces + "</fixture>";
  std::string job = sample_text("gear-locker.xml");
  job.insert(job.rfind("</tacksquare-job>"), fixture);
  return planned(job, false);
}

std::string hold_downs(const std::string& force) {
  std::string all;
  int number = 1;
  for (const int y : {80, 320})
    for (const int x : {100, 300, 500})
      all += fmt::format("<hold-down id=\"H{}\" at=\"{} mm, {} mm, 2 mm\" force=\"{}\"/>", number++, x, y,
                         force);
  return all;
}

const PlannedPiece& piece(const BoxPlan& box, const std::string& id) {
  const auto found = std::find_if(box.fixture->pieces.begin(), box.fixture->pieces.end(),
                                  [&](const PlannedPiece& each) { return each.id == id; });
  REQUIRE(found != box.fixture->pieces.end());
  return *found;
}

} // namespace

TEST_CASE("a box on the table stands on the corners of what lies on it, and they carry its weight",
          "[together]") {
  const Planned& made = whole_sample("gear-locker.xml");
  const BoxPlan& box = made.plan.boxes.at(0);
  REQUIRE(box.elastic);
  REQUIRE(box.elastic->stands.size() == 2); // tacked, and as it is turned
  CHECK(box.elastic->stands[0].after == box.tacks.back().id);
  for (const ElasticStand& stand : box.elastic->stands) {
    INFO("after " << stand.after);
    CHECK(stand.weight_N == Approx(box.mass_kg * kGravity).epsilon(0.02));
    REQUIRE(stand.value.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(stand.on[i] == "table");
      const Vec3 from = stand.at[i] - box.fixture->origin;
      const double x = dot(from, box.fixture->x), y = dot(from, box.fixture->y);
      CHECK(std::min(x, box.fixture->size_mm.x - x) == Approx(0.0).margin(2.0));
      CHECK(std::min(y, box.fixture->size_mm.y - y) == Approx(0.0).margin(2.0));
      // Its weight is in the middle: across from one another two places carry the same.
      CHECK(stand.value[i] == Approx(stand.value[(i + 2) % 4]).margin(0.3));
      CHECK(stand.high[i] <= 0.5 * stand.weight_N + 0.1);
      CHECK(stand.nothing[i] > 0.05); // it rocks, as boxes do
    }
  }
}

// Three places carry by the lever alone, whatever the box does (statics, any textbook).
TEST_CASE("three supports carry by the lever, and nothing in it is uncertain") {
  const std::vector<Vec2> pads{{50, 50}, {560, 90}, {240, 350}};
  std::string supports;
  for (std::size_t i = 0; i < pads.size(); ++i)
    supports += fmt::format("<support id=\"Z{}\" at=\"{} mm, {} mm\"/>", i + 1, pads[i].x, pads[i].y);
  const Planned made = locker_with(supports);
  const BoxPlan& box = made.plan.boxes.at(0);
  CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  REQUIRE(box.elastic->stands.size() == 2);
  const Vec3 heavy = made.geometry.at(0).centre_of_gravity - box.fixture->origin;
  const Vec2 centre{dot(heavy, box.fixture->x), dot(heavy, box.fixture->y)};
  const auto area = [](Vec2 a, Vec2 b, Vec2 c) { return cross(b - a, c - a); };
  for (const ElasticStand& stand : box.elastic->stands) {
    REQUIRE(stand.on == std::vector<std::string>{"Z1", "Z2", "Z3"});
    for (std::size_t i = 0; i < 3; ++i) {
      const double share =
          area(centre, pads[(i + 1) % 3], pads[(i + 2) % 3]) / area(pads[0], pads[1], pads[2]);
      CHECK(stand.value[i] == Approx(share * stand.weight_N).epsilon(0.02));
      CHECK(stand.high[i] - stand.low[i] < 0.11);
      CHECK(stand.nothing[i] == 0.0);
    }
  }
}

TEST_CASE("hold-downs hold the box to the table until the first of them is off, and say what they need") {
  const Planned made = locker_with(hold_downs("400 N"));
  const BoxPlan& box = made.plan.boxes.at(0);
  CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  CHECK(box.elastic->stands.empty()); // what is under them is told with them
  REQUIRE(box.elastic->pieces.size() == 1);
  const HoldingPiece& table = box.elastic->pieces[0];
  CHECK(table.id == "H1");
  CHECK(table.at.size() == 6);
  for (const Vec3 out : table.out)
    CHECK(norm(out - box.fixture->z) < 1e-9);
  for (int i = 0; i < 6; ++i) {
    const PlannedPiece& down = piece(box, fmt::format("H{}", i + 1));
    CHECK(down.needs_N == table.pull_N[static_cast<std::size_t>(i)]);
    CHECK(down.needs_N > 1.0);
    CHECK(down.needs_N < 400.0);
    REQUIRE(down.table_N);
    CHECK(down.table_N->low == Approx(400.0 - down.needs_N));
    CHECK(down.table_N->high == Approx(400.0 + table.push_N[static_cast<std::size_t>(i)]));
    CHECK(down.slide_mm > 0.0); // along the table by friction alone
  }
  // It springs when it is let go, and by nothing else.
  REQUIRE(box.elastic->releases.size() == 1);
  const ElasticRelease& release = box.elastic->releases[0];
  CHECK(release.after == "H1");
  double most = 0.0;
  for (std::size_t i = 0; i < release.value.size(); ++i)
    most = std::max(most, release.high[i] - release.low[i]);
  CHECK(most > 0.1);
  for (const ElasticState& state : box.elastic->states)
    CHECK(state.holding_N.has_value() == (state.after != "H1"));
}

TEST_CASE("a hold-down that gives less than the box pulls is told; between supports it holds nothing flat") {
  const Planned weak = locker_with(hold_downs("10 N"));
  CHECK(std::count_if(weak.plan.boxes.at(0).cautions.begin(), weak.plan.boxes.at(0).cautions.end(),
                      [](const Caution& each) { return each.what.key == "caution.clamp-weak"; }) >= 4);

  const Planned between =
      locker_with("<support id=\"Z1\" at=\"50 mm, 50 mm\"/><support id=\"Z2\" at=\"550 mm, 50 mm\"/>"
                  "<support id=\"Z3\" at=\"300 mm, 390 mm\"/>" +
                  hold_downs("50 N"));
  const BoxPlan& box = between.plan.boxes.at(0);
  CHECK(joined(check_plan(between.job, between.geometry, between.plan)) == "");
  CHECK(box.elastic->pieces.empty());
  CHECK_FALSE(piece(box, "H1").table_N);
}

TEST_CASE("hold-downs on one line keep that line straight; two of them hold nothing flat") {
  const auto in_line = [](int count) {
    std::string all;
    for (int i = 0; i < count; ++i)
      all += fmt::format("<hold-down id=\"H{}\" at=\"{} mm, 200 mm, 2 mm\" force=\"200 N\"/>", i + 1,
                         60 + 120 * i);
    return all;
  };
  const Planned made = locker_with(in_line(5));
  const BoxPlan& box = made.plan.boxes.at(0);
  CHECK(joined(check_plan(made.job, made.geometry, made.plan)) == "");
  REQUIRE(box.elastic);
  REQUIRE(box.elastic->pieces.size() == 1);
  CHECK(box.elastic->pieces[0].off.front() > 0.9); // out of flat is bowed, there
  CHECK(piece(box, "H3").table_N);

  const Planned two = locker_with(in_line(2));
  REQUIRE(two.plan.boxes.at(0).elastic);
  CHECK(two.plan.boxes.at(0).elastic->pieces.empty());
}
