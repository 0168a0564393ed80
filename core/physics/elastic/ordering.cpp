#include "physics/elastic/ordering.h"

#include "base/at_once.h"

#include <algorithm>

namespace tacksquare::elastic {

using Eigen::MatrixXd;

struct Ordering::Parts {
  Making making;
  Prepared prepared;
  MatrixXd each;            // case by itself
  std::vector<Event> first; // before the first weld, as the making has it
  std::optional<Begun> begun;
  std::optional<Judging> judging;
};

std::optional<Ordering> Ordering::make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       Making making, const ModelOptions& options, std::uint64_t seed,
                                       std::vector<Limit> limits, Diagnostics& out) {
  std::optional<Prepared> prepared = prepared_of(job, box, geometry, making, options, out);
  if (!prepared) return std::nullopt;
  auto parts = std::make_shared<Parts>();
  parts->making = std::move(making);
  parts->prepared = std::move(*prepared);
  const Prepared& p = parts->prepared;
  parts->each = MatrixXd::Identity(p.cases.count(), p.cases.count());
  const Course course = course_of(parts->making.events, p);
  parts->first.assign(course.events.begin(), course.events.begin() + static_cast<long>(course.before_welds));
  parts->begun.emplace(*p.model, parts->first, p.holding.holds, p.cases, parts->each);
  parts->judging.emplace(parts->making, p.cases, std::move(limits), seed);
  return Ordering(std::move(parts));
}

MatrixXd Ordering::end(const std::vector<Event>& events, bool remelted) const {
  const Prepared& p = parts_->prepared;
  const Course course = course_of(events, p);
  const auto split = course.events.begin() + static_cast<long>(course.before_welds);
  const std::vector<Event> first(course.events.begin(), split), then(split, course.events.end());
  std::optional<Begun> other; // clamps that make way for the first weld
  if (first != parts_->first) other.emplace(*p.model, first, p.holding.holds, p.cases, parts_->each);
  const auto watched = static_cast<Index>(parts_->making.watched.size());
  return (other ? *other : *parts_->begun).end(then, remelted).topRows(watched);
}

Ends Ordering::ends(const std::vector<Event>& events) const {
  Ends made;
  at_once([&] { made.kept = kept(events); }, [&] { made.remelted = remelted(events); });
  return made;
}

const Judging& Ordering::judging() const {
  return *parts_->judging;
}
const Making& Ordering::making() const {
  return parts_->making;
}
const Prepared& Ordering::prepared() const {
  return parts_->prepared;
}

} // namespace tacksquare::elastic
