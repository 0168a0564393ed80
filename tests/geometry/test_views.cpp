#include "boxes.h"
#include "geometry/views.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::vector<OppositeFaces> pairs_of(const Case& c) {
  return opposite_faces(c.job, c.box, resolved(c));
}

std::vector<std::string> names(const Case& c) {
  std::vector<std::string> all;
  for (const OppositeFaces& p : pairs_of(c))
    all.push_back(fmt::format("{}{} {:.1f}", c.box.faces[p.a].id, c.box.faces[p.b].id, p.outside_mm));
  return all;
}

} // namespace

TEST_CASE("opposite faces are the ones on the outside, with their outside distance") {
  CHECK(names(locker()) == std::vector<std::string>{"LR 400.0", "UT 600.0"});
  CHECK(names(ballast_float()) == std::vector<std::string>{"FB 400.0", "LR 600.0", "UT 300.0"});
  CHECK(names(battery_box()) == std::vector<std::string>{"FB 250.0", "LR 450.0"}); // the lid is loose
  CHECK(names(tray()) == std::vector<std::string>{"FB 400.0", "LR 600.0"}); // neither lips nor dividers
}

TEST_CASE("nine widths of a locker lie on the outside, the first three at the rim") {
  const Case c = locker();
  const BoxGeometry g = resolved(c);
  const std::vector<WidthPlace> places = width_places(c.job, c.box, g, pairs_of(c)[0], 20.0);
  REQUIRE(places.size() == 9);
  CHECK(near(places[0].on_a, {0, 20, 21}));
  CHECK(near(places[0].on_b, {400, 20, 21}));
  CHECK(near(places[4].on_a, {0, 149.5, 300}));
  CHECK(near(places[8].on_b, {400, 279, 579}));
  for (const WidthPlace& p : places)
    CHECK(norm(p.on_b - p.on_a) == Approx(400.0));
  CHECK(places[3].depth == 1);
  CHECK(places[5].place == 2);
}

TEST_CASE("no width is taken over a cut-out") {
  Case c = ballast_float();
  const std::size_t left = face_of(c, "L");
  c.box.faces[left].cutouts = {{{180, 130}, {220, 130}, {220, 170}, {180, 170}}}; // in the middle
  c.box.vents.clear();
  const BoxGeometry g = resolved(c);
  for (const OppositeFaces& pair : opposite_faces(c.job, c.box, g))
    CHECK(width_places(c.job, c.box, g, pair, 20.0).size() == (pair.a == left ? 8u : 9u));
}

TEST_CASE("the inside diagonals of the locker's opening are those of 396 by 596") {
  // sqrt(396^2 + 596^2) = 715.564, derived.
  const Case c = locker();
  const auto both = diagonals(opening_corners_inside(c.job, c.box, resolved(c)));
  REQUIRE(both.size() == 2);
  CHECK(norm(both[0].second - both[0].first) == Approx(715.564).margin(1e-3));
  CHECK(norm(both[1].second - both[1].first) == Approx(715.564).margin(1e-3));
}

TEST_CASE("an opening with lips is measured over the lips' own corners") {
  const Case c = tray();
  const auto both = diagonals(opening_corners_inside(c.job, c.box, resolved(c)));
  REQUIRE(both.size() == 2);
  CHECK(norm(both[0].second - both[0].first) == Approx(std::hypot(644.0, 444.0)));
}

TEST_CASE("a face's corners leave out points in straight edges") {
  Case c = ballast_float();
  Face& top = c.box.faces[face_of(c, "T")];
  top.outline.insert(top.outline.begin() + 1, (top.outline[0] + top.outline[1]) * 0.5);
  top.setback_mm.insert(top.setback_mm.begin(), top.setback_mm.front());
  const BoxGeometry g = resolved(c);
  const std::vector<Vec3> corners = face_corners(g, face_of(c, "T"));
  REQUIRE(corners.size() == 4);
  const auto both = diagonals(corners);
  CHECK(norm(both[0].second - both[0].first) == Approx(std::hypot(597.0, 397.0)));
  CHECK(diagonals({{0, 0, 0}, {1, 0, 0}, {1, 1, 0}}).empty());
}

TEST_CASE("each wall stands on the base, foot and top over the same ends") {
  for (const Case& c : {locker(), battery_box(), tray()}) {
    const BoxGeometry g = resolved(c);
    const std::vector<Wall> all = walls(c.box, g);
    REQUIRE(all.size() == 4);
    for (const Wall& w : all) {
      const Vec3 start = w.top_start - w.foot_start, end = w.top_end - w.foot_end;
      CHECK(near(start, end));
      CHECK(std::abs(dot(start, w.foot_end - w.foot_start)) < 1e-6); // upright
    }
  }
  CHECK(norm(walls(locker().box, resolved(locker()))[0].top_start -
             walls(locker().box, resolved(locker()))[0].foot_start) == Approx(299.0));
  CHECK(walls(ballast_float().box, resolved(ballast_float())).empty());
}
