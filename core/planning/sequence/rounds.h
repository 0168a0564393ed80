// The runs between two turns, laid out as rounds for the search.
#pragma once

#include "planning/search/round_search.h"
#include "planning/sequence/face_heat.h"
#include "planning/sequence/turns.h"

#include <vector>

namespace tacksquare {

// Seams welded while the box lies in one attitude, in one order for all rounds.
struct SeamGroup {
  std::size_t attitude = 0;
  std::vector<std::size_t> seams; // indices in Work::seams, by id: the units of the search
  // [round][unit]: indices in Work::runs, none where the seam makes none. A stitched seam makes all its
  // stitches in one round: nobody walks round a box for 25 mm.
  std::vector<std::vector<std::vector<std::size_t>>> rounds;
};

// The groups of each visit, in the order in which they are welded: seams to finish before the last face goes
// on; then one group for each settings, those for the inside first, and in it one for each position, uprights
// first, then horizontal, then flat: a pair changes the machine, and the way of going, as seldom as it can. A
// visit whose precedence forbids that is one group.
std::vector<SeamGroup> make_groups(const Box& box, const BoxGeometry& geometry, const Work& work,
                                   const TurnPlan& turns, const SeamPairs& before,
                                   const std::vector<char>& comes_first);

// Heat as loads about the centroid of all heat, warmth as pair costs.
class HeatScale {
 public:
  HeatScale(const BoxGeometry& geometry, const Work& work);
  Load load(const Run& run) const;
  double moment(const Load& sum) const; // back to parts of the half diagonal
  const Vec3& centroid() const { return centroid_; }

 private:
  Vec3 centroid_;
  double total_J_ = 0.0, half_diagonal_mm_ = 0.0;
};

// before: the loads of the groups made earlier.
RoundProblem make_problem(const Work& work, const SeamGroup& group, const SeamPairs& before,
                          const HeatScale& scale, const FaceHeat& heat, const Load& already);

Load total_load(const RoundProblem& problem); // of the group's own runs

} // namespace tacksquare
