#include "planning/bending/bend_check.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace tacksquare {

namespace {

constexpr double kTouchMm = 0.05; // what lies on the die may seem to dip into it by this
constexpr double kEndless = std::numeric_limits<double>::infinity();

double length_of(Stretch s) {
  return s.to - s.from;
}

Stretch longest(const std::vector<Stretch>& stretches) {
  Stretch most;
  for (const Stretch& s : stretches)
    if (length_of(s) > length_of(most)) most = s;
  return most;
}

// What of a body in the plane of the sheet lies on the other side of the bend's line; nothing for most.
std::optional<Body> beyond_the_line(const Body& body) {
  double least = 0.0;
  std::vector<Vec2> rest;
  for (const Vec2 p : body.section.points) {
    least = std::min(least, p.x);
    rest.push_back({std::min(p.x, 0.0), p.y});
  }
  if (least > -kTouchMm) return {};
  Body beyond = body;
  beyond.section = convex(rest);
  return beyond;
}

} // namespace

std::string word(Hindrance hindrance) {
  switch (hindrance) {
  case Hindrance::short_leg:
    return "short";
  case Hindrance::gauge:
    return "gauge";
  case Hindrance::die:
    return "die";
  case Hindrance::bed:
    return "bed";
  case Hindrance::punch:
    return "punch";
  case Hindrance::ram:
    return "ram";
  }
  return {};
}

BendChecker::BendChecker(const Tooling& tooling, const Folding& folding)
    : tooling_(&tooling), folding_(&folding) {
  for (std::size_t l = 0; l < folding.lines().size(); ++l) {
    strokes_.emplace_back(folding.leader(l), folding.pattern().thickness_mm, tooling);
    for (std::size_t f = 0; f < folding.faces(); ++f) {
      Lying lying;
      const auto strip = [](const Body& body) {
        double away = -kEndless;
        for (const Vec2 p : body.section.points)
          away = std::max(away, p.x);
        return Strip{away, body.along};
      };
      for (const Body& body : folding.bodies(l, f, 0))
        lying.strips.push_back(strip(body));
      const std::vector<std::size_t>& path = folding.path(l, f);
      if (!path.empty()) {
        for (const Body& body : folding.bodies(l, f, BendSet{1} << path.back()))
          if (body.out_of_it) lying.zone.push_back(strip(body));
        lying.bent = folding.bent_edge(l, f);
      }
      lying.edges = folding.cut_edges(l, f);
      lying_.push_back(std::move(lying));
      known_.emplace_back(std::size_t{1} << path.size(), 0u);
    }
  }
}

// The made ones of the bends between the line and the face, as bits in their order.
BendSet BendChecker::key(std::size_t line, std::size_t face, BendSet done) const {
  BendSet key = 0;
  const std::vector<std::size_t>& path = folding_->path(line, face);
  for (std::size_t i = 0; i < path.size(); ++i)
    key |= (done >> path[i] & 1u) << i;
  return key;
}

const BendChecker::Met& BendChecker::met(std::size_t line, std::size_t face, BendSet done) {
  std::uint32_t& known = known_[line * folding_->faces() + face][key(line, face, done)];
  if (known == 0) {
    met_.push_back(look(line, face, done));
    known = static_cast<std::uint32_t>(met_.size());
  }
  return met_[known - 1];
}

BendChecker::Met BendChecker::look(std::size_t line, std::size_t face, BendSet done) const {
  const Stroke& stroke = strokes_[line];
  Met met;
  for (const Body& body : folding_->bodies(line, face, done)) {
    const auto meets = [&](const Body& what, Tool tool, bool at_front, double least) {
      return stroke.least_clearance(what, tool, at_front, least) < least;
    };
    met.ram = met.ram || meets(body, Tool::ram, false, kLeastClearMm);
    met.bed = met.bed || meets(body, Tool::bed, false, kLeastClearMm);
    const std::optional<Body> near = body.in_plane ? beyond_the_line(body) : body;
    if (!near) continue;
    const double from_die = body.in_plane || body.out_of_it ? -kTouchMm : kLeastClearMm;
    const double from_punch = body.in_plane ? -kTouchMm : kLeastClearMm;
    const bool die = meets(*near, Tool::die, false, from_die);
    const bool at_back = meets(*near, Tool::punch, false, from_punch);
    const bool at_front = tooling_->both_ways_alike ? at_back : meets(*near, Tool::punch, true, from_punch);
    for (const bool front : {false, true}) {
      if (die) met.taken[front].push_back({Tool::die, body.along});
      if (front ? at_front : at_back) met.taken[front].push_back({Tool::punch, body.along});
    }
  }
  return met;
}

