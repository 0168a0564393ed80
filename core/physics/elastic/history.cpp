#include "physics/elastic/history.h"

#include "base/at_once.h"
#include "physics/elastic/grown.h"

#include <algorithm>
#include <map>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// A spring of a tack or a hold that is on, by its number in Grown.
struct On {
  Index spring = 0;
  std::optional<std::size_t> tack; // whose spring it is
  Index cell = 0;                  // which of its springs
  std::optional<std::size_t> hold;
};

// What will be looked at and loaded before its spring is there; of tacks when they go again, too.
Indices readings_to_come(const BoxModel& model, const Indices& also) {
  Indices all = also;
  for (const std::vector<Joint>* joints : {&model.welds})
    for (const Joint& j : *joints) {
      all.insert(all.end(), j.readings.begin(), j.readings.end());
      for (const Index load : {j.along_load, j.shrunk.across_load, j.second.across_load})
        if (load >= 0) all.push_back(load);
    }
  return all;
}

class History {
 public:
  History(const BoxModel& model, const std::vector<Hold>& holds, const Cases& cases, const MatrixXd& amounts,
          const HistoryOptions& options, const Indices& also = {})
      : m_(model), holds_(holds), cases_(cases), amounts_(amounts), options_(options),
        grown_(model.parts, model.measures, readings_to_come(model, also),
               model.parts.free * amounts.topRows(static_cast<Index>(cases.misfits))),
        welded_(model.welds.size()), already_(model.welds.size()), put_on_(holds.size()) {
    for (const std::vector<Joint>* joints : {&model.tacks, &model.welds})
      for (const Joint& j : *joints)
        if (cases.second_taper && j.second.across.size() != j.stiffness.size())
          throw InternalError("cases of a second taper that the model does not have");
  }

  // What gives is asked of kept tacks only.
  void remelt_tacks() {
    options_.tacks_remelted = true;
    options_.first_give = -1;
  }
  void watch_by(Onlooker onlooker) { onlooker_ = std::move(onlooker); }
  void tell(const Change& change) const {
    if (onlooker_) onlooker_(change, grown_);
  }

