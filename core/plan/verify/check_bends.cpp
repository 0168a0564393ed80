// Bends made once each, in an order that the brake can gauge; readings judged; the first-off's release.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace tacksquare::verify {
namespace {

bool says_blocked(const Checking& c, const std::string& part) {
  return std::any_of(c.plan.cautions.begin(), c.plan.cautions.end(), [&](const Caution& caution) {
    const Arg* arg = argument(caution.what, "part");
    return caution.red && caution.what.key == "caution.bend-blocked" && arg && arg->word == part;
  });
}

// Bends of one stroke are alike and lie on one line of one face.
void check_line(const Checking& c, const FlatPattern& pattern, const BendStep& step,
                const std::string& name) {
  const FlatBend& bend = pattern.bends[step.bend];
  const Vec2 along = (bend.end - bend.start) * (1.0 / norm(bend.end - bend.start));
  for (const std::size_t index : step.with) {
    const FlatBend& other = pattern.bends[index];
    const bool of_one_face = other.face_a == bend.face_a || other.face_b == bend.face_b ||
                             other.face_a == bend.face_b || other.face_b == bend.face_a;
    const double off_mm = std::max(std::abs(cross(along, other.start - bend.start)),
                                   std::abs(cross(along, other.end - bend.start)));
    if (!of_one_face || off_mm > 0.1 || std::abs(other.angle_rad - bend.angle_rad) > 1e-3)
      c.tell("bend {} is made in one stroke with {}-{}, which is not on its line", name, other.face_a,
             other.face_b);
  }
}

void check_step(const Checking& c, const FlatPattern& pattern, const BendStep& step,
                const std::set<std::size_t>& made) {
  const FlatBend& bend = pattern.bends[step.bend];
  const std::string name = pattern.part + " " + step.face_a + "-" + step.face_b;
  if (step.face_a != bend.face_a || step.face_b != bend.face_b)
    c.tell("bend {} is not between the faces of its number", name);
  if (std::abs(step.angle_deg - std::abs(bend.angle_rad) * 180.0 / kPi) > 0.01)
    c.tell("bend {} is bent by another angle than the flat pattern has", name);
  const Brake& brake = *c.job.brake;
  if (step.gauge_mm < in_mm(brake.gauge_least) - 1e-4 || step.gauge_mm > in_mm(brake.gauge_most) + 1e-4)
    c.tell("bend {} is gauged at {:.2f} mm, where the stops do not go", name, step.gauge_mm);
  if (step.punch_mm < in_mm(brake.shortest_punch) - 1e-4)
    c.tell("bend {} wants a shorter punch than there is", name);
  if (step.clear_mm < -1e-4) c.tell("bend {} goes through the {}", name, step.nearest);
  if (step.gauged_on.empty()) c.tell("bend {} is gauged on nothing", name);
  for (const std::string& face : step.gauged_on) {
    const auto is_on = [&](std::size_t other) {
      return pattern.bends[other].face_a == face || pattern.bends[other].face_b == face;
    };
    if (step.on_bend && std::none_of(made.begin(), made.end(), is_on))
      c.tell("bend {} is gauged on a bend that is not made yet", name);
  }
  check_line(c, pattern, step, name);
}

void check_order_of(const Checking& c, const FlatPattern& pattern, const BendOrder& order) {
  if (order.blocked) {
    if (!order.steps.empty()) c.tell("part {} is bent although a bend is blocked", order.part);
    if (!says_blocked(c, order.part))
      c.tell("part {} cannot be bent, and no red caution says so", order.part);
    return;
  }
  std::set<std::size_t> made;
  int turns = 0, far = 0;
  for (const BendStep& step : order.steps) {
    std::vector<std::size_t> bends{step.bend};
    bends.insert(bends.end(), step.with.begin(), step.with.end());
    if (*std::max_element(bends.begin(), bends.end()) >= pattern.bends.size()) {
      c.tell("part {} is bent where it has no bend", order.part);
      return;
    }
    check_step(c, pattern, step, made);
    for (const std::size_t bend : bends)
      if (!made.insert(bend).second) c.tell("part {} makes bend {} twice", order.part, bend + 1);
    turns += step.turned ? 1 : 0;
    far += step.far ? 1 : 0;
  }
  if (made.size() != pattern.bends.size())
    c.tell("part {} has {} bends, {} are made", order.part, pattern.bends.size(), made.size());
  if (turns != order.turns) c.tell("part {} is turned {} times, not {}", order.part, turns, order.turns);
  if (far != order.far) c.tell("part {} is gauged far {} times, not {}", order.part, far, order.far);
}

bool is_chance(const Chance& chance) {
  return 0.0 <= chance.low && chance.low <= chance.value && chance.value <= chance.high && chance.high <= 1.0;
}

} // namespace

