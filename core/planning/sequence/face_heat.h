// How warm the faces are while the welds go in, lumped: the heat of a run spreads evenly over the two faces
// of its seam, each face loses it to still air, none of it crosses to another face. This says which faces to
// leave alone for a while, not how hot a seam line is.
#pragma once

#include "work/work.h"

#include <vector>

namespace tacksquare {

class FaceHeat {
 public:
  // Faces of no area stay cold.
  FaceHeat(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work);

  void lie(std::size_t attitude); // the face on the table loses heat from one side only
  void pass(double seconds);
  void take(const Run& run);             // the run's heat, shared by thickness
  double warmth_K(const Run& run) const; // mean rise of the run's two faces

  // What of the first run's heat the second run's faces hold when it starts right after, `seconds` later.
  double left_K(const Run& first, const Run& second, double seconds) const;

 private:
  double rise_K(const Run& run, std::size_t face) const;
  double kept(std::size_t face, double seconds) const;

  const Box& box_;
  const BoxGeometry& geometry_;
  const Work& work_;
  std::vector<double> capacity_J_K_; // per face, 0: takes no heat
  std::vector<double> two_sided_tau_s_;
  std::size_t attitude_ = 0;
  std::vector<double> rise_;
};

} // namespace tacksquare
