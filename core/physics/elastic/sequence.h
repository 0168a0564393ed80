// The box step by step while its seams are welded, all tacks kept.
#pragma once

#include "physics/elastic/box_model.h"

#include <array>
#include <vector>

namespace tacksquare::elastic {

// What a length of weld shrinks.
struct Shrinkage {
  double across_mm = 0.0, force_N = 0.0, angle_rad = 0.0;
};

// What one step does to each measure, for a unit of each kind of shrinkage of one seam: columns as in
// Shrinkage.
using Response = Eigen::Matrix<double, Eigen::Dynamic, 3>;

// Where a weld's own loads, of a unit each, would move readings while nothing is welded: those in the base
// and along the seam, and tacks that shrink under the bead. readings x 3.
Eigen::MatrixXd loaded(const TackedBox& box, std::size_t weld, const Indices& readings);

// Welds the lengths in this order (indices in TackedBox::welds, each at most once). Step k freezes the misfit
// of its moment free of stress, makes its length continuous and lets it shrink; lengths of one seam share its
// shrinkage instead of each adding its own on top of what the others did. Returns measures x 3 for each step:
// linear in the shrinkage of the step's own seam. Throws NumericalFailure.
//
// forces, where asked for: of each step those of all springs made so far, in the order in which they were
// made, x 3.
std::vector<Response> weld_sequence(const TackedBox& box, const std::vector<std::size_t>& order,
                                    std::vector<Eigen::MatrixXd>* forces = nullptr);

// Steps added up with the shrinkage of each box's seam: measures x steps, each column the state after that
// step.
Eigen::MatrixXd states(const TackedBox& box, const std::vector<std::size_t>& order,
                       const std::vector<Response>& steps, const std::vector<Shrinkage>& of_seams);

} // namespace tacksquare::elastic
