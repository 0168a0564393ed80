#include "planning/planner/friction.h"

#include "planning/planner/steps.h"

#include <algorithm>

namespace tacksquare {
namespace {

using fixture::Placed;
using Kind = elastic::Event::Kind;

class Pressing {
 public:
  Pressing(const BoxCase& box, ElasticCase& made) : box_(box), made_(made), steps_(write_steps(box)) {}

  std::vector<PressedPlace> all() {
    for (const Placed& clamp : box_.fixed().set_up.placed) {
      const ItemKind kind = piece_of(clamp).kind;
      if (kind == ItemKind::corner_clamp) corner(piece_of(clamp).id);
      if (kind == ItemKind::bar_clamp) bar(clamp);
      if (kind == ItemKind::hold_down) down(clamp);
    }
    return std::move(told_);
  }

 private:
  const FixturePiece& piece_of(const Placed& placed) const {
    return box_.fixed().fixture.pieces[placed.piece];
  }

  const FixturePiece& piece_named(const std::string& id) const {
    const std::vector<FixturePiece>& all = box_.fixed().fixture.pieces;
    return *std::find_if(all.begin(), all.end(), [&](const FixturePiece& piece) { return piece.id == id; });
  }

  std::size_t holding(const std::string& id) const {
    std::size_t i = 0;
    while (i < made_.pieces.size() && made_.pieces[i].id != id)
      ++i;
    return i;
  }

  void corner(const std::string& id) {
    const std::size_t piece = holding(id);
    for (std::size_t place = 0; piece < made_.pieces.size() && place < made_.pieces[piece].at.size(); ++place)
      put(id, piece, place);
  }

  void bar(const Placed& clamp) {
    for (const Placed& former : box_.fixed().set_up.placed) {
      const std::size_t piece = holding(piece_of(former).id);
      if (piece_of(former).kind != ItemKind::former || piece == made_.pieces.size() ||
          !fixture::presses(box_.box, box_.geometry, box_.work.last_face, box_.fixed().fixture, clamp,
                            former))
        continue;
      const std::vector<Vec3>& at = made_.pieces[piece].at;
      for (const fixture::Contact& contact : clamp.contacts)
        if (const auto place = std::find(at.begin(), at.end(), contact.at); place != at.end())
          put(piece_of(clamp).id, piece, static_cast<std::size_t>(place - at.begin()));
    }
  }

  void down(const Placed& clamp) {
    for (std::size_t piece = 0; piece < made_.pieces.size(); ++piece) {
      if (piece_named(made_.pieces[piece].id).kind != ItemKind::hold_down) continue;
      const std::vector<Vec3>& at = made_.pieces[piece].at;
      const auto place = std::find(at.begin(), at.end(), clamp.contacts.front().at);
      if (place != at.end()) put(piece_of(clamp).id, piece, static_cast<std::size_t>(place - at.begin()));
    }
  }

  std::size_t step_with(std::vector<std::string> Step::*list, const std::string& id) const {
    const auto found = std::find_if(steps_.begin(), steps_.end(), [&](const Step& step) {
      return std::find((step.*list).begin(), (step.*list).end(), id) != (step.*list).end();
    });
    return static_cast<std::size_t>(found - steps_.begin());
  }

  std::size_t event(Kind kind, std::size_t piece) const {
    const std::vector<elastic::Event>& events = made_.making.events;
    const auto found = std::find_if(events.begin(), events.end(), [&](const elastic::Event& e) {
      return e.kind == kind && e.which == piece;
    });
    return static_cast<std::size_t>(found - events.begin());
  }

  std::size_t first_event_from(std::size_t step) const {
    return static_cast<std::size_t>(std::lower_bound(made_.step.begin(), made_.step.end(), step) -
                                    made_.step.begin());
  }

  void put(const std::string& clamp, std::size_t piece, std::size_t place) {
    elastic::Pressed pressed{piece, place, event(Kind::hold, piece), event(Kind::let_go, piece)};
    if (pressed.from >= pressed.to) return;
    pressed.to = std::min(pressed.to, first_event_from(step_with(&Step::off, clamp)));
    made_.making.pressed.push_back(pressed);
    told_.push_back({clamp, made_.pieces[piece].id, static_cast<int>(place)});
  }

  const BoxCase& box_;
  ElasticCase& made_;
  std::vector<Step> steps_;
  std::vector<PressedPlace> told_;
};

} // namespace

std::vector<PressedPlace> press(const BoxCase& box, ElasticCase& made) {
  return Pressing(box, made).all();
}

} // namespace tacksquare
