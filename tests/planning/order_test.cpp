// planning/sequence: turns, rounds, balance of heat, warmth.
#include "planning/fixtures.h"
#include "planning/sequence/turns.h"
#include "planning/sequence/weld_order.h"
#include "support/catch.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

using namespace tacksquare;
using test::BoxCase;
using test::build;
using Ids = std::vector<std::string>;

namespace {

WeldOrder order_of(const BoxCase& c) {
  return order_welds(c.job, c.box, c.geometry, c.work);
}

Ids ids_of(const BoxCase& c, const WeldOrder& order) {
  Ids ids;
  for (const OrderedRun& run : order.runs)
    ids.push_back(c.work.runs[run.run].id);
  return ids;
}

// The running moment of heat, written again: |sum of q (x - c)| over all q and half the diagonal.
std::pair<double, double> moment_by_hand(const BoxCase& c, const Ids& order) {
  std::map<std::string, const Run*> by_id;
  double heat = 0;
  Vec3 centre;
  for (const Run& run : c.work.runs) {
    by_id[run.id] = &run;
    heat += run.heat_J;
    centre = centre + run.middle * run.heat_J;
  }
  centre = centre * (1.0 / heat);
  double largest = 0, total = 0;
  Vec3 sum;
  for (const std::string& id : order) {
    sum = sum + (by_id[id]->middle - centre) * by_id[id]->heat_J;
    const double moment = norm(sum) / (heat * 0.5 * norm(c.geometry.high - c.geometry.low));
    largest = std::max(largest, moment);
    total += moment;
  }
  return {largest, total / static_cast<double>(order.size())};
}

void require_allowed(const BoxCase& c, const Ids& order) {
  std::map<std::string, std::size_t> place;
  for (std::size_t i = 0; i < order.size(); ++i)
    place[order[i]] = i;
  REQUIRE(place.size() == c.work.runs.size());
  for (const Run& a : c.work.runs)
    for (const Run& b : c.work.runs) {
      if (a.seam == b.seam && a.rank < b.rank) REQUIRE(place[a.id] < place[b.id]);
      for (const auto& [first, second] : c.work.before)
        if (a.seam == first && b.seam == second) REQUIRE(place[a.id] < place[b.id]);
    }
}

} // namespace

TEST_CASE("The locker lies on its back and is welded crosswise downhill, inner runs first, twice round") {
  // The bench's sheet for the same box, steps 21-24: S1 S3 S2 S4; no turn (common practice, no source).
  const BoxCase c = build(test::locker());
  const WeldOrder order = order_of(c);
  CHECK(ids_of(c, order) == Ids{"S1a", "S3a", "S2a", "S4a", "S1b", "S3b", "S2b", "S4b"});
  CHECK(order.figures.turns == 0);
  CHECK(order.proven_best);
  for (const OrderedRun& run : order.runs)
    CHECK(run.position == WeldPosition::downhill);
  CHECK(order.figures.arc_s == Approx(160)); // 1.2 m at 45 cm/min: 2 min 40
}

TEST_CASE("A closed box of twelve seams needs two attitudes, not twelve") {
  // Common practice, no source: four uprights and four edges in one, the last four after turning it over
  // once.
  BoxCase c = build(test::float_box());
  const WeldOrder order = order_of(c);
  CHECK(order.figures.turns == 1);
  CHECK(order.figures.turning_s == 120);
  CHECK(order.proven_best);
  for (const OrderedRun& run : order.runs)
    CHECK((run.position == WeldPosition::flat || run.position == WeldPosition::downhill ||
           run.position == WeldPosition::horizontal));
  for (const NamedOrder& plain : order.compared)
    CHECK(plain.figures.turns == 1);
  // It starts open side up, welds the edges of the last face there and all others on its head.
  c.work.last_face = "T";
  const WeldOrder open_up = order_of(c);
  CHECK(open_up.figures.turns == 1);
  for (const OrderedRun& run : open_up.runs)
    CHECK(c.geometry.attitudes[run.attitude].down == (c.work.runs[run.run].seam >= 8 ? "U" : "T"));
  CHECK(c.geometry.attitudes[open_up.runs.front().attitude].down == "U");
  // The stated attitude comes first.
  c.box.attitude = "T";
  const WeldOrder from_head = order_of(c);
  CHECK(c.geometry.attitudes[from_head.runs.front().attitude].down == "T");
  CHECK(from_head.figures.turns == 1);
}