  Moment happen(const Event& event) {
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

  MatrixXd watched() const { return grown_.watched(); }
  EndState end() const { return {grown_.springs_left(), grown_.loads(0)}; }

 private:
  Index columns() const { return amounts_.cols(); }

  VectorXd gap_at(std::size_t which) const {
    const Joint& joint = m_.tacks.at(which);
    return grown_.at(joint.readings).transpose() * joint.apart / joint.apart.squaredNorm();
  }

  VectorXd tack(std::size_t which) {
    const Joint& joint = m_.tacks.at(which);
    MatrixXd rest = grown_.at(joint.readings);
    // Pressed together across, in each cell; along the seam and in its turn it is fused as it lies.
    const auto n = static_cast<Index>(joint.readings.size());
    for (Index first = 0; first + 4 <= n; first += 4)
      rest.middleRows(first + 1, 2).setZero();
    const Index before = grown_.springs();
    const auto shrink = [&](const Shrunk& by, Index its_case) {
      const auto share = amounts_.row(its_case);
      rest += by.across * share;
      if (by.across_load >= 0) grown_.load(by.across_load, share);
    };
    shrink(joint.shrunk, cases_.tack(joint.seam));
    if (cases_.second_taper) shrink(joint.second, cases_.second_tack(joint.seam));
    grown_.add(joint.readings, joint.stiffness, rest);
    for (Index i = 0; i < n; ++i)
      on_.push_back({before + i, which, i, std::nullopt});
    tell({Change::Kind::tacked, which});
    return grown_.latest_forces(n).transpose() * joint.apart;
  }

  void weld(std::size_t which) {
    const Joint& joint = m_.welds.at(which);
    const auto under = [&](const On& s) { return s.tack ? covered(m_.tacks[*s.tack], joint) : 0.0; };
    if (options_.tacks_remelted) melt([&](const On& s) { return under(s) >= kMelts; });
    // Lengths of this seam that are still to come: what this one does there is not done again.
    std::vector<std::size_t> later;
    for (std::size_t l = 0; l < m_.welds.size(); ++l)
      if (l != which && !welded_[l] && m_.welds[l].seam == joint.seam) later.push_back(l);
    const Indices own = columns_of(joint.seam); // freezing what is found moves nothing: only these will
    std::vector<MatrixXd> stood;
    for (const std::size_t l : later)
      stood.push_back(grown_.at(m_.welds[l].readings, own));

    MatrixXd rest = grown_.at(joint.readings);
    if (already_[which].size() > 0) rest(Eigen::all, own) -= already_[which];
    const auto shrink = [&](const Shrunk& by, Index across, Index angle) {
      rest += by.across * amounts_.row(across) + by.angle * amounts_.row(angle);
      if (by.across_load >= 0) grown_.load(by.across_load, amounts_.row(across));
    };
    for (const On& s : on_) // kept tacks shrink with the bead
      if (const double share = under(s); share > 0.0) shrink_with_bead(s, share);
    grown_.load(joint.along_load, amounts_.row(cases_.along(joint.seam)));
    shrink(joint.shrunk, cases_.across(joint.seam), cases_.angle(joint.seam));
    if (cases_.second_taper)
      shrink(joint.second, cases_.second_across(joint.seam), cases_.second_angle(joint.seam));
    grown_.add(joint.readings, joint.stiffness, rest);
    welded_[which] = true;
    for (std::size_t i = 0; i < later.size(); ++i) {
      const MatrixXd moved = grown_.at(m_.welds[later[i]].readings, own) - stood[i];
      if (already_[later[i]].size() == 0) already_[later[i]] = MatrixXd::Zero(moved.rows(), moved.cols());
      already_[later[i]] += moved;
    }
    tell({Change::Kind::welded, which, {}, later});
  }

  template <class Under> void melt(Under under) {
    std::vector<std::size_t> tacks;
    for (const On& s : on_)
      if (under(s) && (tacks.empty() || tacks.back() != *s.tack)) tacks.push_back(*s.tack);
    if (tacks.empty()) return;
    take_off(under);
    tell({Change::Kind::taken_off, 0, tacks});
  }

  void shrink_with_bead(const On& s, double share) {
    const Joint& tack = m_.tacks[*s.tack];
    const auto shrink = [&](const Shrunk& by, Index across, Index angle) {
      grown_.shift_rest(s.spring, share * (by.across(s.cell) * amounts_.row(across) +
                                           by.angle(s.cell) * amounts_.row(angle)));
    };
    shrink(tack.shrunk, cases_.across(tack.seam), cases_.angle(tack.seam));
    if (cases_.second_taper)
      shrink(tack.second, cases_.second_across(tack.seam), cases_.second_angle(tack.seam));
  }

  // In which the shrinkage of a seam's welds has a part.
  Indices columns_of(std::size_t seam) const {
    Indices own;
    for (Index c = 0; c < columns(); ++c)
      if (amounts_(cases_.across(seam), c) != 0.0 || amounts_(cases_.along(seam), c) != 0.0 ||
          amounts_(cases_.angle(seam), c) != 0.0 ||
          (cases_.second_taper &&
           (amounts_(cases_.second_across(seam), c) != 0.0 || amounts_(cases_.second_angle(seam), c) != 0.0)))
        own.push_back(c);
    return own;
  }

  void hold(std::size_t which) {
    const Hold& h = holds_.at(which);
    if (h.one_way && columns() != 1) throw InternalError("a stop needs a single column of loads");
    rest_of_[which] = h.at ? MatrixXd::Constant(1, columns(), *h.at) : grown_.at({h.reading});
    if (h.piece) rest_of_[which] += h.off * amounts_.row(cases_.piece(*h.piece));
    put_on_[which] = true;
    push(which);
  }

  void let_go(std::size_t which) {
    put_on_[which] = false;
    take_off([&](const On& s) { return s.hold == which; });
  }

  void push(std::size_t which) {
    const Hold& h = holds_[which];
    on_.push_back({grown_.springs(), std::nullopt, 0, which});
    grown_.add({h.reading}, VectorXd::Constant(1, h.stiffness), rest_of_.at(which));
  }

  template <class Which> void take_off(Which which) {
    Indices gone;
    for (const On& s : on_)
      if (which(s)) gone.push_back(s.spring);
    grown_.take_away(gone);
    on_.erase(std::remove_if(on_.begin(), on_.end(), which), on_.end());
  }

  // Stops that pull are let go, those that the box has run into push again. One at a time, the worst: all at
  // once may go round in circles.
  void settle_stops() {
    constexpr int kMost = 100;
    for (int round = 0; round < kMost; ++round) {
      std::optional<std::size_t> worst;
      bool pulls = false;
      double most = kSlack_N;
      const VectorXd reaction = columns() == 1 ? VectorXd(reactions().col(0)) : VectorXd();
      for (std::size_t h = 0; h < holds_.size(); ++h) {
        if (!put_on_[h] || !holds_[h].one_way) continue;
        const bool on = std::any_of(on_.begin(), on_.end(), [&](const On& s) { return s.hold == h; });
        const double wrong =
            on ? -reaction(static_cast<Index>(h))
               : holds_[h].stiffness * (grown_.at({holds_[h].reading})(0, 0) - rest_of_.at(h)(0, 0));
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

  MatrixXd reactions() const {
    MatrixXd r = MatrixXd::Zero(static_cast<Index>(holds_.size()), columns());
    if (std::none_of(on_.begin(), on_.end(), [](const On& s) { return s.hold.has_value(); })) return r;
    const MatrixXd forces = grown_.forces();
    for (const On& s : on_)
      if (s.hold) r.row(static_cast<Index>(*s.hold)) = forces.row(s.spring);
    return r;
  }

  static constexpr double kSlack_N = 1e-6;

  const BoxModel& m_;
  const std::vector<Hold>& holds_;
  const Cases& cases_;
  const MatrixXd& amounts_;
  HistoryOptions options_;
  Onlooker onlooker_;
  Grown grown_;
  std::vector<On> on_;
  std::vector<bool> welded_;
  std::vector<MatrixXd> already_; // what lengths of the same seam have done to a length still to come
  std::vector<bool> put_on_;      // holds, whether they touch or not
  std::map<std::size_t, MatrixXd> rest_of_;
};

} // namespace

Cases cases_of(const BoxModel& model, std::size_t seams) {
  return {static_cast<std::size_t>(model.parts.free.cols()), seams, 0, false};
}

std::vector<Moment> make_history(const BoxModel& model, const std::vector<Event>& events,
                                 const std::vector<Hold>& holds, const Cases& cases, const MatrixXd& amounts,
                                 const HistoryOptions& options) {
  History history(model, holds, cases, amounts, options);
  std::vector<Moment> moments;
  for (const Event& e : events)
    moments.push_back(history.happen(e));
  return moments;
}

EndState end_of_history(const BoxModel& model, const std::vector<Event>& events,
                        const std::vector<Hold>& holds, const Cases& cases, const VectorXd& amounts) {
  const MatrixXd column = amounts;
  History history(model, holds, cases, column, {});
  for (const Event& e : events)
    history.happen(e);
  return history.end();
}

BothEnds make_both_ends(const BoxModel& model, const std::vector<Event>& first,
                        const std::vector<Event>& then, const std::vector<Hold>& holds, const Cases& cases,
                        const MatrixXd& amounts, Index first_give) {
  History kept(model, holds, cases, amounts, {false, true, first_give});
  BothEnds made;
  for (const Event& e : first)
    made.kept.push_back(kept.happen(e));
  made.remelted = made.kept;
  History remelted = kept;
  remelted.remelt_tacks();
  const auto go_on = [&](History& history, std::vector<Moment>& moments) {
    for (const Event& e : then)
      moments.push_back(history.happen(e));
  };
  at_once([&] { go_on(kept, made.kept); }, [&] { go_on(remelted, made.remelted); });
  return made;
}

struct Begun::Parts {
  History history;
};

Begun::Begun(const BoxModel& model, const std::vector<Event>& first, const std::vector<Hold>& holds,
             const Cases& cases, const MatrixXd& amounts) {
  History history(model, holds, cases, amounts, {false, false});
  for (const Event& e : first)
    history.happen(e);
  parts_ = std::make_shared<const Parts>(Parts{std::move(history)});
}

MatrixXd Begun::end(const std::vector<Event>& then, bool tacks_remelted) const {
  History history = parts_->history;
  if (tacks_remelted) history.remelt_tacks();
  for (const Event& e : then)
    history.happen(e);
  return history.watched();
}

void look_on_both_ends(const BoxModel& model, const std::vector<Event>& first, const std::vector<Event>& then,
                       const Cases& cases, const Indices& also, const Onlooker& kept,
                       const std::function<void()>& parting, const Onlooker& remelted) {
  const std::vector<Hold> none;
  const MatrixXd each = MatrixXd::Identity(cases.count(), cases.count());
  History beginning(model, none, cases, each, {}, also);
  beginning.watch_by(kept);
  beginning.tell({});
  for (const Event& e : first)
    beginning.happen(e);
  parting();
  History other = beginning;
  other.remelt_tacks();
  other.watch_by(remelted);
  const auto go_on = [&](History& history) {
    for (const Event& e : then)
      history.happen(e);
  };
  at_once([&] { go_on(beginning); }, [&] { go_on(other); });
}

} // namespace tacksquare::elastic
