#include "elastic/made_box.h"

#include "support/catch.h"

#include <array>

namespace tacksquare::test {

using namespace elastic;

elastic::BoxModel made_box(const StatedBox& b, const std::vector<elastic::TackPlace>& tacks,
                           const std::vector<elastic::WeldLength>& welds,
                           const elastic::ModelOptions& options) {
  return made_model(b, tacks, welds, options);
}

elastic::BoxModel made_box(const StatedBox& b, const elastic::ModelOptions& options) {
  std::vector<elastic::WeldLength> welds;
  for (const StatedStep& s : b.steps)
    welds.push_back({s.seam, s.from_mm, s.to_mm});
  return made_box(b, b.tacks, welds, options);
}

std::vector<Spring> welded_springs(const BoxModel& model, const std::vector<std::size_t>& welds) {
  std::vector<Joint> joints = model.tacks;
  for (const std::size_t w : welds)
    joints.push_back(model.welds[w]);
  return springs_of(joints);
}

Eigen::VectorXd welded_loads(const BoxModel& model, const std::vector<std::size_t>& welds,
                             const std::vector<Shrinkage>& of_seams) {
  std::vector<Event> events;
  for (std::size_t i = 0; i < model.tacks.size(); ++i)
    events.push_back({Event::Kind::tack, i});
  for (const std::size_t w : welds)
    events.push_back({Event::Kind::weld, w});
  const Cases cases = cases_of(model, of_seams.size());
  Eigen::VectorXd amounts = Eigen::VectorXd::Zero(cases.count());
  for (std::size_t k = 0; k < of_seams.size(); ++k) {
    amounts(cases.across(k)) = of_seams[k].across_mm;
    amounts(cases.along(k)) = of_seams[k].force_N;
    amounts(cases.angle(k)) = of_seams[k].angle_rad;
  }
  return end_of_history(model, events, {}, cases, amounts).loads;
}

Eigen::MatrixXd rigid_motions(const elastic::WholeBox& whole) {
  const elastic::Plates& plates = *whole.model().plates;
  Eigen::MatrixXd motions = Eigen::MatrixXd::Zero(whole.freedoms(), 6);
  const std::array<Vec3, 3> axes = {Vec3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    if (!plates.has(f)) continue;
    const auto& nodes = plates.plate(f).mesh().nodes;
    for (std::size_t n = 0; n < nodes.size(); ++n)
      for (std::size_t a = 0; a < 3; ++a) {
        const Vec3 moved = plates.local(f, axes[a]);
        const Vec3 turned = plates.local(f, cross(axes[a], plates.frame(f).at(nodes[n])));
        const Index row = whole.first(f) + static_cast<Index>(n * shell::kNodeFreedoms);
        const auto col = static_cast<Index>(a);
        motions.col(col).segment(row, 3) << moved.x, moved.y, moved.z;
        motions.col(col + 3).segment(row, 6) << turned.x, turned.y, turned.z, moved.x, moved.y, moved.z;
      }
  }
  return motions;
}

} // namespace tacksquare::test
