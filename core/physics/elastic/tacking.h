// The same making tacked in other orders: one model, one set of draws, so that only the orders differ.
#pragma once

#include "physics/elastic/expect.h"

namespace tacksquare::elastic {

class Tacking {
 public:
  // What comes after the last tack is left out. Faults as make_box_model; throws NumericalFailure.
  static std::optional<Tacking> make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                     Making making, const ModelOptions& options, Index draws,
                                     std::uint64_t seed, Diagnostics& out);

  // The same under other draws.
  Tacking with_draws(Index draws, std::uint64_t seed) const;

  // What happens in turn until the last tack is on: what a search changes the order of. Tacks numbered as
  // Making::tacks, pieces as Making::pieces.
  const std::vector<Event>& events() const;

  // Draws in columns, the middle first.
  struct Tacked {
    Eigen::MatrixXd mm;     // as Making::watched, when the last event is over
    Eigen::MatrixXd gap_mm; // of each of Making::tacks, just before it
  };
  // Precondition: the same events in another order. Throws NumericalFailure.
  Tacked tacked(const std::vector<Event>& events) const;

 private:
  struct Parts;
  explicit Tacking(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  std::shared_ptr<const Parts> parts_;
};

} // namespace tacksquare::elastic
