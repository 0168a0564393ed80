#include "plan/file/fixture_of.h"

#include <algorithm>

namespace tacksquare {
namespace {

ItemKind kind_of(const std::string& word) {
  for (const ItemKind kind : kItemKinds)
    if (item_word(kind) == word) return kind;
  throw InternalError("a piece of a kind that there is not: " + word);
}

std::optional<Length> stated(double value_mm) {
  if (value_mm > 0.0) return mm(value_mm);
  return std::nullopt;
}

} // namespace

Fixture fixture_of(const FixturePlan& plan) {
  Fixture fixture;
  fixture.name = plan.name;
  fixture.down = plan.down;
  fixture.long_side = plan.long_side;
  for (const PlannedPiece& planned : plan.pieces) {
    FixturePiece piece;
    piece.id = planned.id;
    piece.kind = kind_of(planned.kind);
    const bool own_place = piece.kind != ItemKind::former && piece.kind != ItemKind::backing_bar;
    if (own_place && !planned.table.empty()) piece.at = planned.table.front();
    if (own_place && planned.table.size() > 1) piece.to = planned.table.back();
    if (piece.kind == ItemKind::stop) piece.towards = planned.towards;
    if (piece.kind == ItemKind::square || piece.kind == ItemKind::corner_clamp) piece.faces = planned.faces;
    piece.seam = planned.seam;
    piece.from_mm = planned.from_mm;
    piece.to_mm = planned.to_mm;
    piece.below = stated(planned.below_mm);
    piece.width = stated(planned.width_mm);
    piece.height = stated(planned.height_mm);
    piece.clip = stated(planned.clip_mm);
    piece.size = stated(planned.size_mm);
    if (planned.force_N > 0.0) piece.force = newton(planned.force_N);
    piece.until_tacked = holds_from_within(piece.kind) && planned.leaves == "tacked";
    fixture.pieces.push_back(std::move(piece));
  }
  return fixture;
}

} // namespace tacksquare
