// Stated boxes by our model.
#include "elastic/stated_box.h"

#include <stdexcept>

namespace tacksquare::test {

elastic::ModelOptions joined_options(double mesh_mm) {
  elastic::ModelOptions options;
  options.mesh_mm = mesh_mm;
  options.weld_spring = options.weld_turn = options.tack_spring = options.tack_turn = 50.0;
  options.beside_tacks = false;
  options.end_mm = 0.0;
  return options;
}

elastic::BoxModel made_model(const StatedBox& b, const std::vector<elastic::TackPlace>& tacks,
                             const std::vector<elastic::WeldLength>& welds,
                             const elastic::ModelOptions& options) {
  Diagnostics out;
  const auto model =
      elastic::make_box_model(b.job, b.box, b.geometry, tacks, welds, b.figures, {}, options, out);
  std::string said;
  for (const Diagnostic& d : out.items())
    said.append(d.code).append(": ").append(d.message).append("\n");
  if (!model) throw std::runtime_error(said);
  return *model;
}

namespace {

Eigen::VectorXd moved(const elastic::TackedBox& box, const StatedLoad& load, std::size_t figures) {
  Eigen::VectorXd p = Eigen::VectorXd::Zero(box.structure.readings());
  for (const auto& [figure, amount] : load.on)
    p(box.measures[figure]) += amount;
  const Eigen::VectorXd u = box.structure.compliance * p;
  Eigen::VectorXd own(static_cast<elastic::Index>(figures));
  for (std::size_t i = 0; i < figures; ++i)
    own(static_cast<elastic::Index>(i)) = u(box.measures[i]);
  return own;
}

} // namespace

std::vector<Eigen::VectorXd> solved_steps(const StatedBox& stated, const elastic::ModelOptions& options) {
  StatedBox b = stated;
  const std::size_t figures = b.figures.size();
  const std::vector<StatedLoad> loads = step_loads(b);
  if (b.tacks.empty()) { // joined before anything else
    if (b.steps.size() != 1) throw std::runtime_error(b.name + " has no tacks and several steps");
    const StatedStep& s = b.steps[0];
    const elastic::TackPlace joined{s.seam, 0.5 * (s.from_mm + s.to_mm), s.to_mm - s.from_mm};
    return {moved(elastic::tacked(made_model(b, {joined}, {}, options)), loads[0], figures)};
  }
  std::vector<elastic::WeldLength> welds;
  for (const StatedStep& s : b.steps)
    welds.push_back({s.seam, s.from_mm, s.to_mm});
  const elastic::BoxModel model = made_model(b, b.tacks, welds, options);
  elastic::TackedBox box = elastic::tacked(model);
  std::vector<Eigen::VectorXd> steps;
  for (std::size_t k = 0; k < loads.size(); ++k) {
    const elastic::Joint& joint = box.welds[k];
    box.structure = elastic::closed(
        box.structure, {joint.readings, joint.stiffness,
                        Eigen::MatrixXd::Zero(joint.stiffness.size(), box.structure.free.cols())});
    steps.push_back(moved(box, loads[k], figures));
  }
  return steps;
}

Eigen::VectorXd solved_case(const StatedBox& stated, const std::string& name, double mesh_mm) {
  StatedBox b = stated;
  const std::size_t figures = b.figures.size();
  const StatedLoad load = case_load(b, name);
  std::vector<elastic::TackPlace> joined;
  for (const elastic::WeldLength& w : b.cases.at(name).joined)
    joined.push_back({w.seam, 0.5 * (w.from_mm + w.to_mm), w.to_mm - w.from_mm});
  return moved(elastic::tacked(made_model(b, joined, {}, joined_options(mesh_mm))), load, figures);
}

} // namespace tacksquare::test
