#include "physics/elastic/restraint.h"

#include "physics/elastic/drawing.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::elastic {

using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Restraint::Parts {
  Making making;
  Prepared prepared;
  std::vector<Limit> limits;
  std::optional<Condensed> condensed;
  VectorXd middle;
  MatrixXd amounts; // of cases by kept tacks, then by remelted ones, x draws
  MatrixXd ground;  // limits x draws: what is ground puts on
};

namespace {

// As Drawing::ground draws it.
MatrixXd ground_of(const Making& making, const std::vector<Limit>& limits, Random& random) {
  MatrixXd all = MatrixXd::Zero(static_cast<Index>(making.watched.size()), kExpectDraws);
  for (std::size_t f = 0; f < making.watched.size(); ++f)
    for (Index d = 0; d < all.cols(); ++d)
      for (int end = 0; end < making.watched[f].ground_ends; ++end)
        all(static_cast<Index>(f), d) += random.uniform(0.0, std::max(making.watched[f].proud_mm, 1e-12));
  MatrixXd some(static_cast<Index>(limits.size()), kExpectDraws);
  for (std::size_t i = 0; i < limits.size(); ++i)
    some.row(static_cast<Index>(i)) = all.row(static_cast<Index>(limits[i].watched));
  return some;
}

} // namespace

std::optional<Restraint> Restraint::make(const Job& job, const Box& box, const BoxGeometry& geometry,
                                         Making making, const ModelOptions& options, std::uint64_t seed,
                                         std::vector<Limit> limits, Diagnostics& out) {
  std::optional<Prepared> prepared = prepared_of(job, box, geometry, making, options, out);
  if (!prepared) return std::nullopt;
  auto parts = std::make_shared<Parts>();
  parts->making = std::move(making);
  parts->prepared = std::move(*prepared);
  parts->limits = std::move(limits);
  parts->condensed.emplace(parts->prepared, parts->making);
  Random random(seed);
  const Draws draws(parts->making, parts->prepared.cases, random);
  parts->ground = ground_of(parts->making, parts->limits, random);
  parts->middle = draws.amounts.col(0);
  const Index cases = draws.amounts.rows();
  parts->amounts.resize(2 * cases, kExpectDraws);
  for (Index d = 0; d < kExpectDraws; ++d) {
    const double remelted = draws.remelted[static_cast<std::size_t>(d + 1)];
    parts->amounts.col(d).head(cases) = (1.0 - remelted) * draws.amounts.col(d + 1);
    parts->amounts.col(d).tail(cases) = remelted * draws.amounts.col(d + 1);
  }
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

Condensed::Ends Restraint::ends(const std::vector<Held>& held) const {
  return parts_->condensed->ends(events_held(parts_->making.events, held));
}

Condensed::Ends Restraint::ends_by_history(const std::vector<Held>& held) const {
  Making some = parts_->making;
  some.events = events_held(parts_->making.events, held);
  const Variants variants = variants_of(parts_->prepared, some);
  return {variants.kept.measures.back(), variants.remelted.measures.back()};
}

std::optional<int> Restraint::kept_by(const std::vector<Held>& held, int least) const {
  return kept(ends(held), least);
}

std::optional<int> Restraint::kept(const Condensed::Ends& ends, int least) const {
  const Parts& p = *parts_;
  VectorXd larger = VectorXd::Zero(ends.kept.rows()); // what is put back into the blanks
  const VectorXd middle = 0.5 * (ends.kept * p.middle + ends.remelted * p.middle);
  for (const PutBack& axis : p.making.put_back) {
    double loss = 0.0;
    for (const std::size_t w : axis.corners)
      loss -= middle(static_cast<Index>(w)) / static_cast<double>(axis.corners.size());
    for (const std::size_t w : axis.sizes)
      larger(static_cast<Index>(w)) = loss;
  }
  MatrixXd both(static_cast<Index>(p.limits.size()), p.amounts.rows());
  VectorXd off(both.rows());
  for (Index i = 0; i < both.rows(); ++i) {
    const auto row = static_cast<Index>(p.limits[static_cast<std::size_t>(i)].watched);
    both.row(i) << ends.kept.row(row), ends.remelted.row(row);
    off(i) = larger(row);
  }
  constexpr Index kAtOnce = 100; // draws
  int kept = 0;
  for (Index first = 0; first < p.amounts.cols(); first += kAtOnce) {
    const Index n = std::min(kAtOnce, p.amounts.cols() - first);
    if (kept + static_cast<int>(p.amounts.cols() - first) < least) return std::nullopt;
    MatrixXd read = both * p.amounts.middleCols(first, n) + p.ground.middleCols(first, n);
    read.colwise() += off;
    for (Index d = 0; d < n; ++d) {
      bool all = true;
      for (std::size_t i = 0; all && i < p.limits.size(); ++i) {
        const Limit& limit = p.limits[i];
        double value = read(static_cast<Index>(i), d);
        if (p.making.watched[limit.watched].without_sign) value = std::abs(value);
        all = value >= limit.low_mm && value <= limit.high_mm;
      }
      if (all) ++kept;
    }
  }
  return kept >= least ? std::optional(kept) : std::nullopt;
}

} // namespace tacksquare::elastic
