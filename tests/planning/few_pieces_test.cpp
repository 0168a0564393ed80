// The fewest pieces that do, against all subsets tried one after the other.
#include "base/random.h"
#include "physics/elastic/restraint.h"
#include "planning/planner/case_of.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/few_pieces.h"
#include "planning/planner/weigh_fixture.h"
#include "support/planned.h"
#include "support/repeat.h"

#include <algorithm>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

using On = std::vector<char>;

On bits_of(std::size_t bits, std::size_t n) {
  On on(n);
  for (std::size_t c = 0; c < n; ++c)
    on[c] = (bits >> c & 1U) != 0;
  return on;
}

int pieces_in(const FewestSearch& search, const On& on) {
  int pieces = 0;
  for (std::size_t c = 0; c < on.size(); ++c)
    pieces += on[c] ? search.candidates[c].pieces : 0;
  return pieces;
}

// By the words of the header, without order or short cuts: fewest pieces, then the most that any of them
// keeps.
struct Tried {
  int pieces = 1000, kept = -1;
};
Tried all_tried(const FewestSearch& search) {
  const std::size_t n = search.candidates.size();
  const auto best_of = [&](const On& on) {
    int kept = *search.kept({on, true}, 0);
    if (search.two_ways) kept = std::max(kept, *search.kept({on, false}, 0));
    return kept;
  };
  On inside(n), outside(n);
  for (std::size_t c = 0; c < n; ++c)
    (search.candidates[c].inside ? inside : outside)[c] = true;
  int most = best_of(On(n, true));
  for (const On& some : {inside, outside, On(n, false)})
    if (search.sets(some)) most = std::max(most, best_of(some));
  Tried found;
  for (std::size_t bits = 0; bits < std::size_t{1} << n; ++bits) {
    const On on = bits_of(bits, n);
    const int kept = best_of(on), pieces = pieces_in(search, on);
    const bool may = search.sets(on) || std::count(on.begin(), on.end(), true) == static_cast<long>(n);
    if (!may || kept < most - search.lost || pieces > found.pieces) continue;
    found = {pieces, pieces < found.pieces ? kept : std::max(kept, found.kept)};
  }
  return found;
}

} // namespace

TEST_CASE("up to twelve candidates no smaller set keeps as much, whatever the boxes do") {
  Random random(88);
  for (int round = 0; round < 300; ++round) {
    FewestSearch search;
    const auto n = static_cast<std::size_t>(1 + random.below(7));
    for (std::size_t c = 0; c < n; ++c)
      search.candidates.push_back(
          {std::to_string(c), static_cast<int>(1 + random.below(3)), random.below(2) == 0});
    search.two_ways = random.below(2) == 0;
    search.lost = 20;
    std::map<std::pair<On, bool>, int> boxes; // neither more nor less of them with more pieces
    std::map<On, bool> sets;
    for (std::size_t bits = 0; bits < std::size_t{1} << n; ++bits) {
      const On on = bits_of(bits, n);
      bool inside = false;
      for (std::size_t c = 0; c < n; ++c)
        inside = inside || (on[c] && search.candidates[c].inside);
      boxes[{on, true}] = static_cast<int>(random.below(200));
      boxes[{on, false}] = inside ? static_cast<int>(random.below(200)) : boxes[{on, true}];
      sets[on] = random.below(4) > 0;
    }
    search.sets = [&](const On& on) { return sets.at(on); };
    search.kept = [&](const HeldBy& held, int least) {
      const int kept = boxes.at({held.on, held.throughout});
      return kept >= least ? std::optional(kept) : std::nullopt;
    };
    const Fewest fewest = fewest_pieces(search);
    const Tried tried = all_tried(search);
    INFO("seed 88, round " << round);
    CHECK(pieces_in(search, fewest.held.on) == tried.pieces);
    CHECK(fewest.kept == tried.kept);
    CHECK(boxes.at({fewest.held.on, fewest.held.throughout}) == fewest.kept);
    REQUIRE(fewest.smaller);
    int smaller = 0;
    for (std::size_t bits = 0; bits + 1 < std::size_t{1} << n; ++bits)
      if (const On on = bits_of(bits, n); sets[on] && pieces_in(search, on) < tried.pieces) ++smaller;
    CHECK(*fewest.smaller == smaller);
  }
}

