#include "planning/planner/elastic_shape.h"

#include "base/numbers.h"
#include "formulas/buckling.h"
#include "physics/elastic/buckling.h"
#include "physics/elastic/moved.h"

#include <algorithm>

namespace tacksquare {
namespace {

constexpr std::size_t kModes = 8;
constexpr double kFactorStep = 0.001;
constexpr double kHasPart = 0.5;    // of what the face that bulges most does
constexpr double kTellBelow = 20.0; // factors beyond are no news

Vec3 settled(Vec3 v) {
  return {round_to(v.x, kElasticStep_mm), round_to(v.y, kElasticStep_mm), round_to(v.z, kElasticStep_mm)};
}

// The strongest of the seams on a face, of a face without one the strongest of all; null: none pulls.
const Band* strongest_force(const ElasticCase& made, const Box& box, std::size_t face) {
  const Band *own = nullptr, *any = nullptr;
  for (std::size_t s = 0; s < box.seams.size(); ++s) {
    const Band& of = made.making.seams[s].force_N;
    if (of.low <= 0.0) continue;
    if (!any || of.value > any->value) any = &of;
    if (box.seams[s].face_a != face && box.seams[s].face_b != face) continue;
    if (!own || of.value > own->value) own = &of;
  }
  return own ? own : any;
}

// The more force, the less.
Band factor_band(double factor, const ElasticCase& made, const BoxCase& box, std::size_t face) {
  const Band* found = strongest_force(made, box.box, face);
  const Band force = found ? *found : Band{1.0, 1.0, 1.0};
  const auto told = [](double x) { return round_to(x, kFactorStep); };
  return {told(factor), told(factor * force.value / force.high), told(factor * force.value / force.low)};
}

FaceBuckling face_buckling(double factor, const ElasticCase& made, const BoxCase& box, std::size_t face) {
  FaceBuckling b{box.box.faces[face].id, factor_band(factor, made, box, face), {}};
  if (b.factor.value < 1.0) {
    const Sheet& sheet = box.sheet_of(box.box.parts[box.box.faces[face].part]);
    b.depth_mm = round_to(
        formulas::buckled_depth_mm(in_mm(sheet.thickness), sheet.metal.poisson, 1.0 / factor).value, 0.1);
  }
  return b;
}

// Of each face the first mode in which it has a part: walls that are alike bulge together.
std::vector<FaceBuckling> buckling_of(const std::vector<elastic::BucklingMode>& modes,
                                      const ElasticCase& made, const BoxCase& box) {
  std::vector<FaceBuckling> told;
  std::vector<bool> known(box.box.faces.size(), false);
  for (const elastic::BucklingMode& mode : modes)
    for (std::size_t f = 0; f < known.size() && mode.factor <= kTellBelow; ++f) {
      if (known[f] || mode.bulge[f] < kHasPart) continue;
      known[f] = true;
      told.push_back(face_buckling(mode.factor, made, box, f));
    }
  return told;
}

} // namespace

elastic::Shape put_shape(const ElasticCase& made, const elastic::Expectation& expected, const BoxCase& box,
                         ElasticPlan& plan) {
  const elastic::BoxModel& model = *expected.model;
  const Eigen::VectorXd& loads = expected.end.loads;
  const elastic::WholeBox whole(model, expected.end.springs);
  elastic::Shape shape = elastic::settled(*model.plates, whole.shape(whole.displacements(loads).col(0)));
  for (const elastic::MovedLine& line : elastic::moved_edges(box.box, *model.plates, shape)) {
    MovedEdge edge;
    edge.face = box.box.faces[line.face].id;
    for (const Vec3 at : line.at)
      edge.at.push_back(settled(at));
    for (const Vec3 by : line.moved)
      edge.moved.push_back(settled(by));
    plan.shape.push_back(std::move(edge));
  }
  plan.buckling = buckling_of(elastic::buckling_modes(whole, loads, kModes), made, box);
  return shape;
}

} // namespace tacksquare
