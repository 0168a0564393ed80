#include "formulas/band_math.h"
#include "formulas/wall.h"
#include "job/panels.h"
#include "receiving/judging.h"
#include "receiving/verdicts.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace receiving {

namespace {

constexpr double kSmallLean = 0.001; // the belly goes with the lean

} // namespace

Band pull_of(const BentWall& wall, double one_mm, double other_mm) {
  const double E = wall.metal->youngs_MPa, nu = wall.metal->poisson;
  const double even = std::fabs(
      formulas::rim_pull_n(wall.tall_mm, wall.deep_mm, wall.t_mm, E, 0.5 * (one_mm + other_mm)).value);
  const formulas::RimPulls ends =
      formulas::rim_pulls_n(wall.tall_mm, wall.deep_mm, wall.t_mm, E, nu, one_mm, other_mm);
  const double corners = std::fabs(ends.one_n) + std::fabs(ends.other_n);
  // As the whole rim or as its two corners are pulled; the sheet's own 5 % is 15 % of the force.
  const double most = std::max(even, corners);
  const double least = one_mm * other_mm > 0.0 ? std::min(even, corners) : corners;
  const double cubed = 3.0 * receiving_practice().thickness;
  const double wide = even > corners ? 1.0 / (1.0 - nu * nu) : 1.0; // a wide strip cannot narrow at its foot
  return {most, least * (1.0 - cubed), most * wide * (1.0 + cubed)};
}

Band belly_of(const BentWall& wall, double lean_rad) {
  const formulas::WallHeld held = formulas::held_wall(wall.tall_mm, wall.deep_mm, lean_rad, wall.t_mm,
                                                      wall.metal->youngs_MPa, wall.metal->poisson);
  // Beyond its range the formula is an upper bound.
  const double t = wall.t_mm;
  Band belly = held.largest_mm;
  if (held.validity == formulas::Validity::outside) {
    if (lean_rad > 0.0) belly.low = std::min(belly.low, t);
    if (lean_rad < 0.0) belly.high = std::max(belly.high, -t);
  }
  return belly;
}

double lean_mm(const BentWall& wall, double lean_rad) {
  return wall.tall_mm * std::tan(lean_rad);
}

std::optional<double> row_lean_mm(const BentWall& wall, std::optional<double> width_room_mm) {
  if (!width_room_mm || wall.axis != 0) return std::nullopt;
  const double room = std::max(0.0, 0.5 * *width_room_mm); // the wall across takes as much
  const double each_rad = wall.held ? belly_of(wall, kSmallLean).value / kSmallLean : wall.tall_mm;
  const double lean = std::min(room / each_rad, in_rad(incoming_lean().go));
  if (lean >= in_rad(incoming_lean().go)) return std::nullopt;
  return lean_mm(wall, lean);
}

const Source& row_source() {
  static const Source source{"belly of a wall held square, within the room of the row", Mark::derived};
  return source;
}

double blank_mm(const Job& job) {
  return in_mm(job.incoming.blank.value_or(incoming_misfit().blank));
}
const Source& blank_source(const Job& job) {
  static const Source stated{"job file", Mark::stated};
  return job.incoming.blank ? stated : incoming_misfit().source;
}

double step_dress_mm(const Job& job, const Box& box, const Seam& seam, double go_mm) {
  const auto t = [&](std::size_t face) {
    return in_mm(job.sheets[box.parts[box.faces[face].part].sheet].thickness);
  };
  return std::max(go_mm, 0.5 * std::min(t(seam.face_a), t(seam.face_b)));
}

PartVerdict beyond_hand(const Box& box, const Seam& seam) {
  const auto bent = [&](std::size_t face) { return !box.parts[box.faces[face].part].bends.empty(); };
  return bent(seam.face_a) || bent(seam.face_b) ? PartVerdict::back_to_brake : PartVerdict::reject;
}

std::vector<std::pair<std::size_t, std::size_t>> stacked_panels(const Box& box) {
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t a = 0; a < box.faces.size(); ++a)
    for (std::size_t b = a + 1; b < box.faces.size(); ++b)
      if (opposite_panels(box, a, b)) pairs.emplace_back(a, b);
  return pairs;
}

} // namespace receiving

