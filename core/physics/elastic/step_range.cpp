#include "physics/elastic/step_range.h"

#include "physics/shell/dense.h"

#include <algorithm>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// Springs of welds: how rows share in them, and factored what they give.
struct Sprung {
  Indices readings;
  std::vector<Index> first; // of each weld
  MatrixXd lower, of_rows;  // factor; factor^-1 of their compliance to the rows

  Sprung(const TackedBox& box, const std::vector<std::size_t>& welds, const MatrixXd& rows) {
    std::vector<double> flexibility;
    for (const std::size_t w : welds) {
      first.push_back(static_cast<Index>(readings.size()));
      readings.insert(readings.end(), box.welds[w].readings.begin(), box.welds[w].readings.end());
      for (const double k : box.welds[w].stiffness)
        flexibility.push_back(1.0 / k);
    }
    MatrixXd m = box.structure.compliance(readings, readings);
    m.diagonal() += Eigen::Map<const VectorXd>(flexibility.data(), m.rows());
    lower = shell::cholesky(m, "springs of welds");
    of_rows = box.structure.compliance(readings, box.measures) * rows.transpose();
    shell::solve_lower(lower, of_rows);
  }

  // factor^-1 of where the weld's loads of a unit each would move the springs, its own rest taken off.
  MatrixXd moved(const TackedBox& box, std::size_t weld, Index own_first) const {
    const Joint& joint = box.welds[weld];
    MatrixXd g = loaded(box, weld, readings);
    const Index n = joint.stiffness.size();
    g.col(0).segment(own_first, n) -= joint.shrunk.across;
    g.col(2).segment(own_first, n) -= joint.shrunk.angle;
    shell::solve_lower(lower, g);
    return g;
  }
};

} // namespace

std::vector<StepRange> step_ranges(const TackedBox& box, const std::vector<std::size_t>& before,
                                   const std::vector<std::size_t>& seams, const MatrixXd& rows) {
  std::vector<std::size_t> all = before;
  all.insert(all.end(), seams.begin(), seams.end());
  const Sprung most(box, all, rows);
  std::vector<StepRange> ranges;
  for (std::size_t i = 0; i < seams.size(); ++i) {
    std::vector<std::size_t> own = before;
    own.push_back(seams[i]);
    const Sprung least(box, own, rows);
    const MatrixXd by_most = most.moved(box, seams[i], most.first[before.size() + i]),
                   by_least = least.moved(box, seams[i], least.first.back());
    StepRange made;
    made.middle = rows * loaded(box, seams[i], box.measures) -
                  0.5 * (most.of_rows.transpose() * by_most + least.of_rows.transpose() * by_least);
    made.reach = 0.5 * (most.of_rows.colwise().squaredNorm() - least.of_rows.colwise().squaredNorm())
                           .cwiseMax(0.0)
                           .cwiseSqrt()
                           .transpose();
    made.spread = by_most.transpose() * by_most - by_least.transpose() * by_least;
    if (!made.middle.allFinite() || !made.spread.allFinite())
      throw NumericalFailure("the range of a weld's step gave no finite figures");
    ranges.push_back(std::move(made));
  }
  return ranges;
}

} // namespace tacksquare::elastic
