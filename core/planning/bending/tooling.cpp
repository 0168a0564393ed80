#include "planning/bending/tooling.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kEndless = 10000.0; // mm, beyond any part

Convex box_of(double left, double right, double low, double high) {
  return convex({{left, low}, {right, low}, {right, high}, {left, high}});
}

// The punch in slabs between the heights where its outline changes direction; the front is at negative x.
std::vector<Convex> punch_sections(const Brake& brake) {
  const double half = 0.5 * in_mm(brake.punch_thickness), height = in_mm(brake.punch_height);
  const double slope = std::tan(0.5 * in_rad(brake.punch_angle));
  const double neck_in = in_mm(brake.neck_in), neck_from = in_mm(brake.neck_from);
  const auto back_at = [&](double z) { return std::min(half, z * slope); };
  const auto front_at = [&](double z, bool neck) {
    const double front = std::max(-half, -z * slope);
    return neck ? std::max(front, -half + neck_in) : front;
  };
  std::vector<double> heights{0.0, half / slope, height};
  if (neck_in > 0.0) {
    heights.push_back(neck_from);
    heights.push_back(std::abs(neck_in - half) / slope);
  }
  std::sort(heights.begin(), heights.end());
  std::vector<Convex> slabs;
  for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
    const double low = heights[i], high = std::min(heights[i + 1], height);
    if (high <= low) continue;
    const bool neck = neck_in > 0.0 && low >= neck_from;
    std::vector<Vec2> slab{{back_at(low), low}, {back_at(high), high}};
    if (front_at(high, neck) < back_at(high)) slab.push_back({front_at(high, neck), high});
    if (front_at(low, neck) < back_at(low)) slab.push_back({front_at(low, neck), low});
    if (slab.size() > 2) slabs.push_back(convex(slab));
  }
  return slabs;
}

std::vector<Convex> die_sections(const Brake& brake) {
  const double shoulder = 0.5 * in_mm(brake.die_opening), side = 0.5 * in_mm(brake.die_width);
  const double height = in_mm(brake.die_height);
  const double groove = std::min(height, shoulder / std::tan(0.5 * in_rad(brake.punch_angle)));
  return {convex({{0.0, -height}, {side, -height}, {side, 0.0}, {shoulder, 0.0}, {0.0, -groove}}),
          convex({{0.0, -height}, {0.0, -groove}, {-shoulder, 0.0}, {-side, 0.0}, {-side, -height}})};
}

Convex mirrored(const Convex& section) {
  std::vector<Vec2> other;
  for (auto p = section.points.rbegin(); p != section.points.rend(); ++p)
    other.push_back({-p->x, p->y});
  return convex(other);
}

} // namespace

std::string word(Tool tool) {
  switch (tool) {
  case Tool::die:
    return "die";
  case Tool::bed:
    return "bed";
  case Tool::punch:
    return "punch";
  case Tool::ram:
    return "ram";
  }
  return {};
}

Tooling tooling_of(const Brake& brake) {
  Tooling tooling;
  tooling.die_opening_mm = in_mm(brake.die_opening);
  tooling.gauge_least_mm = in_mm(brake.gauge_least);
  tooling.gauge_most_mm = in_mm(brake.gauge_most);
  tooling.shortest_punch_mm = in_mm(brake.shortest_punch);
  tooling.sharpest_rad = kPi - in_rad(brake.punch_angle) + 1e-9;
  const double ram = 0.5 * in_mm(brake.ram_thickness), bed = 0.5 * in_mm(brake.bed_thickness);
  const double above = in_mm(brake.punch_height), below = -in_mm(brake.die_height);
  tooling.from_back[static_cast<std::size_t>(Tool::die)] = die_sections(brake);
  tooling.from_back[static_cast<std::size_t>(Tool::bed)] = {box_of(-bed, bed, below - kEndless, below)};
  tooling.from_back[static_cast<std::size_t>(Tool::punch)] = punch_sections(brake);
  tooling.from_back[static_cast<std::size_t>(Tool::ram)] = {box_of(-ram, ram, above, above + kEndless)};
  tooling.both_ways_alike = in_mm(brake.neck_in) == 0.0;
  for (const Tool tool : kTools)
    for (const Convex& section : tooling.of(tool, false))
      tooling.from_front[static_cast<std::size_t>(tool)].push_back(mirrored(section));
  return tooling;
}

} // namespace tacksquare