std::optional<double> BendChecker::short_for(BendSet done, std::size_t line, bool beyond) const {
  const std::vector<Stretch>& parts = folding_->lines()[line].parts;
  const double wanted = strokes_[line].reach_mm() + kOverEdgeMm;
  std::vector<Stretch> over;
  double furthest = 0.0;
  for (std::size_t f = 0; f < folding_->faces(); ++f) {
    if (folding_->beyond(line, f) != beyond || key(line, f, done) != 0) continue;
    for (const Strip& strip : lying_[line * folding_->faces() + f].strips) {
      if (strip.along.from >= parts.back().to || strip.along.to <= parts.front().from) continue;
      furthest = std::max(furthest, strip.away_mm);
      if (strip.away_mm >= wanted) over.push_back(strip.along);
    }
  }
  double not_over = 0.0, length = 0.0;
  for (const Stretch& part : parts) {
    length += length_of(part);
    for (const Stretch& s : free_of(part, over))
      not_over += length_of(s);
  }
  if (not_over <= 0.5 * length) return {};
  return std::max(0.0, strokes_[line].opening_for(furthest - kOverEdgeMm));
}

// Long enough to hold the part square; cut edges first.
std::vector<BendChecker::Base> BendChecker::bases(BendSet done, std::size_t line, bool a_back) const {
  struct Lies {
    const GaugeEdge* edge;
    bool on_bend;
  };
  std::vector<Lies> edges;
  std::vector<Strip> before; // what may lie between an edge and the stops
  for (std::size_t f = 0; f < folding_->faces(); ++f) {
    if (front(line, f, a_back)) continue;
    const Lying& lying = lying_[line * folding_->faces() + f];
    const BendSet made = key(line, f, done);
    const std::size_t bends = folding_->path(line, f).size();
    if (made == 0) {
      for (const GaugeEdge& edge : lying.edges)
        edges.push_back({&edge, false});
      before.insert(before.end(), lying.strips.begin(), lying.strips.end());
    } else if (made == BendSet{1} << (bends - 1)) {
      if (lying.bent) edges.push_back({&*lying.bent, true});
      before.insert(before.end(), lying.zone.begin(), lying.zone.end());
    }
  }
  std::stable_sort(edges.begin(), edges.end(), [](const Lies& a, const Lies& b) {
    return a.on_bend != b.on_bend ? b.on_bend : a.edge->away_mm < b.edge->away_mm;
  });
  const double zone = 0.5 * folding_->leader(line).flat_mm, length = folding_->lines()[line].length_mm;
  const double wanted = length < kOneStopMm ? kStopMm : std::min(kBaseShare * length, kMostBaseMm);
  std::vector<Base> found;
  for (std::size_t i = 0; i < edges.size();) {
    const Lies first = edges[i];
    Base base{0.0, first.on_bend, {kEndless, -kEndless}, 0, 0};
    for (; i < edges.size() && edges[i].on_bend == first.on_bend &&
           edges[i].edge->away_mm <= first.edge->away_mm + kTouchMm;
         ++i) {
      const GaugeEdge& edge = *edges[i].edge;
      base.gauge_mm = edge.away_mm + zone;
      std::vector<Stretch> hidden;
      for (const Strip& strip : before)
        if (strip.away_mm > edge.away_mm + kTouchMm && strip.along.from < edge.along.to &&
            strip.along.to > edge.along.from)
          hidden.push_back(strip.along);
      for (const Stretch& piece : free_of(edge.along, std::move(hidden))) {
        if (length_of(piece) < kStopMm) continue;
        if (piece.from < base.stops.from) base.from_face = edge.face;
        if (piece.to > base.stops.to) base.to_face = edge.face;
        base.stops = {std::min(base.stops.from, piece.from), std::max(base.stops.to, piece.to)};
      }
    }
    if (length_of(base.stops) >= wanted) found.push_back(base);
  }
  return found;
}

double BendChecker::out_of_reach(const Base& base) const {
  return std::max({0.0, tooling_->gauge_least_mm - base.gauge_mm, base.gauge_mm - tooling_->gauge_most_mm});
}

// What the stops reach: one that is not far; a cut edge rather than a bend; the one with the stops furthest
// apart; the nearest.
void BendChecker::gauge(const std::vector<Base> (&halves)[2], bool a_back, BendCheck& result) const {
  const std::vector<Base>& here = halves[a_back ? 1 : 0];
  double least = kEndless; // from either half
  for (const std::vector<Base>& half : halves)
    for (const Base& base : half)
      if (out_of_reach(base) == 0.0) least = std::min(least, base.gauge_mm);
  const auto far = [&](const Base& base) { return base.gauge_mm > kFarTimes * least; };
  const auto better = [&](const Base& a, const Base& b) {
    if (out_of_reach(a) != out_of_reach(b)) return out_of_reach(a) < out_of_reach(b);
    if (far(a) != far(b)) return far(b);
    if (a.on_bend != b.on_bend) return b.on_bend;
    return length_of(a.stops) > length_of(b.stops) + kTouchMm;
  };
  const Base* best = nullptr;
  for (const Base& base : here)
    if (best == nullptr || better(base, *best)) best = &base;
  if (best == nullptr || out_of_reach(*best) > 0.0) {
    result.hindrance = Hindrance::gauge;
    result.needed_mm = best == nullptr ? 0.0 : best->gauge_mm;
    return;
  }
  result.gauge_faces = {std::min(best->from_face, best->to_face)};
  if (best->from_face != best->to_face)
    result.gauge_faces.push_back(std::max(best->from_face, best->to_face));
  result.on_bend = best->on_bend;
  result.gauge_mm = best->gauge_mm;
  result.far = far(*best);
}

