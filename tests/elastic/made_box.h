// Stated boxes as models, for what looks at the whole box.
#pragma once

#include "elastic/stated_box.h"
#include "physics/elastic/whole_box.h"

namespace tacksquare::test {

// All steps' lengths as welds, the box's tacks; no misfits.
elastic::BoxModel made_box(const StatedBox& stated, const elastic::ModelOptions& options);
// The same with other tacks and welds.
elastic::BoxModel made_box(const StatedBox& stated, const std::vector<elastic::TackPlace>& tacks,
                           const std::vector<elastic::WeldLength>& welds,
                           const elastic::ModelOptions& options);

// Freedoms of the whole box under six rigid motions: translations along and rotations about x, y and z of the
// box frame.
Eigen::MatrixXd rigid_motions(const elastic::WholeBox& whole);

} // namespace tacksquare::test
