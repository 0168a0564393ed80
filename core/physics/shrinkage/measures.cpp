#include "physics/shrinkage/predicting.h"

#include "formulas/band_math.h"
#include "formulas/squareness.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare::shrinkage {

namespace {

using namespace formulas;

constexpr double kSquare = 0.3; // cosine: seams this far from an axis run across it
constexpr double kAlong = 0.95; // cosine: seams this near to an axis run along it
constexpr double kInPlane = 0.99;

const Source kSizes{"seams across and along this size, blank and grinding as usual", Mark::derived};
const Source kBounds{"bounds between a free edge and a fully tacked one", Mark::derived};
const Source kIncoming{"usual misfit of bends and blanks, not measured", Mark::common_practice};

Vec3 middle_of(const std::vector<Vec3>& points) {
  Vec3 sum;
  for (const Vec3 q : points)
    sum = sum + q;
  return sum * (1.0 / static_cast<double>(points.size()));
}

double distance_to(const SeamLine& line, Vec3 q) {
  const Vec3 d = line.end - line.start;
  const double length2 = dot(d, d);
  const double t = length2 > 0.0 ? std::clamp(dot(q - line.start, d) / length2, 0.0, 1.0) : 0.0;
  return norm(line.start + d * t - q);
}

// Faces that lie in one plane and span the axis; seams between them and at their ends shorten the size.
struct Chain {
  double away_mm = 0.0; // of its plane from the place
  std::vector<std::size_t> faces;
};

// Chains nearest to a place: one at a wall, two where walls meet.
std::vector<Chain> chains_at(const Predicting& p, Vec3 axis, Vec3 place) {
  std::vector<Chain> all;
  for (std::size_t f = 0; f < p.box.faces.size(); ++f) {
    const Placement& plane = p.box.faces[f].placement;
    const Vec3 n = plane.normal();
    if (!p.welded(f) || std::abs(dot(n, axis)) > kSquare) continue;
    const auto same = std::find_if(all.begin(), all.end(), [&](const Chain& c) {
      const Placement& other = p.box.faces[c.faces.front()].placement;
      return std::abs(dot(other.normal(), n)) > kInPlane &&
             std::abs(dot(plane.origin - other.origin, n)) < 0.1;
    });
    if (same != all.end())
      same->faces.push_back(f);
    else
      all.push_back({std::abs(dot(place - plane.origin, n)), {f}});
  }
  double nearest = 1e9;
  for (const Chain& c : all)
    nearest = std::min(nearest, c.away_mm);
  std::vector<Chain> near;
  for (const Chain& c : all)
    if (c.away_mm <= nearest + 1.0) near.push_back(c);
  return near;
}

Band across_chain(const Predicting& p, const Chain& chain, Vec3 axis) {
  std::vector<Band> parts;
  for (std::size_t i = 0; i < p.work.seams.size(); ++i) {
    if (std::abs(dot(p.direction(i), axis)) > kSquare) continue;
    for (const std::size_t f : chain.faces)
      if (p.on_face(i, f)) parts.push_back(across_of_face(p, i, f));
  }
  return sum_same_cause(parts);
}

// What the seams take off a size at a place by their shrinkage across; walls that meet there share it.
Band across_at(const Predicting& p, Vec3 axis, Vec3 place) {
  const std::vector<Chain> chains = chains_at(p, axis, place);
  std::vector<Band> parts;
  for (const Chain& c : chains)
    parts.push_back(scaled(across_chain(p, c, axis), 1.0 / static_cast<double>(chains.size())));
  return sum_same_cause(parts);
}

// Ground to 0..proud: evenly between.
Band proud_band(double proud_mm) {
  return {0.5 * proud_mm, 0.05 * proud_mm, 0.95 * proud_mm};
}

bool ground_corner(const Predicting& p, Vec3 place) {
  for (std::size_t i = 0; i < p.work.seams.size(); ++i) {
    const WorkSeam& w = p.work.seams[i];
    const bool ground = p.seam(i).finish == Finish::flush && p.seam(i).side == WeldSide::outside;
    if (ground && distance_to(p.line(i), place) <= 2.0 * std::max(w.t_a_mm, w.t_b_mm)) return true;
  }
  return false;
}

// How much of a wall's belly shows at a place on it: none at edges that are held, all at the middle, and at a
// free edge as much as its distance from the held edge across says.
double belly_share(const Predicting& p, std::size_t face, Vec3 place) {
  const Placement& plane = p.box.faces[face].placement;
  double share = 1.0;
  for (const Vec3 d : {plane.u, plane.v}) {
    const std::vector<Vec3>& ring = p.geometry.faces[face].ring;
    double low = dot(ring[0], d), high = low;
    for (const Vec3 q : ring) {
      low = std::min(low, dot(q, d));
      high = std::max(high, dot(q, d));
    }
    if (high <= low) return 0.0;
    const double at = std::clamp((dot(place, d) - low) / (high - low), 0.0, 1.0);
    const Vec3 centre = middle_of(ring);
    const double near_mm = 2.0 * p.thickness_mm(face);
    const bool low_free = on_rim(p, centre + d * (low - dot(centre, d)), near_mm);
    const bool high_free = on_rim(p, centre + d * (high - dot(centre, d)), near_mm);
    if (low_free && high_free) continue;
    share *= low_free ? 1.0 - at : high_free ? at : 4.0 * at * (1.0 - at);
  }
  return share;
}

// Belly of the walls at both ends of a size, as bounds.
Band belly_at_ends(const Predicting& p, Vec3 axis, const std::vector<Vec3>& ends) {
  Band sum;
  for (const Vec3 end : ends)
    for (std::size_t f = 0; f < p.box.faces.size(); ++f) {
      const Placement& plane = p.box.faces[f].placement;
      if (!p.welded(f) || std::abs(dot(plane.normal(), axis)) < kInPlane) continue;
      if (std::abs(dot(end - plane.origin, plane.normal())) > p.thickness_mm(f)) continue;
      const double share = belly_share(p, f, end);
      const Band belly = belly_bounds(p, f);
      sum.low += share * belly.low;
      sum.high += share * belly.high;
    }
  return sum;
}

Expected expect_size(const Predicting& p, const Measure& m) {
  const Vec3 axis = unit(m.points[1] - m.points[0]);
  const Vec3 place = middle_of(m.points);
  std::vector<Band> parts = {scaled(across_at(p, axis, place), -1.0), scaled(along_of(p, axis), -1.0)};
  Expected e;
  e.weld_mm = sum_independent(parts);
  parts.push_back(band_plus_minus(0.0, p.blank_mm()));
  e.before_grinding_mm = shifted(sum_independent(parts), m.nominal_mm);
  for (const Vec3 end : m.points)
    if (ground_corner(p, end)) {
      parts.push_back(proud_band(p.work.rules.proud_mm.value));
      ++e.ground_ends;
    }
  e.mm = shifted(sum_independent(parts), m.nominal_mm);
  const Band belly = belly_at_ends(p, axis, m.points);
  e.bound_only = belly.high - belly.low > 0.01;
  e.mm.low += e.bound_only ? belly.low : 0.0;
  e.mm.high += e.bound_only ? belly.high : 0.0;
  e.source = e.bound_only ? kBounds : kSizes;
  e.chance_kept =
      e.bound_only ? -1.0 : chance_between(e.mm, m.nominal_mm - m.under_mm, m.nominal_mm + m.over_mm);
  return e;
}

Expected bounds(double low, double high, const Source& source) {
  const Band between{std::clamp(0.0, low, high), low, high};
  return {0, between, between, true, -1.0, source, 0, {}};
}

// Corners held by seams that run along an axis: how far one may lock off the others. Bends hold theirs as
// bent.
struct CornerOff {
  double off_rad = 0.0;
  bool by_seams = false;
};
CornerOff corner_off(const Predicting& p, Vec3 axis) {
  CornerOff c;
  for (std::size_t i = 0; i < p.work.seams.size(); ++i) {
    if (p.seam(i).joint != JointKind::corner || std::abs(dot(p.direction(i), axis)) < kAlong) continue;
    c.by_seams = true;
    const Band& angle = p.seams[i].angle_deg;
    c.off_rad = std::max(c.off_rad, 0.5 * (angle.high - angle.low) * kPi / 180.0);
  }
  if (!c.by_seams) c.off_rad = p.bend_rad();
  return c;
}

Expected expect_diagonals(const Predicting& p, const Measure& m) {
  const Vec3 a = m.points[1] - m.points[0], b = m.points[2] - m.points[1];
  const CornerOff corners = corner_off(p, unit(cross(a, b)));
  return bounds(0.0, diagonal_difference_mm(norm(a), norm(b), corners.off_rad),
                corners.by_seams ? kBounds : kIncoming);
}

Expected expect_opposite(const Predicting& p, const Measure& m) {
  const Vec3 axis = unit(m.points[1] - m.points[0]);
  const Band one = across_at(p, axis, (m.points[0] + m.points[1]) * 0.5);
  const Band other = across_at(p, axis, (m.points[2] + m.points[3]) * 0.5);
  return bounds(0.0, std::max({one.high - other.low, other.high - one.low, 0.0}), kBounds);
}

// Each foot pulled up by a seam of its own in a quarter of the section, as far apart as the band allows.
std::optional<Expected> expect_rock(const Predicting& p, const Measure& m) {
  const Vec3 up = unit(cross(m.points[1] - m.points[0], m.points[2] - m.points[1]));
  std::optional<Band> pull;
  for (std::size_t i = 0; i < p.work.seams.size(); ++i) {
    if (std::abs(dot(p.direction(i), up)) < kAlong) continue;
    const Band& s = p.seams[i].shortening_mm;
    pull = pull ? Band{pull->value, std::min(pull->low, s.low), std::max(pull->high, s.high)} : s;
  }
  if (!pull) return std::nullopt;
  return bounds(0.0, rock_mm(4.0 * pull->high, 4.0 * pull->low, 4.0 * pull->high, 4.0 * pull->low), kBounds);
}

Expected expect_lean(const Predicting& p, const Measure& m) {
  const Vec3 wall = m.points[1] - m.points[0];
  const double tall = norm(wall);
  double turn_rad = p.bend_rad();
  Source source = kIncoming;
  for (std::size_t i = 0; i < p.work.seams.size(); ++i) {
    const WorkSeam& w = p.work.seams[i];
    const bool foot = distance_to(p.line(i), m.points[0]) <= 2.0 * std::max(w.t_a_mm, w.t_b_mm);
    const bool on_wall =
        p.box.faces[p.seam(i).face_a].id == m.where || p.box.faces[p.seam(i).face_b].id == m.where;
    if (!foot || !on_wall || std::abs(dot(p.direction(i), unit(wall))) > kSquare) continue;
    turn_rad = p.seams[i].angle_deg.high * kPi / 180.0;
    source = kBounds;
  }
  return bounds(0.0, wall_lean_mm(tall, turn_rad), source);
}

} // namespace

