#include "physics/elastic/condensed_step.h"

#include <algorithm>

namespace tacksquare::elastic {

using Eigen::MatrixXd;
using Eigen::VectorXd;

bool across_gap(std::size_t spring, std::size_t springs) {
  return spring < springs / 4 * 4 && (spring % 4 == 1 || spring % 4 == 2);
}

Rows::Rows(const BoxModel& model) : count(static_cast<Index>(model.measures.size())) {
  for (const Joint& tack : model.tacks) {
    of_tack.push_back(count);
    count += static_cast<Index>(tack.readings.size());
    melts.push_back(std::any_of(model.welds.begin(), model.welds.end(), [&](const Joint& weld) {
      return weld.seam == tack.seam && covered(tack, weld) >= kMelts;
    }));
  }
}

Recorder::Recorder(const BoxModel& model, const Rows& rows, Index holds, std::vector<Step>& to, MatrixXd& end)
    : m_(model), rows_(rows), holds_(holds), to_(&to), end_(&end), made_(model.tacks.size()),
      gone_(model.tacks.size()), begun_(model.welds.size()),
      squares_(model.parts.motions.transpose() * model.parts.motions) {}

void Recorder::go_on_in(std::vector<Step>& to, MatrixXd& end, bool melting) {
  to_ = &to;
  end_ = &end;
  melting_ = melting;
}

Recorder::Own Recorder::own_of(const Change& change) {
  Own own;
  switch (change.kind) {
  case Change::Kind::none:
    break;
  case Change::Kind::tacked: {
    made_[change.which] = true;
    const Joint& tack = m_.tacks[change.which];
    for (std::size_t i = 0; i < tack.readings.size(); ++i)
      if (across_gap(i, tack.readings.size())) {
        own.readings.push_back(tack.readings[i]);
        own.amounts.push_back(tack.stiffness(static_cast<Index>(i)));
      }
    break;
  }
  case Change::Kind::taken_off:
    for (const std::size_t t : change.tacks) {
      gone_[t] = true;
      const Indices& springs = m_.tacks[t].readings;
      own.readings.insert(own.readings.end(), springs.begin(), springs.end());
      own.amounts.insert(own.amounts.end(), springs.size(), 1.0);
    }
    break;
  case Change::Kind::welded:
    if (begun_[change.which]) {
      const Joint& weld = m_.welds[change.which];
      own.readings = weld.readings;
      own.amounts.assign(weld.stiffness.begin(), weld.stiffness.end());
    }
    for (const std::size_t l : change.later)
      begun_[l] = true;
    break;
  }
  return own;
}

// Of a tack to come how far its gap stands open, of one that will melt what it is stretched by.
void Recorder::add_tack(std::size_t tack, Indices& more, Indices& readings) const {
  const Indices& springs = m_.tacks[tack].readings;
  if (gone_[tack] || (made_[tack] && !(melting_ && rows_.melts[tack]))) return;
  for (std::size_t i = 0; i < springs.size(); ++i)
    if (made_[tack] || across_gap(i, springs.size())) {
      more.push_back(rows_.of_tack[tack] + static_cast<Index>(i));
      readings.push_back(springs[i]);
    }
}

void Recorder::write(const Change& change, const Grown& grown) {
  Step step;
  step.change = change;
  const Own own = own_of(change);
  Indices pushes(m_.measures.end() - holds_, m_.measures.end());
  pushes.insert(pushes.end(), own.readings.begin(), own.readings.end());
  Indices readings = m_.measures;
  for (std::size_t t = 0; t < m_.tacks.size(); ++t)
    add_tack(t, step.more, readings);
  const auto rows = static_cast<Index>(readings.size());
  for (const std::size_t l : change.later)
    readings.insert(readings.end(), m_.welds[l].readings.begin(), m_.welds[l].readings.end());

  const Grown::Pushed pushed = grown.pushed(pushes, readings);
  const Index later = pushed.readings.rows() - rows, owned = static_cast<Index>(own.amounts.size());
  step.by_holds = {pushed.readings.topLeftCorner(rows, holds_),
                   pushed.readings.bottomLeftCorner(later, holds_), pushed.motions.leftCols(holds_)};
  const VectorXd by = Eigen::Map<const VectorXd>(own.amounts.data(), owned);
  step.by_own = {pushed.readings.topRightCorner(rows, owned) * by.asDiagonal(),
                 pushed.readings.bottomRightCorner(later, owned) * by.asDiagonal(),
                 pushed.motions.rightCols(owned) * by.asDiagonal()};
  const MatrixXd& free = grown.free_motions();
  const MatrixXd loose = free * split_motions(free.transpose() * squares_ * free).held;
  const MatrixXd seen = m_.parts.motions(readings, Eigen::all) * loose;
  step.by_free = {rows_of(seen, 0, rows), rows_of(seen, rows, later), loose};
  const MatrixXd figures = grown.watched();
  step.stood = figures.bottomRows(holds_);
  *end_ = figures.topRows(figures.rows() - holds_);
  to_->push_back(std::move(step));
}

} // namespace tacksquare::elastic
