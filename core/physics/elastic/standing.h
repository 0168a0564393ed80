// A box that stands on places that push and never pull: what each of them carries.
#pragma once

#include "physics/elastic/measures.h"

#include <Eigen/Dense>

#include <optional>
#include <utility>
#include <vector>

namespace tacksquare::elastic {

struct Standing {
  std::vector<Vec3> at;        // on the middle surface of what stands there: three and more, not on one line
  Vec3 up;                     // unit
  double stiffness_N_mm = 0.0; // of each place, > 0
  double uneven_mm = 0.0;      // how far each place is off their plane: normal, one deviation
  std::vector<std::pair<Vec3, double>> faces; // as Box::faces: centre and weight, N; 0: not tied to the rest
  std::size_t moment = 0;                     // index in Making::events: cold after it
};

// All that the places can carry, N: what is in balance with the weight, and sets of forces in balance by
// themselves.
struct Footing {
  Eigen::VectorXd weight;   // the least that is in balance with it; places
  Eigen::MatrixXd balanced; // places x sets, orthonormal
};
Footing footing_of(const Standing& standing);

// What the sets and, last, the weight with what is in balance with it do work on.
std::vector<Figure> figures_of(const Standing& standing, const Footing& footing);

// What each place carries, and none of them less than nothing: where the box stands off, its place carries
// nothing (the complementarity of unilateral contact; solved as the convex quadratic programme that it is, by
// active sets). gives: of the sets, of box and places, mm/N, positive definite; reads: what they read of the
// box with its weight on, while nothing but `weight` carries it. Nothing where it tips over. Throws
// NumericalFailure.
std::optional<Eigen::VectorXd> carried(const Footing& footing, const Eigen::MatrixXd& gives,
                                       const Eigen::VectorXd& reads);

} // namespace tacksquare::elastic
