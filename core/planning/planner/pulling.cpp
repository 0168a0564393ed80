#include "planning/planner/pulling.h"

#include "physics/elastic/pull.h"
#include "planning/planner/checks.h"
#include "planning/planner/elastic_case.h"

#include <algorithm>

namespace tacksquare {
namespace {

using elastic::Event;

constexpr double kMostSprings = 2500.0;
constexpr double kMostPast = 6.0; // mm for each that it is off: nobody pulls a box farther to be sure of it
constexpr double kWorthWaiting = 0.5; // so much less to pull, if it is left on until all is cold

// Stays of 1 mm: past equal by 1/stays - 1 for each that it is off.
Band past_of(const Band& stays) {
  const auto past = [](double share) { return std::max(0.0, 1.0 / std::max(share, 1e-9) - 1.0); };
  return {past(stays.value), past(stays.high), past(stays.low)};
}

std::optional<PullPast> past_square(const elastic::PullStays& stays, bool closed) {
  const Band tacked = past_of(stays.until_tacked), welded = past_of(stays.until_welded);
  const bool wait = !closed && welded.value < kWorthWaiting * tacked.value;
  const Band& past = wait ? welded : tacked;
  if (past.value > kMostPast) return std::nullopt;
  return PullPast{wait, past};
}

// The opening's; of a closed box where its last face will be.
std::optional<std::size_t> diagonals_of(const BoxCase& box, const ElasticCase& made) {
  for (std::size_t i = 0; i < made.measure.size(); ++i) {
    const Measure& m = box.work.measures[made.measure[i]];
    if (m.kind == MeasureKind::diagonals && (!box.work.last_face || m.where == *box.work.last_face)) return i;
  }
  return std::nullopt;
}

} // namespace

Pulls pulls_of(const BoxCase& box) {
  ElasticCase made = coarse_case(box);
  const std::optional<std::size_t> read = diagonals_of(box, made);
  if (!read || springs_in(made) > kMostSprings) return {};
  const std::vector<std::size_t> last = seams_of_last_face(box);
  auto& events = made.making.events;
  if (box.work.last_face) // what is left of the box by then
    events.erase(std::remove_if(events.begin(), events.end(),
                                [&](const Event& e) {
                                  return e.kind == Event::Kind::weld ||
                                         (e.kind == Event::Kind::tack &&
                                          std::find(last.begin(), last.end(), box.tacks[e.which].seam) !=
                                              last.end());
                                }),
                 events.end());
  std::size_t first = 0, second = 0;
  for (const Tack& tack : box.tacks) {
    if (tack.round == 0) ++first;
    if (tack.round <= 1) ++second;
  }
  try {
    Diagnostics unused; // the same faults are told when the box is reckoned
    const std::vector<elastic::PullStays> stays =
        elastic::pull_stays(box.job, box.box, box.geometry, made.making, made.options,
                            made.making.watched[*read].figure, {first, second}, unused);
    if (stays.empty()) return {};
    return {true, past_square(stays[0], box.closed()), past_square(stays[1], box.closed())};
  } catch (const NumericalFailure&) { // told when the box is reckoned
    return {};
  }
}

} // namespace tacksquare
