// Stated boxes as models, for what looks at the whole box.
#pragma once

#include "elastic/stated_box.h"
#include "physics/elastic/history.h"
#include "physics/elastic/sequence.h"
#include "physics/elastic/whole_box.h"

namespace tacksquare::test {

// All steps' lengths as welds, the box's tacks; no misfits.
elastic::BoxModel made_box(const StatedBox& stated, const elastic::ModelOptions& options);
// The same with other tacks and welds.
elastic::BoxModel made_box(const StatedBox& stated, const std::vector<elastic::TackPlace>& tacks,
                           const std::vector<elastic::WeldLength>& welds,
                           const elastic::ModelOptions& options);

// Springs of all tacks and these welds, and what loads them when the welds were made in this order (tacks
// kept, which shrink only with the bead).
std::vector<elastic::Spring> welded_springs(const elastic::BoxModel& model,
                                            const std::vector<std::size_t>& welds);
Eigen::VectorXd welded_loads(const elastic::BoxModel& model, const std::vector<std::size_t>& welds,
                             const std::vector<elastic::Shrinkage>& of_seams);

// Freedoms of the whole box under six rigid motions: translations along and rotations about x, y and z of the
// box frame.
Eigen::MatrixXd rigid_motions(const elastic::WholeBox& whole);

} // namespace tacksquare::test
