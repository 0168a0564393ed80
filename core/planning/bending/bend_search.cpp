#include "planning/bending/bend_search.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kSameDirection = 1e-4;

// A possible move out of a set, and what the best order costs with it and after it.
struct Option {
  BendMove move;
  BendSetUp set_up;
  BendCost rest;
  bool ends_well = false;
};

// All sets that can be reached, and the moves out of them.
std::vector<std::vector<Option>> reachable(BendChecker& checker, const Folding& folding,
                                           std::vector<char>& seen) {
  const BendSet sets = BendSet{1} << folding.bends();
  std::vector<std::vector<Option>> options(sets);
  seen.assign(sets, 0);
  seen[0] = 1;
  for (BendSet done = 0; done < sets; ++done) {
    if (!seen[done]) continue;
    for (std::size_t line = 0; line < folding.lines().size(); ++line) {
      const BendSet bends = folding.lines()[line].bends;
      if ((done & bends) != 0) continue;
      for (const bool a_back : {false, true}) {
        const BendCheck check = checker.check(done, line, a_back);
        if (check.hindrance) continue;
        const BendMove move{line, a_back};
        const BendSetUp set_up = set_up_of(folding, move, check);
        options[done].push_back({move, set_up, cost_of(set_up), false});
        seen[done | bends] = 1;
      }
    }
  }
  return options;
}

// The first of the best moves after one; none where nothing ends well.
const Option* best_after(const Option* before, const std::vector<Option>& options) {
  const Option* best = nullptr;
  BendCost least;
  for (const Option& o : options) {
    if (!o.ends_well) continue;
    const BendCost cost = before == nullptr ? o.rest : cost_between(before->set_up, o.set_up) + o.rest;
    if (best != nullptr && !(cost < least)) continue;
    best = &o;
    least = cost;
  }
  return best;
}

} // namespace

BendCost cost_of(const BendSetUp& set_up) {
  return {0, set_up.far ? 1 : 0, 1, 0};
}

BendCost cost_between(const BendSetUp& before, const BendSetUp& after) {
  return {before.lies != after.lies ? 1 : 0, 0, 0,
          (before.punch_mm != after.punch_mm ? 1 : 0) + (before.gauge_tenths != after.gauge_tenths ? 1 : 0)};
}

BendSetUp set_up_of(const Folding& folding, BendMove move, const BendCheck& check) {
  const auto to_back = [&](std::size_t line, bool a_back) {
    return folding.lines()[line].across * (a_back ? -1.0 : 1.0);
  };
  const Vec2 back = to_back(move.line, move.a_back);
  // Directions are numbered by the first bend and way that has them.
  int direction = 0;
  for (std::size_t bend = 0; bend < folding.bends(); ++bend) {
    for (const bool a_back : {false, true}) {
      if (norm(to_back(bend, a_back) - back) < kSameDirection) {
        const int side = folding.leader(move.line).angle_rad > 0.0 ? 0 : 1;
        return {2 * direction + side, static_cast<int>(std::lround(check.punch.to - check.punch.from)),
                static_cast<int>(std::lround(10.0 * check.gauge_mm)), check.far};
      }
      ++direction;
    }
  }
  throw InternalError("a bend has no direction");
}

BendSearch search_order(BendChecker& checker, const Folding& folding) {
  std::vector<char> seen;
  std::vector<std::vector<Option>> options = reachable(checker, folding, seen);
  BendSearch result;
  for (BendSet done = 0; done < options.size(); ++done) {
    if (!seen[done]) continue;
    ++result.sets_seen;
    const int more = result.fullest.empty() ? 1 : std::popcount(done) - std::popcount(result.fullest.back());
    if (more > 0) result.fullest.clear();
    if (more >= 0) result.fullest.push_back(done);
  }
  const BendSet all = static_cast<BendSet>(options.size() - 1);
  for (BendSet done = all; done-- > 0;) {
    for (Option& option : options[done]) {
      const BendSet next = done | folding.lines()[option.move.line].bends;
      option.ends_well = next == all;
      if (option.ends_well) continue;
      if (const Option* after = best_after(&option, options[next])) {
        option.ends_well = true;
        option.rest = option.rest + cost_between(option.set_up, after->set_up) + after->rest;
      }
    }
  }
  const Option* last = best_after(nullptr, options[0]);
  if (last == nullptr) return result;
  result.cost = last->rest;
  BendSet done = 0;
  while (last != nullptr) {
    result.order.push_back(last->move);
    done |= folding.lines()[last->move.line].bends;
    last = best_after(last, options[done]);
  }
  return result;
}

bool can_be_bent(BendChecker& checker, const Folding& folding) {
  std::vector<char> seen;
  reachable(checker, folding, seen);
  return seen.back() != 0;
}

} // namespace tacksquare
