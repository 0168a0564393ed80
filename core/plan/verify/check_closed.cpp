// Closed boxes: the vent open through welding and cooling and plugged last, inside work before the last face.
#include "plan/verify/checking.h"

#include <algorithm>

namespace tacksquare::verify {
namespace {

std::size_t step_with_key(const Checking& c, std::string_view key) {
  return c.first_step([&](const Step& step) { return step.what.key == key; });
}

} // namespace

std::size_t last_face(const Checking& c) {
  if (c.box.last_face) return c.face_index(*c.box.last_face);
  const std::size_t lid = step_with_key(c, "step.lid-trim");
  const Arg* face = c.has(lid) ? argument(c.plan.steps[lid].what, "face") : nullptr;
  if (!face || face->list.empty()) return c.box.faces.size();
  const Text& name = face->list.front();
  if (name.key == "plain") {
    const Arg* text = argument(name, "text");
    return c.face_index(text ? text->word : std::string());
  }
  return c.face_index(name.key.substr(name.key.find('.') + 1));
}

std::size_t step_that_shuts(const Checking& c, std::size_t face) {
  std::size_t shut = c.plan.steps.size();
  for (const PlannedTack& tack : c.plan.tacks) {
    const std::size_t seam = c.seam_index(tack.seam);
    const auto made = c.step_of_tack.find(tack.id);
    if (seam < c.box.seams.size() && c.on_face(c.box.seams[seam], face) && made != c.step_of_tack.end())
      shut = std::min(shut, made->second);
  }
  return shut;
}

namespace {

void check_vents(const Checking& c) {
  if (c.box.vents.empty()) {
    c.tell("is closed and has no vent");
    return;
  }
  const std::vector<Step>& steps = c.plan.steps;
  const std::size_t open = step_with_key(c, "step.vent-open");
  const std::size_t lid = step_with_key(c, "step.tack-lid");
  if (!c.has(open) || !c.has(lid) || open > lid)
    c.tell("no step opens the vent before the last face is tacked on");
  std::vector<std::string> open_vents;
  for (const Vent& vent : c.box.vents)
    if (vent.plugged_last) open_vents.push_back(c.box.faces[vent.face].id);
  bool plugging = false;
  for (const Step& step : steps) {
    if (step.what.key != "step.plug-vent") {
      if (plugging) c.tell("step {} comes after a vent was plugged", step.number);
      continue;
    }
    plugging = true;
    const Arg* face = argument(step.what, "face");
    const auto found = std::find(open_vents.begin(), open_vents.end(), face ? face->word : std::string());
    if (found == open_vents.end())
      c.tell("step {} plugs a vent that is not to be plugged", step.number);
    else
      open_vents.erase(found);
    if (step.until.empty()) c.tell("step {} plugs a vent without waiting for a cold box", step.number);
  }
  for (const std::string& face : open_vents)
    c.tell("the vent in {} is never plugged", face);
}

void check_inside_first(const Checking& c) {
  const std::size_t face = last_face(c);
  if (face == c.box.faces.size()) {
    c.tell("no step names the face that goes on last");
    return;
  }
  const std::size_t shut = step_that_shuts(c, face);
  for (const PlannedTack& tack : c.plan.tacks) {
    const std::size_t seam = c.seam_index(tack.seam);
    const auto made = c.step_of_tack.find(tack.id);
    if (seam < c.box.seams.size() && !c.on_face(c.box.seams[seam], face) && made != c.step_of_tack.end() &&
        made->second > shut)
      c.tell("tack {} comes after the last face {} is on", tack.id, c.box.faces[face].id);
  }
  for (const PlannedRun& run : c.plan.runs) {
    const std::size_t seam = c.seam_index(run.seam);
    const auto made = c.step_of_run.find(run.id);
    if (seam == c.box.seams.size() || made == c.step_of_run.end()) continue;
    if (c.box.seams[seam].side == WeldSide::inside && made->second > shut)
      c.tell("run {} is inside, but comes after the last face {} is on", run.id, c.box.faces[face].id);
  }
  for (const Seam& seam : c.box.seams)
    if (c.on_face(seam, face) && seam.side == WeldSide::inside)
      c.tell("seam {} of the last face {} is inside", seam.id, c.box.faces[face].id);
  for (const char* key : {"step.inside-finished", "step.tooling-out"}) {
    const std::size_t step = step_with_key(c, key);
    if (!c.has(step) || step > shut)
      c.tell("no step '{}' comes before the last face {} is on", key, c.box.faces[face].id);
  }
}

} // namespace

void check_closed(const Checking& c) {
  if (!c.geometry.closed) return;
  check_vents(c);
  check_inside_first(c);
}

} // namespace tacksquare::verify
