// Orders as sums of steps: a making whose tacks keep their force, whose runs are made in one go, and whose
// pieces hold from the first weld to the last or not at all.
#pragma once

#include "physics/elastic/course.h"
#include "physics/elastic/step_range.h"
#include "physics/elastic/step_table.h"

namespace tacksquare::elastic {

class Additive {
 public:
  // Pieces that are on when the last weld of the making is over hold throughout. together: runs of
  // Making::welds that are made as one, which is what is called a run below. Throws NumericalFailure.
  Additive(const Prepared& prepared, const Making& making,
           const std::vector<std::vector<std::size_t>>& together);

  // What is watched when all pieces are off again, as step_table has it. Runs are those of Making::welds;
  // before: of earlier groups. Tables of more than six seams are made of shapes of forces (reduced.h), within
  // kTableError of the largest figure. Throws NumericalFailure.
  StepTable table(const std::vector<std::size_t>& before, const std::vector<RoundsOfSeam>& runs) const;

  // The same order run by run: watched x 3 of each.
  std::vector<Response> sequence(const std::vector<std::size_t>& runs) const;

  // Of runs that come in any order, those before being there: rows are what is watched. Throws
  // NumericalFailure.
  std::vector<StepRange> ranges(const std::vector<std::size_t>& before,
                                const std::vector<std::size_t>& runs) const;

 private:
  Response released(const Response& step) const;

  TackedBox box_; // a weld a run
  Index watched_ = 0;
  Eigen::MatrixXd release_; // watched x all measures
};

inline constexpr double kTableError = 3e-3;

} // namespace tacksquare::elastic
