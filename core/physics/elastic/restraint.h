// The same making held by some of its pieces: one model, one set of draws, so that only the pieces differ.
#pragma once

#include "physics/elastic/condensed.h"

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
                                       std::vector<Limit> limits, Diagnostics& out);

  // How long a piece holds: not at all, until the first weld, as the making has it.
  enum class Held { not_at_all, for_tacks, throughout };
  // Draws that keep all limits, of draws(). held: as Making::pieces. Those that come to less than `least` are
  // not counted to the end: nothing then. Throws NumericalFailure.
  std::optional<int> kept_by(const std::vector<Held>& held, int least = 0) const;
  static constexpr int draws() { return kExpectDraws; }

  // What is watched at the end, by each case; and the same by going through the whole making once more.
  Condensed::Ends ends(const std::vector<Held>& held) const;
  Condensed::Ends ends_by_history(const std::vector<Held>& held) const;
  std::optional<int> kept(const Condensed::Ends& ends, int least = 0) const;

 private:
  struct Parts;
  explicit Restraint(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  std::shared_ptr<const Parts> parts_;
};

} // namespace tacksquare::elastic
