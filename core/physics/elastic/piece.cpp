#include "physics/elastic/piece.h"

#include "physics/shell/dense.h"

namespace tacksquare::elastic {

Eigen::MatrixXd holds_of(const Piece& piece) {
  constexpr double kMoves = 1e-9; // of the square of a motion of 1 mm
  const auto n = static_cast<Eigen::Index>(piece.at.size());
  Vec3 centre;
  for (const Vec3 p : piece.at)
    centre = centre + p * (1.0 / static_cast<double>(n));
  double reach = 0.0;
  for (const Vec3 p : piece.at)
    reach = std::max(reach, norm(p - centre));
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

} // namespace tacksquare::elastic
