#include "physics/elastic/piece.h"

#include "physics/shell/dense.h"

#include <algorithm>

namespace tacksquare::elastic {

namespace {

struct Centred {
  Vec3 centre;
  double reach = 0.0; // of the furthest place from it
};

Centred centred(const Piece& piece) {
  Centred made;
  for (const Vec3 p : piece.at)
    made.centre = made.centre + p * (1.0 / static_cast<double>(piece.at.size()));
  for (const Vec3 p : piece.at)
    made.reach = std::max(made.reach, norm(p - made.centre));
  return made;
}

} // namespace

Eigen::MatrixXd holds_of(const Piece& piece) {
  constexpr double kMoves = 1e-9; // of the square of a motion of 1 mm
  const auto n = static_cast<Eigen::Index>(piece.at.size());
  const auto [centre, reach] = centred(piece);
  Eigen::MatrixXd motions(n, 6);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto place = static_cast<std::size_t>(i);
    const Vec3 out = piece.out[place], turning = cross(piece.at[place] - centre, out) * (1.0 / reach);
    motions.row(i) << out.x, out.y, out.z, turning.x, turning.y, turning.z;
  }
  const shell::SymmetricModes modes =
      shell::symmetric_modes(motions * motions.transpose(), "the motions of a former or a square");
  Eigen::Index held = 0;
  while (held < n && modes.values(held) < kMoves)
    ++held;
  return modes.vectors.leftCols(held);
}

// e less what of it moves the piece as a whole: A (A' A)^+ A' e, A what each place does in the six motions.
std::vector<Vec3> past_piece(const Piece& piece, std::size_t place, Vec3 direction) {
  const Centred c = centred(piece);
  const auto n = static_cast<Eigen::Index>(piece.at.size());
  Eigen::MatrixXd motions(3 * n, 6);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Vec3 r = (piece.at[static_cast<std::size_t>(i)] - c.centre) * (1.0 / c.reach);
    motions.middleRows(3 * i, 3) << 1, 0, 0, 0, r.z, -r.y, //
        0, 1, 0, -r.z, 0, r.x,                             //
        0, 0, 1, r.y, -r.x, 0;
  }
  Eigen::VectorXd force = Eigen::VectorXd::Zero(3 * n);
  force.segment<3>(3 * static_cast<Eigen::Index>(place)) << direction.x, direction.y, direction.z;
  const shell::SymmetricModes modes =
      shell::symmetric_modes(motions.transpose() * motions, "the motions of a piece that is pressed");
  Eigen::VectorXd moved = modes.vectors.transpose() * (motions.transpose() * force);
  constexpr double kMoves = 1e-9; // of the largest: places on one line do not feel that it turns about that
  for (Eigen::Index i = 0; i < moved.size(); ++i)
    moved(i) = modes.values(i) > kMoves * modes.values.maxCoeff() ? moved(i) / modes.values(i) : 0.0;
  force -= motions * (modes.vectors * moved);
  std::vector<Vec3> made;
  for (Eigen::Index i = 0; i < n; ++i)
    made.push_back({force(3 * i), force(3 * i + 1), force(3 * i + 2)});
  return made;
}

} // namespace tacksquare::elastic
