#include "planning/planner/checks.h"

#include "planning/planner/steps.h"
#include "tables/bench_gauges.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

bool same_check(const Measure& a, const Measure& b) {
  return a.kind == b.kind && a.gauge == b.gauge && a.nominal_mm == b.nominal_mm && a.under_mm == b.under_mm &&
         a.over_mm == b.over_mm;
}

// "width-3" is one of the widths: the part before the dash names the group.
Text check_name(const Measure& measure) {
  return simple("check." + measure.id.substr(0, measure.id.find('-')));
}

Check check_of_group(const BoxCase& box, const std::vector<std::size_t>& group, Stage stage) {
  const Measure& first = box.work.measures[group.front()];
  Check check;
  check.what = check_name(first);
  check.gauge = first.gauge;
  check.accept_low_mm = first.nominal_mm - first.under_mm;
  check.accept_high_mm = first.nominal_mm + first.over_mm;
  check.readings = static_cast<int>(group.size());
  for (const std::size_t index : group)
    check.measures.push_back(box.work.measures[index].id);
  check.ladder = ladder(box, first.kind, stage, std::max(first.under_mm, first.over_mm));
  return check;
}

template <class F> std::vector<Check> join(const BoxCase& box, Stage stage, F wanted) {
  const std::vector<Measure>& measures = box.work.measures;
  std::vector<Check> checks;
  std::vector<bool> taken(measures.size(), false);
  for (std::size_t i = 0; i < measures.size(); ++i) {
    if (taken[i] || !wanted(measures[i])) continue;
    std::vector<std::size_t> group;
    for (std::size_t j = i; j < measures.size(); ++j) {
      if (taken[j] || !wanted(measures[j]) || !same_check(measures[i], measures[j])) continue;
      taken[j] = true;
      group.push_back(j);
    }
    checks.push_back(check_of_group(box, group, stage));
  }
  return checks;
}

Remedy rung(Who who, double minutes_needed, std::string key, std::vector<Arg> args = {}) {
  return {who, 60.0 * minutes_needed, {std::move(key), std::move(args)}};
}

bool can_be_heated(const BoxCase& box) {
  return !box.any_family(MetalFamily::aluminium) && !box.any_family(MetalFamily::stainless);
}

// What brings two faces of the dry box nearer to each other, where a tap does not.
Remedy refit(const BoxCase& box, double minutes_needed) {
  return rung(Who::grinder, minutes_needed, box.folded() ? "fix.rebend" : "fix.refit");
}

// What can still be slid or shifted in the dry box.
Remedy reclamp(const BoxCase& box) {
  const char* key = box.has_piece(ItemKind::former)      ? "fix.slide-wedge"
                    : box.has_piece(ItemKind::bar_clamp) ? "fix.shift-cramp"
                                                         : "fix.pull-by-hand";
  return rung(Who::both, 2, key);
}

bool bars_stay(const BoxCase& box) {
  const fixture::SetUp& set_up = box.fixed().set_up;
  for (std::size_t i = 0; i < set_up.placed.size(); ++i)
    if (box.fixed().fixture.pieces[set_up.placed[i].piece].kind == ItemKind::bar_clamp &&
        set_up.leaving[i].why == fixture::Why::stays)
      return true;
  return false;
}

// With what it springs back by, where that was reckoned; nothing where it does not stay.
std::optional<Remedy> pull_past(const Pulls& pulls, const std::optional<PullPast>& pull, double off_mm) {
  if (!pulls.reckoned) return rung(Who::both, 3, "fix.pull-and-see");
  if (!pull) return std::nullopt;
  return rung(Who::both, 3, pull->until_welded ? "fix.pull-until-cold" : "fix.pull-until-tacked",
              {length("off", off_mm, "steel-rule"),
               length("past", off_mm * pull->past_mm.value, "steel-rule"),
               length("off-twice", 2.0 * off_mm, "steel-rule"),
               length("past-twice", 2.0 * off_mm * pull->past_mm.value, "steel-rule")});
}

// The seam that ends at a corner; nothing where none or several do.
std::optional<std::string> seam_at(const BoxCase& box, Vec3 corner) {
  constexpr double kNear_mm = 25.0; // inside corners lie a radius or two off
  std::optional<std::string> found;
  for (std::size_t s = 0; s < box.work.seams.size(); ++s) {
    const SeamLine& line = box.geometry.seams[box.work.seams[s].seam];
    if (std::min(norm(line.start - corner), norm(line.end - corner)) > kNear_mm) continue;
    if (found) return std::nullopt;
    found = box.work.seams[s].id;
  }
  return found;
}

