// The same making welded in other orders: one model, one set of draws, so that only the orders differ.
#pragma once

#include "physics/elastic/course.h"
#include "physics/elastic/judging.h"

namespace tacksquare::elastic {

class Ordering {
 public:
  // Faults as make_box_model; throws NumericalFailure.
  static std::optional<Ordering> make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                      Making making, const ModelOptions& options, std::uint64_t seed,
                                      std::vector<Limit> limits, Diagnostics& out);

  // What is watched x cases, by going through it: remelted tacks, clamps that come off midway and runs that
  // alternate between seams are what they are. events: those of the making in another order, numbered as it
  // does. Throws NumericalFailure.
  Eigen::MatrixXd kept(const std::vector<Event>& events) const { return end(events, false); }
  Eigen::MatrixXd remelted(const std::vector<Event>& events) const { return end(events, true); }
  Ends ends(const std::vector<Event>& events) const; // both at once

  const Judging& judging() const;
  const Making& making() const;
  const Prepared& prepared() const;

 private:
  struct Parts;
  Eigen::MatrixXd end(const std::vector<Event>& events, bool remelted) const;
  explicit Ordering(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  std::shared_ptr<const Parts> parts_;
};

} // namespace tacksquare::elastic
