#include "physics/elastic/passage.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace tacksquare::elastic {

using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double kSlack_N = 1e-6;

// What will be looked at and loaded before its spring is there; of tacks when they go again, too.
Indices readings_to_come(const BoxModel& model, const Indices& also) {
  Indices all = also;
  for (const Joint& j : model.welds) {
    all.insert(all.end(), j.readings.begin(), j.readings.end());
    for (const Index load : {j.along_load, j.shrunk.across_load, j.second.across_load})
      if (load >= 0) all.push_back(load);
  }
  return all;
}

} // namespace

Passage::Passage(const BoxModel& model, const std::vector<Hold>& holds, const Cases& cases,
                 const MatrixXd& amounts, const HistoryOptions& options, const Indices& also)
    : m_(&model), holds_(&holds), cases_(&cases), amounts_(&amounts), options_(options),
      grown_(model.parts, model.measures, readings_to_come(model, also),
             model.parts.free * amounts.topRows(static_cast<Index>(cases.misfits))),
      welded_(model.welds.size()), already_(model.welds.size()), put_on_(holds.size()) {
  for (const std::vector<Joint>* joints : {&model.tacks, &model.welds})
    for (const Joint& j : *joints)
      if (cases.second_taper && j.second.across.size() != j.stiffness.size())
        throw InternalError("cases of a second taper that the model does not have");
}

Passage::Passage(std::shared_ptr<const Condensed> box, const Passage& before, MatrixXd stands)
    : box_(std::move(box)), m_(&box_->model), holds_(&box_->holds), cases_(before.cases_),
      amounts_(before.amounts_), options_(before.options_),
      grown_(m_->parts, m_->measures, readings_to_come(*m_, {}), std::move(stands)), welded_(before.welded_),
      already_(before.already_), put_on_(before.put_on_), rest_of_(before.rest_of_) {}

Passage Passage::settled() const {
  if (box_) throw InternalError("a passage that is settled twice");
  auto box = std::make_shared<Condensed>();
  Closing on;
  std::vector<On> springs;
  on.stiffness.resize(static_cast<Index>(on_.size()));
  MatrixXd rest(on.stiffness.size(), columns());
  for (const On& s : on_) {
    const auto n = static_cast<Index>(springs.size());
    on.readings.push_back(s.hold ? (*holds_)[*s.hold].reading
                                 : m_->tacks[*s.tack].readings[static_cast<std::size_t>(s.cell)]);
    on.stiffness(n) = s.hold ? (*holds_)[*s.hold].stiffness : m_->tacks[*s.tack].stiffness(s.cell);
    rest.row(n) = s.of_box ? rest_of_box_.row(s.spring) : grown_.rest(s.spring);
    springs.push_back(s);
    springs.back().spring = n;
    springs.back().of_box = true;
  }
  Indices used;
  std::map<Index, Index> number; // of readings in use
  const auto use = [&](Index& reading) {
    if (reading < 0) return;
    const auto [place, fresh] = number.emplace(reading, static_cast<Index>(used.size()));
    if (fresh) used.push_back(reading);
    reading = place->second;
  };
  box->model.tacks = m_->tacks;
  box->model.welds = m_->welds;
  box->model.measures = m_->measures;
  box->holds = *holds_;
  for (std::vector<Joint>* joints : {&box->model.tacks, &box->model.welds})
    for (Joint& j : *joints) {
      for (Index& r : j.readings)
        use(r);
      for (Index* load : {&j.along_load, &j.shrunk.across_load, &j.second.across_load})
        use(*load);
    }
  for (Index& r : box->model.measures)
    use(r);
  for (Hold& hold : box->holds)
    use(hold.reading);
  for (Index& r : on.readings)
    use(r);
  Structure parts{m_->parts.compliance(used, used), m_->parts.motions(used, Eigen::all),
                  MatrixXd::Zero(static_cast<Index>(used.size()), 0)};
  on.rest = MatrixXd::Zero(on.stiffness.size(), 0);
  box->model.parts = on.readings.empty() ? std::move(parts) : closed(parts, on);
  for (std::size_t i = 0; i < on.readings.size(); ++i)
    box->springs.push_back({on.readings[i], on.stiffness(static_cast<Index>(i))});
  Passage made(std::move(box), *this, grown_.at(used));
  made.on_ = std::move(springs);
  made.rest_of_box_ = std::move(rest);
  return made;
}

void Passage::remelt_tacks() {
  options_.tacks_remelted = true;
  options_.first_give = -1;
}

void Passage::tell(const Change& change) const {
  if (onlooker_) onlooker_(change, grown_);
}

