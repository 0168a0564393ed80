// What each joint of a making does to a box that is held, written down once. Only for condensed.
#pragma once

#include "physics/elastic/grown.h"
#include "physics/elastic/history.h"

namespace tacksquare::elastic {

// What pushes of 1 N do: to rows of the state, to springs of lengths of the same seam that are still to come,
// and to the bodies' motions.
struct Effect {
  Eigen::MatrixXd rows, later, motions;
};

// A change of the joints, and how the box answers once it is there. Rows: the model's measures, the holds'
// last, and `more`.
struct Step {
  Change change;
  Indices more;
  Effect by_holds;
  Effect by_own;  // own: by 1 mm of gap, by 1 mm or 1 rad that is not done again, by 1 N of a melted spring
  Effect by_free; // by motions that nothing holds and that can be seen
  Eigen::MatrixXd stood; // holds x cases, held by nothing
};

// Rows of the state: measures, then springs of the tacks.
struct Rows {
  explicit Rows(const BoxModel& model);
  Indices of_tack; // the first
  Index count = 0;
  std::vector<char> melts; // tacks
};

// Of a tack, springs across its gap.
bool across_gap(std::size_t spring, std::size_t springs);

// Writes down what it is told.
class Recorder {
 public:
  // holds: so many of the measures, the last. All must outlive it.
  Recorder(const BoxModel& model, const Rows& rows, Index holds, std::vector<Step>& to, Eigen::MatrixXd& end);
  void go_on_in(std::vector<Step>& to, Eigen::MatrixXd& end, bool melting);
  void write(const Change& change, const Grown& grown);

 private:
  // Springs that the change pushes with, and how much for 1 of it.
  struct Own {
    Indices readings;
    std::vector<double> amounts;
  };
  Own own_of(const Change& change);
  void add_tack(std::size_t tack, Indices& more, Indices& readings) const;

  const BoxModel& m_;
  const Rows& rows_;
  Index holds_;
  std::vector<Step>* to_;
  Eigen::MatrixXd* end_; // watched x cases, after the latest change
  bool melting_ = true;
  std::vector<char> made_, gone_; // tacks
  std::vector<char> begun_;       // welds: a length of the same seam is there
  Eigen::MatrixXd squares_;
};

// Also of a matrix without columns, whose rows are no place in memory.
inline Eigen::MatrixXd rows_of(const Eigen::MatrixXd& m, Index from, Index count) {
  return m.cols() > 0 ? Eigen::MatrixXd(m.middleRows(from, count)) : Eigen::MatrixXd(count, 0);
}

} // namespace tacksquare::elastic
