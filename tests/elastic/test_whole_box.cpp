// The condensed model against the whole box solved at once.
#include "elastic/made_box.h"
#include "support/catch.h"

#include <cmath>
#include <numeric>

using namespace tacksquare;
using namespace tacksquare::test;
using namespace tacksquare::elastic;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double kMesh_mm = 50.0;

VectorXd loads_of(const BoxModel& model, const StatedLoad& load) {
  VectorXd loads = VectorXd::Zero(static_cast<Index>(model.readings.size()));
  for (const auto& [figure, amount] : load.on)
    loads(model.measures[figure]) += amount;
  return loads;
}

// The same by the condensed structure.
VectorXd condensed_figures(const TackedBox& box, const StatedLoad& load, std::size_t figures) {
  VectorXd loads = VectorXd::Zero(box.structure.readings());
  for (const auto& [figure, amount] : load.on)
    loads(box.measures[figure]) += amount;
  const VectorXd u = box.structure.compliance * loads;
  VectorXd own(static_cast<Index>(figures));
  for (std::size_t i = 0; i < figures; ++i)
    own(static_cast<Index>(i)) = u(box.measures[i]);
  return own;
}

VectorXd figures_of(const BoxModel& model, const VectorXd& readings, std::size_t figures) {
  VectorXd own(static_cast<Index>(figures));
  for (std::size_t i = 0; i < figures; ++i)
    own(static_cast<Index>(i)) = readings(model.measures[i]);
  return own;
}

// Of the largest figure: small ones are differences of large movements.
double difference(const MatrixXd& a, const MatrixXd& b) {
  return (a - b).cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
}

std::vector<std::size_t> all_of(const std::vector<Joint>& welds) {
  std::vector<std::size_t> order(welds.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  return order;
}

std::vector<Shrinkage> stated_shrinkage(const StatedBox& b) {
  std::vector<Shrinkage> made;
  for (std::size_t s = 0; s < b.box.seams.size(); ++s)
    made.push_back({0.3 + 0.02 * static_cast<double>(s), 20000.0 - 500.0 * static_cast<double>(s), 0.01});
  return made;
}

} // namespace

TEST_CASE("each step of a stated box moves the condensed model as it moves the whole box") {
  std::size_t steps = 0;
  for (const StatedBox& stated : stated_boxes()) {
    if (stated.tacks.empty()) continue;
    StatedBox b = stated;
    const std::vector<StatedLoad> loads = step_loads(b);
    const BoxModel model = made_box(b, joined_options(kMesh_mm));
    TackedBox box = tacked(model);
    std::vector<std::size_t> made;
    for (std::size_t k = 0; k < loads.size(); ++k, ++steps) {
      INFO(b.name << ", step " << k + 1);
      made.push_back(k);
      const WholeBox whole(model, welded_springs(model, made));
      const VectorXd u = whole.displacements(loads_of(model, loads[k]));
      const VectorXd direct = figures_of(model, whole.read(u), stated.figures.size());
      const Joint& joint = box.welds[k];
      box.structure =
          closed(box.structure, {joint.readings, joint.stiffness,
                                 MatrixXd::Zero(joint.stiffness.size(), box.structure.free.cols())});
      const VectorXd condensed = condensed_figures(box, loads[k], stated.figures.size());
      CHECK(difference(condensed, direct) < 1e-6);
    }
  }
  CHECK(steps == 42);
}

TEST_CASE("each single case of a stated box moves the condensed model as it moves the whole box") {
  std::size_t cases = 0;
  for (const StatedBox& stated : stated_boxes())
    for (const auto& [name, c] : stated.cases) {
      INFO(stated.name << ", " << name);
      StatedBox b = stated;
      const StatedLoad load = case_load(b, name);
      std::vector<TackPlace> joined;
      for (const WeldLength& w : c.joined)
        joined.push_back({w.seam, 0.5 * (w.from_mm + w.to_mm), w.to_mm - w.from_mm});
      const BoxModel model = made_box(b, joined, {}, joined_options(kMesh_mm));
      const WholeBox whole(model, welded_springs(model, {}));
      const VectorXd u = whole.displacements(loads_of(model, load));
      const VectorXd direct = figures_of(model, whole.read(u), stated.figures.size());
      const VectorXd condensed = condensed_figures(tacked(model), load, stated.figures.size());
      CHECK(difference(condensed, direct) < 1e-6);
      ++cases;
    }
  CHECK(cases == 3);
}

