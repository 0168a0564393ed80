// Figures: bands in order, each with its source; limits as stated; cautions that own up.
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace tacksquare::verify {
namespace {

constexpr std::size_t kMostCare = 8; // more is never read

// The limits of one kind that the job states.
struct Stated {
  const char* kind;
  std::optional<Length> over, under;
};

std::vector<Stated> stated_limits(const Job& job) {
  const Limits& limits = job.limits;
  return {
      {"width", limits.size_over, limits.size_under}, {"opposite-sides", limits.opposite_sides, std::nullopt},
      {"diagonals", limits.diagonals, std::nullopt},  {"rock", limits.rock, std::nullopt},
      {"wall-lean", limits.wall_lean, std::nullopt},  {"belly", limits.belly, limits.belly},
      {"gap", job.rules.gap, std::nullopt},           {"step", job.rules.step, std::nullopt},
      {"proud", job.rules.proud, std::nullopt}};
}

void check_measure(const Checking& c, const PlannedMeasure& measure, const std::vector<Stated>& limits) {
  if (measure.under_mm < 0.0 || measure.over_mm < 0.0)
    c.tell("measure {} allows less than nothing", measure.id);
  const bool of_row = c.stand && measure.id.starts_with("width-");
  if (of_row && (measure.nominal_mm + measure.over_mm > c.stand->largest_mm + 1e-4 ||
                 measure.nominal_mm - measure.under_mm < c.stand->smallest_mm - 1e-4))
    c.tell("measure {} passes a box that the row does not", measure.id);
  for (const Stated& limit : limits) {
    if (measure.kind != limit.kind || of_row) continue;
    if ((limit.over && std::abs(in_mm(*limit.over) - measure.over_mm) > 1e-6) ||
        (limit.under && std::abs(in_mm(*limit.under) - measure.under_mm) > 1e-6))
      c.tell("measure {} has another limit than the job states", measure.id);
  }
  // A size is taken between two points, and they are that far apart.
  if (measure.kind == "width" &&
      (measure.points.size() != 2 ||
       std::abs(norm(measure.points[1] - measure.points[0]) - measure.nominal_mm) > 0.01))
    c.tell("measure {} is not taken over its nominal size", measure.id);
  if (!measure.has_expected) return;
  if (!in_order(measure.expected_mm) || !in_order(measure.before_grinding_mm))
    c.tell("measure {} expects a band that is not in order", measure.id);
  if (measure.source.text.empty()) c.tell("measure {} expects a figure without a source", measure.id);
  const double chance = measure.chance_kept;
  if (chance != -1.0 && !(chance >= 0.0 && chance <= 1.0))
    c.tell("measure {} has a chance of {}", measure.id, chance);
  const auto names_it = [&](const Caution& caution) {
    const Arg* arg = argument(caution.what, "measure");
    // One caution may stand for all places of a kind: "check.width" for width-1 to width-9.
    const std::string group = "check." + measure.id.substr(0, measure.id.find('-'));
    return caution.red && arg && (arg->word == measure.id || arg->word == group);
  };
  if (chance >= 0.0 && chance < 0.5 && std::none_of(c.plan.cautions.begin(), c.plan.cautions.end(), names_it))
    c.tell("measure {} is more likely missed than kept, and no red caution says so", measure.id);
}

} // namespace

void check_figures(const Checking& c) {
  const BoxPlan& plan = c.plan;
  for (const PlannedSeam& seam : plan.seams)
    for (const Band* band : {&seam.throat_mm, &seam.bead_mm2, &seam.heat_J_mm, &seam.wire_g, &seam.gas_l})
      if (!in_order(*band)) {
        c.tell("seam {} has a band that is not in order", seam.id);
        break;
      }
  for (const Figure& figure : plan.figures) {
    if ((figure.has_band || figure.bound_only) && !in_order(figure.value))
      c.tell("figure {} has a band that is not in order", figure.what.key);
    if (!std::isfinite(figure.value.value)) c.tell("figure {} is no number", figure.what.key);
    if (figure.has_band && figure.source.text.empty()) c.tell("figure {} has no source", figure.what.key);
  }
  if (plan.care.size() > kMostCare)
    c.tell("has {} lines of care, at most {} are read", plan.care.size(), kMostCare);
  std::set<std::string> care;
  for (const Text& line : plan.care)
    if (!care.insert(line.key).second) c.tell("says {} twice", line.key);
  for (std::size_t i = 0; i + 1 < plan.cautions.size(); ++i)
    if (!plan.cautions[i].red && plan.cautions[i + 1].red) {
      c.tell("a red caution stands behind others");
      break;
    }
  if (std::abs(plan.mass_kg - c.geometry.mass_kg) > 1e-6 * c.geometry.mass_kg)
    c.tell("weighs {:.2f} kg, planned are {:.2f}", c.geometry.mass_kg, plan.mass_kg);
  if (norm(plan.low - c.geometry.low) > 0.01 || norm(plan.high - c.geometry.high) > 0.01)
    c.tell("is not as large as planned");
}

void check_measures(const Checking& c) {
  const std::vector<Stated> limits = stated_limits(c.job);
  std::set<std::string> seen;
  for (const PlannedMeasure& measure : c.plan.measures) {
    if (!seen.insert(measure.id).second) c.tell("measure {} stands twice", measure.id);
    check_measure(c, measure, limits);
  }
}

} // namespace tacksquare::verify