void check_bends(const Checking& c) {
  for (const FlatPattern& pattern : c.plan.patterns) {
    const auto is_of = [&](const BendOrder& order) { return order.part == pattern.part; };
    const auto orders = std::count_if(c.plan.bend_orders.begin(), c.plan.bend_orders.end(), is_of);
    const bool wanted = c.job.brake && !pattern.bends.empty() && pattern.bends.size() <= kMostBends;
    if (orders != (wanted ? 1 : 0)) {
      c.tell("part {} has {} orders of bends, {}", pattern.part, orders,
             wanted ? "not one" : "and needs none");
      continue;
    }
    if (wanted)
      check_order_of(c, pattern, *std::find_if(c.plan.bend_orders.begin(), c.plan.bend_orders.end(), is_of));
  }
}

void check_readings(const Checking& c) {
  const auto in_order_or_none = [](const std::optional<Band>& band) { return !band || in_order(*band); };
  for (const ReceivingLimit& limit : c.plan.receiving) {
    if (limit.go_mm < 0.0 || (limit.dress_mm != 0.0 && limit.dress_mm < limit.go_mm))
      c.tell("{} of {} passes more than may be dressed", limit.kind, limit.where);
    if (limit.source.text.empty()) c.tell("{} of {} has a limit without a source", limit.kind, limit.where);
    if (!in_order_or_none(limit.force_N) || !in_order_or_none(limit.belly_mm))
      c.tell("{} of {} has a band that is not in order", limit.kind, limit.where);
  }
  for (const PartReading& reading : c.plan.part_readings) {
    if (reading.copy < 1 || reading.copy > c.box.count)
      c.tell("box {} was read, and there is none", reading.copy);
    if (!in_order_or_none(reading.force_N) || !in_order_or_none(reading.springs_mm) ||
        !in_order_or_none(reading.size_mm))
      c.tell("{} of {} has a band that is not in order", reading.kind, reading.where);
    if (reading.verdict != PartVerdict::back_to_brake && reading.verdict != PartVerdict::reject) continue;
    const auto says_so = [&](const Caution& caution) {
      const Arg* where = argument(caution.what, "where");
      return caution.red && where && where->word == reading.where;
    };
    if (std::none_of(c.plan.cautions.begin(), c.plan.cautions.end(), says_so))
      c.tell("{} of {} is not used, and no red caution says so", reading.kind, reading.where);
  }
}

void check_first_off(const Checking& c, const Plan& plan) {
  if (!c.plan.first_off) return;
  const FirstOff& first = *c.plan.first_off;
  if (first.box != c.plan.id || first.copy < 1 || first.copy > c.box.count)
    c.tell("its first-off is another box");
  bool corrected = false;
  for (const SizeFound& size : first.sizes) {
    corrected = corrected || size.correction_mm != 0.0;
    if (!in_order(size.measured_mm) || !in_order(size.rest_mm))
      c.tell("its first-off has a size {} that is not in order", size.axis);
    for (const CauseFound& cause : size.causes) {
      if (!in_order(cause.before_mm) || !in_order(cause.after_mm) || !in_order(cause.common_mm))
        c.tell("its first-off has {} with a band that is not in order", cause.key);
      // A reading never makes a cause less certain.
      if (cause.after_mm.high - cause.after_mm.low > cause.before_mm.high - cause.before_mm.low + 1e-4)
        c.tell("its first-off knows less of {} than before", cause.key);
    }
  }
  if (!is_chance(first.uncorrected) || !is_chance(first.corrected)) c.tell("its first-off has no chance");
  const double wanted = plan.row ? plan.row->wanted_chance : 0.0;
  const bool held = std::any_of(c.plan.cautions.begin(), c.plan.cautions.end(), [](const Caution& caution) {
    return caution.red && caution.what.key == "caution.held";
  });
  if (held != (first.release == Release::hold))
    c.tell("its first-off holds the rest, and no red caution says so, or the other way round");
  if (first.release == Release::release && first.why == "in-limits" && first.uncorrected.value < wanted)
    c.tell("its first-off releases the rest, which go in less often than wanted");
  if (first.release == Release::correct && !corrected && first.why != "last-trimmed")
    c.tell("its first-off corrects nothing");
  if (first.release == Release::correct && first.corrected.value < first.uncorrected.value)
    c.tell("its first-off makes it worse by its correction");
}

} // namespace tacksquare::verify