// The longest punch between what is up already; the die has the same length.
void BendChecker::set_up(std::size_t line, const std::vector<Taken>& taken, BendCheck& result) const {
  const double length = folding_->lines()[line].length_mm, half = 0.5 * length;
  const double open_end = std::min(kPunchShortShare * tooling_->die_opening_mm, 0.25 * length);
  std::vector<Stretch> not_here;
  for (const Taken& t : taken)
    not_here.push_back({t.along.from - kLeastClearMm, t.along.to + kLeastClearMm});
  const Stretch fits = longest(free_of({-half, half}, not_here));
  if (fits.from > -half + open_end || fits.to < half - open_end) {
    const bool die = std::any_of(taken.begin(), taken.end(), [&](const Taken& t) {
      return t.tool == Tool::die && t.along.from < half - open_end && t.along.to > open_end - half;
    });
    result.hindrance = die ? Hindrance::die : Hindrance::punch;
    return;
  }
  const double whole_mm = std::floor(length_of(fits) + 1e-6), middle = 0.5 * (fits.from + fits.to);
  const double shortest = tooling_->shortest_punch_mm;
  if (whole_mm >= shortest) {
    result.punch = {middle - 0.5 * whole_mm, middle + 0.5 * whole_mm};
    return;
  }
  // A punch longer than the bend, where there is room for it.
  for (const Stretch& room : free_of({-kEndless, kEndless}, not_here)) {
    if (room.from > middle || room.to < middle || length_of(room) < shortest) continue;
    const double from = std::clamp(middle - 0.5 * shortest, room.from, room.to - shortest);
    result.punch = {from, from + shortest};
    return;
  }
  result.hindrance = Hindrance::punch;
}

BendCheck BendChecker::check(BendSet done, std::size_t line, bool a_back) {
  BendCheck result;
  if (last_.line != line || last_.done != done) {
    last_ = {done, line, short_for(done, line, false), {}};
    if (!last_.short_for) last_.short_for = short_for(done, line, true);
    for (const bool way : {false, true})
      if (!last_.short_for) last_.bases[way ? 1 : 0] = bases(done, line, way);
  }
  if (last_.short_for) {
    result.hindrance = Hindrance::short_leg;
    result.needed_mm = *last_.short_for;
    return result;
  }
  gauge(last_.bases, a_back, result);
  if (result.hindrance) return result;
  std::vector<Taken> taken;
  bool ram = false, bed = false;
  for (std::size_t f = 0; f < folding_->faces(); ++f) {
    const std::size_t side = front(line, f, a_back) ? 1 : 0;
    const Met& m = met(line, f, done);
    taken.insert(taken.end(), m.taken[side].begin(), m.taken[side].end());
    ram = ram || m.ram;
    bed = bed || m.bed;
  }
  set_up(line, taken, result);
  if (bed && result.hindrance != Hindrance::die) result.hindrance = Hindrance::bed;
  if (std::abs(folding_->leader(line).angle_rad) > tooling_->sharpest_rad && !result.hindrance)
    result.hindrance = Hindrance::punch;
  if (ram && !result.hindrance) result.hindrance = Hindrance::ram;
  return result;
}

Nearest BendChecker::nearest(BendSet done, std::size_t line, bool a_back, Stretch punch) const {
  Nearest nearest{kEndless, Tool::punch};
  for (std::size_t f = 0; f < folding_->faces(); ++f) {
    for (const Body& body : folding_->bodies(line, f, done)) {
      for (const Tool tool : {Tool::punch, Tool::ram, Tool::die, Tool::bed}) {
        const bool on_purpose = body.in_plane || (body.out_of_it && tool == Tool::die);
        if (on_purpose && !over_whole_length(tool)) continue;
        const double aside = std::max({0.0, body.along.from - punch.to, punch.from - body.along.to});
        double clear = strokes_[line].least_clearance(body, tool, front(line, f, a_back), kEndless);
        if (!over_whole_length(tool) && aside > 0.0) clear = std::hypot(aside, std::max(0.0, clear));
        if (clear < nearest.clear_mm) nearest = {clear, tool};
      }
    }
  }
  return nearest;
}

} // namespace tacksquare
