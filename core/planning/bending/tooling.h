// The tooling of a press brake as sections square to the bend.
#pragma once

#include "job/brake.h"
#include "planning/bending/section.h"

#include <array>
#include <string>

namespace tacksquare {

// In the order in which a bend that meets several of them is told.
enum class Tool { die, bed, punch, ram };
inline constexpr std::array<Tool, 4> kTools{Tool::die, Tool::bed, Tool::punch, Tool::ram};
std::string word(Tool tool); // "die"
// Ram and bed run over the whole length of the machine; punch and die are made up to the length of a bend.
constexpr bool over_whole_length(Tool tool) {
  return tool == Tool::ram || tool == Tool::bed;
}
// Punch and ram have their zero at the tip of the punch, die and bed in the middle of the die's top.
constexpr bool moves_with_punch(Tool tool) {
  return tool == Tool::ram || tool == Tool::punch;
}

struct Tooling {
  double die_opening_mm = 0.0;
  double gauge_least_mm = 0.0, gauge_most_mm = 0.0;
  double shortest_punch_mm = 0.0;
  double sharpest_rad = 0.0;   // the most that punch and die can bend
  bool both_ways_alike = true; // no gooseneck; ram, die and bed are always alike
  // Convex pieces by Tool: x square to the bend, away from it on the side that looks; y up.
  std::array<std::vector<Convex>, 4> from_back, from_front;
  const std::vector<Convex>& of(Tool tool, bool front) const {
    return (front ? from_front : from_back)[static_cast<std::size_t>(tool)];
  }
};

// The groove of the die has the punch's angle: deep enough for every bend that the punch can make. Ram and
// bed go on without end. Precondition: a brake that can exist.
Tooling tooling_of(const Brake& brake);

} // namespace tacksquare