Band belly_bounds(const Predicting& p, std::size_t face) {
  const Vec3 n = p.box.faces[face].placement.normal();
  Band most;
  for (std::size_t i = 0; i < p.work.seams.size(); ++i) {
    // All seams of the face that run as this one does; each direction is looked at once or more, to no harm.
    if (!p.on_face(i, face)) continue;
    const Vec3 s = p.direction(i), across = cross(n, s);
    const std::vector<Vec3>& ring = p.geometry.faces[face].ring;
    double low = dot(ring[0], across), high = low;
    for (const Vec3 q : ring) {
      low = std::min(low, dot(q, across));
      high = std::max(high, dot(q, across));
    }
    const double b = high - low;
    double out = 0.0, in = 0.0;
    for (std::size_t j = 0; j < p.work.seams.size(); ++j) {
      if (!p.on_face(j, face) || std::abs(dot(p.direction(j), s)) < kAlong) continue;
      const double turn = p.seams[j].angle_deg.high * kPi / 180.0;
      const double x = std::clamp(dot(p.line(j).start, across) - low, 0.0, b);
      const Seam& seam = p.seam(j);
      bool outward = seam.side == WeldSide::outside;
      double sag = 0.0;
      if (seam.joint == JointKind::corner) {
        sag = 0.5 * turn * b / 8.0; // this end turned by half the corner's angle
      } else if (seam.joint == JointKind::tee && seam.face_a == face) {
        continue; // the web stands as it is held
      } else {
        sag = turn * std::min(x, b - x) / 2.0; // a kink within the face
        outward = seam.joint == JointKind::tee ? dot(p.line(j).into_a, n) < 0.0 : !outward;
      }
      (outward ? out : in) += std::abs(sag);
    }
    most.high = std::max(most.high, out);
    most.low = std::min(most.low, -in);
  }
  return most;
}

