// The search against trying everything, and what must not change an order.
#include "base/random.h"
#include "bending/hand_patterns.h"
#include "planning/bending/bend_search.h"
#include "planning/bending/find_bend_order.h"
#include "support/catch.h"
#include "support/repeat.h"

#include <algorithm>
#include <optional>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

// Rectangles hung on one another at random, so that some can be bent and some cannot.
FlatPattern random_part(Random& random, std::size_t bends) {
  const auto between = [&](double from, double to) {
    return from + static_cast<double>(random.below(static_cast<std::uint64_t>(to - from) + 1));
  };
  HandPattern part(2, 2, between(40, 160), between(40, 160));
  struct Place {
    std::string on;
    Side side;
    double length;
  };
  const double wide = part.pattern.faces[0].flat[2].x, high = part.pattern.faces[0].flat[2].y;
  std::vector<Place> places{
      {"B", Side::left, high}, {"B", Side::right, high}, {"B", Side::top, wide}, {"B", Side::bottom, wide}};
  for (std::size_t i = 0; i < bends; ++i) {
    const std::size_t pick = random.below(places.size());
    const Place place = places[pick];
    places.erase(places.begin() + static_cast<std::ptrdiff_t>(pick));
    const std::string id(1, static_cast<char>('a' + i));
    const double leg = between(12, 70), angle = random.below(3) == 0 ? -90.0 : 90.0;
    if (random.below(3) == 0 && i + 1 < bends) { // two tabs, mostly alike
      const double half = 0.5 * place.length, other = random.below(4) == 0 ? -angle : angle;
      part.flange(place.on, place.side, id, leg, angle, 0.0, half - 4.0);
      part.flange(place.on, place.side, id + id, leg, other, half + 4.0, place.length);
      ++i;
      continue;
    }
    part.flange(place.on, place.side, id, leg, angle);
    places.push_back({id, place.side, place.length});
  }
  return part.pattern;
}

struct Best {
  BendCost cost;
  std::vector<BendMove> order;
};

// Every order and every way round, one stroke after the other.
void try_all(BendChecker& checker, const Folding& folding, BendSet done, BendCost so_far,
             const BendSetUp* before, std::vector<BendMove>& made, std::optional<Best>& best) {
  if (done == (BendSet{1} << folding.bends()) - 1) {
    if (!best || so_far < best->cost) best = Best{so_far, made};
    return;
  }
  for (std::size_t line = 0; line < folding.lines().size(); ++line) {
    const BendSet bends = folding.lines()[line].bends;
    if ((done & bends) != 0) continue;
    for (const bool a_back : {false, true}) {
      const BendCheck check = checker.check(done, line, a_back);
      if (check.hindrance) continue;
      const BendSetUp set_up = set_up_of(folding, {line, a_back}, check);
      const BendCost own = so_far + cost_of(set_up);
      const BendCost cost = before == nullptr ? own : own + cost_between(*before, set_up);
      made.push_back({line, a_back});
      try_all(checker, folding, done | bends, cost, &set_up, made, best);
      made.pop_back();
    }
  }
}

} // namespace

TEST_CASE("the search finds what trying all orders finds, up to seven bends") {
  const std::uint64_t seed = 3;
  Random random(seed);
  INFO("seed " << seed);
  const Tooling tooling = tooling_of(plain_brake());
  int possible = 0, impossible = 0, of_several = 0;
  for (int trial = 0; trial < times(120, 24); ++trial) {
    const std::size_t bends = trial < 117 ? 2 + static_cast<std::size_t>(trial) % 5 : 7;
    const FlatPattern pattern = random_part(random, bends);
    INFO("trial " << trial << ", " << bends << " bends");
    const Folding folding(pattern);
    BendChecker checker(tooling, folding);
    std::optional<Best> best;
    std::vector<BendMove> made;
    try_all(checker, folding, 0, {}, nullptr, made, best);
    const BendSearch found = search_order(checker, folding);
    REQUIRE(found.order.empty() == !best);
    CHECK(can_be_bent(checker, folding) == best.has_value());
    if (!best) {
      ++impossible;
      continue;
    }
    ++possible;
    for (const BendMove move : found.order)
      of_several += folding.lines()[move.line].members.size() > 1;
    CHECK(found.cost == best->cost);
    // Of equal orders the first by bend index; the recursion meets them in that order.
    CHECK(found.order == best->order);
  }
  CHECK(possible > times(20, 4));
  CHECK(impossible > times(20, 4));
  CHECK(of_several > times(5, 1));
}

TEST_CASE("a higher punch never makes a part impossible that was possible") {
  const std::uint64_t seed = 11;
  Random random(seed);
  INFO("seed " << seed);
  int gained = 0, kept = 0;
  for (int trial = 0; trial < times(60, 10); ++trial) {
    const FlatPattern pattern = random_part(random, 5);
    bool before = false;
    for (const double height : {60.0, 75.0, 90.0, 120.0, 200.0}) {
      Brake brake = plain_brake();
      brake.punch_height = mm(height);
      const bool possible = !find_bend_order(brake, pattern).blocked;
      CHECK((possible || !before));
      gained += possible && !before && height > 60.0;
      kept += possible && before;
      before = possible;
    }
  }
  CHECK(gained > times(3, 0));
  CHECK(kept > times(20, 3));
}

TEST_CASE("a part held to a mirror is bent in the mirrored order, with the same figures") {
  const std::uint64_t seed = 5;
  Random random(seed);
  INFO("seed " << seed);
  int possible = 0;
  for (int trial = 0; trial < 40; ++trial) {
    const FlatPattern pattern = random_part(random, 2 + static_cast<std::size_t>(trial) % 4);
    BendOrder order = find_bend_order(plain_brake(), pattern);
    BendOrder other = find_bend_order(plain_brake(), mirrored(pattern));
    CHECK(order_of(order, pattern) == order_of(other, pattern));
    CHECK(order.turns == other.turns);
    CHECK(order.blocked == other.blocked);
    REQUIRE(order.steps.size() == other.steps.size());
    for (std::size_t i = 0; i < order.steps.size(); ++i) {
      CHECK(order.steps[i].gauge_mm == Approx(other.steps[i].gauge_mm));
      CHECK(order.steps[i].clear_mm == Approx(other.steps[i].clear_mm).margin(1e-6));
      CHECK(order.steps[i].punch_mm == other.steps[i].punch_mm);
      CHECK(order.steps[i].gauged_on == other.steps[i].gauged_on);
    }
    possible += !order.blocked;
  }
  CHECK(possible > 10);
}

TEST_CASE("the same part gives the same order") {
  Random random(7);
  for (int trial = 0; trial < 10; ++trial) {
    const FlatPattern pattern = random_part(random, 6);
    CHECK(find_bend_order(plain_brake(), pattern) == find_bend_order(plain_brake(), pattern));
  }
}
