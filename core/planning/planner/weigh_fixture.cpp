#include "planning/planner/weigh_fixture.h"

#include "physics/elastic/restraint.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/few_pieces.h"
#include "planning/planner/fixing.h"

#include <algorithm>
#include <map>
#include <utility>

namespace tacksquare {
namespace {

using elastic::Restraint;
using How = Restraint::Held;

constexpr double kNothingLost = 0.01;   // of the chance
constexpr double kMostSprings = 1800.0; // two seconds or so: they go with the cube

bool can_go(ItemKind kind) {
  return holds_from_within(kind) || kind == ItemKind::corner_clamp;
}

// The box's fixture with only that of what can go.
Fixture fixture_with(const BoxCase& box, const FewPieces& few) {
  const fixture::SetUp& set_up = box.fixed().set_up;
  const Fixture& whole = box.fixed().fixture;
  Fixture fewer = whole;
  fewer.pieces.clear();
  for (const fixture::Placed& placed : set_up.placed) {
    FixturePiece piece = whole.pieces[placed.piece];
    if (can_go(piece.kind) && few.held.count(piece.id) == 0) continue;
    if (holds_from_within(piece.kind)) piece.until_tacked = !few.throughout;
    const auto pressed_against = [&](const fixture::Placed& former) {
      const FixturePiece& other = whole.pieces[former.piece];
      return other.kind == ItemKind::former && few.held.count(other.id) == 0 &&
             fixture::presses(box.box, box.geometry, box.work.last_face, whole, placed, former);
    };
    if (std::none_of(set_up.placed.begin(), set_up.placed.end(), pressed_against))
      fewer.pieces.push_back(std::move(piece));
  }
  return fewer;
}

class Weighing {
 public:
  Weighing(const BoxCase& box, ElasticCase made) : box_(box), made_(std::move(made)) {
    std::set<std::string> all;
    for (const HoldingPiece& piece : made_.pieces)
      all.insert(piece.id);
    const std::size_t whole = fixture_with(box_, {all}).pieces.size();
    for (const HoldingPiece& piece : made_.pieces) {
      std::set<std::string> others = all;
      others.erase(piece.id);
      const std::size_t rest = fixture_with(box_, {others}).pieces.size();
      search_.candidates.push_back({piece.id, static_cast<int>(whole - rest), is_inside(piece.id)});
    }
    others_ = static_cast<int>(fixture_with(box_, {}).pieces.size());
    search_.two_ways = on_while_welded();
    search_.lost = static_cast<int>(kNothingLost * elastic::Judging::draws());
    search_.sets = [this](const std::vector<char>& on) { return sets(on); };
    search_.kept = [this](const HeldBy& held, int least) { return kept(held, least); };
  }

  bool make() {
    Diagnostics unused; // the same faults are told when the box is reckoned
    restraint_ = Restraint::make(box_.job, box_.box, box_.geometry, made_.making, made_.options,
                                 kWeighingSeed, limits_of(box_, made_), unused);
    return restraint_.has_value();
  }

  FewPieces choose() {
    const Fewest fewest = fewest_pieces(search_);
    const std::size_t n = search_.candidates.size();
    FewPieces few;
    for (std::size_t c = 0; c < n; ++c)
      if (fewest.held.on[c]) few.held.insert(search_.candidates[c].id);
    few.throughout = fewest.held.throughout;
    few.smaller = fewest.smaller;

    chosen_ = fewest.held;
    const std::vector<char> all(n, true), none(n, false);
    compare("throughout", "", {all, true});
    if (search_.two_ways) compare("for-tacks", "", {all, false});
    const double by_none = compare("none", "", {none, true});
    compare_rim_alone(by_none);
    if (!told_) compare(few.throughout ? "as-planned" : "as-planned-for-tacks", "", chosen_);
    for (std::size_t c = 0; c < n; ++c) {
      HeldBy less = chosen_;
      if (!less.on[c]) continue;
      less.on[c] = false;
      if (search_.sets(less.on)) compare("without", search_.candidates[c].id, less);
    }
    few.compared = std::move(compared_);
    return few;
  }

 private:
  const FixturePiece& piece(const std::string& id) const {
    const auto& pieces = box_.fixed().fixture.pieces;
    return *std::find_if(pieces.begin(), pieces.end(), [&](const FixturePiece& p) { return p.id == id; });
  }
  bool is_inside(const std::string& id) const { return holds_from_within(piece(id).kind); }

