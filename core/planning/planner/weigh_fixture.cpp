#include "planning/planner/weigh_fixture.h"

#include "physics/elastic/restraint.h"
#include "planning/planner/elastic_case.h"
#include "planning/planner/fixing.h"

#include <algorithm>
#include <utility>

namespace tacksquare {
namespace {

using elastic::Restraint;
using How = Restraint::Held;

constexpr std::uint64_t kSeed = 20270412;
constexpr double kNothingLost = 0.01;   // of the chance
constexpr double kTaper_mm = 30.0;      // one for both ends of what it can be
constexpr double kMostSprings = 1800.0; // half a second or so for each fixture that is weighed

// The box's fixture with only that inside.
Fixture fixture_with(const BoxCase& box, const FewPieces& few) {
  const fixture::SetUp& set_up = box.fixed().set_up;
  const Fixture& whole = box.fixed().fixture;
  Fixture fewer = whole;
  fewer.pieces.clear();
  for (const fixture::Placed& placed : set_up.placed) {
    FixturePiece piece = whole.pieces[placed.piece];
    if (holds_from_within(piece.kind)) {
      if (few.inside.count(piece.id) == 0) continue;
      piece.until_tacked = !few.throughout;
    }
    const auto pressed_against = [&](const fixture::Placed& former) {
      const FixturePiece& other = whole.pieces[former.piece];
      return other.kind == ItemKind::former && few.inside.count(other.id) == 0 &&
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
    for (std::size_t i = 0; i < made_.measure.size(); ++i) {
      const Measure& m = box.work.measures[made_.measure[i]];
      limits_.push_back({i, -m.under_mm, m.over_mm});
    }
    for (const FixturePiece& piece : box.fixed().fixture.pieces)
      if (holds_from_within(piece.kind)) all_.insert(piece.id);
  }

  bool make() {
    Diagnostics unused; // the same faults are told when the box is reckoned
    restraint_ =
        Restraint::make(box_.job, box_.box, box_.geometry, made_.making, made_.options, kSeed, unused);
    return restraint_.has_value();
  }

  FewPieces choose() {
    FewPieces held{all_, true, {}};
    double most = weigh("throughout", "", held);
    std::size_t chosen = 0;
    if (on_while_welded()) {
      const FewPieces for_tacks{all_, false, {}};
      if (const double kept = weigh("for-tacks", "", for_tacks); kept > most + kNothingLost) {
        held = for_tacks;
        most = kept;
        chosen = 1;
      }
    }
    const double none = weigh("none", "", {});
    const bool loose = box_.box.construction == Construction::panels || box_.box.form == BoxForm::own_faces;
    if (loose) return take(held, chosen); // each corner is set by its piece
    if (none >= most - kNothingLost) return take({}, compared_.size() - 1);
    // What each piece is worth, and away with the one that is missed least.
    while (held.inside.size() > 1) {
      std::optional<std::pair<double, std::string>> least;
      std::size_t at = 0;
      for (const std::string& id : held.inside) {
        FewPieces less = held;
        less.inside.erase(id);
        const double kept = weigh("without", id, less);
        if (least && kept <= least->first) continue;
        least = {kept, id};
        at = compared_.size() - 1;
      }
      if (least->first < most - kNothingLost) break;
      held.inside.erase(least->second);
      chosen = at;
    }
    return take(held, chosen);
  }

 private:
  double weigh(const char* key, const std::string& without, const FewPieces& held) {
    std::vector<How> how;
    for (const HoldingPiece& piece : made_.pieces)
      how.push_back(held.inside.count(piece.id) == 0
                        ? (all_.count(piece.id) == 0 ? How::throughout : How::not_at_all)
                    : held.throughout ? How::throughout
                                      : How::for_tacks);
    const double kept = restraint_->kept_by(how, limits_).all;
    compared_.push_back(
        {key, without, static_cast<int>(fixture_with(box_, held).pieces.size()), kept, false});
    return kept;
  }

  bool on_while_welded() const {
    bool welded = false;
    for (const elastic::Event& event : made_.making.events) {
      welded = welded || event.kind == elastic::Event::Kind::weld;
      if (welded && event.kind == elastic::Event::Kind::let_go &&
          all_.count(made_.pieces[event.which].id) > 0)
        return true;
    }
    return false;
  }

  FewPieces take(FewPieces few, std::size_t chosen) {
    compared_[chosen].chosen = true;
    few.compared = std::move(compared_);
    return few;
  }

  const BoxCase& box_;
  ElasticCase made_;
  std::optional<Restraint> restraint_;
  std::vector<elastic::Limit> limits_;
  std::set<std::string> all_;
  std::vector<FixtureCompared> compared_;
};

} // namespace

std::optional<FewPieces> weigh_fixture(const BoxCase& box) {
  if (box.fixed().stated || box.tacks.empty()) return std::nullopt;
  const auto& pieces = box.fixed().fixture.pieces;
  if (std::none_of(pieces.begin(), pieces.end(),
                   [](const FixturePiece& piece) { return holds_from_within(piece.kind); }))
    return std::nullopt;
  ElasticCase made = elastic_case(box);
  made.options.end_mm = 0.0;
  made.making.short_taper_mm = made.making.long_taper_mm = kTaper_mm;
  made.making.watched.resize(made.measure.size()); // they stand first, and put_back names no others
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
}

} // namespace tacksquare
