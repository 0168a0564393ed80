#include "planning/planner/fixture_plan_of.h"

#include "fixture/items.h"
#include "planning/planner/fixture_steps.h"
#include "tables/fixture_practice.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace tacksquare {
namespace {

using fixture::Leaving;
using fixture::Why;

double in_mm_or_0(const std::optional<Length>& length) {
  return length ? in_mm(*length) : 0.0;
}

const char* why_word(Why why) {
  switch (why) {
  case Why::stays:
    return "";
  case Why::tack:
  case Why::torch:
    return "torch";
  case Why::knock_down:
    return "grinder";
  case Why::turn:
    return "turn";
  case Why::tacked:
    return "tacked";
  }
  throw InternalError("unknown reason to leave");
}

const SeamLine& seam_of(const BoxCase& box, const std::string& id) {
  for (std::size_t s = 0; s < box.box.seams.size(); ++s)
    if (box.box.seams[s].id == id) return box.geometry.seams[s];
  throw InternalError("a backing bar behind no seam");
}

// The table carries by three of its corners, but is named once.
std::vector<std::string> without_doubles(std::vector<std::string> ids) {
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  return ids;
}

PlannedPiece planned(const BoxCase& box, const FixturePiece& piece, const fixture::Placed& placed,
                     const Leaving& leaving, double force_N) {
  const fixture::Frame& frame = box.fixed().set_up.frame;
  PlannedPiece made;
  made.id = piece.id;
  made.kind = item_word(piece.kind);
  if (piece.kind == ItemKind::former) { // the middle of its level
    Vec3 sum;
    for (const fixture::Contact& contact : placed.contacts)
      sum = sum + contact.at;
    made.table.push_back(frame.to_table(sum * (1.0 / static_cast<double>(placed.contacts.size()))));
  } else if (piece.kind == ItemKind::backing_bar) {
    const SeamLine& line = seam_of(box, piece.seam);
    const Vec3 along = unit(line.end - line.start);
    for (const double mm : {piece.from_mm, piece.to_mm})
      made.table.push_back(frame.to_table(line.start + along * mm));
  } else {
    made.table.push_back(piece.at);
    if (piece.to) made.table.push_back(*piece.to);
  }
  for (const Vec3 at : made.table)
    made.at.push_back(frame.to_box(at));
  for (const fixture::Contact& contact : placed.contacts)
    if (const std::string& id = box.box.faces[contact.face].id;
        std::find(made.faces.begin(), made.faces.end(), id) == made.faces.end())
      made.faces.push_back(id);
  if (piece.kind == ItemKind::stop) made.towards = piece.towards;
  if (piece.kind == ItemKind::support) made.towards = {0, 0, 1};
  if (piece.kind == ItemKind::hold_down) made.towards = {0, 0, -1};
  made.seam = piece.seam;
  if (piece.kind == ItemKind::backing_bar)
    for (const Seam& seam : box.box.seams)
      if (seam.id == piece.seam) made.faces = {box.box.faces[seam.face_a].id, box.box.faces[seam.face_b].id};
  made.from_mm = piece.from_mm;
  made.to_mm = piece.to_mm;
  made.below_mm = in_mm_or_0(piece.below);
  made.width_mm = in_mm_or_0(piece.width);
  made.height_mm = in_mm_or_0(piece.height);
  made.clip_mm = in_mm_or_0(piece.clip);
  made.size_mm = in_mm_or_0(piece.size);
  made.foot_mm = fixture::item_of(box.job, piece).foot_mm;
  made.force_N = force_N;
  made.leaves = why_word(leaving.why);
  made.leaves_before = leaving.before;
  return made;
}

// What the walls pull away from a piece at its places on one face, N.
double pull_on(const BoxCase& box, const HoldingPiece& piece, std::size_t face) {
  constexpr double kOn_mm = 1.0;
  const Placement& plane = box.box.faces[face].placement;
  double sum = 0.0;
  for (std::size_t i = 0; i < piece.at.size() && i < piece.pull_N.size(); ++i)
    if (std::abs(dot(piece.at[i] - plane.origin, plane.normal())) < kOn_mm &&
        dot(piece.out[i], plane.normal()) > 0.9)
      sum += piece.pull_N[i];
  return sum;
}

const HoldingPiece* holding(const BoxCase& box, const std::string& id) {
  if (box.elastic)
    for (const HoldingPiece& piece : box.elastic->pieces)
      if (piece.id == id) return &piece;
  return nullptr;
}

// What the metal under a hold-down pulls away from the table, and pushes onto it; nothing where the table
// does not hold it.
struct OnTable {
  double pull_N = 0.0, push_N = 0.0;
};
std::optional<OnTable> on_table(const BoxCase& box, const std::string& hold_down) {
  if (!box.elastic) return std::nullopt;
  for (const PressedPlace& place : box.elastic->pressed)
    if (place.clamp == hold_down) {
      const HoldingPiece& table = *holding(box, place.piece);
      const auto i = static_cast<std::size_t>(place.place);
      return OnTable{table.pull_N.at(i), table.push_N.at(i)};
    }
  return std::nullopt;
}

// As it is set by hand: tight, and more where more is needed.
double press_N(double needs) {
  constexpr double kTight_N = 100.0, kStep_N = 50.0; // common practice
  return std::max(kTight_N, std::ceil(needs / kStep_N) * kStep_N);
}

// A corner clamp what its own places pull; bars share what the walls pull off the former that they press them
// against.
double needs_N(const BoxCase& box, std::size_t placed_index) {
  const fixture::SetUp& set_up = box.fixed().set_up;
  const Fixture& fixture = box.fixed().fixture;
  const fixture::Placed& placed = set_up.placed[placed_index];
  const FixturePiece& piece = fixture.pieces[placed.piece];
  if (piece.kind == ItemKind::corner_clamp) {
    const HoldingPiece* held = holding(box, piece.id);
    return held && !held->pull_N.empty() ? *std::max_element(held->pull_N.begin(), held->pull_N.end()) : 0.0;
  }
  if (piece.kind == ItemKind::hold_down) return on_table(box, piece.id).value_or(OnTable{}).pull_N;
  if (piece.kind != ItemKind::bar_clamp) return 0.0;
  const auto against = [&](const fixture::Placed& bar, const fixture::Placed& former) {
    return fixture.pieces[former.piece].kind == ItemKind::former &&
           fixture::presses(box.box, box.geometry, box.work.last_face, fixture, bar, former);
  };
  double most = 0.0;
  for (const fixture::Placed& former : set_up.placed) {
    const HoldingPiece* held = holding(box, fixture.pieces[former.piece].id);
    if (!held || !against(placed, former)) continue;
    for (const fixture::Contact& contact : placed.contacts) {
      const auto sharing = std::count_if(set_up.placed.begin(), set_up.placed.end(), [&](const auto& other) {
        return against(other, former) &&
               (other.contacts.front().face == contact.face || other.contacts.back().face == contact.face);
      });
      most = std::max(most, pull_on(box, *held, contact.face) / static_cast<double>(sharing));
    }
  }
  return most;
}

void put_friction(const BoxCase& box, PlannedPiece& clamp) {
  if (!box.elastic) return;
  for (const PressedPlace& place : box.elastic->pressed) {
    if (place.clamp != clamp.id) continue;
    clamp.slide_mm = std::max(clamp.slide_mm, place.slide_mm);
    clamp.stops_N = std::max(clamp.stops_N, place.stops_N);
  }
  if (clamp.force_N > 0.0) clamp.friction = clamp.stops_N / clamp.force_N;
}

} // namespace

