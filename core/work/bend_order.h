// The order in which a part is bent, as the press brake works it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// No order is looked for of a part with more: the sets of bends that are made double with each.
inline constexpr std::size_t kMostBends = 16;

struct BendStep {
  std::size_t bend = 0;          // index in FlatPattern::bends
  std::vector<std::size_t> with; // bends on its line that are made in the same stroke
  std::string face_a, face_b;    // the bend's faces
  double angle_deg = 0.0;
  double length_mm = 0.0; // of the bend line, over all that the stroke makes
  double punch_mm = 0.0;  // length of punch and die to set up, whole mm: fits between flanges already up
  std::vector<std::string> gauged_on; // faces whose edges touch the stops: one or two
  bool on_bend = false;               // those edges are bends made before: gauge on their outside
  double gauge_mm = 0.0;              // stops to the middle of the bend
  bool far = false;                   // another edge, or the other half, would take less than half of that
  bool outside_up = false;            // which side of the sheet is up: false the inside of the box
  double clear_mm = 0.0; // nearest to the tooling while bending, but for what rests on the die on purpose
  std::string nearest;   // "punch", "ram", "die", "bed": to what
  bool turned = false;   // since the step before: the sheet lies another way round, or its other side is up
  bool operator==(const BendStep&) const = default;
};

// Why no order can bend a part: the bend that is left in the fullest tries, and what is in its way.
struct BendBlocked {
  std::string face_a, face_b;
  std::string by; // "punch", "ram", "die", "bed", "gauge", "short" (leg does not reach over the die)
  // What would do; 0 where it is not one figure. punch: shortest length that its sections make up; ram:
  // height of punch with which all of the part can be bent; bed: the same of the die; short: opening of die
  // at most; gauge: stops at this distance, which the gauge does not reach.
  double needed_mm = 0.0;
  bool operator==(const BendBlocked&) const = default;
};

struct BendOrder {
  std::string part;
  std::vector<BendStep> steps; // empty where blocked
  std::optional<BendBlocked> blocked;
  long long orders_seen = 0; // states looked at: sets of bends that can be made first
  int turns = 0;
  int far = 0;         // steps gauged far
  int changes = 0;     // of punch length and gauge
  bool proven = false; // no order has fewer turns and far gaugings together; blocked: no order exists
  bool operator==(const BendOrder&) const = default;
};

} // namespace tacksquare
