// The whole box as one sparse system: for shapes and stresses, and as a direct check of the condensed model.
#pragma once

#include "physics/elastic/box_model.h"

#include <Eigen/Sparse>

#include <vector>

namespace tacksquare::elastic {

std::vector<Spring> springs_of(const std::vector<Joint>& joints);

// All freedoms of each face, in its plate's own frame (mm, rad); empty where the face is loose.
using Shape = std::vector<Eigen::VectorXd>;

class WholeBox {
 public:
  // Bends and these springs on BoxModel::readings hold. The box is held at three nodes of one face,
  // statically determinate: loads in balance pull on none of them. `model` must outlive it. Throws
  // NumericalFailure, also when parts can still move.
  WholeBox(const BoxModel& model, const std::vector<Spring>& springs);

  const BoxModel& model() const { return model_; }
  Index freedoms() const { return stiffness_.rows(); }
  Index first(std::size_t face) const { return first_[face]; } // its freedoms follow in the plate's order
  const Eigen::SparseMatrix<double>& stiffness() const { return stiffness_; } // not held

  // Freedoms under loads on readings, N or N mm a unit of each; a spring that rests at r instead of zero is a
  // load of stiffness * r. readings x cases in, freedoms x cases out.
  Eigen::MatrixXd displacements(const Eigen::MatrixXd& loads) const;
  // What readings say: readings x cases.
  Eigen::MatrixXd read(const Eigen::MatrixXd& displacements) const {
    return readings_.transpose() * displacements;
  }
  Shape shape(const Eigen::VectorXd& displacements) const;

  // The two halves of the solution, for eigenvalues: K^-1 f = second_half(first_half(f)); first_half is L^-1
  // of the freedoms that are not held, second_half its transpose.
  Eigen::MatrixXd first_half(const Eigen::MatrixXd& forces) const;
  Eigen::MatrixXd second_half(const Eigen::MatrixXd& halved) const;
  Index free_freedoms() const { return static_cast<Index>(free_.size()); }

 private:
  void assemble(const std::vector<Spring>& springs);
  void hold();
  void factor();

  const BoxModel& model_;
  std::vector<Index> first_;
  Eigen::SparseMatrix<double> readings_; // freedoms x readings
  Eigen::SparseMatrix<double> stiffness_;
  std::vector<Index> free_; // freedoms that are not held, in the factor's order
  Eigen::SparseMatrix<double> lower_;
};

} // namespace tacksquare::elastic
