#include "plan/verify/check_plan.h"

#include "opening/row_fit.h"
#include "plan/verify/checking.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace tacksquare {
namespace verify {

Checking::Checking(const Job& job_, const Box& box_, const BoxGeometry& geometry_, const BoxPlan& plan_,
                   const StandFit* stand_, std::vector<std::string>& lines)
    : job(job_), box(box_), geometry(geometry_), plan(plan_), stand(stand_), lines_(lines) {
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    for (const std::string& id : plan.steps[i].runs)
      step_of_run.emplace(id, i);
    for (const std::string& id : plan.steps[i].tacks)
      step_of_tack.emplace(id, i);
  }
}

std::size_t Checking::seam_index(std::string_view id) const {
  return static_cast<std::size_t>(
      std::find_if(box.seams.begin(), box.seams.end(), [&](const Seam& s) { return s.id == id; }) -
      box.seams.begin());
}

std::size_t Checking::face_index(std::string_view id) const {
  return static_cast<std::size_t>(
      std::find_if(box.faces.begin(), box.faces.end(), [&](const Face& f) { return f.id == id; }) -
      box.faces.begin());
}

double Checking::thickness_mm(std::size_t face) const {
  return in_mm(job.sheets[box.parts[box.faces[face].part].sheet].thickness);
}

double Checking::thinnest_mm() const {
  double thinnest = 0.0;
  for (const Part& part : box.parts) {
    const double t = in_mm(job.sheets[part.sheet].thickness);
    if (!part.loose && (thinnest == 0.0 || t < thinnest)) thinnest = t;
  }
  return thinnest;
}

bool in_order(const Band& band) {
  return std::isfinite(band.low) && std::isfinite(band.high) && band.low <= band.value &&
         band.value <= band.high;
}

const Arg* argument(const Text& text, std::string_view name) {
  const auto found =
      std::find_if(text.args.begin(), text.args.end(), [&](const Arg& a) { return a.name == name; });
  return found == text.args.end() ? nullptr : &*found;
}

bool owned_up(const Checking& c, const std::string& seam_id) {
  return std::any_of(c.plan.cautions.begin(), c.plan.cautions.end(), [&](const Caution& caution) {
    const Arg* seam = argument(caution.what, "seam");
    return caution.red && seam && seam->word == seam_id;
  });
}

} // namespace verify

namespace {

void check_box(const verify::Checking& c) {
  if (c.plan.count != c.box.count)
    c.tell("{} boxes are planned, but the job asks for {}", c.plan.count, c.box.count);
  verify::check_steps(c);
  verify::check_seams(c);
  verify::check_runs(c);
  verify::check_settings(c);
  verify::check_order(c);
  verify::check_positions(c);
  verify::check_tacks(c);
  verify::check_orders_of_seams(c);
  verify::check_people(c);
  verify::check_waits(c);
  verify::check_holds(c);
  verify::check_gauges(c);
  verify::check_closed(c);
  verify::check_elastic(c);
  verify::check_levers(c);
  verify::check_fixture(c);
  verify::check_figures(c);
  verify::check_measures(c);
  verify::check_patterns(c);
  verify::check_bends(c);
  verify::check_readings(c);
}

} // namespace

std::vector<std::string> check_plan(const Job& job, const std::vector<BoxGeometry>& geometry,
                                    const Plan& plan) {
  if (geometry.size() != job.boxes.size()) throw InternalError("check_plan: one geometry for each box");
  std::vector<std::string> lines;
  std::set<std::string> stated;
  for (std::size_t i = 0; i < job.boxes.size(); ++i) {
    const Box& box = job.boxes[i];
    stated.insert(box.id);
    const auto same = [&](const BoxPlan& planned) { return planned.id == box.id; };
    const auto planned = std::find_if(plan.boxes.begin(), plan.boxes.end(), same);
    if (planned == plan.boxes.end()) {
      lines.push_back("box " + box.id + ": is not planned");
      continue;
    }
    if (std::count_if(plan.boxes.begin(), plan.boxes.end(), same) > 1)
      lines.push_back("box " + box.id + ": is planned twice");
    const auto check = [&](const Box& sized, const BoxGeometry& resolved, const StandFit* stand) {
      const verify::Checking checking(job, sized, resolved, *planned, stand, lines);
      check_box(checking);
      verify::check_first_off(checking, plan);
    };
    const StandFit* stand = stand_of(plan.row, box.id);
    if (!stand) {
      check(box, geometry[i], stand);
      continue;
    }
    // A box of a row is built to its target width.
    Diagnostics faults;
    const Box aimed = enlarged(box, {stand->target_mm - stand->nominal_mm, 0.0, 0.0});
    const BoxGeometry resolved = resolve_geometry(job, aimed, faults);
    if (faults.has_errors())
      lines.push_back("box " + box.id + ": cannot be built to its target width");
    else
      check(aimed, resolved, stand);
  }
  verify::check_row(job, plan, lines);
  for (const BoxPlan& box : plan.boxes)
    if (!stated.count(box.id))
      lines.push_back("box " + box.id + ": is planned, but the job does not state it");
  return lines;
}

} // namespace tacksquare
