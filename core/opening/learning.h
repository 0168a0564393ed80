// What a measured box tells of the causes of its size: docs/theory.md, "First-off". Not for other rooms.
#pragma once

#include "formulas/gaussian.h"
#include "opening/first_off.h"

#include <cstddef>
#include <string>
#include <vector>

namespace tacksquare::opening {

// A reading that lies further off what the rest says than that is a mistake: 99.9 % of a normal figure.
inline constexpr double kMistake = 3.2905267314919255;

// The causes that a box's own size has before it is coated and stood up, each split into what all boxes of
// its order have in common and what is its own.
class Learning {
 public:
  explicit Learning(const SizeBudget& prior);

  // It is known to be off by this in all boxes of the order: sheet that is thicker than stated.
  void shift(const std::string& key, double by_mm);
  // Readings: of one cause itself, and of the sum of those causes whose keys count. error_mm: standard
  // deviation. False, and nothing learnt, when it is a mistake.
  bool read_cause(std::size_t cause, double mm, double error_mm);
  template <class Counts> bool read_sum(Counts counts, double mm, double error_mm) {
    std::vector<bool> of;
    for (const SizeCause& cause : causes_)
      of.push_back(counts(cause.key));
    return read(weights(of, true), constant(of), mm, error_mm);
  }

  const std::vector<SizeCause>& causes() const { return causes_; }
  std::vector<CauseFound> found() const; // by key, in the order of the causes
  formulas::Weighed box() const;         // this box's size beyond its nominal, as learnt
  formulas::Weighed expected() const;    // before any reading
  formulas::Weighed rest() const;        // the same of the next boxes

  // Budget of a box of the same kind that is still to come: one cause for all that they have in common,
  // "common" of `order`, and the own parts; causes that are not of the box itself, and those that its own
  // readings have settled, as they are in `own`.
  SizeBudget rest_budget(const SizeBudget& own, double nominal_mm, const std::string& order) const;

 private:
  bool read(const std::vector<double>& weights, double constant_mm, double mm, double error_mm);
  std::vector<double> weights(const std::vector<bool>& of, bool own) const;
  double constant(const std::vector<bool>& of) const;
  formulas::Weighed sum(const std::vector<bool>& of, const formulas::Gaussian& state, bool next) const;

  std::vector<SizeCause> causes_;
  std::vector<double> mean_, deviation_, load_; // load: deviation of the common part
  std::vector<std::size_t> group_;              // of the common part, in the state
  std::size_t groups_ = 0;
  formulas::Gaussian before_, state_; // common parts in deviations, then own parts in mm
};

// The widest place by readings with an error: means drawn together as far as the error explains their spread.
struct Widest {
  double mm = 0.0, error_mm = 0.0; // standard deviation
};
Widest widest_of(const std::vector<double>& readings_mm, double error_mm);

} // namespace tacksquare::opening
