// What holds the box on the table: each piece goes on once and comes off once, in time; it lies on metal; the
// places in the frames of table and box are the same; the bill has what is used.
#include "plan/verify/checking.h"
#include "tables/fixture_practice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace tacksquare::verify {
namespace {

constexpr double kSame_mm = 1e-3; // numbers of plan.xml have nine digits
constexpr double kNear_mm = 1.0;  // a clamp's jaw is set by hand

bool is_one_of(const std::string& word, std::initializer_list<const char*> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// Each step in whose list the id stands, once for each time.
std::vector<std::size_t> steps_with(const Checking& c, std::vector<std::string> Step::*list,
                                    const std::string& id) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < c.plan.steps.size(); ++i) {
    const std::vector<std::string>& ids = c.plan.steps[i].*list;
    found.insert(found.end(), static_cast<std::size_t>(std::count(ids.begin(), ids.end(), id)), i);
  }
  return found;
}

bool says(const Text& text, const std::string& word) {
  return std::any_of(text.args.begin(), text.args.end(), [&](const Arg& arg) {
    return (arg.kind == ArgKind::word && arg.word == word) ||
           std::any_of(arg.list.begin(), arg.list.end(), [&](const Text& one) { return says(one, word); });
  });
}

bool says(const Step& step, const std::string& word) {
  const std::array<const Text*, 6> all{&step.what,      &step.look,  &step.odd,
                                       &step.meanwhile, &step.until, &step.record};
  return std::any_of(all.begin(), all.end(), [&](const Text* text) { return says(*text, word); });
}

// An id that the metal has as well may stand in a step for that.
bool is_of_the_box(const Checking& c, const std::string& id) {
  return c.seam_index(id) < c.box.seams.size() || c.face_index(id) < c.box.faces.size();
}

bool is_inside(const Checking& c, const PlannedPiece& piece) {
  if (is_one_of(piece.kind, {"former", "square", "spreader"})) return true;
  const std::size_t seam = c.seam_index(piece.seam);
  return piece.kind == "backing-bar" && seam < c.box.seams.size() &&
         c.box.seams[seam].side == WeldSide::outside;
}

void check_leaving(const Checking& c, const PlannedPiece& piece, std::size_t off) {
  const bool ground = piece.leaves == "grinder"; // before all tacks are dressed
  if ((piece.leaves.empty() || ground) != piece.leaves_before.empty() ||
      !is_one_of(piece.leaves, {"", "torch", "grinder", "turn", "tacked"}))
    c.tell("piece {} does not say both why and before what it leaves", piece.id);
  if (ground && off >= c.last_step([](const Step& step) { return step.phase == Phase::knock_down; }))
    c.tell("piece {} is still in the way of the grinder", piece.id);
  if (piece.leaves_before.empty()) return;
  const auto run = c.step_of_run.find(piece.leaves_before), tack = c.step_of_tack.find(piece.leaves_before);
  if (run == c.step_of_run.end() && tack == c.step_of_tack.end())
    c.tell("piece {} leaves before {}, which no step makes", piece.id, piece.leaves_before);
  else if (off >= (run == c.step_of_run.end() ? tack : run)->second)
    c.tell("piece {} is still in the way of {}", piece.id, piece.leaves_before);
}