using receiving::BentWall;

namespace {

ReceivingLimit limit_of(std::string kind, std::string where, double go_mm, double dress_mm,
                        PartVerdict beyond, const Source& source) {
  ReceivingLimit limit;
  limit.kind = std::move(kind);
  limit.where = std::move(where);
  limit.go_mm = go_mm;
  limit.dress_mm = dress_mm;
  limit.beyond = beyond;
  limit.source = source;
  return limit;
}

void wall_limits(const Box& box, const BentWall& wall, std::optional<double> room_mm,
                 std::vector<ReceivingLimit>& all) {
  const IncomingLean& lean = incoming_lean();
  const std::string& id = box.faces[wall.face].id;
  const double go_mm = receiving::lean_mm(wall, in_rad(lean.go)),
               dress_mm = receiving::lean_mm(wall, in_rad(lean.dress));
  const auto add = [&](const char* kind, double up_to_mm, const Source& source) -> ReceivingLimit& {
    all.push_back(limit_of(kind, id, up_to_mm, dress_mm, PartVerdict::back_to_brake, source));
    return all.back();
  };
  const auto answer = [&](ReceivingLimit& to) {
    to.force_N = receiving::pull_of(wall, to.go_mm, to.go_mm);
    if (wall.held) to.belly_mm = receiving::belly_of(wall, std::atan(to.go_mm / wall.tall_mm));
  };
  answer(add("wall-lean", go_mm, lean.source));
  if (const std::optional<double> out_mm = receiving::row_lean_mm(wall, room_mm))
    answer(add("wall-lean-out", *out_mm, receiving::row_source()));
  ReceivingLimit& twist = add("wall-twist", go_mm, lean.source);
  twist.force_N = receiving::pull_of(wall, 0.5 * go_mm, -0.5 * go_mm);
}

} // namespace

std::vector<ReceivingLimit> receiving_limits(const Job& job, const Box& box, const BoxGeometry& geometry,
                                             const Work& work, std::optional<double> width_room_mm) {
  std::vector<ReceivingLimit> all;
  for (const Part& part : box.parts) {
    const Sheet& sheet = job.sheets[part.sheet];
    const bool known = std::any_of(all.begin(), all.end(),
                                   [&](const ReceivingLimit& limit) { return limit.where == sheet.id; });
    const ReceivingPractice& rule = receiving_practice();
    if (!known)
      all.push_back(limit_of("thickness", sheet.id, rule.thickness * in_mm(sheet.thickness),
                             rule.thickness * in_mm(sheet.thickness), PartVerdict::reject, rule.source));
  }
  for (const Part& part : box.parts)
    all.push_back(limit_of("blank", part.id, receiving::blank_mm(job), in_mm(receiving_practice().trim),
                           PartVerdict::reject, receiving::blank_source(job)));
  for (const BentWall& wall : receiving::bent_walls(job, box, geometry))
    if (!wall.lip) wall_limits(box, wall, width_room_mm, all);
  for (const auto& [a, b] : receiving::stacked_panels(box))
    all.push_back(limit_of("stack", box.faces[a].id + "-" + box.faces[b].id,
                           in_mm(receiving_practice().stack), in_mm(receiving_practice().trim),
                           PartVerdict::reject, receiving_practice().source));
  for (std::size_t s = 0; s < box.seams.size(); ++s) {
    if (!geometry.seams[s].leads) continue;
    const WorkRules& rules = work.rules;
    const PartVerdict beyond = receiving::beyond_hand(box, box.seams[s]);
    all.push_back(limit_of("gap", box.seams[s].id, rules.gap_go_mm.value, rules.gap_dress_mm.value, beyond,
                           rules.gap_go_mm.source));
    const JointKind joint = box.seams[s].joint;
    if (joint == JointKind::corner || joint == JointKind::butt)
      all.push_back(limit_of("step", box.seams[s].id, rules.step_mm.value,
                             receiving::step_dress_mm(job, box, box.seams[s], rules.step_mm.value), beyond,
                             rules.step_mm.source));
  }
  return all;
}

} // namespace tacksquare
