#include "physics/elastic/restraint.h"

#include "physics/elastic/drawing.h"

#include <algorithm>

namespace tacksquare::elastic {

struct Restraint::Parts {
  Making making;
  Prepared prepared;
  std::uint64_t seed = 0;
};

std::optional<Restraint> Restraint::make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                         Making making, const ModelOptions& options, std::uint64_t seed,
                                         Diagnostics& out) {
  std::optional<Prepared> prepared = prepared_of(job, box, geometry, making, options, out);
  if (!prepared) return std::nullopt;
  auto parts = std::make_shared<Parts>();
  parts->making = std::move(making);
  parts->prepared = std::move(*prepared);
  parts->seed = seed;
  return Restraint(std::move(parts));
}

Restraint::Kept Restraint::kept_by(const std::vector<Held>& held, const std::vector<Limit>& limits) const {
  using Kind = Event::Kind;
  Making some = parts_->making;
  some.events.clear();
  std::vector<std::size_t> on; // for the tacks, so far
  for (const Event& event : parts_->making.events) {
    if (event.kind == Kind::weld)
      for (; !on.empty(); on.pop_back())
        some.events.push_back({Kind::let_go, on.back()});
    if (event.kind != Kind::hold && event.kind != Kind::let_go) {
      some.events.push_back(event);
      continue;
    }
    const Held how = held[event.which];
    const auto place = std::find(on.begin(), on.end(), event.which);
    const bool off_already = event.kind == Kind::let_go && how == Held::for_tacks && place == on.end();
    if (how == Held::not_at_all || off_already) continue;
    some.events.push_back(event);
    if (place != on.end())
      on.erase(place);
    else if (event.kind == Kind::hold && how == Held::for_tacks)
      on.push_back(event.which);
  }
  const Variants variants = variants_of(parts_->prepared, some);
  Drawing drawing(some, variants, parts_->seed);
  const Eigen::MatrixXd ground = drawing.ground(some.events.size() - 1);
  Kept kept;
  Eigen::Array<bool, 1, Eigen::Dynamic> all =
      Eigen::Array<bool, 1, Eigen::Dynamic>::Constant(ground.cols(), true);
  const auto share = [&](const auto& draws) {
    return static_cast<double>(draws.count()) / static_cast<double>(ground.cols());
  };
  for (const Limit& limit : limits) {
    const auto draws = ground.row(static_cast<Index>(limit.watched)).array();
    const Eigen::Array<bool, 1, Eigen::Dynamic> within = draws >= limit.low_mm && draws <= limit.high_mm;
    kept.each.push_back(share(within));
    all = all && within;
  }
  kept.all = share(all);
  return kept;
}

} // namespace tacksquare::elastic
