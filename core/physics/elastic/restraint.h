// The same making held by some of its pieces: one model, one set of draws, so that only the pieces differ.
#pragma once

#include "physics/elastic/condensed.h"

namespace tacksquare::elastic {

class Restraint {
 public:
  // Faults as make_box_model; throws NumericalFailure.
  static std::optional<Restraint> make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       Making making, const ModelOptions& options, std::uint64_t seed,
                                       std::vector<Limit> limits, Diagnostics& out);

  // How long a piece holds: not at all, until the first weld, as the making has it.
  enum class Held { not_at_all, for_tacks, throughout };
  // Draws that keep all limits, of Judging::draws(), as there. held: as Making::pieces. Throws
  // NumericalFailure.
  std::optional<int> kept_by(const std::vector<Held>& held, int least = 0) const;

  // What is watched at the end, by each case; and the same by going through the whole making once more.
  Ends ends(const std::vector<Held>& held) const;
  Ends ends_by_history(const std::vector<Held>& held) const;
  const Judging& judging() const;

 private:
  struct Parts;
  explicit Restraint(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  std::shared_ptr<const Parts> parts_;
};

} // namespace tacksquare::elastic
