// Flat patterns laid out by hand from rectangles.
#pragma once

#include "base/units.h"
#include "formulas/bends.h"
#include "geometry/flat_pattern.h"
#include "job/brake.h"
#include "work/bend_order.h"

#include <cmath>
#include <string>
#include <utility>

namespace tacksquare::test {

// Which side of a rectangle a flange hangs on.
enum class Side { right, top, left, bottom };

// Starts with one flat face with its lower left corner at (0, 0) and hangs others on. All sizes are of what
// stays flat, between bent zones.
class HandPattern {
 public:
  HandPattern(double thickness_mm, double radius_mm, double width, double height, const std::string& id = "B")
      : radius_(radius_mm) {
    pattern.part = "hand";
    pattern.thickness_mm = thickness_mm;
    add_face(id, {0.0, 0.0}, {width, height});
  }

  // Over all of the side, or from..to along it (from its lower or left end).
  HandPattern& flange(const std::string& on, Side side, const std::string& id, double leg,
                      double angle_deg = 90.0, double from = 0.0, double to = -1.0) {
    const std::vector<Vec2>& face = find(on).flat;
    const Vec2 low = face[0], high = face[2];
    FlatBend bend;
    bend.face_a = on;
    bend.face_b = id;
    bend.angle_rad = angle_deg * kPi / 180.0;
    bend.radius_mm = radius_;
    const double k = formulas::din6935_k(radius_, pattern.thickness_mm).value;
    bend.flat_mm = std::abs(bend.angle_rad) * (radius_ + 0.5 * k * pattern.thickness_mm);
    const double zone = bend.flat_mm, half = 0.5 * zone;
    const bool upright = side == Side::right || side == Side::left;
    const double base = upright ? low.y : low.x;
    const double begin = base + from, end = to < 0.0 ? (upright ? high.y : high.x) : base + to;
    switch (side) {
    case Side::right:
      bend.start = {high.x + half, begin};
      bend.end = {high.x + half, end};
      add_face(id, {high.x + zone, begin}, {high.x + zone + leg, end});
      break;
    case Side::left:
      bend.start = {low.x - half, end};
      bend.end = {low.x - half, begin};
      add_face(id, {low.x - zone - leg, begin}, {low.x - zone, end});
      break;
    case Side::top:
      bend.start = {end, high.y + half};
      bend.end = {begin, high.y + half};
      add_face(id, {begin, high.y + zone}, {end, high.y + zone + leg});
      break;
    case Side::bottom:
      bend.start = {begin, low.y - half};
      bend.end = {end, low.y - half};
      add_face(id, {begin, low.y - zone - leg}, {end, low.y - zone});
      break;
    }
    pattern.bends.push_back(bend);
    return *this;
  }

  FlatPattern pattern;

 private:
  void add_face(const std::string& id, Vec2 low, Vec2 high) {
    FlatFace face;
    face.id = id;
    face.flat = {low, {high.x, low.y}, high, {low.x, high.y}};
    pattern.faces.push_back(face);
  }
  const FlatFace& find(const std::string& id) const {
    for (const FlatFace& face : pattern.faces)
      if (face.id == id) return face;
    throw InternalError("no such face: " + id);
  }
  double radius_;
};

// The same part, held to a mirror.
inline FlatPattern mirrored(FlatPattern pattern) {
  const auto mirror = [](Vec2& p) { p.x = -p.x; };
  for (FlatFace& face : pattern.faces) {
    for (Vec2& p : face.flat)
      mirror(p);
    face.flat = {face.flat.rbegin(), face.flat.rend()};
  }
  for (FlatBend& bend : pattern.bends) {
    mirror(bend.start);
    mirror(bend.end);
    std::swap(bend.start, bend.end); // b lies to the right
  }
  return pattern;
}

// A straight punch 12 thick and 120 high, 86 degrees; a die of 16 in a block of 60.
inline Brake plain_brake() {
  Brake brake;
  brake.name = "hand";
  brake.punch_angle = deg(86.0);
  brake.punch_height = mm(120.0);
  brake.punch_thickness = mm(12.0);
  brake.ram_thickness = mm(40.0);
  brake.die_opening = mm(16.0);
  brake.die_width = mm(60.0);
  brake.die_height = mm(80.0);
  brake.bed_thickness = mm(90.0);
  brake.gauge_least = mm(5.0);
  brake.gauge_most = mm(800.0);
  return brake;
}

inline std::string names(const std::vector<std::string>& faces) {
  std::string text;
  for (const std::string& face : faces)
    text += (text.empty() ? "" : "+") + face;
  return text;
}

// The faces beyond, stroke after stroke; what one stroke makes joined by +.
inline std::string order_of(const BendOrder& order, const FlatPattern& pattern) {
  std::string text;
  for (const BendStep& step : order.steps) {
    text += (text.empty() ? "" : " ") + step.face_b;
    for (const std::size_t bend : step.with)
      text += "+" + pattern.bends[bend].face_b;
  }
  return text;
}

} // namespace tacksquare::test