// Each piece on in one step and off in one later step.
void check_on_and_off(const Checking& c, const FixturePlan& fixture) {
  const std::vector<Step>& steps = c.plan.steps;
  const std::size_t face = c.geometry.closed ? last_face(c) : c.box.faces.size();
  const std::size_t shut = face < c.box.faces.size() ? step_that_shuts(c, face) : steps.size();
  std::set<std::string> known;
  std::size_t last_on = 0;
  for (const PlannedPiece& piece : fixture.pieces) {
    if (!known.insert(piece.id).second) {
      c.tell("two pieces are called {}", piece.id);
      continue;
    }
    const std::vector<std::size_t> on = steps_with(c, &Step::on, piece.id);
    const std::vector<std::size_t> off = steps_with(c, &Step::off, piece.id);
    if (on.size() != 1) c.tell("piece {} goes on {} times", piece.id, on.size());
    if (off.size() != 1) c.tell("piece {} comes off {} times", piece.id, off.size());
    if (on.size() != 1 || off.size() != 1) continue;
    if (on[0] >= off[0]) c.tell("piece {} comes off before it is on", piece.id);
    if (on[0] < last_on) c.tell("piece {} goes on before one that stands before it", piece.id);
    last_on = std::max(last_on, on[0]);
    if (steps[off[0]].phase > Phase::release) c.tell("piece {} is still on after the release", piece.id);
    check_leaving(c, piece, off[0]);
    if (is_inside(c, piece) && shut < steps.size() && off[0] >= shut)
      c.tell("piece {} is shut in by the last face {}", piece.id, c.box.faces[face].id);
    for (std::size_t i = off[0] + 1; i < steps.size() && !is_of_the_box(c, piece.id); ++i)
      if (says(steps[i], piece.id)) c.tell("step {} names {}, which is off", steps[i].number, piece.id);
  }
  for (const Step& step : steps)
    for (const auto* ids : {&step.on, &step.off})
      for (const std::string& id : *ids)
        if (!known.count(id)) c.tell("step {} puts on or takes off {}, which is no piece", step.number, id);
}

Vec3 turned(const FixturePlan& fixture, Vec3 p) {
  return fixture.x * p.x + fixture.y * p.y + fixture.z * p.z;
}

double from_edge_mm(const std::vector<Vec2>& ring, Vec2 p) {
  double nearest = 1e9;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], d = ring[(i + 1) % ring.size()] - a;
    const double length2 = dot(d, d);
    const double share = length2 > 0.0 ? std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : 0.0;
    nearest = std::min(nearest, norm(p - a - d * share));
  }
  return nearest;
}

bool is_within(const std::vector<Vec2>& ring, Vec2 p) {
  bool within = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const Vec2 a = ring[i], b = ring[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) within = !within;
  }
  return within;
}

// On the face's inside or outside, or on its cut edge. The outline lies in the middle of the sheet, so the
// metal goes on for half a thickness beyond it where two faces meet.
// air_mm: a screw closes so much before the metal.
bool touches(const Checking& c, std::size_t face, Vec3 at, double air_mm) {
  const Face& of = c.box.faces[face];
  const double half_mm = 0.5 * c.thickness_mm(face);
  const double off_mm = std::abs(dot(at - of.placement.origin, unit(of.placement.normal())));
  const Vec2 flat = of.placement.local(at);
  if (from_edge_mm(of.outline, flat) <= kNear_mm) return off_mm <= half_mm + std::max(kNear_mm, air_mm);
  const bool in_hole = std::any_of(of.cutouts.begin(), of.cutouts.end(), [&](const auto& hole) {
    return is_within(hole, flat) && from_edge_mm(hole, flat) > kNear_mm;
  });
  return is_within(of.outline, flat) && !in_hole && off_mm >= half_mm - kNear_mm &&
         off_mm <= half_mm + std::max(kNear_mm, air_mm);
}

// From the side on which it stands.
bool presses_on(const Checking& c, std::size_t face, Vec3 at, Vec3 towards) {
  const Face& of = c.box.faces[face];
  const Vec3 normal = unit(of.placement.normal());
  const double off_mm = dot(at - of.placement.origin, normal);
  return off_mm * dot(towards, normal) < 0.0 || from_edge_mm(of.outline, of.placement.local(at)) <= kNear_mm;
}

