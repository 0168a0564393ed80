// What a box looks like that nobody has pulled together yet.
#include "physics/elastic/joint_maker.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

namespace {

double middle_of(const Joint& joint, int cell) {
  const auto c = static_cast<std::size_t>(cell);
  return 0.5 * (joint.cuts[c] + joint.cuts[c + 1]);
}

} // namespace

Eigen::MatrixXd JointMaker::misfit_cases(const BoxModel& model, const std::vector<Misfit>& misfits,
                                         Closing& bends) const {
  Eigen::MatrixXd free =
      Eigen::MatrixXd::Zero(static_cast<Index>(readings.size()), static_cast<Index>(misfits.size()));
  for (std::size_t k = 0; k < misfits.size(); ++k) {
    const Misfit& misfit = misfits[k];
    const auto col = static_cast<Index>(k);
    switch (misfit.kind) {
    case Misfit::Kind::stretch:
      for (std::size_t i = 0; i < readings.size(); ++i)
        free(static_cast<Index>(i), col) = model.plates->stretched(readings[i], misfit.of, misfit.direction);
      break;
    case Misfit::Kind::lean: {
      Index row = 0;
      for (std::size_t b = 0; b < misfit.of; ++b)
        row += static_cast<Index>(model.bends[b].readings.size());
      const Joint& bend = model.bends[misfit.of];
      const int cells = cells_of(bend);
      for (int c = 0; c < cells; ++c) {
        const double at = middle_of(bend, c) / bend.to_mm;
        bends.rest(row + 4 * c + 3, col) =
            -opening(bend_lines[misfit.of]) * (misfit.place == 0 ? 1.0 : 2.0 * at - 1.0);
      }
      break;
    }
    case Misfit::Kind::gap:
      for (const auto* joints : {&model.tacks, &model.welds})
        for (const Joint& j : *joints)
          if (j.seam == misfit.of) open_seam(j, misfit.place, free, col);
      break;
    }
  }
  return free;
}

// +1 when a bend opens by turning side b about `along` against side a.
double JointMaker::opening(const JointLine& line) const {
  const Face& b = box.faces[line.b.face];
  Vec2 middle;
  for (const Vec2 p : b.outline)
    middle = middle + p * (1.0 / static_cast<double>(b.outline.size()));
  const Vec3 to_middle = b.placement.at(middle) - line.start;
  return dot(cross(line.along, to_middle), b.placement.normal()) >= 0.0 ? 1.0 : -1.0;
}

void JointMaker::open_seam(const Joint& joint, int place, Eigen::MatrixXd& free, Index col) const {
  const SeamLine& line = geometry.seams[joint.seam];
  const int cells = cells_of(joint);
  for (int c = 0; c < cells; ++c) {
    const double at = middle_of(joint, c) / line.length_mm;
    const double open = std::max(0.0, 1.0 - std::abs(at - 0.5 * place) / 0.5);
    for (const Index i : {4 * c + 1, 4 * c + 2})
      free(joint.readings[static_cast<std::size_t>(i)], col) = open * joint.apart(i);
  }
}

} // namespace tacksquare::elastic
