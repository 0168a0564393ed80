// Linear elasticity after condensation: how readings answer to loads, and what closing a joint changes.
#pragma once

#include <Eigen/Dense>

#include <vector>

namespace tacksquare::elastic {

using Index = Eigen::Index;
using Indices = std::vector<Index>;

// n readings (displacements, jumps across joints) of bodies that may still move freely. A unit load on
// reading j moves reading i by compliance(i, j); loads that are not in balance are taken by the ground
// without moving it. The bodies' free motions add to it: column by column what the readings say of each
// (motions of 1 mm). Under load case c (misfit, shrinkage held nowhere yet) reading i stands at free(i, c).
struct Structure {
  Eigen::MatrixXd compliance; // n x n, symmetric
  Eigen::MatrixXd motions;    // n x m
  Eigen::MatrixXd free;       // n x cases
  Index readings() const { return compliance.rows(); }
};

// Springs that close some readings: force = stiffness * (reading - rest). rest: closed x cases.
struct Closing {
  Indices readings;
  Eigen::VectorXd stiffness; // > 0
  Eigen::MatrixXd rest;
};

// Bodies' motions by whether springs that read them like this hold them: a matter of geometry alone.
struct SplitMotions {
  Eigen::MatrixXd free, held; // motions x either, orthonormal columns
};
// stretch: sum over the springs of the squares of what they read, motions x motions.
SplitMotions split_motions(const Eigen::MatrixXd& stretch);

// Springs on a structure, factored: what they pull with wherever the readings would stand without them.
class Held {
 public:
  // Throws NumericalFailure when a factor fails. The structure must outlive it.
  Held(const Structure& s, const Indices& readings, const Eigen::VectorXd& stiffness);

  // off: readings without the springs, from rest. forces pull the readings back; motions are those of the
  // bodies.
  struct Answer {
    Eigen::MatrixXd forces, motions;
  };
  Answer answer(const Eigen::MatrixXd& off) const;

  // Motions that stretch no spring, as columns of the structure's motions.
  const Eigen::MatrixXd& still_free() const { return still_free_; }

 private:
  friend Structure closed(const Structure& s, const Closing& closing);
  Eigen::MatrixXd springs_;      // Cholesky factor of the compliance between them and their own
  Eigen::MatrixXd held_motions_; // springs^-1 of what they read of motions
  Eigen::MatrixXd stiff_;        // K^-1 of the motions that are held, as stiff stiff^T
  Eigen::MatrixXd still_free_;
};

// The structure with these springs in it for good. Motions that stretch a spring are no longer free: those
// left are fewer columns, orthonormal combinations of the old.
Structure closed(const Structure& s, const Closing& closing);

// Holds a reading: N/mm, N mm/rad, > 0.
struct Spring {
  Index reading = 0;
  double stiffness = 0.0;
};

// Only these readings, in this order.
Structure picked(const Structure& s, const Indices& readings);

} // namespace tacksquare::elastic