TEST_CASE("No plan of turns covers the seams with fewer attitudes") {
  Random random(17);
  for (int job = 0; job < 200; ++job) {
    BoxCase c = build(test::float_box());
    for (auto& row : c.geometry.access)
      for (SeamAccess& access : row)
        access = {random.below(3) == 0, WeldPosition::flat, WeldPosition::flat};
    for (std::size_t seam = 0; seam < 12; ++seam) // none is left out
      c.geometry.access[static_cast<std::size_t>(random.below(6))][seam].reachable = true;
    std::size_t fewest = 6;
    for (unsigned set = 1; set < 64; ++set) {
      bool covers = true;
      for (std::size_t seam = 0; seam < 12 && covers; ++seam) {
        covers = false;
        for (std::size_t a = 0; a < 6; ++a)
          covers = covers || ((set >> a & 1u) != 0 && c.geometry.access[a][seam].reachable);
      }
      std::size_t members = 0;
      for (std::size_t a = 0; a < 6; ++a)
        members += set >> a & 1u;
      if (covers) fewest = std::min(fewest, members);
    }
    INFO("seed 17, job " << job);
    const TurnPlan plan = plan_turns(c.box, c.geometry, c.work, {});
    REQUIRE(plan.visits.size() == fewest);
    REQUIRE(plan.fewest == (fewest <= 5));
    std::set<std::size_t> seams;
    for (const Visit& visit : plan.visits)
      for (const std::size_t seam : visit.seams) {
        REQUIRE(c.geometry.access[visit.attitude][seam].reachable);
        REQUIRE(seams.insert(seam).second);
      }
    REQUIRE(seams.size() == 12);
  }
}

TEST_CASE("Thin sheet is not welded uphill or overhead by choice, and a stated position binds") {
  BoxCase c = build(test::locker());
  // Rim down would be uphill; on its side two seams are flat or horizontal and two cannot be reached.
  test::HandBox hand = test::locker();
  hand.down = {"L", "rim", "B"};
  c = build(hand);
  WeldOrder order = order_of(c);
  CHECK(order.figures.turns == 0);
  for (const OrderedRun& run : order.runs)
    CHECK(c.geometry.attitudes[run.attitude].down == "B");
  for (Seam& seam : c.box.seams)
    seam.position = WeldPosition::uphill;
  order = order_of(c);
  for (const OrderedRun& run : order.runs)
    CHECK(run.position == WeldPosition::uphill);
  // Thicker sheet may go uphill, and then the first attitude that reaches all wins only if it is no worse.
  for (Seam& seam : c.box.seams)
    seam.position.reset();
  for (WorkSeam& seam : c.work.seams)
    seam.t_a_mm = seam.t_b_mm = 6;
  order = order_of(c);
  for (const OrderedRun& run : order.runs)
    CHECK(run.position == WeldPosition::uphill);
}

TEST_CASE("Upright thin sheet is welded downhill, turned round where away from the rim would be uphill") {
  test::HandBox hand = test::locker();
  hand.down = {"rim"}; // away from the rim is up
  BoxCase c = build(hand);
  for (Run& run : c.work.runs)
    if (run.from_mm == 0.0) run.from_mm = 12.0; // from the first tack on
  const WeldOrder order = order_of(c);
  for (const OrderedRun& run : order.runs) {
    const Run &made = c.work.runs[run.run], &now = order.directed[run.run];
    CHECK(run.position == WeldPosition::downhill);
    CHECK(now.from_mm == made.to_mm);
    CHECK(now.to_mm == made.from_mm);
    CHECK(now.to_mm >= 12.0); // no crater at the free edge
    CHECK(now.tie_in_mm == made.tie_in_mm);
    CHECK(now.rank == made.rank);
  }

  // Where the box can be laid so that they go away from the rim downhill, it is.
  hand.down = {"rim", "B"};
  BoxCase both = build(hand);
  both.work.runs = c.work.runs;
  for (const OrderedRun& run : order_of(both).runs)
    CHECK(both.geometry.attitudes[run.attitude].down == "B");

  // Stated uphill it goes uphill; 6 mm does so by choice; a lip without room for a first tack as well.
  BoxCase stated = c;
  for (Seam& seam : stated.box.seams)
    seam.position = WeldPosition::uphill;
  BoxCase thick = c;
  for (WorkSeam& seam : thick.work.seams)
    seam.t_a_mm = seam.t_b_mm = 6;
  hand.down = {"rim"};
  for (const BoxCase& other : {stated, thick, build(hand)}) {
    const WeldOrder unturned = order_of(other);
    for (const OrderedRun& run : unturned.runs) {
      CHECK(run.position == WeldPosition::uphill);
      CHECK(unturned.directed[run.run].from_mm == other.work.runs[run.run].from_mm);
    }
  }
}

