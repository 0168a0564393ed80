#include "planning/planner/foreman.h"

#include "formulas/band_math.h"
#include "planning/planner/expectation.h"
#include "planning/planner/front.h"

#include <algorithm>

namespace tacksquare {
namespace {

std::string item_word(MeasureKind kind) {
  static const char* const words[] = {"width", "opposite-sides", "diagonals", "rock", "wall-lean", "belly",
                                      "gap",   "step",           "proud"};
  return words[static_cast<int>(kind)];
}

PlannedSeam planned_seam(const BoxCase& box, const WorkSeam& work) {
  const Seam& seam = box.box.seams[work.seam];
  const Settings& settings = box.work.settings[work.settings];
  PlannedSeam planned;
  planned.id = seam.id;
  planned.face_a = box.box.faces[seam.face_a].id;
  planned.face_b = box.box.faces[seam.face_b].id;
  planned.joint = joint_word(seam.joint);
  if (seam.joint == JointKind::corner) planned.corner = corner_word(seam.corner);
  planned.weld = weld_word(seam.weld);
  planned.side = seam.side == WeldSide::inside ? "inside" : "outside";
  planned.finish = seam.finish == Finish::flush ? "flush" : "left";
  if (seam.leg) planned.leg_mm = in_mm(*seam.leg);
  if (seam.groove) planned.groove_deg = in_deg(*seam.groove);
  if (seam.stitch) {
    planned.stitch_length_mm = in_mm(seam.stitch->length);
    planned.stitch_pitch_mm = in_mm(seam.stitch->pitch);
  }
  planned.settings = settings.id;
  planned.start = box.geometry.seams[work.seam].start;
  planned.end = box.geometry.seams[work.seam].end;
  planned.length_mm = work.length_mm;
  planned.welded_mm = work.welded_mm;
  planned.bead_mm2 = formulas::scaled(settings.slowness, work.bead_mm2);
  planned.heat_J_mm = settings.net_heat;
  planned.wire_g = formulas::scaled(settings.slowness, work.wire_g);
  planned.gas_l = formulas::scaled(settings.slowness, work.gas_l);
  planned.throat_mm = work.throat_mm;
  return planned;
}

// Faces that buckle, by the eigenvalue of the whole box: those alike in one line.
void add_buckling(const std::vector<FaceBuckling>& faces, std::vector<Caution>& out) {
  for (std::size_t i = 0; i < faces.size();) {
    const FaceBuckling& first = faces[i];
    std::vector<std::string> alike;
    for (; i < faces.size() && faces[i].factor.value == first.factor.value &&
           faces[i].depth_mm == first.depth_mm;
         ++i)
      alike.push_back(faces[i].face);
    if (first.factor.value >= 2.0) continue;
    Text what{first.depth_mm ? "caution.face-buckles" : "caution.face-may-buckle",
              {words("faces", alike), number("factor", ArgKind::ratio, first.factor.value)}};
    if (first.depth_mm) what.args.push_back(length("depth", *first.depth_mm, "steel-rule"));
    out.push_back({std::move(what), false});
  }
}

// A face that buckles under the shrinkage of one seam: told from half the critical force on. The closed form
// is a floor, so that alone it never makes a plan red.
void add_buckling(const BoxCase& box, std::vector<Caution>& out) {
  if (box.elastic) return add_buckling(box.elastic->buckling, out);
  for (std::size_t i = 0; i < box.prediction.seams.size(); ++i) {
    const SeamShrinkage& shrinkage = box.prediction.seams[i];
    const Seam& seam = box.box.seams[box.work.seams[i].seam];
    const bool a_is_weaker = shrinkage.buckling_factor_a <= shrinkage.buckling_factor_b;
    const double factor = a_is_weaker ? shrinkage.buckling_factor_a : shrinkage.buckling_factor_b;
    if (factor >= 2.0) continue; // the force stays below half the critical one
    const std::string face = box.box.faces[a_is_weaker ? seam.face_a : seam.face_b].id;
    out.push_back({{factor < 1.0 ? "caution.buckles" : "caution.may-buckle",
                    {word("face", face), word("seam", seam.id), number("factor", ArgKind::ratio, factor)}},
                   false});
  }
}

// Measures whose limit is more likely missed than kept: one caution for all places of a kind.
void add_measures(const BoxCase& box, std::vector<Caution>& out) {
  struct Missed {
    std::string group;
    const Expected* worst = nullptr;
    double places = 0.0;
  };
  std::vector<Missed> all;
  for (const Expected& expected : box.expected) {
    if (expected.bound_only || expected.chance_kept < 0.0 || expected.chance_kept >= 0.5) continue;
    const std::string& id = box.work.measures[expected.measure].id;
    const std::string group = id.substr(0, id.find('-'));
    auto found =
        std::find_if(all.begin(), all.end(), [&](const Missed& missed) { return missed.group == group; });
    if (found == all.end()) found = all.insert(all.end(), {group, &expected, 0.0});
    if (expected.chance_kept < found->worst->chance_kept) found->worst = &expected;
    found->places += 1.0;
  }
  for (const Missed& missed : all) {
    const Measure& measure = box.work.measures[missed.worst->measure];
    out.push_back({{"caution.limit-missed",
                    {term("measure", "check." + missed.group), count("places", missed.places),
                     number("chance", ArgKind::chance, missed.worst->chance_kept),
                     number("expected", ArgKind::fine_mm, missed.worst->mm.value),
                     number("low", ArgKind::fine_mm, measure.nominal_mm - measure.under_mm),
                     number("high", ArgKind::fine_mm, measure.nominal_mm + measure.over_mm)}},
                   true});
  }
}

// Runs that no way of lying brings where they belong: told once a seam.
void add_positions(const BoxCase& box, std::vector<Caution>& out) {
  std::vector<std::size_t> told;
  for (const OrderedRun& ordered : box.order.runs) {
    const Run& run = box.work.runs[ordered.run];
    const Seam& seam = box.box.seams[box.work.seams[run.seam].seam];
    if (run.dab || std::find(told.begin(), told.end(), run.seam) != told.end()) continue;
    const SeamAccess& access = box.geometry.access[ordered.attitude][box.work.seams[run.seam].seam];
    std::string key;
    if (!access.reachable)
      key = "caution.reach";
    else if (seam.position && *seam.position != ordered.position)
      key = "caution.position";
    else if (!seam.position && ordered.position == WeldPosition::overhead)
      key = "caution.overhead";
    else
      continue;
    told.push_back(run.seam);
    out.push_back({{std::move(key), {word("seam", seam.id)}}, true});
  }
}

void add_settings(const BoxCase& box, std::vector<Caution>& out) {
  for (const Settings& settings : box.work.settings) {
    if (settings.starting_point)
      out.push_back({{"caution.starting-point", {word("settings", settings.id)}}, false});
    for (const Diagnostic& odd : settings.oddities)
      out.push_back(
          {{"caution.oddity", {word("settings", settings.id), word("message", odd.message)}}, false});
  }
}

} // namespace

std::vector<Caution> cautions_of(const BoxCase& box) {
  std::vector<Caution> cautions;
  add_measures(box, cautions);
  for (const WorkSeam& seam : box.work.seams)
    if (seam.throat_mm.value < seam.throat_needed_mm)
      cautions.push_back({{"caution.throat",
                           {word("seam", seam.id), number("left", ArgKind::fine_mm, seam.throat_mm.value),
                            number("needed", ArgKind::fine_mm, seam.throat_needed_mm)}},
                          true});
  add_positions(box, cautions);
  add_buckling(box, cautions);
  add_settings(box, cautions);
  std::stable_sort(cautions.begin(), cautions.end(),
                   [](const Caution& a, const Caution& b) { return a.red > b.red; });
  return cautions;
}

std::vector<FaceOutline> outlines_of(const BoxCase& box) {
  std::vector<FaceOutline> outlines;
  for (const Face& face : box.box.faces)
    outlines.push_back({face.id,
                        box.box.parts[face.part].id,
                        face_name(face.id),
                        face.placement,
                        face.outline,
                        face.cutouts,
                        {}});
  for (const Vent& vent : box.box.vents)
    outlines[vent.face].vents.push_back({vent.at.x, vent.at.y, in_mm(vent.diameter)});
  return outlines;
}

std::vector<PlannedSeam> seams_of(const BoxCase& box) {
  std::vector<PlannedSeam> seams;
  for (const WorkSeam& seam : box.work.seams)
    seams.push_back(planned_seam(box, seam));
  return seams;
}

std::vector<PlannedTack> tacks_of(const BoxCase& box) {
  std::vector<PlannedTack> tacks;
  for (const Tack& tack : box.tacks)
    tacks.push_back({tack.id, box.work.seams[tack.seam].id, tack.at_mm, tack.length_mm, tack.round,
                     tack.flat_after ? "knock-down" : "feather"});
  return tacks;
}

std::vector<PlannedRun> runs_of(const BoxCase& box) {
  std::vector<PlannedRun> runs;
  for (const OrderedRun& ordered : box.order.runs) {
    const Run& run = box.work.runs[ordered.run];
    runs.push_back({run.id, box.work.seams[run.seam].id, run.from_mm, run.to_mm, run.tie_in_mm, run.arc_s,
                    run.heat_J, ordered.warmth_K, box.geometry.attitudes[ordered.attitude].down,
                    position_word(ordered.position), run.dab});
  }
  return runs;
}

std::vector<PlannedMeasure> measures_of(const BoxCase& box) {
  std::vector<PlannedMeasure> measures;
  for (const Measure& measure : box.work.measures) {
    PlannedMeasure planned;
    planned.id = measure.id;
    planned.kind = item_word(measure.kind);
    planned.where = measure.where;
    planned.gauge = measure.gauge;
    planned.points = measure.points;
    planned.nominal_mm = measure.nominal_mm;
    planned.under_mm = measure.under_mm;
    planned.over_mm = measure.over_mm;
    planned.limit_source = measure.limit_source;
    measures.push_back(std::move(planned));
  }
  if (box.elastic)
    for (const Expected& by_formula : box.prediction.measures) {
      const Measure& measure = box.work.measures[by_formula.measure];
      const double larger = measure.kind == MeasureKind::width ? put_back_along(box, measure) : 0.0;
      measures[by_formula.measure].by_formula_mm = formulas::shifted(by_formula.mm, larger);
      measures[by_formula.measure].formula_bound_only = by_formula.bound_only;
    }
  for (const Expected& expected : box.expected) {
    PlannedMeasure& planned = measures[expected.measure];
    planned.has_expected = true;
    planned.expected_mm = expected.mm;
    planned.before_grinding_mm = expected.before_grinding_mm;
    planned.bound_only = expected.bound_only;
    planned.chance_kept = expected.bound_only ? -1.0 : expected.chance_kept;
    planned.source = expected.source;
  }
  return measures;
}

} // namespace tacksquare
