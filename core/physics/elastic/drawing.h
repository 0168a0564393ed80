// All that is not known of a making, drawn, and what its moments read by that. Only for expect and restraint.
#pragma once

#include "base/random.h"
#include "physics/elastic/course.h"

namespace tacksquare::elastic {

// Amounts of all cases in so many draws, each in a column; the first has what they are in the middle. Both
// tapers have their cases in full.
Eigen::MatrixXd amounts_of(const Making& making, const Cases& cases, Index draws, Random& random);

// How much of each case every draw has, and how much of it by remelted tacks; column 0 is the middle.
struct Draws {
  // Goes on with the generator.
  Draws(const Making& making, const Cases& cases, Random& random);
  Eigen::MatrixXd amounts;      // cases x draws
  std::vector<double> remelted; // the rest by kept ones
};

class Drawing {
 public:
  // Both must outlive it.
  Drawing(const Making& making, const Variants& variants, std::uint64_t seed);

  const std::vector<double>& put_back_mm() const { return put_back_mm_; }
  // Without misfit, pieces true, tacks kept.
  EndState end_in_the_middle() const;
  // watched x draws at a moment; column 0 is the middle.
  Eigen::MatrixXd values(std::size_t moment, Index draws) const;
  ExpectedMoment moment(const Event& event, std::size_t which) const;
  // The last moment, with what is ground: as it is read, without the middle; spoils what is drawn after it.
  Eigen::MatrixXd ground(std::size_t last);
  // The last moment without the misfit that comes in; fills what welds do by themselves. Last of all.
  void leave_misfit_out(std::size_t last, Expectation& to);
  // Of each piece and place, over all moments.
  std::vector<std::vector<PlaceForce>> place_forces() const;
  // Of Making::pressed, in the middle.
  std::vector<Slide> slides() const;
  // Of Making::standing, each place.
  std::vector<std::vector<Carried>> carried() const;
  // By the pieces that came off in the events first to last, one after the other.
  std::vector<Band> released(std::size_t first, std::size_t last) const;

 private:
  bool welded(std::size_t moment) const { return v_.course.over[moment] > v_.course.before_welds; }
  void mix(const Eigen::MatrixXd& remelted, Eigen::MatrixXd& kept) const;
  void put_back();
  Band band(const Eigen::MatrixXd& all, std::size_t watched, bool without_sign) const;
  std::vector<double> drawn(const Eigen::VectorXd& of_cases) const; // without the middle
  Eigen::MatrixXd holds(std::size_t which) const;
  Band holding(std::size_t which) const;

  const Making& m_;
  const Variants& v_;
  std::uint64_t seed_;
  Random random_;
  Draws draws_;
  Eigen::VectorXd larger_; // of each watched: what is put back into the blanks
  std::vector<double> put_back_mm_;
};

} // namespace tacksquare::elastic