TEST_CASE("Back-step turned round starts at the rim, each run ends where the one before it began") {
  test::HandBox hand = test::locker();
  hand.down = {"rim"};
  hand.runs = 3;
  BoxCase c = build(hand);
  c.work.rules.back_step = true;
  for (Run& run : c.work.runs) {
    if (run.from_mm == 0.0) run.from_mm = 12.0;
    run.tie_in_mm = run.rank == 0 ? 0.0 : 10.0;
  }
  const WeldOrder order = order_of(c);
  for (std::size_t seam = 0; seam < 4; ++seam) {
    std::vector<Run> runs;
    for (const OrderedRun& run : order.runs)
      if (c.work.runs[run.run].seam == seam) runs.push_back(order.directed[run.run]);
    REQUIRE(runs.size() == 3);
    CHECK(runs[0].to_mm == 12.0);
    for (std::size_t i = 0; i < 3; ++i) {
      CHECK(runs[i].rank == static_cast<int>(i));
      CHECK(runs[i].tie_in_mm == (i == 0 ? 0.0 : 10.0));
      CHECK(runs[i].from_mm > runs[i].to_mm);
      if (i > 0) CHECK(runs[i].to_mm == Approx(runs[i - 1].from_mm));
    }
  }
}

TEST_CASE("A plan never costs more than the three plain orders, keeps rank and precedence, and tells its "
          "figures right") {
  Random random(23);
  int better = 0;
  for (int job = 0; job < 200; ++job) {
    const BoxCase c = test::random_case(random);
    INFO("seed 23, job " << job);
    const WeldOrder order = order_of(c);
    const Ids ids = ids_of(c, order);
    require_allowed(c, ids);
    const auto [largest, mean] = moment_by_hand(c, ids);
    REQUIRE(order.figures.heat_moment == Approx(largest).margin(1e-4));
    REQUIRE(order.figures.mean_moment == Approx(mean).margin(1e-4));
    REQUIRE(order.proven_best);
    REQUIRE(order.compared.size() == 3);
    bool all = true;
    for (const NamedOrder& plain : order.compared) {
      require_allowed(c, plain.runs);
      REQUIRE(plain.figures.heat_moment == Approx(moment_by_hand(c, plain.runs).first).margin(1e-4));
      REQUIRE(order.figures.cost <= plain.figures.cost);
      all = all && order.figures.cost < plain.figures.cost;
    }
    better += all;
  }
  CHECK(better > 50);
}

TEST_CASE("The plain orders are what their names say") {
  test::HandBox hand = test::locker();
  hand.runs = 1;
  hand.seams = {"UL", "TR", "TL", "UR"};
  BoxCase c = build(hand);
  c.work.seams[3].welded_mm = 310;
  const WeldOrder order = order_of(c);
  CHECK(order.compared[0].key == "by-id");
  CHECK(order.compared[0].runs == Ids{"S1", "S2", "S3", "S4"});
  CHECK(order.compared[1].key == "round-and-round");
  const Ids round = order.compared[1].runs;
  // From U-L to a neighbour, never across.
  CHECK((round == Ids{"S1", "S3", "S2", "S4"} || round == Ids{"S1", "S4", "S2", "S3"}));
  CHECK(order.compared[2].key == "longest-first");
  CHECK(order.compared[2].runs == Ids{"S4", "S1", "S2", "S3"});
}

TEST_CASE("The mirrored box is welded in the mirrored order at the same cost") {
  Random random(31);
  for (int job = 0; job < 100; ++job) {
    const BoxCase c = test::random_case(random);
    BoxCase mirrored = c;
    const double width = c.geometry.high.x;
    const auto flip = [&](Vec3& p) { p.x = width - p.x; };
    for (Run& run : mirrored.work.runs)
      flip(run.middle);
    for (SeamLine& line : mirrored.geometry.seams) {
      flip(line.start);
      flip(line.end);
      line.towards_welder.x = -line.towards_welder.x;
    }
    const WeldOrder one = order_of(c), other = order_of(mirrored);
    INFO("seed 31, job " << job);
    REQUIRE(ids_of(c, one) == ids_of(mirrored, other));
    REQUIRE(one.figures.cost == other.figures.cost);
  }
}

