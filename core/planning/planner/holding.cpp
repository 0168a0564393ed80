#include "planning/planner/holding.h"

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
  return pieces;
}

} // namespace tacksquare