TEST_CASE("of more than twelve candidates the one that is missed least goes first, until too much is lost") {
  // Each is worth so many boxes; of the two that are worth the same the first goes first.
  const std::vector<int> worth = {9, 4, 30, 7, 4, 50, 41, 60, 33, 70, 80, 35, 90, 100};
  FewestSearch search;
  for (std::size_t c = 0; c < worth.size(); ++c)
    search.candidates.push_back({std::to_string(c + 1), 1, false});
  search.lost = 20;
  search.sets = [](const On&) { return true; };
  std::vector<On> last;
  search.kept = [&](const HeldBy& held, int least) {
    int kept = 1000;
    for (std::size_t c = 0; c < worth.size(); ++c)
      kept -= held.on[c] ? 0 : worth[c];
    return kept >= least ? std::optional(kept) : std::nullopt;
  };
  const Fewest fewest = fewest_pieces(search);
  CHECK_FALSE(fewest.smaller);
  CHECK(fewest.kept == 1000 - 4 - 4 - 7);
  for (std::size_t c = 0; c < worth.size(); ++c)
    CHECK((fewest.held.on[c] != 0) == (worth[c] > 7));

  // What sets the box stays, though it is worth nothing.
  search.sets = [](const On& on) { return on[1] != 0; };
  CHECK(fewest_pieces(search).held.on[1]);
}

// The gear locker: a former with its three bars, and four corner clamps. Net, taper, seed and what is nothing
// are those of the planner.
TEST_CASE("the planned fixture is what going through all makings with each set of pieces would choose") {
  const JobReading reading = read_job(sample_text("gear-locker.xml"));
  REQUIRE(reading.job);
  Diagnostics out;
  const std::optional<RowFit> no_row;
  const std::optional<BoxCase> box = case_of(*reading.job, 0, no_row, out);
  REQUIRE(box);
  ElasticCase made = elastic_case(*box);
  made.options.end_mm = 0.0;
  made.making.short_taper_mm = made.making.long_taper_mm = 30.0;
  made.making.watched.resize(made.measure.size());
  std::vector<elastic::Limit> limits;
  for (std::size_t i = 0; i < made.measure.size(); ++i) {
    const Measure& m = box->work.measures[made.measure[i]];
    limits.push_back({i, -m.under_mm, m.over_mm});
  }
  const auto restraint = elastic::Restraint::make(box->job, box->box, box->geometry, made.making,
                                                  made.options, 20270412, limits, out);
  REQUIRE(restraint);
  FewestSearch search;
  for (const HoldingPiece& piece : made.pieces)
    search.candidates.push_back({piece.id, piece.id == "M1" ? 4 : 1, piece.id == "M1"});
  REQUIRE(search.candidates.size() == 5);
  search.two_ways = true;
  search.lost = 20;
  search.sets = [](const On&) { return true; };
  std::map<std::pair<On, bool>, int> direct;
  search.kept = [&](const HeldBy& held, int) {
    const auto found = direct.find({held.on, held.throughout});
    if (found != direct.end()) return std::optional(found->second);
    using How = elastic::Restraint::Held;
    std::vector<How> how;
    for (std::size_t c = 0; c < held.on.size(); ++c)
      how.push_back(!held.on[c]                                       ? How::not_at_all
                    : held.throughout || !search.candidates[c].inside ? How::throughout
                                                                      : How::for_tacks);
    const std::optional<int> kept = restraint->judging().kept(restraint->ends_by_history(how));
    direct[{held.on, held.throughout}] = *kept;
    CHECK(restraint->kept_by(how) == kept);
    return kept;
  };
  const std::optional<FewPieces> few = weigh_fixture(*box);
  REQUIRE(few);
  int pieces = 0;
  HeldBy held{{}, few->throughout};
  for (const Candidate& candidate : search.candidates) {
    held.on.push_back(few->held.count(candidate.id) > 0);
    pieces += held.on.back() ? candidate.pieces : 0;
  }
  if (!kSanitized) { // goes through more than sixty makings
    const Tried tried = all_tried(search);
    CHECK(pieces == tried.pieces);
    CHECK(search.kept(held, 0) == tried.kept);
  }
  // What one fewer costs, as told to the foreman.
  int told = 0;
  for (const FixtureCompared& each : few->compared) {
    if (each.key != "without") continue;
    HeldBy less = held;
    for (std::size_t c = 0; c < less.on.size(); ++c)
      if (search.candidates[c].id == each.without) less.on[c] = false;
    CHECK(each.kept * elastic::Judging::draws() == Approx(*search.kept(less, 0)).margin(1e-6));
    ++told;
  }
  CHECK(told == static_cast<int>(few->held.size()));
}
