#include "planning/planner/steps.h"

namespace tacksquare {

Step& StepWriter::add(Who who, std::string key, std::vector<Arg> args, double seconds) {
  Step& step = steps_.emplace_back();
  step.phase = phase_;
  step.who = who;
  step.what = {std::move(key), std::move(args)};
  step.seconds = seconds;
  return step;
}

std::vector<Step> StepWriter::take() {
  std::vector<Step> steps(steps_.begin(), steps_.end());
  for (std::size_t i = 0; i < steps.size(); ++i)
    steps[i].number = static_cast<int>(i) + 1;
  return steps;
}

std::vector<Step> write_steps(const BoxCase& box) {
  StepWriter out(Phase::check_parts);
  write_parts_and_preparation(box, out);
  write_set_up_and_fit(box, out);
  write_tacking(box, out);
  write_welding(box, out);
  write_checks_and_grinding(box, out);
  write_final_check(box, out);
  return out.take();
}

std::size_t tacking_attitude_index(const BoxCase& box) {
  return box.order.first_attitude;
}

const Attitude& tacking_attitude(const BoxCase& box) {
  return box.geometry.attitudes[tacking_attitude_index(box)];
}

Text attitude_name(const BoxCase& box, const Attitude& attitude) {
  if (attitude.down == "rim") return simple("attitude.rim");
  const bool letter = face_name(attitude.down).key != "plain";
  if (letter && box.box.form != BoxForm::own_faces) return simple("attitude." + attitude.down);
  return {"attitude.face", {word("face", attitude.down)}};
}

} // namespace tacksquare
