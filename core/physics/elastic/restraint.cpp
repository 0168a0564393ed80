#include "physics/elastic/restraint.h"

#include <algorithm>

namespace tacksquare::elastic {

struct Restraint::Parts {
  Making making;
  Prepared prepared;
  std::optional<Condensed> condensed;
  std::optional<Judging> judging;
};

std::optional<Restraint> Restraint::make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                         Making making, const ModelOptions& options, std::uint64_t seed,
                                         std::vector<Limit> limits, Diagnostics& out) {
  std::optional<Prepared> prepared = prepared_of(job, box, geometry, making, options, out);
  if (!prepared) return std::nullopt;
  auto parts = std::make_shared<Parts>();
  parts->making = std::move(making);
  parts->prepared = std::move(*prepared);
  parts->condensed.emplace(parts->prepared, parts->making);
  parts->judging.emplace(parts->making, parts->prepared.cases, std::move(limits), seed);
  return Restraint(std::move(parts));
}

namespace {

std::vector<Event> events_held(const std::vector<Event>& events, const std::vector<Restraint::Held>& held) {
  using Kind = Event::Kind;
  using How = Restraint::Held;
  std::vector<Event> some;
  std::vector<std::size_t> on; // for the tacks, so far
  for (const Event& event : events) {
    if (event.kind == Kind::weld)
      for (; !on.empty(); on.pop_back())
        some.push_back({Kind::let_go, on.back()});
    if (event.kind != Kind::hold && event.kind != Kind::let_go) {
      some.push_back(event);
      continue;
    }
    const How how = held[event.which];
    const auto place = std::find(on.begin(), on.end(), event.which);
    const bool off_already = event.kind == Kind::let_go && how == How::for_tacks && place == on.end();
    if (how == How::not_at_all || off_already) continue;
    some.push_back(event);
    if (place != on.end())
      on.erase(place);
    else if (event.kind == Kind::hold && how == How::for_tacks)
      on.push_back(event.which);
  }
  return some;
}

} // namespace

Ends Restraint::ends(const std::vector<Held>& held) const {
  return parts_->condensed->ends(events_held(parts_->making.events, held));
}

Ends Restraint::ends_by_history(const std::vector<Held>& held) const {
  Making some = parts_->making;
  some.events = events_held(parts_->making.events, held);
  const Variants variants = variants_of(parts_->prepared, some);
  return {variants.kept.measures.back(), variants.remelted.measures.back()};
}

std::optional<int> Restraint::kept_by(const std::vector<Held>& held, int least) const {
  return judging().kept(ends(held), least);
}

const Judging& Restraint::judging() const {
  return *parts_->judging;
}

} // namespace tacksquare::elastic
