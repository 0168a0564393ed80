// What a making comes to at its end, held against limits: one set of draws for whatever is changed in it.
#pragma once

#include "physics/elastic/expect.h"

namespace tacksquare::elastic {

// A watched reading at the end, ground, against its limits.
struct Limit {
  std::size_t watched = 0;
  double low_mm = 0.0, high_mm = 0.0;
};

// What is watched at the end by each case: watched x cases, by tacks that keep their force, and by tacks that
// lose it under the bead.
struct Ends {
  Eigen::MatrixXd kept, remelted;
};

class Judging {
 public:
  Judging(const Making& making, const Cases& cases, std::vector<Limit> limits, std::uint64_t seed);

  // Draws that keep all limits, of draws(). Those that come to less than `least` are not counted to the end:
  // nothing then.
  std::optional<int> kept(const Ends& ends, int least = 0) const;
  static constexpr int draws() { return kExpectDraws; }

  // Of each of the first draws the worst of some limits: how far a reading, not ground, is from the middle
  // between them, in parts of half of what lies between; of what is read without a sign in parts of the
  // limit. counts: as the limits, which of them; those have to leave something.
  std::vector<double> worst(const Ends& ends, const std::vector<char>& counts, Index draws) const;

  // The middle of all that is uncertain, then the draws: cases x 1 + draws(), as if all of it went by kept
  // tacks.
  const Eigen::MatrixXd& amounts() const { return amounts_; }
  const std::vector<Limit>& limits() const { return limits_; }

 private:
  Eigen::VectorXd put_back(const Ends& ends) const;
  Eigen::MatrixXd limited(const Ends& ends) const;
  double read(std::size_t limit, double value) const;

  std::vector<Watched> watched_;
  std::vector<PutBack> axes_;
  std::vector<Limit> limits_;
  Eigen::MatrixXd amounts_;
  Eigen::MatrixXd shared_; // of cases by kept tacks, then by remelted ones, x draws
  Eigen::MatrixXd ground_; // limits x draws: what is ground puts on
};

} // namespace tacksquare::elastic