double chance_between(const Band& band, double low, double high) {
  const auto below = [&](double x) {
    const double side = x < band.value ? band.value - band.low : band.high - band.value;
    if (side <= 0.0) return x < band.value ? 0.0 : 1.0;
    return 0.5 * std::erfc(-(x - band.value) * kNinetyFive / side / std::sqrt(2.0));
  };
  // Four figures: beyond them mathematics libraries may differ.
  return std::round(std::max(0.0, below(high) - below(low)) * 1e4) / 1e4;
}

std::vector<Expected> expect_measures(const Predicting& p) {
  std::vector<Expected> all;
  for (std::size_t i = 0; i < p.work.measures.size(); ++i) {
    const Measure& m = p.work.measures[i];
    std::optional<Expected> e;
    switch (m.kind) {
    case MeasureKind::width:
      e = expect_size(p, m);
      break;
    case MeasureKind::opposite_sides:
      e = expect_opposite(p, m);
      break;
    case MeasureKind::diagonals:
      e = expect_diagonals(p, m);
      break;
    case MeasureKind::rock:
      e = expect_rock(p, m);
      break;
    case MeasureKind::wall_lean:
      e = expect_lean(p, m);
      break;
    case MeasureKind::belly:
      for (std::size_t f = 0; f < p.box.faces.size(); ++f) {
        if (p.box.faces[f].id != m.where) continue;
        const Band b = belly_bounds(p, f);
        e = bounds(b.low, b.high, kBounds);
      }
      break;
    case MeasureKind::gap:
    case MeasureKind::step:
    case MeasureKind::proud:
      break; // of the fit and the grinder, not of the weld
    }
    if (!e) continue;
    e->measure = i;
    all.push_back(std::move(*e));
  }
  return all;
}

