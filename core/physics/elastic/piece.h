// Formers and squares: stiff pieces that are clamped to walls while the box is tacked and welded.
#pragma once

#include "base/vec.h"

#include <Eigen/Dense>

#include <vector>

namespace tacksquare::elastic {

// Held to the walls where it touches them, square to them and both ways; along them they may slide. Elsewhere
// it goes where the box goes: it is tied to nothing else.
struct Piece {
  std::vector<Vec3> at, out;   // where it touches; unit, which way the wall faces there
  double stiffness_N_mm = 0.0; // of each of these places
  std::vector<double> off_mm;  // where each stands when the piece is untrue by 1 mm
  double deviation_mm = 0.0;   // of how untrue it is: normal about nothing
};

// Sets of forces on its places that do no work when the piece moves as a whole: places x holds, orthonormal.
// It holds the box against each of them with its stiffness.
Eigen::MatrixXd holds_of(const Piece& piece);

// Forces on the places of a piece, N, that are in balance with 1 N on `place` along a unit `direction` when
// equal springs, alike in all directions, tie the piece to the box: what they do work on is how far that
// place of the box moves past the piece, which lies as fits all places best (least squares). Places on
// one line do not feel that it turns about that.
std::vector<Vec3> past_piece(const Piece& piece, std::size_t place, Vec3 direction);

} // namespace tacksquare::elastic
