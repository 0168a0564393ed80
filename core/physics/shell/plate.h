// One flat plate as finite elements, condensed: its compliance between readings of its freedoms.
#pragma once

#include "physics/shell/elements.h"
#include "physics/shell/mesh.h"

#include <Eigen/Sparse>

#include <array>
#include <utility>
#include <vector>

namespace tacksquare::shell {

// A weighted sum of freedoms. Read, it is a displacement; loaded, it is where a unit force acts and how it is
// spread: the same weights, so that compliances between readings are symmetric.
struct Reading {
  struct Term {
    std::size_t freedom = 0; // node * kNodeFreedoms + which
    double factor = 0.0;
  };
  std::vector<Term> terms;

  void add(std::size_t freedom, double factor) {
    if (factor != 0.0) terms.push_back({freedom, factor});
  }
  void add(const Reading& other, double factor) {
    for (const Term& t : other.terms)
      add(t.freedom, factor * t.factor);
  }
};

// A line that edges of elements follow: where seams and bends take hold of the plate.
struct Chain {
  Vec2 start, along; // its 0 mm, and its unit vector
  std::vector<ChainNode> nodes;
};

// What is averaged over a part of a chain: the displacement itself, or its slope along the chain (the
// least-squares line through it).
enum class Weight { mean, slope };

// Freedoms that hold a body at nodes of its largest plate, statically determinate: three at one node, two at
// a second far from it, one at a third off their line.
std::array<std::size_t, 6> determinate_holds(const PlateMesh& mesh);

// What a load spread over a short part of a chain moves that part by, beyond what elements see of it: in the
// plane along the chain and across it, mm/N; about it, rad/(N mm). slope: what a couple in the plane, spread
// as Weight::slope, turns it by, rad/(N mm). Nothing where elements are small beside it.
struct Unseen {
  double along = 0.0, across = 0.0, turn = 0.0, slope = 0.0;
};

class Plate {
 public:
  // Meshes, assembles and factors. `ports` are the lines where readings will mostly be taken: their freedoms
  // are eliminated last. Throws InternalError on a shape that cannot be meshed, NumericalFailure when the
  // matrix has no factor.
  Plate(const PlateShape& shape, const PlateProperties& properties, double size_mm,
        std::vector<std::pair<Vec2, Vec2>> ports);

  const PlateMesh& mesh() const { return mesh_; }
  const PlateProperties& properties() const { return properties_; }
  std::size_t freedoms() const { return mesh_.nodes.size() * kNodeFreedoms; }
  const Eigen::SparseMatrix<double>& stiffness() const { return stiffness_; } // not held

  // From a to b, which edges of elements must follow (InternalError).
  Chain chain(Vec2 a, Vec2 b) const;

  // Displacement along a direction (plate's own frame) at a point of the plate; exact for a w of second
  // order.
  Reading displacement(Vec2 at, Vec3 direction) const;
  // Displacement along a direction, the mean over the plate.
  Reading mean_displacement(Vec3 direction) const;
  // Rotation about an axis (plate's own frame) at a point.
  Reading rotation(Vec2 at, Vec3 axis) const;
  // Over from..to (mm, from < to) of a chain: displacement of what lies `arm` off the line and moves stiffly
  // with it, and rotation about the line.
  Reading displacement(const Chain& chain, double from_mm, double to_mm, Vec3 direction, Vec3 arm,
                       Weight weight = Weight::mean) const;
  Reading rotation(const Chain& chain, double from_mm, double to_mm) const;
  Unseen unseen(const Chain& chain, double from_mm, double to_mm) const;
  // The load of a shrinkage across a chain: the elements that touch from..to want to lose 1 mm across it,
  // spread over their width.
  Reading strip(const Chain& chain, double from_mm, double to_mm) const;

  // Displacements under unit loads, reading by reading; the plate is held at three nodes, statically
  // determinate, so only loads that are in balance are answered truly. n x n, symmetric.
  Eigen::MatrixXd compliance(const std::vector<Reading>& readings) const;
  // What readings say of a rigid motion: translations along x, y, z and rotations about the plate's origin. n
  // x 6.
  Eigen::MatrixXd rigid(const std::vector<Reading>& readings) const;

 private:
  using Sparse = Eigen::SparseMatrix<double>;

  static constexpr Eigen::Index kHeld = -1;

  void assemble();
  void order(const std::vector<std::pair<Vec2, Vec2>>& ports);
  void factor();
  Eigen::VectorXd permuted(const Reading& reading) const;

  PlateProperties properties_;
  PlateMesh mesh_;
  Sparse stiffness_;
  std::vector<Eigen::Index> place_;   // of a freedom in the factor; kHeld: held
  Eigen::Index inner_ = 0, size_ = 0; // freedoms in the factor: those before the ports, all
  Sparse lower_;                      // the factor
  Eigen::MatrixXd lower_ports_;       // its dense end: the ports
};

} // namespace tacksquare::shell
