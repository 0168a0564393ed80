// Flat patterns: outlines that close, areas and masses that are what they say, bends as DIN 6935 has them.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::verify {
namespace {

constexpr double kSlack = 1e-5; // relative

// Twice the area, positive when it goes counter-clockwise.
double twice_area(const std::vector<Vec2>& ring) {
  double sum = 0.0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    sum += cross(ring[i], ring[(i + 1) % ring.size()]);
  return sum;
}

// Moment of the area about both axes, times six.
Vec2 moment(const std::vector<Vec2>& ring) {
  Vec2 sum;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    sum = sum + (a + b) * cross(a, b);
  }
  return sum;
}

bool crosses(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const auto side = [](Vec2 from, Vec2 to, Vec2 p) { return cross(to - from, p - from); };
  return side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
}

// A ring that is the edge of something: three corners, no edge of no length, none that crosses another.
bool is_closed(const std::vector<Vec2>& ring) {
  const std::size_t n = ring.size();
  if (n < 3) return false;
  for (std::size_t i = 0; i < n; ++i) {
    if (!std::isfinite(ring[i].x) || !std::isfinite(ring[i].y)) return false;
    if (norm(ring[(i + 1) % n] - ring[i]) < 1e-9) return false;
    for (std::size_t k = i + 2; k < n; ++k)
      if (crosses(ring[i], ring[(i + 1) % n], ring[k], ring[(k + 1) % n])) return false;
  }
  return true;
}

bool near(double a, double b) {
  return std::abs(a - b) <= kSlack * std::max(1.0, std::max(std::abs(a), std::abs(b)));
}

void check_outline(const Checking& c, const FlatPattern& pattern) {
  bool closed = is_closed(pattern.outline) && twice_area(pattern.outline) > 0.0;
  double area = std::abs(twice_area(pattern.outline)) / 2.0;
  Vec2 middle = moment(pattern.outline) * (1.0 / 6.0);
  for (const auto& hole : pattern.holes) {
    closed = closed && is_closed(hole);
    const double sign = twice_area(hole) < 0.0 ? -1.0 : 1.0;
    area -= sign * twice_area(hole) / 2.0;
    middle = middle - moment(hole) * (sign / 6.0);
  }
  if (!closed) {
    c.tell("part {} has a cut line that does not close", pattern.part);
    return;
  }
  Vec2 low = pattern.outline.front(), high = low;
  for (const Vec2 p : pattern.outline) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  if (norm(low) > 1e-3 || !near(high.x, pattern.length_mm) || !near(high.y, pattern.width_mm))
    c.tell("part {} is {:.2f} x {:.2f} mm flat, not {:.2f} x {:.2f}", pattern.part, high.x - low.x,
           high.y - low.y, pattern.length_mm, pattern.width_mm);
  for (const auto& hole : pattern.holes)
    for (const Vec2 p : hole)
      if (p.x < low.x || p.y < low.y || p.x > high.x || p.y > high.y) {
        c.tell("part {} has a hole beside it", pattern.part);
        return;
      }
  if (!near(area, pattern.area_mm2))
    c.tell("part {} has {:.0f} mm2, not {:.0f}", pattern.part, area, pattern.area_mm2);
  else if (norm(middle * (1.0 / area) - pattern.centroid) > 1e-3)
    c.tell("part {} has its middle elsewhere", pattern.part);
}

// Width of a bent zone after DIN 6935, by its own reckoning.
double zone_mm(double turned_rad, double radius_mm, double thickness_mm) {
  const double k = std::min(1.0, 0.65 + 0.5 * std::log10(radius_mm / thickness_mm));
  return turned_rad * (radius_mm + k * thickness_mm / 2.0);
}

void check_bend(const Checking& c, const FlatPattern& pattern, const FlatBend& bend, const Bend& stated) {
  const std::string name = pattern.part + " " + bend.face_a + "-" + bend.face_b;
  const auto id = [&](std::size_t face) { return c.box.faces[face].id; };
  if (std::minmax(bend.face_a, bend.face_b) != std::minmax(id(stated.face_a), id(stated.face_b)))
    c.tell("bend {} is between other faces than the job states", name);
  const double turned = std::abs(bend.angle_rad);
  if (turned < 1e-3 || turned > kPi) {
    c.tell("bend {} is turned through nothing, or too far", name);
    return;
  }
  if (norm(bend.end - bend.start) <= 0.0) c.tell("bend {} has no length", name);
  const double legs = 2.0 * (bend.radius_mm + pattern.thickness_mm) * std::tan(turned / 2.0);
  if (turned < 3.0 && !near(legs - bend.flat_mm, bend.deduction_mm))
    c.tell("bend {} has a deduction of {:.3f} mm, its legs and zone {:.3f}", name, bend.deduction_mm,
           legs - bend.flat_mm);
  if (bend.own_deduction) {
    if (!c.job.brake || c.job.brake->deductions.empty())
      c.tell("bend {} has a measured deduction that the job does not state", name);
  } else if (!near(zone_mm(turned, bend.radius_mm, pattern.thickness_mm), bend.flat_mm)) {
    c.tell("bend {} has a zone of {:.3f} mm, by DIN 6935 {:.3f}", name, bend.flat_mm,
           zone_mm(turned, bend.radius_mm, pattern.thickness_mm));
  }
}

void check_pattern(const Checking& c, const FlatPattern& pattern) {
  const auto part = std::find_if(c.box.parts.begin(), c.box.parts.end(),
                                 [&](const Part& each) { return each.id == pattern.part; });
  if (part == c.box.parts.end()) {
    c.tell("part {} is cut, but the job does not state it", pattern.part);
    return;
  }
  const Sheet& sheet = c.job.sheets[part->sheet];
  if (pattern.sheet != sheet.id || !near(pattern.thickness_mm, in_mm(sheet.thickness)))
    c.tell("part {} is cut from another sheet than the job states", pattern.part);
  check_outline(c, pattern);
  const double mass = pattern.area_mm2 * pattern.thickness_mm * sheet.metal.density_kg_m3 * 1e-9;
  if (!near(mass, pattern.mass_kg))
    c.tell("part {} weighs {:.3f} kg, not {:.3f}", pattern.part, mass, pattern.mass_kg);
  if (pattern.tolerance_mm <= 0.0) c.tell("part {} is ordered without a tolerance", pattern.part);
  if (pattern.bends.size() != part->bends.size()) {
    c.tell("part {} has {} bends in the flat, the job {}", pattern.part, pattern.bends.size(),
           part->bends.size());
    return;
  }
  for (std::size_t i = 0; i < pattern.bends.size(); ++i)
    check_bend(c, pattern, pattern.bends[i], part->bends[i]);
}

} // namespace

void check_patterns(const Checking& c) {
  for (const FlatPattern& pattern : c.plan.patterns)
    check_pattern(c, pattern);
  for (const Part& part : c.box.parts) {
    const auto patterns = std::count_if(c.plan.patterns.begin(), c.plan.patterns.end(),
                                        [&](const FlatPattern& each) { return each.part == part.id; });
    if (patterns != 1) c.tell("part {} has {} flat patterns", part.id, patterns);
  }
  for (const PlannedSheet& sheet : c.plan.sheets) {
    const auto is = [&](const Sheet& each) {
      return each.id == sheet.id && near(in_mm(each.thickness), sheet.thickness_mm);
    };
    if (std::none_of(c.job.sheets.begin(), c.job.sheets.end(), is))
      c.tell("sheet {} is not one of the job's", sheet.id);
  }
}

} // namespace tacksquare::verify
