// Several welds as one.
#include "physics/elastic/box_model.h"

#include <algorithm>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

void append(VectorXd& to, const VectorXd& more) {
  VectorXd all(to.size() + more.size());
  all << to, more;
  to = std::move(all);
}

// New readings as sums of old ones.
class Sums {
 public:
  Index add(const Indices& of) {
    of_.push_back(of);
    return static_cast<Index>(of_.size()) - 1;
  }

  MatrixXd rows(const MatrixXd& old) const {
    MatrixXd made = MatrixXd::Zero(static_cast<Index>(of_.size()), old.cols());
    for (std::size_t i = 0; i < of_.size(); ++i)
      for (const Index from : of_[i])
        made.row(static_cast<Index>(i)) += old.row(from);
    return made;
  }

 private:
  std::vector<Indices> of_;
};

} // namespace

TackedBox merged(const TackedBox& box, const std::vector<std::vector<std::size_t>>& together) {
  TackedBox made;
  Sums readings;
  MatrixXd free = MatrixXd::Zero(box.structure.readings(), static_cast<Index>(2 * together.size()));
  for (std::size_t m = 0; m < together.size(); ++m) {
    Joint all;
    Indices along, across;
    for (const std::size_t w : together[m]) {
      const Joint& joint = box.welds[w];
      if (all.readings.empty()) {
        all.seam = joint.seam;
        all.from_mm = joint.from_mm;
        all.to_mm = joint.to_mm;
      }
      all.from_mm = std::min(all.from_mm, joint.from_mm);
      all.to_mm = std::max(all.to_mm, joint.to_mm);
      for (const Index r : joint.readings)
        all.readings.push_back(readings.add({r}));
      append(all.stiffness, joint.stiffness);
      append(all.shrunk.across, joint.shrunk.across);
      append(all.shrunk.angle, joint.shrunk.angle);
      append(all.apart, joint.apart);
      along.push_back(joint.along_load);
      if (joint.shrunk.across_load >= 0) across.push_back(joint.shrunk.across_load);
      for (const Index kind : {0, 1})
        free.col(static_cast<Index>(2 * m) + kind) +=
            box.structure.free.col(static_cast<Index>(2 * w) + kind);
    }
    all.along_load = readings.add(along);
    if (!across.empty()) all.shrunk.across_load = readings.add(across);
    made.welds.push_back(std::move(all));
  }
  for (const Index r : box.measures)
    made.measures.push_back(readings.add({r}));
  made.structure.compliance = readings.rows(readings.rows(box.structure.compliance).transpose());
  made.structure.motions = readings.rows(box.structure.motions);
  made.structure.free = readings.rows(free);
  return made;
}

} // namespace tacksquare::elastic
