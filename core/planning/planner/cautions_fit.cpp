// What stands against the plan from the parts as they come, their bends, and the row in its opening.
#include "planning/planner/foreman.h"

#include "fixture/items.h"

#include <algorithm>

namespace tacksquare {
namespace {

void add_blocked(const std::vector<BendOrder>& orders, std::vector<Caution>& out) {
  for (const BendOrder& order : orders)
    if (order.blocked)
      out.push_back({{"caution.bend-blocked",
                      {word("part", order.part), word("a", order.blocked->face_a),
                       word("b", order.blocked->face_b), term("by", "tool." + order.blocked->by)}},
                     true});
}

void add_readings(const std::vector<PartReading>& readings, std::vector<Caution>& out) {
  for (const PartReading& reading : readings) {
    if (reading.verdict == PartVerdict::use || reading.verdict == PartVerdict::dress) continue;
    out.push_back({{reading.verdict == PartVerdict::reject ? "caution.part-reject" : "caution.part-brake",
                    {term("kind", "reading." + reading.kind), word("where", reading.where),
                     count("copy", reading.copy), number("reading", ArgKind::fine_mm, reading.reading_mm)}},
                   true});
  }
}

// The row is told once, on the card of its first box.
void add_row(const RowFit& row, std::vector<Caution>& out) {
  const auto add = [&](const char* key, double chance) {
    if (chance >= row.wanted_chance) return;
    out.push_back({{key,
                    {word("opening", row.name), number("chance", ArgKind::chance, chance),
                     number("wanted", ArgKind::chance, row.wanted_chance)}},
                   chance < 0.5});
  };
  add("caution.row", row.as_aimed.value);
  if (row.height) add("caution.row-height", row.height->value);
  if (row.depth) add("caution.row-depth", row.depth->value);
}

void add_flush(const BoxCase& box, std::vector<Caution>& out) {
  for (const MustBeFlush& flush : box.row->flush)
    if (flush.box == box.box.id)
      out.push_back({{"caution." + flush.what,
                      {word("where", flush.where), word("side", flush.side),
                       number("proud", ArgKind::fine_mm, flush.proud_mm)}},
                     false});
}

// A clamp that is to press with less than the walls pull, or that cannot press so hard.
void add_weak_clamps(const BoxCase& box, const FixturePlan& fixture, std::vector<Caution>& out) {
  for (const PlannedPiece& piece : fixture.pieces) {
    if (!(piece.needs_N > 0.0)) continue;
    const auto stated = std::find_if(box.fixed().fixture.pieces.begin(), box.fixed().fixture.pieces.end(),
                                     [&](const FixturePiece& each) { return each.id == piece.id; });
    FixturePiece harder = *stated; // the item that is chosen for what is needed
    harder.force = newton(piece.needs_N);
    const double most = fixture::item_of(box.job, harder).force_N;
    const double presses = stated->force ? in_n(*stated->force) : most;
    if (presses < piece.needs_N)
      out.push_back({{"caution.clamp-weak",
                      {word("piece", piece.id), number("presses", ArgKind::force_N, presses),
                       number("needs", ArgKind::force_N, piece.needs_N)}},
                     false});
  }
}

} // namespace

std::vector<Caution> cautions_of_fit(const BoxCase& box, const BoxPlan& plan) {
  const std::vector<BendOrder>& bend_orders = plan.bend_orders;
  std::vector<Caution> cautions;
  if (plan.fixture) add_weak_clamps(box, *plan.fixture, cautions);
  add_blocked(bend_orders, cautions);
  add_readings(box.part_readings, cautions);
  if (box.row) {
    if (box.box.id == box.row->stands.front().box) add_row(*box.row, cautions);
    add_flush(box, cautions);
  }
  return cautions;
}

} // namespace tacksquare