FixturePlan fixture_plan_of(const BoxCase& box) {
  const Fixing& fixed = box.fixed();
  const fixture::SetUp& set_up = fixed.set_up;
  FixturePlan plan;
  plan.name = fixed.fixture.name;
  plan.stated = fixed.stated;
  plan.down = fixed.fixture.down;
  plan.long_side = fixed.fixture.long_side;
  plan.origin = set_up.frame.origin;
  plan.x = set_up.frame.x;
  plan.y = set_up.frame.y;
  plan.z = set_up.frame.z;
  plan.size_mm = set_up.frame.size_mm;
  if (box.job.shop && box.job.shop->table)
    plan.table_mm = Vec2{in_mm(box.job.shop->table->width), in_mm(box.job.shop->table->depth)};
  for (const std::size_t i : all_pieces(box)) {
    const FixturePiece& piece = fixed.fixture.pieces[set_up.placed[i].piece];
    plan.pieces.push_back(planned(box, piece, set_up.placed[i], set_up.leaving[i], set_up.force_N[i]));
    PlannedPiece& made = plan.pieces.back();
    made.needs_N = needs_N(box, i);
    if (!fixed.stated && fixture::is_clamp(piece.kind))
      made.force_N = std::min(press_N(made.needs_N), fixture::item_of(box.job, piece).force_N);
    if (piece.kind == ItemKind::hold_down)
      if (const auto under = on_table(box, piece.id))
        made.table_N =
            Band{made.force_N, std::max(0.0, made.force_N - under->pull_N), made.force_N + under->push_N};
    put_friction(box, made);
    if (piece.kind == ItemKind::stop && std::abs(piece.towards.x) > 0.5)
      plan.short_side = plan.pieces.back().faces.front();
  }
  if (const auto& l = set_up.locating)
    plan.locating = PlannedLocating{
        without_doubles(l->six), l->rank, l->determinant_mm3, l->error_mm, l->worst_mm, l->turn_deg};
  for (const fixture::Needed& need : set_up.bill)
    plan.bill.push_back({item_word(need.kind), need.size_mm, need.wanted, need.owned});
  plan.compared = fixed.compared;
  plan.smaller_weighed = fixed.smaller_weighed;
  return plan;
}

} // namespace tacksquare
