// What stands against the plan from the parts as they come, their bends, and the row in its opening.
#include "planning/planner/foreman.h"

#include "fixture/items.h"
#include "tables/fixture_practice.h"

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

std::size_t step_with(const std::vector<Step>& steps, std::vector<std::string> Step::*list,
                      const std::string& id) {
  const auto found = std::find_if(steps.begin(), steps.end(), [&](const Step& step) {
    return std::find((step.*list).begin(), (step.*list).end(), id) != (step.*list).end();
  });
  return static_cast<std::size_t>(found - steps.begin());
}

// What clamps that are on press with on this seam's walls, not further from the tack than the next tack is.
double pressed_beside_N(const BoxPlan& plan, const PlannedSeam& seam, const PlannedTack& tack,
                        double pitch_mm) {
  if (!plan.fixture) return 0.0;
  const Vec3 at = seam.start + unit(seam.end - seam.start) * tack.at_mm;
  const std::size_t made = step_with(plan.steps, &Step::tacks, tack.id);
  double sum_N = 0.0;
  for (const PlannedPiece& piece : plan.fixture->pieces) {
    const auto on = [&](const std::string& face) {
      return std::find(piece.faces.begin(), piece.faces.end(), face) != piece.faces.end();
    };
    const bool corner = piece.kind == "corner-clamp" && on(seam.face_a) && on(seam.face_b);
    const bool bar = piece.kind == "bar-clamp" && (on(seam.face_a) || on(seam.face_b));
    const bool near =
        std::any_of(piece.at.begin(), piece.at.end(), [&](Vec3 jaw) { return norm(jaw - at) <= pitch_mm; });
    if ((corner || bar) && near && step_with(plan.steps, &Step::on, piece.id) <= made &&
        step_with(plan.steps, &Step::off, piece.id) > made)
      sum_N += piece.force_N;
  }
  return sum_N;
}

// Of each seam the tack that needs most by hand, where that is more than a hand gives: told once.
void add_by_hand(const BoxCase& box, const BoxPlan& plan, std::vector<Caution>& out) {
  if (!box.elastic) return;
  const double hand_N = in_n(hand_practice().push);
  constexpr std::size_t kTold = 3; // nobody reads more
  std::vector<std::pair<double, Text>> told;
  for (const PlannedSeam& seam : plan.seams) {
    const PlannedTack* worst = nullptr;
    double most_N = hand_N;
    for (const PlannedTack& tack : plan.tacks)
      for (const ElasticState& state : box.elastic->states) {
        if (tack.seam != seam.id || state.after != tack.id || !state.closing_N) continue;
        const double by_hand_N =
            state.closing_N->high - pressed_beside_N(plan, seam, tack, box.work.rules.tack_pitch_mm.value);
        if (by_hand_N <= most_N) continue;
        most_N = by_hand_N;
        worst = &tack;
      }
    if (worst)
      told.push_back(
          {most_N,
           {"caution.tack-by-hand", {word("tack", worst->id), number("force", ArgKind::force_N, most_N)}}});
  }
  if (told.empty()) return;
  std::stable_sort(told.begin(), told.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Text> most;
  for (std::size_t i = 0; i < std::min(kTold, told.size()); ++i)
    most.push_back(told[i].second);
  out.push_back({{"caution.by-hand",
                  {count("seams", static_cast<double>(told.size())), list("tacks", std::move(most)),
                   number("hand", ArgKind::force_N, hand_N)}},
                 false});
}

} // namespace

std::vector<Caution> cautions_of_fit(const BoxCase& box, const BoxPlan& plan) {
  const std::vector<BendOrder>& bend_orders = plan.bend_orders;
  std::vector<Caution> cautions;
  if (plan.fixture) add_weak_clamps(box, *plan.fixture, cautions);
  add_by_hand(box, plan, cautions);
  add_blocked(bend_orders, cautions);
  add_readings(box.part_readings, cautions);
  if (box.row) {
    if (box.box.id == box.row->stands.front().box) add_row(*box.row, cautions);
    add_flush(box, cautions);
  }
  return cautions;
}

} // namespace tacksquare
