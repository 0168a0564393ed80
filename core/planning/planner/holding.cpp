#include "planning/planner/holding.h"

#include "fixture/items.h"
#include "physics/elastic/piece.h"
#include "planning/planner/steps.h"
#include "tables/fixture_practice.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

using fixture::Placed;

HoldingPiece piece_of(const std::string& id, const Placed& placed) {
  HoldingPiece piece;
  piece.id = id;
  piece.stiffness_N_mm = holding_practice().stiffness_N_mm;
  for (const fixture::Contact& contact : placed.contacts) {
    piece.at.push_back(contact.at);
    piece.out.push_back(contact.out);
  }
  return piece;
}

// Untrue by its angle: one arm turned against the other, whose contacts come second.
HoldingPiece square_of(const std::string& id, const Placed& placed) {
  HoldingPiece piece = piece_of(id, placed);
  piece.untrue_mm = in_mm(holding_practice().square_untrue);
  const Vec3 along = unit(placed.corner.end - placed.corner.start);
  const auto from_corner = [&](Vec3 at) {
    const Vec3 off = at - placed.corner.start;
    return norm(off - along * dot(off, along));
  };
  const double far = from_corner(piece.at[3]);
  piece.off = {0.0, 0.0, from_corner(piece.at[2]) / far, 1.0};
  return piece;
}

// In its corners and wherever a bar clamp presses a wall against it. Untrue is racked: its diagonals differ
// by 1 mm.
HoldingPiece former_of(const BoxCase& box, const std::string& id, const Placed& placed) {
  const Vec3 up = *fixture::way_up(box.box, box.geometry, box.work.last_face);
  HoldingPiece former = piece_of(id, placed);
  for (const Placed& bar : box.fixed().set_up.placed)
    if (fixture::presses(box.box, box.geometry, box.work.last_face, box.fixed().fixture, bar, placed))
      for (const fixture::Contact& contact : bar.contacts) {
        former.at.push_back(contact.at);
        former.out.push_back(contact.out);
      }
  former.untrue_mm = in_mm(holding_practice().former_untrue);
  Vec3 centre;
  for (const Vec3 p : former.at)
    centre = centre + p * (1.0 / static_cast<double>(former.at.size()));
  const Vec3 e1 = former.out.front(), e2 = unit(cross(up, e1));
  double wide = 0.0, tall = 0.0;
  for (const Vec3 p : former.at) {
    wide = std::max(wide, std::abs(dot(p - centre, e1)));
    tall = std::max(tall, std::abs(dot(p - centre, e2)));
  }
  const double width = 2.0 * wide, height = 2.0 * tall;
  const double shear = std::hypot(width, height) / (2.0 * width * height);
  for (std::size_t i = 0; i < former.at.size(); ++i) {
    const Vec3 from = former.at[i] - centre;
    const Vec3 moved = (e1 * dot(from, e2) + e2 * dot(from, e1)) * (0.5 * shear);
    former.off.push_back(dot(moved, former.out[i]));
  }
  return former;
}

// Untrue is too long, at both ends alike.
HoldingPiece spreader_of(const std::string& id, const Placed& placed) {
  HoldingPiece piece = piece_of(id, placed);
  piece.untrue_mm = in_mm(holding_practice().former_untrue);
  piece.off = {0.5, 0.5};
  return piece;
}

// The one of these that a step takes off first.
std::string first_off(const BoxCase& box, const std::vector<std::string>& ids) {
  for (const Step& step : write_steps(box))
    for (const std::string& id : step.off)
      if (std::find(ids.begin(), ids.end(), id) != ids.end()) return id;
  throw InternalError("hold-downs that nobody takes off");
}

// Right over a support, or the table itself: what presses between two supports bends the metal.
bool presses_on_table(const BoxCase& box, const FixturePiece& hold_down) {
  bool supports = false, over = false;
  for (const FixturePiece& piece : box.fixed().fixture.pieces) {
    if (piece.kind != ItemKind::support) continue;
    supports = true;
    const Vec2 off{piece.at.x - hold_down.at.x, piece.at.y - hold_down.at.y};
    over = over || norm(off) <= fixture::item_of(box.job, piece).foot_mm;
  }
  return over || !supports;
}

// Under all hold-downs at once. Untrue is out of flat: twisted, or bowed where they are all on one line.
HoldingPiece table_of(const BoxCase& box) {
  HoldingPiece table;
  std::vector<std::string> ids;
  table.stiffness_N_mm = holding_practice().stiffness_N_mm;
  const fixture::Frame& frame = box.fixed().set_up.frame;
  Vec3 centre;
  for (const Placed& placed : box.fixed().set_up.placed) {
    const FixturePiece& piece = box.fixed().fixture.pieces[placed.piece];
    if (piece.kind != ItemKind::hold_down || !presses_on_table(box, piece)) continue;
    ids.push_back(piece.id);
    table.at.push_back(placed.contacts.front().at);
    table.out.push_back(frame.z);
    centre = centre + frame.to_table(table.at.back());
  }
  if (table.at.size() < 3) return table; // two find the box as it is
  table.id = first_off(box, ids);
  centre = centre * (1.0 / static_cast<double>(table.at.size()));
  double most = 0.0;
  const auto lift = [&](auto shape) {
    table.off.clear();
    for (const Vec3 at : table.at) {
      table.off.push_back(shape(frame.to_table(at) - centre));
      most = std::max(most, std::abs(table.off.back()));
    }
  };
  constexpr double kLine_mm2 = 1.0;
  lift([](Vec3 from) { return from.x * from.y; });
  if (most < kLine_mm2) lift([](Vec3 from) { return from.x * from.x + from.y * from.y; });
  for (double& off : table.off)
    off /= std::max(most, kLine_mm2);
  table.untrue_mm = in_mm(locator_practice().error);
  return table;
}

// Not where three that are not on one line find the box as it is.
bool holds(const HoldingPiece& piece) {
  return piece.at.size() > 2 && elastic::holds_of({piece.at, piece.out, 1.0, {}, 0.0}).cols() > 0;
}

} // namespace

std::vector<HoldingPiece> holding_pieces(const BoxCase& box) {
  std::vector<HoldingPiece> pieces;
  for (const Placed& placed : box.fixed().set_up.placed) {
    const FixturePiece& piece = box.fixed().fixture.pieces[placed.piece];
    if (piece.kind == ItemKind::former) pieces.push_back(former_of(box, piece.id, placed));
    if (piece.kind == ItemKind::square || piece.kind == ItemKind::corner_clamp)
      pieces.push_back(square_of(piece.id, placed));
    if (piece.kind == ItemKind::spreader) pieces.push_back(spreader_of(piece.id, placed));
  }
  if (HoldingPiece table = table_of(box); holds(table)) pieces.push_back(std::move(table));
  return pieces;
}

} // namespace tacksquare
