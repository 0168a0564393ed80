// Linear buckling of the whole box under the stress that its seams leave.
#pragma once

#include "physics/elastic/stress.h"
#include "physics/elastic/whole_box.h"

#include <vector>

namespace tacksquare::elastic {

// All loads times `factor` buckle the box into `shape`. Beyond it, force/critical = 1/factor:
// formulas/buckling.h has the depth that it stands for.
struct BucklingMode {
  double factor = 0.0;
  std::size_t face = 0; // bulges most; the first of equals
  std::vector<double>
      bulge;   // by face: farthest out of its own plane (least squares), 1 for the face that does most
  Shape shape; // that face's bulge is 1 mm
};

inline constexpr double kMostFactor = 1000.0; // no mode is looked for beyond

// The lowest positive factors of K shape = -factor K_G shape, in order, at most `count`; fewer or none when
// the others lie beyond kMostFactor. K_G: membrane forces and strings do work on the turning of what they act
// on (Green's strain: w, and u and v so that turning the whole box does none). Block Lanczos, every vector
// kept orthogonal (Golub and Underwood 1977). Throws NumericalFailure when it does not converge.
std::vector<BucklingMode> buckling_modes(const WholeBox& whole, const MembraneForces& forces,
                                         const std::vector<SeamString>& strings, std::size_t count);

// K_G, freedoms x freedoms.
Eigen::SparseMatrix<double> geometric_stiffness(const WholeBox& whole, const MembraneForces& forces,
                                                const std::vector<SeamString>& strings);

// Of the box under `loads` on readings: its own shape's membrane forces and the strings of its seams.
std::vector<BucklingMode> buckling_modes(const WholeBox& whole, const Eigen::VectorXd& loads,
                                         std::size_t count);

} // namespace tacksquare::elastic
