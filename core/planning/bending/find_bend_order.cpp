#include "planning/bending/find_bend_order.h"

#include "planning/bending/bend_search.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

constexpr int kMostToolMm = 2000; // no punch or die is higher

// A bend that something keeps from being made.
struct Stuck {
  BendSet done = 0;
  BendMove move;
  Hindrance by = Hindrance::short_leg;
};

// The smallest whole number over low, at most high, for which enough() holds. Precondition: not for low, for
// high, and from one number on for all.
template <class Enough> int smallest(int low, int high, Enough enough) {
  while (high - low > 1) {
    const int middle = low + (high - low) / 2;
    (enough(middle) ? high : low) = middle;
  }
  return high;
}

// The smallest height of punch or die, in whole mm, with which the part can be bent; 0: none. What the stuck
// bend needs by itself is tried first: it is cheap to find and nearly always the answer.
int height_needed(const Brake& brake, const Folding& folding, const Stuck& stuck, Length Brake::*height) {
  const auto with = [&](int mm_high, auto what) {
    Brake higher = brake;
    higher.*height = mm(mm_high);
    const Tooling tooling = tooling_of(higher);
    BendChecker checker(tooling, folding);
    return what(checker);
  };
  const auto enough = [&](int mm_high) {
    return with(mm_high, [&](BendChecker& checker) { return can_be_bent(checker, folding); });
  };
  const auto enough_alone = [&](int mm_high) {
    return with(mm_high, [&](BendChecker& checker) {
      return checker.check(stuck.done, stuck.move.line, stuck.move.a_back).hindrance != stuck.by;
    });
  };
  const int is = static_cast<int>(std::floor(in_mm(brake.*height)));
  if (is >= kMostToolMm || !enough_alone(kMostToolMm)) return 0;
  const int alone = smallest(is, kMostToolMm, enough_alone);
  if (!enough(alone)) return enough(kMostToolMm) ? smallest(alone, kMostToolMm, enough) : 0;
  return alone - 1 > is && enough(alone - 1) ? smallest(is, alone - 1, enough) : alone;
}

// The longest shortest length of punch, in whole mm, with which the part can be bent; 0: no length does.
int sections_needed(const Brake& brake, const Folding& folding) {
  const auto too_long = [&](int mm_long) {
    Brake shorter = brake;
    shorter.shortest_punch = mm(mm_long);
    const Tooling tooling = tooling_of(shorter);
    BendChecker checker(tooling, folding);
    return !can_be_bent(checker, folding);
  };
  const int is = static_cast<int>(std::ceil(in_mm(brake.shortest_punch)));
  if (is <= 1 || too_long(1)) return 0;
  return smallest(1, is, too_long) - 1;
}

// Of what the fullest sets leave over the bend that comes furthest before something is in its way.
BendBlocked blocked_by(const Brake& brake, const Folding& folding, BendChecker& checker,
                       const std::vector<BendSet>& fullest) {
  BendBlocked blocked;
  std::optional<Stuck> stuck;
  for (const BendSet done : fullest) {
    for (std::size_t line = 0; line < folding.lines().size(); ++line) {
      if ((done & folding.lines()[line].bends) != 0) continue;
      for (const bool a_back : {false, true}) {
        const BendCheck check = checker.check(done, line, a_back);
        if (stuck && *check.hindrance <= stuck->by) continue;
        stuck = Stuck{done, {line, a_back}, *check.hindrance};
        const FlatBend& bend = folding.leader(line);
        blocked = {bend.face_a, bend.face_b, word(stuck->by), check.needed_mm};
      }
    }
  }
  if (stuck->by == Hindrance::punch) blocked.needed_mm = sections_needed(brake, folding);
  if (stuck->by == Hindrance::ram)
    blocked.needed_mm = height_needed(brake, folding, *stuck, &Brake::punch_height);
  if (stuck->by == Hindrance::bed)
    blocked.needed_mm = height_needed(brake, folding, *stuck, &Brake::die_height);
  return blocked;
}

} // namespace

BendOrder find_bend_order(const Brake& brake, const FlatPattern& pattern) {
  if (pattern.bends.size() > kMostBends)
    throw InternalError("part " + pattern.part + " has more bends than an order is found for");
  BendOrder result;
  result.part = pattern.part;
  result.proven = true;
  if (pattern.bends.empty()) return result;
  const Folding folding(pattern);
  const Tooling tooling = tooling_of(brake);
  BendChecker checker(tooling, folding);
  const BendSearch found = search_order(checker, folding);
  result.orders_seen = static_cast<long long>(found.sets_seen);
  if (found.order.empty()) {
    result.blocked = blocked_by(brake, folding, checker, found.fullest);
    return result;
  }
  result.turns = found.cost.turns;
  result.far = found.cost.far;
  result.changes = found.cost.changes;
  BendSet done = 0;
  std::optional<int> lay;
  for (const BendMove move : found.order) {
    const StrokeLine& line = folding.lines()[move.line];
    const FlatBend& bend = folding.leader(move.line);
    const BendCheck check = checker.check(done, move.line, move.a_back);
    const Nearest nearest = checker.nearest(done, move.line, move.a_back, check.punch);
    const int lies = set_up_of(folding, move, check).lies;
    BendStep step;
    step.bend = line.leader;
    for (const std::size_t member : line.members)
      if (member != line.leader) step.with.push_back(member);
    std::sort(step.with.begin(), step.with.end());
    step.face_a = bend.face_a;
    step.face_b = bend.face_b;
    step.angle_deg = in_deg(rad(std::abs(bend.angle_rad)));
    step.length_mm = line.length_mm;
    step.punch_mm = check.punch.to - check.punch.from;
    for (const std::size_t face : check.gauge_faces)
      step.gauged_on.push_back(pattern.faces[face].id);
    step.on_bend = check.on_bend;
    step.gauge_mm = check.gauge_mm;
    step.far = check.far;
    step.outside_up = bend.angle_rad < 0.0;
    step.clear_mm = nearest.clear_mm;
    step.nearest = word(nearest.tool);
    step.turned = lay && *lay != lies;
    lay = lies;
    result.steps.push_back(step);
    done |= line.bends;
  }
  return result;
}

} // namespace tacksquare
