// Set up and dry fit.
#include "planning/planner/checks.h"
#include "planning/planner/steps.h"

#include <algorithm>

namespace tacksquare {
namespace {

// The inside of the opening, for the inside frame that holds it square: width and height as seen from the
// open side.
struct Opening {
  double width_mm = 0.0, height_mm = 0.0;
};

Opening inside_of_opening(const BoxCase& box) {
  const double wall_mm = 2.0 * box.thinnest_mm();
  const bool faces_front = box.box.open_side == "F" || box.box.open_side == "B";
  return {box.outside_mm('x') - wall_mm, box.outside_mm(faces_front ? 'z' : 'y') - wall_mm};
}

void write_inside_tooling(const BoxCase& box, StepWriter& out) {
  constexpr double kFormerUnder_mm = 0.5; // inside frame smaller than the opening, wedge takes it up [P]
  if (box.closed()) {
    Step& squares = out.add(Who::both, "step.inside-squares", {count("pieces", 4)}, box.work.crew.fit_s);
    squares.odd = simple("why.count-out");
    return;
  }
  if (box.box.form == BoxForm::own_faces || box.box.open_side.empty()) {
    out.add(Who::both, "step.hold-faces", {}, box.work.crew.fit_s);
    return;
  }
  const Opening opening = inside_of_opening(box);
  Step& former = out.add(Who::both, "step.former",
                         {length("width", opening.width_mm - kFormerUnder_mm, "steel-rule"),
                          length("height", opening.height_mm - kFormerUnder_mm, "steel-rule"),
                          length("below", 40, "steel-rule")},
                         box.work.crew.fit_s);
  former.odd = simple("why.comes-out");
}

} // namespace

void write_set_up_and_fit(const BoxCase& box, StepWriter& out) {
  const double look_s = box.work.crew.look_s, fit_s = box.work.crew.fit_s;
  const Attitude& attitude = tacking_attitude(box);

  out.phase(Phase::set_up);
  Step& table = out.add(Who::grinder, "step.table", {}, 3 * look_s);
  table.alongside = true; // of the coupon
  Check flat;
  flat.what = simple("check.table");
  flat.gauge = "feeler";
  flat.accept_high_mm = 0.3; // under a straightedge [P]
  flat.ladder = {{Who::grinder, 60, simple("fix.clean-under")}, {Who::both, 120, simple("fix.shim")}};
  table.checks = {flat};

  const double lay_s = box.work.crew.turn_s + fit_s;
  Step& lay = box.closed() ? out.add(Who::both, "step.build-up", {}, lay_s)
                           : out.add(Who::both, "step.lay-down",
                                     {list("attitude", {attitude_name(box, attitude)})}, lay_s);
  lay.checks = check_of(box, MeasureKind::rock, Stage::dry);
  write_inside_tooling(box, out);
  Step& clamps = out.add(Who::both, box.closed() ? "step.clamps-closed" : "step.clamps-open", {},
                         fit_s * static_cast<double>(box.work.seams.size()) / 2.0);
  clamps.look = simple("look.work-clamp");

  out.phase(Phase::dry_fit);
  Step& fit = out.add(Who::grinder, "step.gaps", {}, 0);
  for (const MeasureKind kind : {MeasureKind::gap, MeasureKind::step})
    for (Check& check : check_of_seams(box, kind, Stage::dry, seams_before_last_face(box))) {
      fit.checks.push_back(std::move(check));
    }

  fit.seconds = reading_time_s(box, fit.checks);

  Step& square = out.add(Who::grinder, "step.square-dry", {}, 0);
  square.look = simple("look.sides-first");
  square.checks = check_of(box, MeasureKind::opposite_sides, Stage::dry);
  for (Check& check : check_of(box, MeasureKind::diagonals, Stage::dry))
    square.checks.push_back(std::move(check));
  square.seconds = reading_time_s(box, square.checks);
}

} // namespace tacksquare