TEST_CASE("welding seam by seam gives the same figures in the whole box, step by step and in the end") {
  for (const std::string name : {"open", "closed", "divider", "hopper"}) {
    INFO(name);
    const StatedBox b = stated_box(name);
    ModelOptions options;
    options.mesh_mm = kMesh_mm;
    const BoxModel model = made_box(b, options);
    const TackedBox box = tacked(model);
    const std::vector<Shrinkage> shrinkage = stated_shrinkage(b);
    const std::vector<std::size_t> order = all_of(model.welds);
    const MatrixXd condensed = states(box, order, weld_sequence(box, order), shrinkage);

    VectorXd sum = VectorXd::Zero(static_cast<Index>(model.readings.size()));
    MatrixXd of_seam = MatrixXd::Zero(sum.size(), static_cast<Index>(b.box.seams.size()));
    MatrixXd direct(condensed.rows(), condensed.cols());
    std::vector<std::size_t> made;
    for (const std::size_t w : order) {
      made.push_back(w);
      const Joint& joint = model.welds[w];
      const Shrinkage& s = shrinkage[joint.seam];
      VectorXd loads = VectorXd::Zero(sum.size());
      loads(joint.along_load) = s.force_N;
      if (joint.shrunk.across_load >= 0) loads(joint.shrunk.across_load) = s.across_mm;
      for (std::size_t i = 0; i < joint.readings.size(); ++i) {
        const auto row = static_cast<Index>(i);
        // Frozen free of stress, and what the seam's other lengths did already does not count twice.
        const double rest = s.across_mm * joint.shrunk.across(row) + s.angle_rad * joint.shrunk.angle(row) -
                            of_seam(joint.readings[i], static_cast<Index>(joint.seam));
        loads(joint.readings[i]) += joint.stiffness(row) * rest;
      }
      for (const Joint& tack : model.tacks)
        for (std::size_t i = 0; i < tack.readings.size(); ++i) {
          const auto row = static_cast<Index>(i);
          loads(tack.readings[i]) +=
              tack.stiffness(row) * covered(tack, joint) *
              (s.across_mm * tack.shrunk.across(row) + s.angle_rad * tack.shrunk.angle(row));
        }
      const WholeBox whole(model, welded_springs(model, made));
      const VectorXd step = whole.read(whole.displacements(loads));
      sum += step;
      of_seam.col(static_cast<Index>(joint.seam)) += step;
      direct.col(static_cast<Index>(made.size()) - 1) = figures_of(model, sum, b.figures.size());
    }
    CHECK(difference(condensed, direct) < 3e-6); // elements of 5 mm beside bends ten times as stiff

    const WholeBox whole(model, welded_springs(model, order));
    const VectorXd end = whole.read(whole.displacements(welded_loads(model, order, shrinkage)));
    CHECK(difference(figures_of(model, end, b.figures.size()), direct.rightCols(1)) < 1e-6);
  }
}

TEST_CASE("a rigid motion strains nothing in the whole box") {
  for (const StatedBox& b : stated_boxes()) {
    if (b.tacks.empty()) continue;
    INFO(b.name);
    ModelOptions options;
    options.mesh_mm = kMesh_mm;
    const BoxModel model = made_box(b, options);
    const WholeBox whole(model, welded_springs(model, all_of(model.welds)));
    const MatrixXd r = rigid_motions(whole);
    // Turned boxes state their corners to 1e-7 mm, and so the directions of their faces to 1e-9.
    const double least = b.name == "hexagon" || b.name == "hopper" ? 1e-9 : 1e-14;
    for (Index i = 0; i < 6; ++i) {
      // Against the forces that cancel: all of one sign.
      const MatrixXd forces = whole.stiffness() * r.col(i);
      const MatrixXd parts = whole.stiffness().cwiseAbs() * r.col(i).cwiseAbs();
      CHECK(forces.norm() < least * parts.norm());
    }
  }
}

TEST_CASE("what one load does at another's place the other does at its own") {
  for (const std::string name : {"closed", "hexagon", "cutouts"}) {
    INFO(name);
    const StatedBox b = stated_box(name);
    ModelOptions options;
    options.mesh_mm = kMesh_mm;
    const BoxModel model = made_box(b, options);
    const WholeBox whole(model, welded_springs(model, {}));
    // Jumps across the first weld, and the figures: loads in balance.
    Indices in_balance = model.welds.front().readings;
    in_balance.insert(in_balance.end(), model.measures.begin(), model.measures.end());
    MatrixXd loads =
        MatrixXd::Zero(static_cast<Index>(model.readings.size()), static_cast<Index>(in_balance.size()));
    for (std::size_t i = 0; i < in_balance.size(); ++i)
      loads(in_balance[i], static_cast<Index>(i)) = 1.0;
    const MatrixXd c = whole.read(whole.displacements(loads))(in_balance, Eigen::all);
    CHECK((c - c.transpose()).cwiseAbs().maxCoeff() < 1e-9 * c.cwiseAbs().maxCoeff());
    // And it is the condensed compliance.
    const Structure tacked_box = closed(model.parts, closing_of(model.tacks, model.parts.free.cols()));
    const MatrixXd condensed = tacked_box.compliance(in_balance, in_balance);
    CHECK(difference(condensed, c) < 1e-6);
  }
}