TEST_CASE("Neither the order of the file nor other names change the order of the seams") {
  Random random(37);
  for (int job = 0; job < 100; ++job) {
    const BoxCase c = test::random_case(random);
    const std::size_t count = c.work.seams.size();
    std::vector<std::size_t> place(count); // old seam -> new index
    std::iota(place.begin(), place.end(), std::size_t{0});
    random.shuffle(place);
    BoxCase other = c;
    for (std::size_t seam = 0; seam < count; ++seam) {
      other.box.seams[place[seam]] = c.box.seams[seam];
      other.geometry.seams[place[seam]] = c.geometry.seams[seam];
      other.geometry.access[0][place[seam]] = c.geometry.access[0][seam];
      other.work.seams[place[seam]] = c.work.seams[seam];
      other.work.seams[place[seam]].seam = place[seam];
      other.work.seams[place[seam]].id = "Naht-" + c.work.seams[seam].id;
    }
    for (Run& run : other.work.runs)
      run.seam = place[run.seam];
    random.shuffle(other.work.runs);
    for (auto& [a, b] : other.work.before) {
      a = place[a];
      b = place[b];
    }
    INFO("seed 37, job " << job);
    REQUIRE(ids_of(c, order_of(c)) == ids_of(other, order_of(other)));
  }
}

TEST_CASE("Warmth at the arc start is the lumped rise of the two faces, cooled since") {
  // Derived: q L/(rho c t A) per face, exp(-time/tau), tau = rho c d/(2 h) with h 15.8 and rho c 7850 x 440:
  // 219 s for 2 mm, twice that for the face on the table.
  test::HandBox hand = test::locker();
  hand.runs = 1;
  const BoxCase c = build(hand);
  const WeldOrder order = order_of(c);
  REQUIRE(ids_of(c, order) == Ids{"S1", "S3", "S2", "S4"});
  CHECK(order.runs[0].warmth_K == 0);
  CHECK(order.runs[1].warmth_K == 0); // T-L and U-R share no face
  const double tau = 3.454e-3 * 2 * 1e6 / (2 * 15.8);
  CHECK(tau == Approx(218.6).epsilon(1e-3));
  const double half_heat = 150.0 * 300 / 2;
  const double top = half_heat / (3.454e-3 * 2 * 400 * 300), right = half_heat / (3.454e-3 * 2 * 600 * 300);
  // S2 T-R starts 30 s after S3, which took 40 s and began 30 s after S1.
  const double expected = 0.5 * (top * std::exp(-100 / tau) + right * std::exp(-30 / tau));
  CHECK(order.runs[2].warmth_K == Approx(expected));
  CHECK(order.figures.worst_warmth_K == Approx(std::max(expected, order.runs[3].warmth_K)));
}

TEST_CASE("What must be done before the last face goes on comes before all else") {
  BoxCase c = build(test::float_box());
  c.work.last_face = "T";
  c.work.inside_first = {6, 7};
  c.work.before = {{5, 6}}; // and what that waits for
  const WeldOrder order = order_of(c);
  require_allowed(c, ids_of(c, order));
  std::set<std::size_t> first;
  for (std::size_t i = 0; i < 6; ++i)
    first.insert(c.work.runs[order.runs[i].run].seam);
  CHECK(first == std::set<std::size_t>{5, 6, 7});
}

TEST_CASE("Dabs at ends and relief holes come after all other runs") {
  BoxCase c = build(test::locker());
  for (std::size_t seam = 0; seam < 4; ++seam) {
    Run dab = c.work.runs[2 * seam + 1];
    dab.id = c.work.seams[seam].id + "rim";
    dab.rank = 2;
    dab.dab = true;
    dab.heat_J = 300;
    c.work.runs.push_back(dab);
  }
  const Ids ids = ids_of(c, order_of(c));
  CHECK(Ids(ids.begin() + 8, ids.end()) == Ids{"S1rim", "S3rim", "S2rim", "S4rim"});
}

TEST_CASE("More than 16 seams in one attitude are not called proven, yet never worse than plain orders") {
  test::HandBox hand = test::float_box();
  hand.down = {"U"};
  hand.runs = 1;
  const std::vector<std::string> once = hand.seams;
  hand.seams.insert(hand.seams.end(), once.begin(), once.begin() + 8);
  BoxCase c = build(hand);
  for (SeamAccess& access : c.geometry.access[0])
    access = {true, WeldPosition::flat, WeldPosition::flat};
  const WeldOrder order = order_of(c);
  CHECK_FALSE(order.proven_best);
  CHECK(order.runs.size() == 20);
  for (const NamedOrder& plain : order.compared)
    CHECK(order.figures.cost < plain.figures.cost);
}
