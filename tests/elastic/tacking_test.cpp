// Tack after tack: what stands open ahead of each, in whatever order; and a tacked box pulled square.
#include "elastic/stated_box.h"
#include "physics/elastic/pull.h"
#include "physics/elastic/tacking.h"
#include "support/catch.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::elastic;
using namespace tacksquare::test;

namespace {

using Kind = Event::Kind;

Figure rim_diagonals() {
  return {"diagonals", FigureKind::diagonals, {{0, 0, 300}, {600, 0, 300}, {600, 400, 300}, {0, 400, 300}}};
}

// Eight tacks in the order in which they are stated, a weld along each seam; one misfit, known exactly.
Making making_of(const StatedBox& b, const Misfit& misfit, double amount) {
  Making m;
  m.tacks = b.tacks;
  for (std::size_t i = 0; i < m.tacks.size(); ++i)
    m.events.push_back({Kind::tack, i});
  for (std::size_t s = 0; s < b.box.seams.size(); ++s) {
    m.welds.push_back({s, 0.0, 300.0});
    m.events.push_back({Kind::weld, s});
  }
  m.seams.resize(b.box.seams.size());
  m.misfits.push_back({misfit, amount, 0.0});
  m.watched.push_back({rim_diagonals(), true});
  m.short_taper_mm = m.long_taper_mm = 30.0;
  return m;
}

Tacking tacking_of(const StatedBox& b, const Making& m) {
  Diagnostics out;
  const auto made = Tacking::make(b.job, b.box, b.geometry, m, {}, 3, 7, out);
  REQUIRE(made);
  return *made;
}

} // namespace

// The gap is stated, and nothing is fused yet: it must be met as it is, in between in proportion.
TEST_CASE("a gap that is stated is met where it is, and closed by the tacks that come before") {
  const StatedBox b = stated_box("open");
  const double wide = 0.8;
  const Making m =
      making_of(b, {Misfit::Kind::gap, 0, 1, {}}, wide); // in the middle of c1, nothing at its ends
  const Tacking tacking = tacking_of(b, m);
  REQUIRE(tacking.events().size() == 8); // no weld
  const Eigen::MatrixXd gaps = tacking.tacked(tacking.events()).gap_mm;
  // Tack 0 lies from 50 to 75 mm: in the mean 62.5 of the 150 mm over which the gap grows.
  for (Index draw = 0; draw < gaps.cols(); ++draw)
    CHECK(gaps(0, draw) == Approx(wide * 62.5 / 150.0).epsilon(1e-6));
  // Closed near the fold it swings the wall in by its lever: the rim lies over.
  CHECK(gaps(1, 0) < 0.0);
  // The other way round it is the other one that meets it whole.
  std::vector<Event> other = tacking.events();
  std::swap(other[0], other[1]);
  const Eigen::MatrixXd swapped = tacking.tacked(other).gap_mm;
  CHECK(swapped(1, 0) == Approx(wide * 62.5 / 150.0).epsilon(1e-6));
  // Closed at the rim, the lower place is left with what it was cut less what the wall swings there.
  CHECK(swapped(0, 0) == Approx(wide * 62.5 / 150.0 * (1.0 - 62.5 / 237.5)).epsilon(0.15));
}

TEST_CASE("an order is made as the history makes it, tack by tack") {
  const StatedBox b = stated_box("open");
  const double lean = 0.01;
  const Making m = making_of(b, {Misfit::Kind::lean, 0, 0, {}}, lean);
  const Tacking tacking = tacking_of(b, m);
  std::vector<Event> order = tacking.events();
  std::swap(order[1], order[6]);
  std::swap(order[0], order[3]);
  const Tacking::Tacked tacked = tacking.tacked(order);

  Diagnostics out;
  ModelOptions options;
  options.jump_taper_mm = 30.0;
  const auto model = make_box_model(b.job, b.box, b.geometry, m.tacks, {}, {rim_diagonals()},
                                    {m.misfits[0].misfit}, options, out);
  REQUIRE(model);
  const Cases cases = cases_of(*model, b.box.seams.size());
  Eigen::VectorXd x = Eigen::VectorXd::Zero(cases.count());
  x(cases.misfit(0)) = lean;
  const auto moments = make_history(*model, order, {}, cases, x, {});
  CHECK(std::abs(tacked.mm(0, 0)) > 0.01);
  CHECK(tacked.mm(0, 0) == Approx(moments.back().measures(0, 0)).epsilon(1e-9));
  for (std::size_t i = 0; i < order.size(); ++i)
    CHECK(tacked.gap_mm(static_cast<Index>(order[i].which), 0) == Approx(moments[i].gap_mm(0)).margin(1e-12));
}

