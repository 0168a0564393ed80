// Set up and dry fit.
#include "planning/planner/checks.h"
#include "planning/planner/fixture_steps.h"
#include "planning/planner/steps.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

// Walls that stand inside: where each goes, from the left, the front or the under side to its middle.
void write_inside_parts(const BoxCase& box, StepWriter& out) {
  std::vector<Text> places;
  std::vector<std::size_t> told;
  for (const Seam& seam : box.box.seams) {
    if (seam.joint != JointKind::tee || std::find(told.begin(), told.end(), seam.face_a) != told.end())
      continue;
    told.push_back(seam.face_a);
    const Face& face = box.box.faces[seam.face_a];
    const Vec3 normal = face.placement.normal(), from = face.placement.origin;
    const char* key = std::abs(normal.x) > 0.9   ? "inside.from-left"
                      : std::abs(normal.y) > 0.9 ? "inside.from-front"
                      : std::abs(normal.z) > 0.9 ? "inside.from-under"
                                                 : nullptr;
    const double at_mm = std::abs(dot(from, normal));
    if (key != nullptr)
      places.push_back({key, {word("face", face.id), length("at", at_mm, "steel-rule")}});
    else
      places.push_back({"inside.as-drawn", {word("face", face.id)}});
  }
  if (places.empty() || box.box.form == BoxForm::own_faces) return;
  Step& step = out.add(Who::both, "step.inside-parts", {list("places", std::move(places))},
                       box.work.crew.fit_s * static_cast<double>(told.size()));
  step.look = simple("look.inside-parts");
}

} // namespace

void write_set_up_and_fit(const BoxCase& box, StepWriter& out) {
  const double look_s = box.work.crew.look_s, fit_s = box.work.crew.fit_s;
  const Attitude& attitude = tacking_attitude(box);

  out.phase(Phase::set_up);
  Step& table = write_table(box, out);
  table.alongside = true; // of the coupon
  Check flat;
  flat.what = simple("check.table");
  flat.gauge = "feeler";
  flat.accept_high_mm = 0.3; // under a straightedge [P]
  flat.ladder = {{Who::grinder, 60, simple("fix.clean-under")}, {Who::both, 120, simple("fix.shim")}};
  table.checks = {flat};

  write_supports(box, out);
  const double lay_s = box.work.crew.turn_s + fit_s;
  Step& lay = box.closed()
                  ? out.add(Who::both, "step.build-up", {}, lay_s)
                  : out.add(Who::both, box.has_piece(ItemKind::stop) ? "step.lay-down" : "step.lay-down-free",
                            {list("attitude", {attitude_name(box, attitude)})}, lay_s);
  lay.checks = check_of(box, MeasureKind::rock, Stage::dry);
  write_inside_parts(box, out);
  write_inside_pieces(box, out);
  write_clamps(box, out);

  out.phase(Phase::dry_fit);
  Step& fit = out.add(Who::grinder, "step.gaps", {}, 0);
  for (const MeasureKind kind : {MeasureKind::gap, MeasureKind::step})
    for (Check& check : check_of_seams(box, kind, Stage::dry, seams_before_last_face(box)))
      fit.checks.push_back(std::move(check));
  fit.seconds = reading_time_s(box, fit.checks);

  std::vector<Check> square = check_of(box, MeasureKind::opposite_sides, Stage::dry);
  for (Check& check : check_of_diagonals(box, Stage::dry))
    square.push_back(std::move(check));
  if (square.empty()) { // no rim and no rectangle: the seams themselves have to be square
    out.add(Who::grinder, "step.square-faces", {}, look_s * static_cast<double>(box.work.seams.size()));
    return;
  }
  Step& step = out.add(Who::grinder, "step.square-dry", {}, reading_time_s(box, square));
  step.look = simple("look.sides-first");
  step.checks = std::move(square);
}

} // namespace tacksquare
