// A structure on which springs come and go, one joint after the other, and what is read of it meanwhile.
#pragma once

#include "physics/elastic/structure.h"

namespace tacksquare::elastic {

// Keeps the factor of (compliance of the springs' readings + flexibility) and lets it grow by the rows of new
// springs; a spring that goes is another of negative stiffness beside it. A step costs as the square of the
// springs so far. Every answer is exact but for rounding.
class Grown {
 public:
  // watched: readings that are asked for again and again; to_come: those of springs that will, and are looked
  // at before. Each at most once in either. free: n x columns, readings without any spring. The structure
  // must outlive it.
  Grown(const Structure& s, const Indices& watched, const Indices& to_come, Eigen::MatrixXd free);

  Index columns() const { return free_.cols(); }
  Index springs() const { return static_cast<Index>(readings_.size()); }
  Eigen::MatrixXd watched() const; // watched x columns
  // Of watched readings from `first` on: how far a unit load on each (column) moves each (row), with the
  // springs as they are. Motions that no spring holds have no part: what is loaded together has to be in
  // balance on them.
  Eigen::MatrixXd gives(Index first) const;
  Eigen::MatrixXd at(const Indices& readings) const;
  Eigen::MatrixXd at(const Indices& readings, const Indices& columns) const;
  // springs x columns: positive where it pulls its reading back; a spring that went is one that pushes as
  // much.
  Eigen::MatrixXd forces() const;
  Eigen::MatrixXd latest_forces(Index count) const; // of the springs that came last

  Eigen::RowVectorXd rest(Index spring) const { return rest_.row(spring); }

  // What pushes on some readings do to others: springs there that push with 1 N or 1 N mm each, so that what
  // they push apart takes part in the balance of the bodies. Motions that nothing holds stay as they are.
  struct Pushed {
    Eigen::MatrixXd readings, motions; // x pushes
  };
  Pushed pushed(const Indices& pushes, const Indices& readings) const;
  const Eigen::MatrixXd& free_motions() const { return split_.free; } // of the structure's, orthonormal

  // Springs numbered from springs() on; none: what was loaded settles. stiffness: not zero; negative takes
  // one of the same stiffness and rest away.
  void add(const Indices& readings, const Eigen::VectorXd& stiffness, const Eigen::MatrixXd& rest);
  void take_away(const Indices& springs);
  void load(Index reading, const Eigen::RowVectorXd& amounts); // on a reading, N or N mm
  // Readings to come that are not looked at any more: they may be, but then it takes longer.
  void forget(const Indices& readings);
  void shift_rest(Index spring, const Eigen::RowVectorXd& by);
  // Loads on all readings that give this state on a structure with springs_left() on it: of column `c`.
  Eigen::VectorXd loads(Index c) const;
  std::vector<Spring> springs_left() const;

 private:
  void put(const Indices& readings, const Eigen::VectorXd& stiffness, const Eigen::MatrixXd& rest,
           const Eigen::MatrixXd& beside);
  Eigen::MatrixXd halves(const Indices& readings) const; // factor^-1 of their compliance to the springs
  void refresh();                                        // columns whose loads or rests have changed
  void sum_up(const Indices& columns);
  void settle(); // the bodies' motions
  // sign (half + motions' share): what forces are made of
  Eigen::MatrixXd answered() const;
  Eigen::MatrixXd answered(const Indices& columns) const;

  const Structure& s_;
  Index told_;               // so many of kept_ are the watched ones
  Indices kept_;             // readings whose halves grow with the factor: columns of half_kept_
  std::vector<Index> place_; // of each reading in kept_; -1: not there
  Eigen::MatrixXd free_;
  Indices readings_;
  Eigen::VectorXd stiffness_, sign_;
  Eigen::MatrixXd loads_;        // n x columns: what was put on readings
  Eigen::MatrixXd rest_;         // springs x columns
  Eigen::MatrixXd factor_;       // lower triangle; sign_ between it and its transpose
  Eigen::MatrixXd half_;         // factor^-1 (free - rest)
  Eigen::MatrixXd half_motions_; // factor^-1 of what springs read of motions
  Eigen::MatrixXd half_kept_;    // factor^-1 of the compliance of kept_ to the springs
  // Sums over all springs, with their signs: halves of watched readings (told) and of motions, times halves
  // of columns and of motions.
  Eigen::MatrixXd told_half_, told_motions_, motions_half_, motions_motions_;
  Eigen::MatrixXd stretch_; // of motions by the springs that are there
  SplitMotions split_;      // by that
  Eigen::MatrixXd stiff_;   // factor of what the springs put against those that they hold
  Eigen::MatrixXd motions_; // motions x columns
  std::vector<char> stale_; // columns to refresh: 1 their sums, 2 their halves, too
};

} // namespace tacksquare::elastic