template <class Which> void Passage::take_off(Which which) {
  Indices gone, readings;
  std::vector<double> stiffness;
  MatrixXd rest(0, columns());
  for (const On& s : on_) {
    if (!which(s)) continue;
    if (!s.of_box) {
      gone.push_back(s.spring);
      continue;
    }
    const Spring& spring = box_->springs[static_cast<std::size_t>(s.spring)];
    readings.push_back(spring.reading);
    stiffness.push_back(-spring.stiffness);
    rest.conservativeResize(rest.rows() + 1, Eigen::NoChange);
    rest.bottomRows(1) = rest_of_box_.row(s.spring);
  }
  grown_.take_away(gone);
  if (!readings.empty())
    grown_.add(readings, Eigen::Map<const VectorXd>(stiffness.data(), rest.rows()), rest);
  on_.erase(std::remove_if(on_.begin(), on_.end(), which), on_.end());
}

template <class Under> void Passage::melt(Under under) {
  std::vector<std::size_t> tacks;
  for (const On& s : on_)
    if (under(s) && (tacks.empty() || tacks.back() != *s.tack)) tacks.push_back(*s.tack);
  if (tacks.empty()) return;
  take_off(under);
  tell({Change::Kind::taken_off, 0, tacks});
}

void Passage::shift_rest(const On& s, const Eigen::RowVectorXd& by) {
  if (!s.of_box) {
    grown_.shift_rest(s.spring, by);
    return;
  }
  const Spring& spring = box_->springs[static_cast<std::size_t>(s.spring)];
  rest_of_box_.row(s.spring) += by;
  grown_.load(spring.reading, spring.stiffness * by);
}

Moment Passage::happen(const Event& event) {
  VectorXd open, pressed;
  switch (event.kind) {
  case Event::Kind::tack:
    open = gap_at(event.which);
    pressed = tack(event.which);
    break;
  case Event::Kind::weld:
    weld(event.which);
    break;
  case Event::Kind::hold:
    hold(event.which);
    break;
  case Event::Kind::let_go:
    let_go(event.which);
    break;
  }
  settle_stops();
  return {grown_.watched(), open, pressed, options_.reactions ? reactions() : MatrixXd(),
          options_.first_give < 0 ? MatrixXd() : grown_.gives(options_.first_give)};
}

VectorXd Passage::gap_at(std::size_t which) const {
  const Joint& joint = m_->tacks.at(which);
  return grown_.at(joint.readings).transpose() * joint.apart / joint.apart.squaredNorm();
}

VectorXd Passage::tack(std::size_t which) {
  const Joint& joint = m_->tacks.at(which);
  MatrixXd rest = grown_.at(joint.readings);
  // Pressed together across, in each cell; along the seam and in its turn it is fused as it lies.
  const auto n = static_cast<Index>(joint.readings.size());
  for (Index first = 0; first + 4 <= n; first += 4)
    rest.middleRows(first + 1, 2).setZero();
  const Index before = grown_.springs();
  const auto shrink = [&](const Shrunk& by, Index its_case) {
    const auto share = amounts_->row(its_case);
    rest += by.across * share;
    if (by.across_load >= 0) grown_.load(by.across_load, share);
  };
  shrink(joint.shrunk, cases_->tack(joint.seam));
  if (cases_->second_taper) shrink(joint.second, cases_->second_tack(joint.seam));
  grown_.add(joint.readings, joint.stiffness, rest);
  for (Index i = 0; i < n; ++i)
    on_.push_back({before + i, which, i, std::nullopt, false});
  tell({Change::Kind::tacked, which});
  return grown_.latest_forces(n).transpose() * joint.apart;
}

void Passage::weld(std::size_t which) {
  const Joint& joint = m_->welds.at(which);
  const auto under = [&](const On& s) { return s.tack ? covered(m_->tacks[*s.tack], joint) : 0.0; };
  if (options_.tacks_remelted) melt([&](const On& s) { return under(s) >= kMelts; });
  // Lengths of this seam that are still to come: what this one does there is not done again.
  std::vector<std::size_t> later;
  for (std::size_t l = 0; l < m_->welds.size(); ++l)
    if (l != which && !welded_[l] && m_->welds[l].seam == joint.seam) later.push_back(l);
  const Indices own = columns_of(joint.seam); // freezing what is found moves nothing: only these will
  std::vector<MatrixXd> stood;
  for (const std::size_t l : later)
    stood.push_back(grown_.at(m_->welds[l].readings, own));

  MatrixXd rest = grown_.at(joint.readings);
  if (already_[which].size() > 0) rest(Eigen::all, own) -= already_[which];
  const auto shrink = [&](const Shrunk& by, Index across, Index angle) {
    rest += by.across * amounts_->row(across) + by.angle * amounts_->row(angle);
    if (by.across_load >= 0) grown_.load(by.across_load, amounts_->row(across));
  };
  for (const On& s : on_) // kept tacks shrink with the bead
    if (const double share = under(s); share > 0.0) shrink_with_bead(s, share);
  grown_.load(joint.along_load, amounts_->row(cases_->along(joint.seam)));
  shrink(joint.shrunk, cases_->across(joint.seam), cases_->angle(joint.seam));
  if (cases_->second_taper)
    shrink(joint.second, cases_->second_across(joint.seam), cases_->second_angle(joint.seam));
  grown_.add(joint.readings, joint.stiffness, rest);
  welded_[which] = true;
  for (std::size_t i = 0; i < later.size(); ++i) {
    const MatrixXd moved = grown_.at(m_->welds[later[i]].readings, own) - stood[i];
    if (already_[later[i]].size() == 0) already_[later[i]] = MatrixXd::Zero(moved.rows(), moved.cols());
    already_[later[i]] += moved;
  }
  if (!onlooker_) { // it is made and loaded
    Indices over = joint.readings;
    for (const Index load : {joint.along_load, joint.shrunk.across_load, joint.second.across_load})
      if (load >= 0) over.push_back(load);
    grown_.forget(over);
  }
  tell({Change::Kind::welded, which, {}, later});
}

