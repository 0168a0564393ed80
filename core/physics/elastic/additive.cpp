#include "physics/elastic/additive.h"

#include "physics/elastic/reduced.h"

#include <algorithm>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;

// Holds of the pieces that are on when the last weld is over.
std::vector<Hold> holds_at_the_end(const Prepared& prepared, const Making& making) {
  std::vector<char> on(making.pieces.size()), at_last_weld = on;
  for (const Event& event : making.events) {
    if (event.kind == Event::Kind::hold) on[event.which] = true;
    if (event.kind == Event::Kind::let_go) on[event.which] = false;
    if (event.kind == Event::Kind::weld) at_last_weld = on;
  }
  std::vector<Hold> holds;
  for (std::size_t p = 0; p < at_last_weld.size(); ++p)
    if (at_last_weld[p])
      for (std::size_t h = prepared.holding.first[p]; h < prepared.holding.first[p + 1]; ++h)
        holds.push_back(prepared.holding.holds[h]);
  return holds;
}

// How unit loads on these readings move the measures of a box that is welded all over and held by nothing.
MatrixXd gives_when_welded(const TackedBox& box, const Indices& loads) {
  const Closing all = closing_of(box.welds, 0);
  const Held held(box.structure, all.readings, all.stiffness);
  const MatrixXd& c = box.structure.compliance;
  return c(box.measures, loads) - c(box.measures, all.readings) * held.answer(c(all.readings, loads)).forces;
}

} // namespace

Additive::Additive(const Prepared& prepared, const Making& making,
                   const std::vector<std::vector<std::size_t>>& runs)
    : watched_(static_cast<Index>(making.watched.size())) {
  std::vector<std::vector<std::size_t>> together; // lengths
  for (const std::vector<std::size_t>& as_one : runs) {
    together.emplace_back();
    for (const std::size_t run : as_one)
      for (std::size_t length = run == 0 ? 0 : prepared.runs.last_of[run - 1] + 1;
           length <= prepared.runs.last_of[run]; ++length)
        together.back().push_back(length);
  }
  const BoxModel& model = *prepared.model;
  const std::vector<Hold> holds = holds_at_the_end(prepared, making);
  std::vector<Spring> springs;
  for (const Hold& hold : holds)
    springs.push_back({hold.reading, hold.stiffness});
  box_ = merged(tacked(model, springs), together);
  release_ = MatrixXd::Identity(watched_, static_cast<Index>(model.measures.size()));
  if (holds.empty()) return;
  // What a hold pulls with when the last weld is over moves the measures back when it goes.
  const TackedBox loose = merged(tacked(model), together);
  Indices places, rows; // of each hold: in the measures
  for (const Hold& hold : holds) {
    const auto place = std::find(model.measures.begin(), model.measures.end(), hold.reading);
    places.push_back(static_cast<Index>(place - model.measures.begin()));
    rows.push_back(loose.measures[static_cast<std::size_t>(places.back())]);
  }
  const MatrixXd gives = gives_when_welded(loose, rows);
  for (std::size_t h = 0; h < holds.size(); ++h)
    release_.col(places[h]) += holds[h].stiffness * gives.col(static_cast<Index>(h)).head(watched_);
}

Response Additive::released(const Response& step) const {
  return release_ * step;
}

StepTable Additive::table(const std::vector<std::size_t>& before,
                          const std::vector<RoundsOfSeam>& runs) const {
  constexpr std::size_t kWhole = 6;
  StepTable made = runs.size() > kWhole ? step_table(reduced(box_, {kTableError}), before, runs)
                                        : step_table(box_, before, runs);
  for (Response& step : made.steps)
    if (step.size() > 0) step = released(step);
  return made;
}

std::vector<Response> Additive::sequence(const std::vector<std::size_t>& runs) const {
  std::vector<Response> steps = weld_sequence(box_, runs);
  for (Response& step : steps)
    step = released(step);
  return steps;
}

std::vector<StepRange> Additive::ranges(const std::vector<std::size_t>& before,
                                        const std::vector<std::size_t>& runs) const {
  return step_ranges(box_, before, runs, release_);
}

} // namespace tacksquare::elastic
