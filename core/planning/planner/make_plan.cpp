#include "planning/planner/make_plan.h"

#include "base/at_once.h"
#include "formulas/band_math.h"
#include "planning/planner/aimed.h"
#include "planning/planner/case_of.h"
#include "planning/planner/cutting.h"
#include "planning/planner/expectation.h"
#include "planning/planner/fixture_plan_of.h"
#include "planning/planner/foreman.h"
#include "planning/planner/front.h"
#include "planning/planner/levers.h"
#include "planning/planner/pulling.h"
#include "planning/planner/seam_order.h"
#include "planning/planner/steps.h"
#include "planning/planner/tack_order.h"
#include "planning/planner/tell_expected.h"
#include "planning/planner/timeline.h"
#include "planning/planner/weigh_fixture.h"

#include <algorithm>
#include <memory>
#include <utility>

namespace tacksquare {
namespace {

// Told from the slow end of the range on; red from the middle on, as any limit that is more likely missed
// than kept.
Caution takt_caution(double takt_s, const Band& repeat_s) {
  return {{"caution.takt",
           {number("takt", ArgKind::time_s, takt_s), number("repeat", ArgKind::time_s, repeat_s.value),
            number("low", ArgKind::time_s, repeat_s.low), number("high", ArgKind::time_s, repeat_s.high)}},
          repeat_s.value > takt_s};
}

// Red ones stand first.
void add_caution(Caution caution, std::vector<Caution>& to) {
  const auto place = caution.red ? to.begin() : to.end();
  to.insert(place, std::move(caution));
}

// Those that a part is cut from.
std::vector<PlannedSheet> sheets_of(const BoxCase& box) {
  std::vector<PlannedSheet> sheets;
  for (const Part& part : box.box.parts) {
    const Sheet& sheet = box.sheet_of(part);
    const bool told = std::any_of(sheets.begin(), sheets.end(),
                                  [&](const PlannedSheet& other) { return other.id == sheet.id; });
    if (!told) sheets.push_back({sheet.id, sheet.metal.name, in_mm(sheet.thickness)});
  }
  return sheets;
}

BoxPlan plan_box(const BoxCase& box, Cutting cutting) {
  BoxPlan plan;
  plan.id = box.box.id;
  plan.name = box.box.name;
  plan.count = box.box.count;
  plan.facts = facts_of(box);
  plan.faces = outlines_of(box);
  plan.seams = seams_of(box);
  plan.settings = settings_of(box);
  plan.kit = kit_of(box);
  plan.care = care_of(box);
  plan.where_mm = where_mm_of(box);
  plan.tacks = tacks_of(box);
  plan.runs = runs_of(box);
  plan.measures = measures_of(box);
  plan.steps = write_steps(box);
  tell_expected(box, plan.steps);
  if (!box.fixed().fixture.pieces.empty()) plan.fixture = fixture_plan_of(box);
  plan.cautions = cautions_of(box);
  plan.sheets = sheets_of(box);
  plan.patterns = std::move(cutting.patterns);
  plan.bend_orders = std::move(cutting.bend_orders);
  plan.receiving = box.receiving;
  plan.part_readings = box.part_readings;
  for (Caution& caution : cautions_of_fit(box, plan))
    add_caution(std::move(caution), plan.cautions);
  plan.figures = figures_of(box);
  plan.elastic = box.elastic;
  plan.tack_orders = box.tack_orders;
  plan.levers = box.levers;
  plan.orders = orders_of(box);
  plan.order_proof = box.order_proof;
  plan.order_proven_best = box.order.proven_best;
  const Timeline line = make_timeline(box, plan.steps);
  plan.first_off_s = line.first_off_s;
  plan.repeat_s = line.repeat_s;
  plan.batch_s = line.batch_s;
  plan.arc_s = line.arc_s;
  plan.grind_s = line.grind_s;
  plan.takt_s = box.work.crew.takt_s;
  if (plan.takt_s && plan.repeat_s.high > *plan.takt_s)
    add_caution(takt_caution(*plan.takt_s, plan.repeat_s), plan.cautions);
  std::vector<Band> wire_g, gas_l;
  for (const PlannedSeam& seam : plan.seams) {
    wire_g.push_back(seam.wire_g);
    gas_l.push_back(seam.gas_l);
  }
  plan.wire_g = formulas::sum_same_cause(wire_g);
  plan.gas_l = formulas::sum_same_cause(gas_l);
  plan.mass_kg = box.geometry.mass_kg;
  plan.low = box.geometry.low;
  plan.high = box.geometry.high;
  return plan;
}

// What the elastic model made of each box, as Job::boxes; nothing where it was not asked.
struct Reckoning {
  bool chosen = false;
  std::optional<FewPieces> few;
  std::optional<TackOrder> tack_order;
  std::optional<SeamOrder> seam_order;
  std::vector<Lever> levers;
  Pulls pulls;
  std::shared_ptr<const ReckonedBox> box;
};
using Reckonings = std::vector<Reckoning>;

struct Planning {
  bool quick = false;
  std::vector<ShapeFile>* shapes = nullptr;
};

// What holds it and in what order it is tacked and welded: weighed once, and so made whenever the box is
// made. What it then comes to does not hang on what else would help, and is reckoned beside it.
void choose(BoxCase& box, Reckoning& made, Diagnostics& faults) {
  if (!made.chosen) made.few = weigh_fixture(box);
  if (made.few) hold_by(*made.few, box);
  if (!made.chosen) made.tack_order = order_tacks(box);
  if (made.tack_order) tack_by(*made.tack_order, box);
  if (!made.chosen) made.seam_order = order_seams(box);
  if (made.seam_order) weld_by(*made.seam_order, box);
  if (!made.chosen) {
    const BoxCase& as_chosen = box;
    at_once([&] { made.box = reckon_box(as_chosen, faults); },
            [&] {
              made.levers = levers_of(as_chosen);
              made.pulls = pulls_of(as_chosen);
            });
  } else if (!made.box || !stands_for(*made.box, box)) {
    made.box = reckon_box(box, faults);
  }
  made.chosen = true;
  box.levers = made.levers;
  box.pulls = made.pulls;
}

// A box on its own, so that the faults of one do not hide those of the next.
std::optional<BoxPlan> plan_stated(const Aimed& aimed, std::size_t index, const Planning& how,
                                   Reckoning before, Diagnostics& out) {
  Diagnostics faults;
  std::optional<BoxPlan> plan;
  if (std::optional<BoxCase> box = case_of(aimed.job, index, aimed.row, faults)) {
    if (!how.quick) choose(*box, before, faults);
    expect_box(*box, before.box.get(), how.shapes);
    const auto first = std::find_if(aimed.first_off.begin(), aimed.first_off.end(),
                                    [&](const FirstOff& each) { return each.box == box->box.id; });
    const FirstOff* learnt = first == aimed.first_off.end() ? nullptr : &*first;
    Cutting cutting = cutting_of(*box, learnt, faults);
    if (!faults.has_errors()) plan = plan_box(*box, std::move(cutting));
    if (plan && learnt) {
      plan->first_off = *learnt;
      if (learnt->release == Release::hold)
        add_caution({{"caution.held", {count("copy", learnt->copy)}}, true}, plan->cautions);
    }
  }
  out.append(faults);
  return plan;
}

// The row by the closed forms first, since the elastic model wants boxes of a size; then again by what it
// says of them. The sizes that come out differ by tenths of a millimetre: each box is reckoned once.
Aimed aim(const Job& job, bool quick, Reckonings& reckoned, Diagnostics& out) {
  WeldEffects effects(job.boxes.size());
  Diagnostics told;
  Aimed aimed = aim_at_opening(job, effects, told);
  if (quick || !aimed.row || told.has_errors()) {
    out.append(told);
    return aimed;
  }
  for (std::size_t i = 0; i < job.boxes.size(); ++i) {
    Diagnostics of_box; // told when it is planned
    std::optional<BoxCase> box = case_of(aimed.job, i, aimed.row, of_box);
    if (!box || !stand_of(aimed.row, box->box.id)) continue;
    choose(*box, reckoned[i], of_box);
    if (reckoned[i].box) effects[i] = weld_effect(*reckoned[i].box, *box);
  }
  return aim_at_opening(job, effects, out);
}

} // namespace

std::optional<Plan> make_plan(const Job& job, Diagnostics& out, bool quick, std::vector<ShapeFile>* shapes) {
  Reckonings reckoned(job.boxes.size());
  const Aimed aimed = aim(job, quick, reckoned, out);
  if (out.has_errors()) return std::nullopt;
  Plan plan;
  plan.job = job.name;
  plan.number = job.number;
  plan.date = job.date;
  plan.row = aimed.row;
  for (std::size_t i = 0; i < aimed.job.boxes.size(); ++i)
    if (std::optional<BoxPlan> planned = plan_stated(aimed, i, {quick, shapes}, reckoned[i], out))
      plan.boxes.push_back(std::move(*planned));
  if (out.has_errors()) return std::nullopt;
  settle_numbers(plan);
  return plan;
}

} // namespace tacksquare
