// Boxes of tests/data/elastic_boxes.txt: stated once for our model and for the outside solver.
#pragma once

#include "physics/elastic/box_model.h"
#include "physics/elastic/piece.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare::test {

struct StatedStep {
  std::size_t seam = 0;
  double from_mm = 0.0, to_mm = 0.0, force_N = 0.0, moment_Nmm = 0.0;
};

// A single load case: lengths that are joined, and forces on points.
struct StatedCase {
  std::vector<elastic::WeldLength> joined;
  std::vector<std::pair<Vec3, Vec3>> forces;
};

struct StatedBox {
  std::string name;
  Job job;
  Box box;
  BoxGeometry geometry; // only what the elastic model looks at
  std::vector<elastic::TackPlace> tacks;
  std::vector<StatedStep> steps;
  std::optional<elastic::Piece> former; // on in every step
  std::map<std::string, StatedCase> cases;
  std::vector<elastic::Figure> figures;
};

// The same boxes elsewhere in space, mirrored, larger, or with their faces listed the other way round.
struct Change {
  std::function<Vec3(Vec3)> move{}; // of points; nothing: as stated
  bool mirrored = false;            // `move` turns left into right
  double thicker = 1.0;
  bool faces_backward = false;
};

std::vector<StatedBox> stated_boxes(const Change& change = {});
StatedBox stated_box(const std::string& name, const Change& change = {});

// Figures where loads of the steps and cases act, with their amounts: after StatedBox::figures.
struct StatedLoad {
  std::vector<std::pair<std::size_t, double>> on; // index of a figure, amount
};
std::vector<StatedLoad> step_loads(StatedBox& box);            // adds figures to the box
StatedLoad case_load(StatedBox& box, const std::string& name); // adds figures to the box

// Joined as one sheet: springs so stiff that more changes nothing, and nothing that another program's net of
// the same elements does not have.
elastic::ModelOptions joined_options(double mesh_mm);

// Throws with what was told where there is a fault.
elastic::BoxModel made_model(const StatedBox& stated, const std::vector<elastic::TackPlace>& tacks,
                             const std::vector<elastic::WeldLength>& welds,
                             const elastic::ModelOptions& options);

// By our model: step -> figure values (mm), the box's own figures only. Each step by itself, without the
// former.
std::vector<Eigen::VectorXd> solved_steps(const StatedBox& stated, const elastic::ModelOptions& options);
Eigen::VectorXd solved_case(const StatedBox& stated, const std::string& name, double mesh_mm);

} // namespace tacksquare::test