// The run that pulls the box back, for either diagonal, where what it does can be read.
std::vector<Remedy> next_run_rungs(const BoxCase& box) {
  if (box.next_runs.empty()) return {};
  const double read_mm = in_mm(bench_gauge(BenchGauge::pinch_sticks).step);
  const auto diagonals =
      std::find_if(box.work.measures.begin(), box.work.measures.end(),
                   [&](const Measure& m) { return m.id == box.next_runs.front().measure; });
  std::vector<Remedy> rungs;
  for (const double sign : {1.0, -1.0}) { // which of the two is the long one
    const std::size_t corner = sign > 0.0 ? 0 : 1;
    const auto from = seam_at(box, diagonals->points[corner]),
               to = seam_at(box, diagonals->points[corner + 2]);
    const NextRun* best = nullptr;
    for (const NextRun& next : box.next_runs)
      if (!best || sign * next.mm.value < sign * best->mm.value) best = &next;
    if (!from || !to || -sign * best->mm.value < read_mm) continue;
    rungs.push_back(rung(Who::welder, 1, "fix.next-run",
                         {word("from", *from), word("to", *to), word("run", best->seam),
                          length("by", std::abs(best->mm.value), "pinch-sticks")}));
  }
  return rungs;
}

// which: tacks to cut, where their round is not said by its name.
std::vector<Remedy> tacked_ladder(const BoxCase& box, std::optional<Remedy> pull, const char* cut,
                                  std::vector<Arg> which = {}) {
  std::vector<Remedy> rungs;
  if (box.has_piece(ItemKind::former)) rungs.push_back(rung(Who::both, 1, "fix.slide-wedge"));
  const bool held = box.has_piece(ItemKind::former) || box.has_piece(ItemKind::bar_clamp) ||
                    box.has_piece(ItemKind::square) || box.has_piece(ItemKind::corner_clamp) ||
                    box.has_piece(ItemKind::spreader);
  if (pull && held) rungs.push_back(rung(Who::both, 1, "fix.slack-off"));
  if (pull) rungs.push_back(std::move(*pull));
  rungs.push_back(rung(Who::both, 8, cut, std::move(which)));
  rungs.push_back(rung(Who::foreman, 5, "fix.foreman"));
  return rungs;
}

std::vector<Remedy> square_ladder(const BoxCase& box, Stage stage, double limit_mm) {
  switch (stage) {
  case Stage::dry:
    return {rung(Who::both, 1, "fix.reseat"), reclamp(box), refit(box, 10)};
  case Stage::rim_tacked:
    return tacked_ladder(box, pull_past(box.pulls, box.pulls.rim_tacked, limit_mm), "fix.cut-rim-tacks");
  case Stage::fully_tacked:
    return tacked_ladder(box, pull_past(box.pulls, box.pulls.fully_tacked, limit_mm), "fix.cut-last-tacks",
                         {list("tacks", tack_places(box, 1))});
  case Stage::half_welded: {
    std::vector<Remedy> rungs = next_run_rungs(box);
    if (!box.closed() && bars_stay(box)) rungs.push_back(rung(Who::both, 2, "fix.bars-tight"));
    rungs.push_back(rung(Who::foreman, 5, "fix.stop-foreman"));
    return rungs;
  }
  case Stage::as_welded:
  case Stage::ground:
    if (box.closed()) // six welded faces do not rack any more
      return {rung(Who::grinder, 2, "fix.read-again"), rung(Who::foreman, 5, "fix.reject")};
    return {
        rung(Who::both, 5, "fix.squeeze-set", {length("start", std::max(2.0 * limit_mm, 2.0), "steel-rule")}),
        rung(Who::both, 20, "fix.slit-seam"), rung(Who::foreman, 5, "fix.reject")};
  }
  throw InternalError("unknown stage of a square check");
}

// A dolly needs a hand behind the bead.
std::vector<Remedy> belly_ladder(const BoxCase& box) {
  std::vector<Remedy> rungs;
  if (!box.closed()) rungs.push_back(rung(Who::grinder, 5, "fix.planish"));
  if (can_be_heated(box)) rungs.push_back(rung(Who::welder, 10, "fix.heat-spots"));
  if (!box.closed()) rungs.push_back(rung(Who::foreman, 15, "fix.stiffen"));
  rungs.push_back(rung(Who::foreman, 5, "fix.reject"));
  return rungs;
}

std::vector<Remedy> size_ladder(const BoxCase& box) {
  return {rung(Who::grinder, 5, "fix.dress-proud"),
          box.closed() ? rung(Who::foreman, 5, "fix.packer") : rung(Who::both, 5, "fix.planish"),
          rung(Who::foreman, 5, "fix.reject")};
}