void check_touching(const Checking& c, const FixturePlan& fixture, const PlannedPiece& piece) {
  const bool two = is_one_of(piece.kind, {"bar-clamp", "spreader"});
  const bool pressing = is_one_of(piece.kind, {"stop", "support", "hold-down"});
  if (!two && !pressing) return;
  if (piece.at.size() != (two ? 2U : 1U)) {
    c.tell("piece {} touches in {} places", piece.id, piece.at.size());
    return;
  }
  if (piece.kind == "bar-clamp" && piece.faces.size() != piece.at.size()) {
    c.tell("bar clamp {} has not a face for each end", piece.id);
    return;
  }
  const bool screwed = is_one_of(piece.kind, {"bar-clamp", "hold-down"});
  const double air_mm = screwed ? in_mm(clamp_practice().takes_up) : 0.0;
  for (std::size_t i = 0; i < piece.at.size(); ++i) {
    std::vector<std::size_t> faces;
    for (std::size_t f = 0; f < piece.faces.size(); ++f)
      if (piece.kind != "bar-clamp" || f == i) faces.push_back(c.face_index(piece.faces[f]));
    const auto on = std::find_if(faces.begin(), faces.end(), [&](std::size_t face) {
      return face < c.box.faces.size() && touches(c, face, piece.at[i], air_mm);
    });
    if (on == faces.end())
      c.tell("piece {} touches no metal of its faces at its place {}", piece.id, i + 1);
    else if (pressing && !presses_on(c, *on, piece.at[i], turned(fixture, piece.towards)))
      c.tell("piece {} presses away from its metal", piece.id);
  }
}

void check_pieces(const Checking& c, const FixturePlan& fixture) {
  for (const PlannedPiece& piece : fixture.pieces) {
    if (!is_one_of(piece.kind, {"stop", "support", "hold-down", "bar-clamp", "corner-clamp", "square",
                                "former", "spreader", "backing-bar"}))
      c.tell("piece {} is of no known kind: {}", piece.id, piece.kind);
    for (const std::string& face : piece.faces)
      if (c.face_index(face) == c.box.faces.size()) c.tell("piece {} touches no face {}", piece.id, face);
    if (piece.kind == "backing-bar") {
      const std::size_t seam = c.seam_index(piece.seam);
      if (seam == c.box.seams.size() || piece.from_mm < -kSame_mm || piece.to_mm <= piece.from_mm ||
          piece.to_mm > c.geometry.seams[seam].length_mm + kNear_mm)
        c.tell("backing bar {} lies behind no seam", piece.id);
    }
    if (piece.table.size() != piece.at.size()) {
      c.tell("piece {} has not the same places on table and box", piece.id);
      continue;
    }
    for (std::size_t i = 0; i < piece.at.size(); ++i)
      if (norm(fixture.origin + turned(fixture, piece.table[i]) - piece.at[i]) > kSame_mm)
        c.tell("piece {} stands elsewhere on the table than on the box", piece.id);
    check_touching(c, fixture, piece);
  }
}

// Right-handed and square, with the box in its first octant, touching the three planes: walls along x and y,
// beyond which a lip may stand out; all metal along z.
void check_frame(const Checking& c, const FixturePlan& fixture) {
  constexpr double kUnit = 1e-6;
  const bool square = std::abs(norm(fixture.x) - 1.0) < kUnit && std::abs(norm(fixture.y) - 1.0) < kUnit &&
                      std::abs(dot(fixture.x, fixture.y)) < kUnit &&
                      norm(cross(fixture.x, fixture.y) - fixture.z) < kUnit;
  if (!square) {
    c.tell("the fixture's frame is not square and right-handed");
    return;
  }
  const std::array<Vec3, 3> axes{fixture.x, fixture.y, fixture.z};
  const std::array<double, 3> sizes{fixture.size_mm.x, fixture.size_mm.y, fixture.size_mm.z};
  for (std::size_t axis = 0; axis < axes.size(); ++axis) {
    double low = 1e9, high = -1e9, thickest = 0.0;
    for (std::size_t f = 0; f < c.box.faces.size(); ++f) {
      constexpr double kFlat = 0.5;
      const double upright = std::abs(dot(unit(c.box.faces[f].placement.normal()), fixture.z));
      if (c.box.parts[c.box.faces[f].part].loose || (axis < 2 && upright > kFlat)) continue;
      thickest = std::max(thickest, c.thickness_mm(f));
      for (const Vec2 corner : c.box.faces[f].outline) {
        const double at = dot(c.box.faces[f].placement.at(corner) - fixture.origin, axes[axis]);
        low = std::min(low, at);
        high = std::max(high, at);
      }
    }
    // Outlines lie in the middle of the sheet.
    if (low < -kNear_mm || low > thickest + kNear_mm || high > sizes[axis] + kNear_mm ||
        high < sizes[axis] - thickest - kNear_mm)
      c.tell("the box does not lie in the datum corner along {}", "xyz"[axis]);
  }
}