  bool on_while_welded() const {
    bool welded = false;
    for (const elastic::Event& event : made_.making.events) {
      welded = welded || event.kind == elastic::Event::Kind::weld;
      if (welded && event.kind == elastic::Event::Kind::let_go && is_inside(made_.pieces[event.which].id))
        return true;
    }
    return false;
  }

  // Panels that stand loose, and forms of their own: at every corner that has pieces one is left, or a
  // former, which sets them all.
  bool sets(const std::vector<char>& on) const {
    if (box_.box.construction != Construction::panels && box_.box.form != BoxForm::own_faces) return true;
    std::set<std::set<std::string>> corners, left;
    bool formers = false;
    for (std::size_t c = 0; c < on.size(); ++c) {
      const FixturePiece& each = piece(search_.candidates[c].id);
      if (each.kind == ItemKind::former && on[c]) return true;
      formers = formers || each.kind == ItemKind::former;
      if (each.faces.empty()) continue;
      const std::set<std::string> corner(each.faces.begin(), each.faces.end());
      corners.insert(corner);
      if (on[c]) left.insert(corner);
    }
    return left == corners && (!formers || !corners.empty());
  }

  std::optional<int> kept(const HeldBy& held, int least) {
    const auto known = counted_.find({held.on, held.throughout});
    if (known != counted_.end()) return known->second >= least ? std::optional(known->second) : std::nullopt;
    std::vector<How> how;
    for (std::size_t c = 0; c < held.on.size(); ++c)
      how.push_back(!held.on[c]                                        ? How::not_at_all
                    : held.throughout || !search_.candidates[c].inside ? How::throughout
                                                                       : How::for_tacks);
    const std::optional<int> boxes = restraint_->kept_by(how, least);
    if (boxes) counted_[{held.on, held.throughout}] = *boxes;
    return boxes;
  }

  double compare(const char* key, const std::string& without, const HeldBy& held) {
    int pieces = others_;
    for (std::size_t c = 0; c < held.on.size(); ++c)
      if (held.on[c]) pieces += search_.candidates[c].pieces;
    const bool is_chosen = held == chosen_;
    told_ = told_ || is_chosen;
    const double share = static_cast<double>(*kept(held, 0)) / elastic::Judging::draws();
    compared_.push_back({key, without, pieces, share, is_chosen});
    return share;
  }

  // Rim corners held and nothing between can be worse than nothing at all.
  void compare_rim_alone(double by_none) {
    HeldBy rim{{}, true};
    for (const Candidate& candidate : search_.candidates)
      rim.on.push_back(candidate.inside);
    const bool some = std::count(rim.on.begin(), rim.on.end(), true) > 0;
    const bool all = std::count(rim.on.begin(), rim.on.end(), false) == 0;
    if (!some || all || rim == chosen_) return;
    if (static_cast<double>(*kept(rim, 0)) / elastic::Judging::draws() < by_none)
      compare("rim-alone", "", rim);
  }

  const BoxCase& box_;
  ElasticCase made_;
  std::optional<Restraint> restraint_;
  std::map<std::pair<std::vector<char>, bool>, int> counted_;
  FewestSearch search_; // candidates as the making's pieces
  int others_ = 0;      // pieces that stay in any case
  HeldBy chosen_;
  bool told_ = false; // the chosen one is among the compared
  std::vector<FixtureCompared> compared_;
};

} // namespace

std::optional<FewPieces> weigh_fixture(const BoxCase& box) {
  if (box.fixed().stated || box.tacks.empty()) return std::nullopt;
  const auto& pieces = box.fixed().fixture.pieces;
  if (std::none_of(pieces.begin(), pieces.end(),
                   [](const FixturePiece& piece) { return can_go(piece.kind); }))
    return std::nullopt;
  ElasticCase made = coarse_case(box);
  if (springs_in(made) > kMostSprings) return std::nullopt;
  try {
    Weighing weighing(box, std::move(made));
    if (!weighing.make()) return std::nullopt;
    return weighing.choose();
  } catch (const NumericalFailure&) { // told when the box is reckoned; its fixture stays whole
    return std::nullopt;
  }
}

void hold_by(const FewPieces& few, BoxCase& box) {
  box.fixing = fixing_of(box, fixture_with(box, few));
  box.fixing->compared = few.compared;
  box.fixing->smaller_weighed = few.smaller;
}

} // namespace tacksquare
