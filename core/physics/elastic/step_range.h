// What a weld can do at most and at least, whichever others are there: for orders too many to table.
#pragma once

#include "physics/elastic/sequence.h"

namespace tacksquare::elastic {

// Of a weld under amounts a (as Shrinkage: across, along, angle) row i of what it does lies within middle(i)
// a
// +- reach(i) sqrt(a' spread a), whatever set of the others has come before it.
struct StepRange {
  Response middle; // rows x 3
  Eigen::VectorXd reach;
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
};

// Of each of `seams` (welds of the box that come in any order), those `before` being there: rows are the
// box's measures by `rows` (rows x measures). Springs X take c' P g from row c, g where the weld's loads
// would move the springs, P the inverse of their compliance and flexibility over X and nothing beside: more
// springs only add to it, P(own) <= P(X) <= P(all) (the largest of 2 g'y - y'My over y on X). So c' P(X) g is
// c' of the mean of both g, to within half the root of c'Dc g'Dg, D their difference (Cauchy and Schwarz).
// Derived. Throws NumericalFailure.
std::vector<StepRange> step_ranges(const TackedBox& box, const std::vector<std::size_t>& before,
                                   const std::vector<std::size_t>& seams, const Eigen::MatrixXd& rows);

} // namespace tacksquare::elastic
