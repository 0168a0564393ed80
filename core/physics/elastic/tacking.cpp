#include "physics/elastic/tacking.h"

#include "physics/elastic/drawing.h"

#include <algorithm>

namespace tacksquare::elastic {

struct Tacking::Parts {
  Making making;
  Prepared prepared;
  Eigen::MatrixXd amounts; // cases x draws
};

namespace {

// Up to the last tack, and of the welds those that are made by then.
Making until_tacked(Making m) {
  const auto is_tack = [](const Event& e) { return e.kind == Event::Kind::tack; };
  m.events.erase(std::find_if(m.events.rbegin(), m.events.rend(), is_tack).base(), m.events.end());
  std::vector<WeldLength> made;
  for (Event& e : m.events) {
    if (e.kind != Event::Kind::weld) continue;
    made.push_back(m.welds[e.which]);
    e.which = made.size() - 1;
  }
  m.welds = std::move(made);
  return m;
}

} // namespace

std::optional<Tacking> Tacking::make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                     Making making, const ModelOptions& options, Index draws,
                                     std::uint64_t seed, Diagnostics& out) {
  auto parts = std::make_shared<Parts>();
  parts->making = until_tacked(std::move(making));
  std::optional<Prepared> prepared = prepared_of(job, box, geometry, parts->making, options, out);
  if (!prepared) return std::nullopt;
  parts->prepared = std::move(*prepared);
  return Tacking(std::move(parts)).with_draws(draws, seed);
}

Tacking Tacking::with_draws(Index draws, std::uint64_t seed) const {
  auto parts = std::make_shared<Parts>(*parts_);
  Random random(seed);
  parts->amounts = amounts_of(parts->making, parts->prepared.cases, draws, random);
  return Tacking(std::move(parts));
}

const std::vector<Event>& Tacking::events() const {
  return parts_->making.events;
}

Tacking::Tacked Tacking::tacked(const std::vector<Event>& events) const {
  const Prepared& p = parts_->prepared;
  const Course course = course_of(events, p);
  const std::vector<Moment> moments =
      make_history(*p.model, course.events, p.holding.holds, p.cases, parts_->amounts, {false, false});
  Tacked made;
  made.gap_mm.resize(static_cast<Index>(parts_->making.tacks.size()), parts_->amounts.cols());
  for (std::size_t i = 0; i < events.size(); ++i)
    if (events[i].kind == Event::Kind::tack)
      made.gap_mm.row(static_cast<Index>(events[i].which)) = moments[course.over[i] - 1].gap_mm.transpose();
  made.mm = moments.back().measures.topRows(static_cast<Index>(parts_->making.watched.size()));
  return made;
}

} // namespace tacksquare::elastic
