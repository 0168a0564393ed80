#include "planning/planner/standing.h"

#include "fixture/locate.h"
#include "tables/fixture_practice.h"
#include "tables/practice.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace tacksquare {
namespace {

using elastic::Event;

constexpr const char* kTable = "table";

struct Places {
  std::vector<std::string> ids;
  std::vector<Vec3> at; // in the box's frame
};

// Corners of sheets side by side are one.
Places places_of(const BoxCase& box) {
  constexpr double kApart_mm = 10.0;
  const Fixing& fixed = box.fixed();
  Places made;
  for (const fixture::Placed& placed : fixed.set_up.placed) {
    const FixturePiece& piece = fixed.fixture.pieces[placed.piece];
    if (piece.kind != ItemKind::support) continue;
    made.ids.push_back(piece.id);
    made.at.push_back(placed.contacts.front().at);
  }
  if (!made.at.empty()) return made;
  const BoxMetal metal = metal_of(box.job, box.box, box.geometry);
  const fixture::Held held{box.job, box.box, box.geometry, metal, box.work.last_face};
  for (const Vec2 corner : fixture::footprint_on_table(held, fixed.set_up.frame)) {
    const Vec3 at = fixed.set_up.frame.to_box({corner.x, corner.y, 0.0});
    if (std::any_of(made.at.begin(), made.at.end(), [&](Vec3 other) { return norm(at - other) < kApart_mm; }))
      continue;
    made.ids.push_back(kTable);
    made.at.push_back(at);
  }
  return made;
}

class Stand {
 public:
  Stand(const BoxCase& box, ElasticCase& made) : box_(box), made_(made), places_(places_of(box)) {}

  std::vector<ElasticStand> all() {
    std::optional<std::size_t> tacked, last;
    const std::vector<Event>& events = made_.making.events;
    for (std::size_t i = 0; i < events.size() && lies(i); ++i) {
      if (events[i].kind == Event::Kind::tack) tacked = i;
      if (events[i].kind == Event::Kind::tack || events[i].kind == Event::Kind::weld) last = i;
    }
    if (!tacked || places_.at.size() < 3 || box_.has_piece(ItemKind::hold_down)) return {};
    add(*tacked);
    if (*last != *tacked) add(*last);
    return std::move(told_);
  }

 private:
  // It has not been turned for this event.
  bool lies(std::size_t event) const {
    constexpr double kTurned = 0.01;
    if (made_.making.events[event].kind != Event::Kind::weld) return true;
    const auto run =
        std::find_if(box_.order.runs.begin(), box_.order.runs.end(), [&](const OrderedRun& ordered) {
          return box_.work.runs[ordered.run].id == made_.made[event];
        });
    const Vec3 down = box_.geometry.attitudes[run->attitude].down_direction;
    return norm(down + box_.fixed().set_up.frame.z) <= kTurned;
  }

  // Parts that hang together by the tacks so far: of each the first.
  std::vector<std::size_t> together(std::size_t event) const {
    std::vector<std::size_t> group(box_.box.parts.size());
    std::iota(group.begin(), group.end(), std::size_t{0});
    for (std::size_t i = 0; i <= event; ++i) {
      if (made_.making.events[i].kind != Event::Kind::tack) continue;
      const Seam& seam = box_.box.seams[made_.making.tacks[made_.making.events[i].which].seam];
      const std::size_t a = group[box_.box.faces[seam.face_a].part],
                        b = group[box_.box.faces[seam.face_b].part];
      std::replace(group.begin(), group.end(), std::max(a, b), std::min(a, b));
    }
    return group;
  }

  double weight_N(std::size_t face) const {
    const Part& part = box_.box.parts[box_.box.faces[face].part];
    const Sheet& sheet = box_.sheet_of(part);
    constexpr double kPerM3 = 1e-9; // mm3
    return part.loose ? 0.0
                      : box_.geometry.faces[face].area_mm2 * in_mm(sheet.thickness) * kPerM3 *
                            sheet.metal.density_kg_m3 * kGravity_m_s2;
  }

  // What hangs together and weighs most: what does not is held by hand.
  void add(std::size_t event) {
    const std::vector<std::size_t> group = together(event);
    std::vector<double> weighs(group.size());
    for (std::size_t f = 0; f < box_.box.faces.size(); ++f)
      weighs[group[box_.box.faces[f].part]] += weight_N(f);
    const auto most =
        static_cast<std::size_t>(std::max_element(weighs.begin(), weighs.end()) - weighs.begin());
    elastic::Standing standing;
    standing.at = places_.at;
    standing.up = box_.fixed().set_up.frame.z;
    standing.stiffness_N_mm = holding_practice().stiffness_N_mm;
    standing.uneven_mm = in_mm(locator_practice().error) / kNinetyFive;
    for (std::size_t f = 0; f < box_.box.faces.size(); ++f)
      standing.faces.push_back(
          {box_.geometry.faces[f].centroid, group[box_.box.faces[f].part] == most ? weight_N(f) : 0.0});
    standing.moment = event;
    made_.making.standing.push_back(std::move(standing));
    told_.push_back({made_.made[event], weighs[most], places_.ids, places_.at, {}, {}, {}, {}});
  }

  const BoxCase& box_;
  ElasticCase& made_;
  Places places_;
  std::vector<ElasticStand> told_;
};

} // namespace

std::vector<ElasticStand> stand(const BoxCase& box, ElasticCase& made) {
  return Stand(box, made).all();
}

} // namespace tacksquare