// Twist of thin plates, w = c x y in the base and what carries it on into the walls, keeps every edge as long
// and every fold as it is: an open box twists without stretching anything, so that it is as soft as five
// twisted plates as long as its tacks are hinges, U = E t^3 / (12 (1 + nu)) c^2 A (Timoshenko and
// Woinowsky-Krieger 1959, pure twist [from memory]). The diagonals of the rim then differ by 8 a b c h /
// sqrt(a^2 + b^2). A bound from above; the tacks leave the box a little softer.
TEST_CASE("the diagonals of a tacked open box give as five twisted plates") {
  const StatedBox b = stated_box("open");
  Diagnostics out;
  const Making m = making_of(b, {Misfit::Kind::lean, 0, 0, {}}, 0.0);
  ModelOptions hinged;
  hinged.tack_turn = 1e-6;
  const auto stays = pull_stays(b.job, b.box, b.geometry, m, hinged, rim_diagonals(), {8}, out);
  REQUIRE(stays.size() == 1);
  const double E = 210000, nu = 0.3, t = 2.5, half_a = 300, half_b = 200, h = 300;
  const double area = 600 * 400 + 2 * 300 * (600 + 400);
  const double c = std::hypot(half_a, half_b) / (8.0 * half_a * half_b * h); // for 1 mm
  const double force = 2.0 * E * t * t * t / (12.0 * (1.0 + nu)) * c * c * area;
  CHECK(stays[0].force_N < force);
  CHECK(stays[0].force_N > 0.9 * force);
  CHECK(std::abs(stays[0].until_tacked.value) < 1e-6); // nothing was tacked meanwhile
}

// Told by 1 mm; here a box that comes in off square by something else is pulled by as much as that says.
TEST_CASE("a box that is pulled past square by what springs back ends square") {
  const StatedBox b = stated_box("open");
  const double lean = 0.02;
  const Making m = making_of(b, {Misfit::Kind::lean, 1, 1, {}}, lean);
  Diagnostics out;
  const std::size_t first = 2; // one end of the seam c1, one of c2
  std::vector<std::size_t> order{0, 2, 4, 6, 1, 3, 5, 7};
  Making in_order = m;
  for (std::size_t i = 0; i < order.size(); ++i)
    in_order.events[i].which = order[i];
  const auto stays = pull_stays(b.job, b.box, b.geometry, in_order, {}, rim_diagonals(), {first, 4}, out);
  REQUIRE(stays.size() == 2);
  CHECK(stays[0].until_tacked.value > stays[1].until_tacked.value); // the fewer tacks, the more stays
  for (const PullStays& each : stays) {
    CHECK(each.until_tacked.value > 0.0);
    CHECK(each.until_welded.value > each.until_tacked.value);
    CHECK(each.until_welded.low <= each.until_welded.high);
    CHECK(each.until_welded.high < 1.0);
  }

  const Vec3 corner{0, 0, 0};
  std::vector<Figure> figures{rim_diagonals()};
  for (const auto& [at, along] : std::vector<std::pair<Vec3, Vec3>>{{corner, {1, 0, 0}},
                                                                    {corner, {0, 1, 0}},
                                                                    {corner, {0, 0, 1}},
                                                                    {{600, 0, 0}, {0, 1, 0}},
                                                                    {{600, 0, 0}, {0, 0, 1}},
                                                                    {{0, 400, 0}, {0, 0, 1}}})
    figures.push_back({"ground", FigureKind::displacement, {at}, along, 0});
  const auto model =
      make_box_model(b.job, b.box, b.geometry, m.tacks, {}, figures, {m.misfits[0].misfit}, {}, out);
  REQUIRE(model);
  const Cases cases = cases_of(*model, b.box.seams.size());
  Eigen::VectorXd x = Eigen::VectorXd::Zero(cases.count());
  x(cases.misfit(0)) = lean;
  double stood_at = 0.0; // before the pull
  const auto end_of = [&](double pulled_to) {
    std::vector<Hold> holds{{model->measures[0], 1e4, false, pulled_to}};
    std::vector<Event> events;
    for (std::size_t i = 1; i < figures.size(); ++i) {
      holds.push_back({model->measures[i], 1e4, false, std::nullopt});
      events.push_back({Kind::hold, i});
    }
    std::size_t stood = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      if (i == 4) {
        stood = events.size() - 1;
        events.push_back({Kind::hold, 0});
      }
      events.push_back({Kind::tack, order[i]});
    }
    events.push_back({Kind::let_go, 0});
    const auto moments = make_history(*model, events, holds, cases, x, {});
    stood_at = moments[stood].measures(0, 0);
    return moments.back().measures(0, 0);
  };
  // Held where it stands it ends where the tacks to come bring it. Pulled past square by what the answer
  // says, it ends as far from there as it was from square.
  end_of(0.0);
  const double off = stood_at;
  REQUIRE(std::abs(off) > 0.01);
  const double s = stays[1].until_tacked.value, past = off * (1.0 / s - 1.0);
  CHECK(end_of(-past) == Approx(end_of(off) - off).margin(1e-3 * std::abs(off)));
}