std::vector<Remedy> rock_ladder(const BoxCase& box, Stage stage) {
  if (stage == Stage::dry)
    return {rung(Who::grinder, 1, "fix.clean-under"), rung(Who::both, 2, "fix.shim"), refit(box, 10)};
  if (box.closed())
    return {rung(Who::grinder, 1, "fix.clean-under"), rung(Who::foreman, 5, "fix.packer-under"),
            rung(Who::foreman, 5, "fix.reject")};
  return {rung(Who::both, 5, "fix.untwist"), rung(Who::foreman, 5, "fix.reject")};
}

std::vector<Remedy> lean_ladder(const BoxCase& box) {
  if (box.closed()) return {rung(Who::grinder, 2, "fix.read-again"), rung(Who::foreman, 5, "fix.reject")};
  return {rung(Who::both, 3, "fix.lean-over-block"), rung(Who::foreman, 5, "fix.reject")};
}

std::vector<Remedy> gap_ladder(const BoxCase& box) {
  const WorkRules& rules = box.work.rules;
  const Arg to = length("to", rules.gap_dress_mm.value, "feeler"), over = length("over", to.number, "feeler");
  return {rung(Who::welder, 1, box.closed() ? "fix.gap-colder-closed" : "fix.gap-colder",
               {length("from", rules.gap_go_mm.value, "feeler"),
                length("to", rules.gap_colder_mm.value, "feeler")}),
          rung(Who::grinder, 5, "fix.gap-dress", {to}),
          rung(Who::foreman, 5, box.folded() ? "fix.gap-over" : "fix.gap-over-panel", {over})};
}

} // namespace

std::vector<Remedy> ladder(const BoxCase& box, MeasureKind kind, Stage stage, double limit_mm) {
  switch (kind) {
  case MeasureKind::width:
    return size_ladder(box);
  case MeasureKind::opposite_sides:
  case MeasureKind::diagonals:
    return square_ladder(box, stage, limit_mm);
  case MeasureKind::rock:
    return rock_ladder(box, stage);
  case MeasureKind::wall_lean:
    return lean_ladder(box);
  case MeasureKind::belly:
    return belly_ladder(box);
  case MeasureKind::gap:
    return gap_ladder(box);
  case MeasureKind::step:
    return {rung(Who::grinder, 1, "fix.step-block"), refit(box, 5)};
  case MeasureKind::proud:
    return {rung(Who::grinder, 3, "fix.grind-again"), rung(Who::welder, 5, "fix.dig-fill")};
  }
  throw InternalError("unknown kind of measure");
}

std::vector<Check> check_of(const BoxCase& box, MeasureKind kind, Stage stage) {
  return join(box, stage, [&](const Measure& measure) { return measure.kind == kind; });
}

std::vector<Check> check_of_diagonals(const BoxCase& box, Stage stage) {
  const bool open = stage == Stage::dry || stage == Stage::rim_tacked || stage == Stage::fully_tacked;
  if (!open || !box.work.last_face) return check_of(box, MeasureKind::diagonals, stage);
  std::vector<Check> checks = join(box, stage, [&](const Measure& measure) {
    return measure.kind == MeasureKind::diagonals && measure.where == *box.work.last_face;
  });
  for (Check& check : checks)
    check.what = {"check.diagonals-opening", {list("face", {face_name(*box.work.last_face)})}};
  return checks;
}

std::vector<Check> check_of_seams(const BoxCase& box, MeasureKind kind, Stage stage,
                                  const std::vector<std::size_t>& seams) {
  return join(box, stage, [&](const Measure& measure) {
    return measure.kind == kind && std::any_of(seams.begin(), seams.end(), [&](std::size_t seam) {
             const std::string& id = box.work.seams[seam].id; // "S1" or "S1-middle"
             return measure.where == id || measure.where.starts_with(id + "-");
           });
  });
}

std::vector<std::size_t> seams_of_last_face(const BoxCase& box) {
  std::vector<std::size_t> seams;
  for (std::size_t i = 0; box.work.last_face && i < box.work.seams.size(); ++i) {
    const Seam& seam = box.box.seams[box.work.seams[i].seam];
    if (box.box.faces[seam.face_a].id == *box.work.last_face ||
        box.box.faces[seam.face_b].id == *box.work.last_face)
      seams.push_back(i);
  }
  return seams;
}

std::vector<std::size_t> seams_before_last_face(const BoxCase& box) {
  const std::vector<std::size_t> last = seams_of_last_face(box);
  std::vector<std::size_t> seams;
  for (std::size_t i = 0; i < box.work.seams.size(); ++i)
    if (std::find(last.begin(), last.end(), i) == last.end()) seams.push_back(i);
  return seams;
}

double reading_time_s(const BoxCase& box, const std::vector<Check>& checks) {
  double looks = 0.0;
  for (const Check& check : checks)
    looks += 0.75 + 0.25 * check.readings;
  return box.work.crew.look_s * looks;
}

} // namespace tacksquare
