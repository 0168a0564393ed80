// Check parts, prepare edges, mark, coupon.
#include "planning/planner/checks.h"
#include "planning/planner/steps.h"
#include "tables/bench_gauges.h"
#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

void write_thickness(const BoxCase& box, StepWriter& out) {
  Step& step =
      out.add(Who::grinder, "step.count-parts", {count("parts", static_cast<double>(box.box.parts.size()))},
              60 + 60 * static_cast<double>(box.box.parts.size()));
  step.look = simple("look.cut-edges");
  std::vector<std::size_t> sheets;
  for (const Part& part : box.box.parts)
    if (std::find(sheets.begin(), sheets.end(), part.sheet) == sheets.end()) sheets.push_back(part.sheet);
  for (const std::size_t index : sheets) {
    const Sheet& sheet = box.job.sheets[index];
    Check check;
    check.what = {"check.thickness", {word("sheet", sheet.id)}};
    check.gauge = "calliper";
    check.readings = 3;
    const ReceivingLimit* limit = find_limit(box, "thickness", sheet.id);
    const double off_mm = limit ? limit->go_mm : 0.0;
    check.accept_low_mm = in_mm(sheet.thickness) - off_mm;
    check.accept_high_mm = in_mm(sheet.thickness) + off_mm;
    check.ladder = {{Who::foreman, 300, simple("fix.thickness")}};
    step.checks.push_back(check);
  }
}

// What the finished box must keep is not what a bend must: walls come as the brake left them.
void allow_as_bent(const BoxCase& box, Check& check) {
  for (const Measure& measure : box.work.measures) {
    if (measure.id != check.measures.front()) continue;
    const ReceivingLimit* limit = find_limit(box, "wall-lean", measure.where);
    if (!limit) return;
    check.accept_high_mm = std::max(limit->go_mm, check.accept_high_mm);
    check.ladder = {
        {Who::grinder, 300, {"fix.dress-bend", {length("to", limit->dress_mm, check.gauge)}}},
        {Who::foreman, 600, {"fix.back-to-brake", {length("over", limit->dress_mm, check.gauge)}}}};
  }
}

// Walls that face the row are held to less outward than a bend must keep: the least of their limits, down to
// what the square reads.
Text look_at_lean(const BoxCase& box) {
  std::vector<std::string> walls;
  double least_mm = 1e300;
  for (const ReceivingLimit& limit : box.receiving) {
    if (limit.kind != "wall-lean-out") continue;
    walls.push_back(limit.where);
    least_mm = std::min(least_mm, limit.go_mm);
  }
  if (walls.empty()) return simple("look.wall-lean");
  const double reads_mm = in_mm(bench_gauge(BenchGauge::try_square).resolution);
  const double out_mm = std::floor(least_mm / reads_mm + 1e-6) * reads_mm;
  return {"look.wall-lean-out", {words("walls", walls), length("out", out_mm, "try-square")}};
}

Check check_of_limit(const BoxCase& box, const char* kind, std::string gauge, int readings, double least_mm) {
  const ReceivingLimit* limit = find_limit(box, kind, {});
  Check check;
  check.what = simple(std::string("check.") + kind);
  check.gauge = std::move(gauge);
  check.readings = readings;
  check.accept_high_mm = std::max(limit ? limit->go_mm : 0.0, least_mm);
  check.ladder = {{Who::grinder, 300, simple("fix.dress-panel")},
                  {Who::foreman, 300, simple("fix.reject-part")}};
  return check;
}

void write_incoming(const BoxCase& box, StepWriter& out) {
  const double look_s = box.work.crew.look_s;
  if (box.folded()) {
    std::vector<Check> checks = check_of(box, MeasureKind::wall_lean, Stage::dry);
    Step& step = out.add(Who::grinder, checks.empty() ? "step.bends" : "step.wall-lean", {}, 0);
    step.look = look_at_lean(box);
    step.checks = std::move(checks);
    for (Check& check : step.checks)
      allow_as_bent(box, check);
    step.seconds = std::max(reading_time_s(box, step.checks), look_s);
    return;
  }
  Step& step =
      out.add(Who::grinder, "step.panels", {}, look_s * static_cast<double>(2 * box.box.faces.size()));
  step.look = simple("look.panels");
  const int flat = static_cast<int>(std::count_if(box.box.parts.begin(), box.box.parts.end(),
                                                  [](const Part& p) { return p.bends.empty(); }));
  const double rule_mm = 0.3; // what a steel rule reads
  Check sizes = check_of_limit(box, "blank", "steel-rule", flat, rule_mm);
  sizes.accept_low_mm = -sizes.accept_high_mm;
  step.checks = {check_of_limit(box, "stack", "feeler", static_cast<int>(box.box.faces.size() / 2), 0.0),
                 sizes};
}

std::string preparation_key(const BoxCase& box) {
  if (box.any_family(MetalFamily::aluminium)) return "step.prepare-aluminium";
  if (box.any_family(MetalFamily::galvanized)) return "step.prepare-galvanized";
  if (box.any_family(MetalFamily::stainless)) return "step.prepare-stainless";
  return "step.prepare-steel";
}

// Marks that this box needs outside: tack ticks, and punched witness marks where no inside diagonal will
// exist.
void write_marks(const BoxCase& box, StepWriter& out) {
  Step& letters = out.add(Who::both, "step.mark", {seam_list(box.seam_ids()).args.front()}, 120);
  letters.look = simple("look.mark");
  if (box.closed()) out.add(Who::grinder, "step.witness-marks", {length("in", 20, "steel-rule")}, 180);
}

} // namespace

void write_parts_and_preparation(const BoxCase& box, StepWriter& out) {
  out.phase(Phase::check_parts);
  write_thickness(box, out);
  write_incoming(box, out);

  out.phase(Phase::prepare);
  const double seam_m = box.work.seams.empty() ? 0.0 : [&] {
    double sum_mm = 0.0;
    for (const WorkSeam& seam : box.work.seams)
      sum_mm += seam.length_mm;
    return sum_mm / 1000.0;
  }();
  out.add(Who::welder, preparation_key(box),
          {length("width",
                  box.any_family(MetalFamily::galvanized) ? in_mm(zinc_clear_width().value)
                                                          : in_mm(edge_clean_width().value),
                  "steel-rule")},
          120 + 120 * seam_m)
      .alongside = true;

  out.phase(Phase::mark);
  write_marks(box, out);

  out.phase(Phase::coupon);
  for (const Settings& settings : box.work.settings) {
    std::vector<std::string> seams;
    for (const WorkSeam& seam : box.work.seams)
      if (&box.work.settings[seam.settings] == &settings) seams.push_back(seam.id);
    if (seams.empty()) continue;
    Step& step = out.add(Who::welder, "step.coupon",
                         {word("settings", settings.id), words("seams", seams),
                          length("length", 100, "steel-rule"), length("width", 40, "steel-rule")},
                         240);
    step.look = simple(settings.full_penetration ? "look.coupon-through" : "look.coupon");
    const bool fed = settings.process == Process::mag || settings.process == Process::mig;
    step.record = simple(fed ? "record.wire" : "record.amps");
  }
}

} // namespace tacksquare
