// As-welded checks, grinding, final check, signing.
#include "planning/planner/checks.h"
#include "planning/planner/steps.h"

#include <algorithm>

namespace tacksquare {
namespace {

void add_checks(Step& step, const BoxCase& box, MeasureKind kind, Stage stage) {
  for (Check& check : check_of(box, kind, stage))
    step.checks.push_back(std::move(check));
}

// Sizes are read cold: the box within 5 K of the shop.
Step& write_sizes(const BoxCase& box, Who who, Stage stage, std::string key, StepWriter& out) {
  Step& sizes = out.add(who, std::move(key), {}, 0);
  // Bounds are for the foreman's pages; that the walls have nothing better is for the bench.
  const bool bounds = std::any_of(box.expected.begin(), box.expected.end(), [&](const Expected& expected) {
    return expected.bound_only && box.work.measures[expected.measure].kind == MeasureKind::width;
  });
  sizes.look = simple(bounds ? "look.widest-open" : "look.widest");
  add_checks(sizes, box, MeasureKind::width, stage);
  sizes.seconds = reading_time_s(box, sizes.checks);
  sizes.until = {"until.measure", {number("time", ArgKind::time_s, cooling_times(box).measure_s.high)}};
  return sizes;
}

// All that tells square; where there is no rectangle to read, every corner by itself, and the bellies.
void write_square(const BoxCase& box, Who who, Stage stage, const std::string& key, StepWriter& out) {
  const bool readable = find_measure(box.work, MeasureKind::diagonals) != nullptr;
  Step& step = out.add(who, readable ? key : key + "-faces", {}, 0);
  if (readable) step.look = simple("look.sides-first");
  for (const MeasureKind kind : {MeasureKind::opposite_sides, MeasureKind::diagonals, MeasureKind::rock,
                                 MeasureKind::wall_lean, MeasureKind::belly})
    add_checks(step, box, kind, stage);
  step.seconds = std::max(reading_time_s(box, step.checks), box.work.crew.look_s);
}

double flush_metres(const BoxCase& box) {
  double metres = 0.0;
  for (const WorkSeam& seam : box.work.seams)
    if (box.box.seams[seam.seam].finish == Finish::flush) metres += seam.welded_mm / 1000.0;
  return metres;
}

std::vector<std::string> flush_seams_in_order(const BoxCase& box) {
  std::vector<std::string> ids;
  for (const OrderedRun& ordered : box.order.runs) {
    const WorkSeam& seam = box.work.seams[box.work.runs[ordered.run].seam];
    if (box.box.seams[seam.seam].finish != Finish::flush) continue;
    if (std::find(ids.begin(), ids.end(), seam.id) == ids.end()) ids.push_back(seam.id);
  }
  return ids;
}

Step& write_grit(const BoxCase& box, std::size_t i, const std::vector<std::string>& seams, StepWriter& out) {
  const WorkRules& rules = box.work.rules;
  const double metres = flush_metres(box);
  const double discs = box.work.crew.m_per_disc > 0.0 ? metres / box.work.crew.m_per_disc : 0.0;
  const double seconds =
      60.0 * rules.grind_min_per_m.value * metres + box.work.crew.disc_change_s * (1.0 + discs);
  const Arg grit = count("grit", rules.grits.value[i]);
  if (i + 1 < rules.grits.value.size()) {
    Step& step = out.add(Who::grinder, "step.grind", {grit, words("seams", seams)}, seconds);
    step.look = simple("look.grind");
    return step;
  }
  Step& step = out.add(
      Who::grinder, "step.grind-finish",
      {grit, words("seams", seams), length("radius", rules.edge_radius_mm.value, "calliper")}, seconds);
  step.look = simple(box.any_family(MetalFamily::stainless) ? "look.grind-stainless" : "look.grind-finish");
  return step;
}

void write_grinding(const BoxCase& box, StepWriter& out) {
  const WorkRules& rules = box.work.rules;
  const std::vector<std::string> seams = flush_seams_in_order(box);
  out.phase(Phase::grind);
  for (std::size_t i = 0; i < rules.grits.value.size(); ++i) {
    Step& step = write_grit(box, i, seams, out);
    if (i > 0) continue;
    step.until = {"until.grind", {number("limit", ArgKind::temperature_C, rules.touch_limit_C.value)}};
    step.meanwhile = simple("meanwhile.welder-looks");
    Step& holes = out.add(Who::welder, "step.pinholes", {}, 120);
    holes.look = simple("look.pinholes");
    holes.record = simple("record.pinholes");
    add_checks(holes, box, MeasureKind::proud, Stage::ground);
  }
}

void write_closing_of_vent(const BoxCase& box, StepWriter& out) {
  for (const Vent& vent : box.box.vents) {
    if (!vent.plugged_last) continue;
    Step& plug = out.add(
        Who::welder, "step.plug-vent",
        {word("face", box.box.faces[vent.face].id), length("diameter", in_mm(vent.diameter), "steel-rule")},
        240);
    plug.until = simple("until.cold");
    plug.look = {"look.leak-test",
                 {number("pressure", ArgKind::pressure_kPa, in_mpa(leak_test_limit()) * 1000.0)}};
  }
}

} // namespace

void write_checks_and_grinding(const BoxCase& box, StepWriter& out) {
  out.phase(Phase::check);
  // Even heat leaves the difference of diagonals alone: what tells square may be read hand-warm, sizes not.
  write_square(box, Who::grinder, Stage::as_welded, "step.square-as-welded", out);
  Step& hold = write_sizes(box, Who::grinder, Stage::as_welded, "step.hold-as-welded", out);
  hold.hold = 2;
  hold.second = Who::foreman;
  if (box.has_flush_seam()) write_grinding(box, out);
  Step& clean = out.add(Who::welder, box.closed() ? "step.clean-outside" : "step.clean-inside", {}, 180);
  clean.alongside = box.has_flush_seam(); // of the last grit
  clean.look = simple("look.clean");
}

// Read by the one who has not ground it.
void write_final_check(const BoxCase& box, StepWriter& out) {
  out.phase(Phase::final_check);
  write_sizes(box, Who::welder, Stage::ground, "step.sizes-final", out);
  write_square(box, Who::welder, Stage::ground, "step.square-final", out);
  if (box.has_loose_part()) out.add(Who::both, "step.lid-fits", {}, 120);
  out.phase(Phase::sign);
  Step& hold = out.add(Who::foreman, box.box.count > 1 ? "step.hold-first-off" : "step.hold-final", {}, 60);
  hold.hold = 3;
  hold.record = simple(box.box.count > 1 ? "record.release" : "record.accept");
  Step& record =
      out.add(Who::both, "step.record", {number("watch", ArgKind::time_s, in_s(fire_watch().value))}, 60);
  record.record = simple(box.stand ? "record.lots-place" : "record.lots");
  if (box.closed()) {
    out.phase(Phase::sign);
    write_closing_of_vent(box, out);
  }
}

} // namespace tacksquare