std::vector<Contribution> contributions_of(const Predicting& p, const std::vector<Expected>& measures) {
  std::vector<Contribution> all;
  Band across, along, wall_lean;
  const auto reach = [](const Band& b) { return std::max(std::abs(b.low), std::abs(b.high)); };
  std::optional<std::string> gauge;
  for (const Expected& e : measures) {
    const Measure& m = p.work.measures[e.measure];
    if (m.kind == MeasureKind::wall_lean && reach(e.mm) > reach(wall_lean) && e.source == kIncoming)
      wall_lean = {0.0, -reach(e.mm), reach(e.mm)};
    if (m.kind != MeasureKind::width) continue;
    const Vec3 axis = unit(m.points[1] - m.points[0]);
    const Band a = scaled(across_at(p, axis, middle_of(m.points)), -1.0), l = scaled(along_of(p, axis), -1.0);
    if (reach(a) > reach(across)) across = a;
    if (reach(l) > reach(along)) along = l;
    if (!gauge) gauge = m.gauge;
  }
  if (reach(wall_lean) > 0.0) all.push_back({"bends", wall_lean, kIncoming});
  if (gauge) all.push_back({"blank", band_plus_minus(0.0, p.blank_mm()), kIncoming});
  if (reach(across) > 0.0)
    all.push_back({"weld-across", across, {"heat bound across a seam", Mark::derived}});
  if (reach(along) > 0.0)
    all.push_back({"weld-along", along, {"tendon force of a fast line source", Mark::derived}});
  const bool ground = std::any_of(p.box.seams.begin(), p.box.seams.end(),
                                  [](const Seam& s) { return s.finish == Finish::flush; });
  const double proud = p.work.rules.proud_mm.value; // on either side of the box
  if (ground && proud > 0.0)
    all.push_back({"grinding", {proud, 0.0, 2.0 * proud}, p.work.rules.proud_mm.source});
  for (const BenchGaugeInfo& g : bench_gauges())
    if (gauge && g.id == *gauge)
      all.push_back({"gauge", band_plus_minus(0.0, in_mm(g.resolution)), g.source});
  std::sort(all.begin(), all.end(), [&](const Contribution& a, const Contribution& b) {
    return reach(a.mm) != reach(b.mm) ? reach(a.mm) > reach(b.mm) : a.key < b.key;
  });
  return all;
}

} // namespace tacksquare::shrinkage