void Passage::shrink_with_bead(const On& s, double share) {
  const Joint& tack = m_->tacks[*s.tack];
  const auto shrink = [&](const Shrunk& by, Index across, Index angle) {
    shift_rest(s,
               share * (by.across(s.cell) * amounts_->row(across) + by.angle(s.cell) * amounts_->row(angle)));
  };
  shrink(tack.shrunk, cases_->across(tack.seam), cases_->angle(tack.seam));
  if (cases_->second_taper)
    shrink(tack.second, cases_->second_across(tack.seam), cases_->second_angle(tack.seam));
}

// In which the shrinkage of a seam's welds has a part.
Indices Passage::columns_of(std::size_t seam) const {
  Indices own;
  for (Index c = 0; c < columns(); ++c)
    if ((*amounts_)(cases_->across(seam), c) != 0.0 || (*amounts_)(cases_->along(seam), c) != 0.0 ||
        (*amounts_)(cases_->angle(seam), c) != 0.0 ||
        (cases_->second_taper && ((*amounts_)(cases_->second_across(seam), c) != 0.0 ||
                                  (*amounts_)(cases_->second_angle(seam), c) != 0.0)))
      own.push_back(c);
  return own;
}

void Passage::hold(std::size_t which) {
  const Hold& h = holds_->at(which);
  if (h.one_way && columns() != 1) throw InternalError("a stop needs a single column of loads");
  if (h.one_way && box_) throw InternalError("a stop of a passage that is settled");
  rest_of_[which] = h.at ? MatrixXd::Constant(1, columns(), *h.at) : grown_.at({h.reading});
  if (h.piece) rest_of_[which] += h.off * amounts_->row(cases_->piece(*h.piece));
  put_on_[which] = true;
  push(which);
}

void Passage::let_go(std::size_t which) {
  put_on_[which] = false;
  take_off([&](const On& s) { return s.hold == which; });
}

void Passage::push(std::size_t which) {
  const Hold& h = (*holds_)[which];
  on_.push_back({grown_.springs(), std::nullopt, 0, which, false});
  grown_.add({h.reading}, VectorXd::Constant(1, h.stiffness), rest_of_.at(which));
}

// Stops that pull are let go, those that the box has run into push again. One at a time, the worst: all at
// once may go round in circles.
void Passage::settle_stops() {
  if (box_) return; // there are none
  constexpr int kMost = 100;
  for (int round = 0; round < kMost; ++round) {
    std::optional<std::size_t> worst;
    bool pulls = false;
    double most = kSlack_N;
    const VectorXd reaction = columns() == 1 ? VectorXd(reactions().col(0)) : VectorXd();
    for (std::size_t h = 0; h < holds_->size(); ++h) {
      if (!put_on_[h] || !(*holds_)[h].one_way) continue;
      const bool on = std::any_of(on_.begin(), on_.end(), [&](const On& s) { return s.hold == h; });
      const double wrong =
          on ? -reaction(static_cast<Index>(h))
             : (*holds_)[h].stiffness * (grown_.at({(*holds_)[h].reading})(0, 0) - rest_of_.at(h)(0, 0));
      if (wrong <= most) continue;
      most = wrong;
      worst = h;
      pulls = on;
    }
    if (!worst) return;
    if (pulls)
      take_off([&](const On& s) { return s.hold == *worst; });
    else
      push(*worst);
  }
  throw NumericalFailure("stops that neither hold nor let go");
}

MatrixXd Passage::reactions() const {
  MatrixXd r = MatrixXd::Zero(static_cast<Index>(holds_->size()), columns());
  if (std::none_of(on_.begin(), on_.end(), [](const On& s) { return s.hold.has_value(); })) return r;
  const MatrixXd forces = grown_.forces();
  for (const On& s : on_)
    if (s.hold) r.row(static_cast<Index>(*s.hold)) = forces.row(s.spring);
  return r;
}

} // namespace tacksquare::elastic
