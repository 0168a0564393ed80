// The same making held by some of its pieces: one model, one set of draws, so that only the pieces differ.
#pragma once

#include "physics/elastic/expect.h"

namespace tacksquare::elastic {

// A watched reading at the end, ground, against its limits.
struct Limit {
  std::size_t watched = 0;
  double low_mm = 0.0, high_mm = 0.0;
};

class Restraint {
 public:
  // Faults as make_box_model; throws NumericalFailure.
  static std::optional<Restraint> make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       Making making, const ModelOptions& options, std::uint64_t seed,
                                       Diagnostics& out);

  // How long a piece holds: not at all, until the first weld, as the making has it.
  enum class Held { not_at_all, for_tacks, throughout };
  // Share of the draws that keep all limits, and of each limit. held: as Making::pieces. Throws
  // NumericalFailure.
  struct Kept {
    double all = 0.0;
    std::vector<double> each; // as limits
  };
  Kept kept_by(const std::vector<Held>& held, const std::vector<Limit>& limits) const;

 private:
  struct Parts;
  explicit Restraint(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  std::shared_ptr<const Parts> parts_;
};

} // namespace tacksquare::elastic