// How wide it has to open, or how long it has to be.
double span_mm(const PlannedPiece& piece) {
  if (piece.kind == "square") return piece.size_mm;
  if (piece.kind == "backing-bar") return piece.to_mm - piece.from_mm;
  const bool two = is_one_of(piece.kind, {"bar-clamp", "spreader"}) && piece.table.size() == 2;
  return two ? norm(piece.table[1] - piece.table[0]) : 0.0;
}

void check_bill(const Checking& c, const FixturePlan& fixture) {
  std::map<std::string, std::vector<double>> used, billed;
  for (const PlannedPiece& piece : fixture.pieces)
    used[piece.kind].push_back(span_mm(piece));
  bool enough = false;
  for (const BillLine& line : fixture.bill) {
    const bool missing = line.owned && *line.owned < line.wanted;
    if (missing && enough) c.tell("the bill does not begin with what is missing");
    enough = enough || !missing;
    for (int i = 0; i < line.wanted; ++i)
      billed[line.kind].push_back(line.size_mm);
    used[line.kind]; // billed for nothing
  }
  for (auto& [kind, spans] : used) {
    std::vector<double>& sizes = billed[kind];
    if (sizes.size() != spans.size()) {
      c.tell("the bill has {} of kind {}, the fixture {}", sizes.size(), kind, spans.size());
      continue;
    }
    std::sort(spans.begin(), spans.end());
    std::sort(sizes.begin(), sizes.end());
    for (std::size_t i = 0; i < spans.size(); ++i)
      if (sizes[i] < spans[i] - kSame_mm) c.tell("a {} of the bill is too small for its place", kind);
  }
}

// The planned one among those that it was weighed against: it is what lies on the table, and loses nothing.
void check_compared(const Checking& c, const FixturePlan& fixture) {
  constexpr double kNothing = 0.01 + 1e-9; // of the chance
  if (fixture.compared.empty()) return;
  const FixtureCompared* chosen = nullptr;
  double most = 0.0;
  for (const FixtureCompared& each : fixture.compared) {
    if (!(each.kept >= 0.0 && each.kept <= 1.0))
      c.tell("a fixture compared keeps {} of all boxes", each.kept);
    if (each.chosen && chosen) c.tell("two fixtures compared are the planned one");
    if (each.chosen) chosen = &each;
    if (is_one_of(each.key, {"throughout", "for-tacks"})) most = std::max(most, each.kept);
    const bool there = std::any_of(fixture.pieces.begin(), fixture.pieces.end(),
                                   [&](const PlannedPiece& piece) { return piece.id == each.without; });
    if ((each.key == "without") != there) c.tell("a fixture compared is without {}", each.without);
  }
  if (!chosen || static_cast<std::size_t>(chosen->pieces) != fixture.pieces.size()) {
    c.tell("the planned fixture is not among those compared");
    return;
  }
  if (chosen->kept < most - kNothing) c.tell("the planned fixture loses against all of it");
  for (const FixtureCompared& each : fixture.compared)
    if (each.key == "without" && each.pieces >= chosen->pieces)
      c.tell("without {} there are as many pieces", each.without);
}

} // namespace

void check_fixture(const Checking& c) {
  if (!c.plan.fixture) return;
  const FixturePlan& fixture = *c.plan.fixture;
  check_frame(c, fixture);
  check_pieces(c, fixture);
  check_on_and_off(c, fixture);
  check_locating(c, fixture);
  check_bill(c, fixture);
  check_compared(c, fixture);
  check_friction(c, fixture);
  check_stands(c, fixture);
}

} // namespace tacksquare::verify
