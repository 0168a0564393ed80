#include "planning/bending/stroke.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare {

namespace {

constexpr double kFineMm = 0.1, kFineShare = 0.02;

} // namespace

Stroke::Stroke(const FlatBend& bend, double thickness_mm, const Tooling& tooling)
    : tooling_(&tooling), thickness_mm_(thickness_mm), zone_mm_(bend.flat_mm),
      angle_rad_(std::abs(bend.angle_rad)),
      zone_over_radius_mm_(bend.flat_mm / angle_rad_ - bend.radius_mm - 0.5 * thickness_mm) {}

Stroke::Swing Stroke::at(double half) const {
  const double t = thickness_mm_, cosine = std::cos(half), sine = std::sin(half);
  Swing swing{{0.5 * zone_mm_, -0.5 * t}, cosine, sine, -t};
  if (half == 0.0) return swing;
  const double radius = 0.5 * zone_mm_ / half - zone_over_radius_mm_;
  swing.end = {radius * sine, radius * (1.0 - cosine) - 0.5 * t};
  const Vec2 outside = swing.end + Vec2{sine, -cosine} * (0.5 * t);
  swing.die_mm = outside.y + (0.5 * tooling_->die_opening_mm - outside.x) * sine / cosine;
  return swing;
}

double Stroke::clearance_at(const Body& body, Tool tool, bool front, double half, double enough_mm) const {
  const Swing swing = at(half);
  const double down = moves_with_punch(tool) ? 0.0 : swing.die_mm;
  const Convex section = moved(body.section, {swing.cosine, swing.sine, swing.end - Vec2{0.0, down}});
  double least = std::numeric_limits<double>::infinity();
  for (const Convex& piece : tooling_->of(tool, front))
    least = std::min(least, clearance(section, piece, enough_mm));
  return least;
}

// Between two angles a body cannot come nearer than the way of its fastest point allows: halve where that
// leaves room.
double Stroke::least_clearance(const Body& body, Tool tool, bool front, double enough_mm) const {
  double furthest = 0.0;
  for (const Vec2 p : body.section.points)
    furthest = std::max(furthest, norm(p));
  const double last = 0.5 * angle_rad_, cosine = std::cos(last);
  // Turning; the end of the zone, which moves less than the zone is long for a radian; the die, against which
  // the tip sinks by half of the opening times the tangent.
  const double speed = furthest + zone_mm_ + thickness_mm_ +
                       (moves_with_punch(tool) ? 0.0 : tooling_->die_opening_mm / (cosine * cosine));
  const auto clear = [&](double half) { return clearance_at(body, tool, front, half, enough_mm); };
  struct Interval {
    double from, to, at_from, at_to;
  };
  std::vector<Interval> open{{0.0, last, clear(0.0), clear(last)}};
  double least = std::min(open.front().at_from, open.front().at_to);
  while (!open.empty()) {
    const Interval i = open.back();
    open.pop_back();
    const double bound = 0.5 * (i.at_from + i.at_to - speed * (i.to - i.from));
    const double fine = std::max(kFineMm, kFineShare * std::abs(least));
    if (bound >= std::min(least - fine, enough_mm)) continue;
    const double middle = 0.5 * (i.from + i.to), there = clear(middle);
    least = std::min(least, there);
    open.push_back({i.from, middle, i.at_from, there});
    open.push_back({middle, i.to, there, i.at_to});
  }
  return least;
}

double Stroke::outside_at_end() const {
  const Swing swing = at(0.5 * angle_rad_);
  return swing.end.x + 0.5 * thickness_mm_ * swing.sine;
}

double Stroke::reach_mm() const {
  return (0.5 * tooling_->die_opening_mm - outside_at_end()) / std::cos(0.5 * angle_rad_);
}

double Stroke::opening_for(double reach_mm) const {
  return 2.0 * (outside_at_end() + reach_mm * std::cos(0.5 * angle_rad_));
}

} // namespace tacksquare
