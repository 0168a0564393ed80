#include "physics/elastic/condensed.h"

#include "physics/elastic/condensed_step.h"

#include <algorithm>

namespace tacksquare::elastic {

using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Condensed::Parts {
  explicit Parts(const Prepared& p)
      : model(p.model), rows(*p.model), cases(p.cases), runs(p.runs), holds(p.holding.holds),
        first_hold(p.holding.first), rest(MatrixXd::Zero(held(), p.cases.count())) {
    for (std::size_t h = 0; h < holds.size(); ++h) {
      if (holds[h].one_way || !holds[h].at) throw InternalError("a hold that no force stands for");
      const auto row = static_cast<Index>(h);
      rest.row(row).setConstant(*holds[h].at);
      if (holds[h].piece) rest(row, cases.piece(*holds[h].piece)) += holds[h].off;
    }
  }

  std::shared_ptr<const BoxModel> model;
  Rows rows;
  Cases cases;
  Cut runs;
  std::vector<Hold> holds;
  std::vector<std::size_t> first_hold; // of each piece, and the end
  MatrixXd rest;                       // holds x cases
  std::vector<Step> beginning, kept, remelted;
  Ends free; // held by nothing

  Index held() const { return static_cast<Index>(holds.size()); }
  Index watched() const { return static_cast<Index>(model->measures.size()) - held(); }
  std::size_t lengths_of(std::size_t run) const {
    return runs.last_of[run] + 1 - (run == 0 ? 0 : runs.last_of[run - 1] + 1);
  }
};

// The box held by some pieces: how far it is off from where it stands held by nothing.
class Condensed::Replay {
 public:
  explicit Replay(const Parts& parts)
      : p_(parts), off_(MatrixXd::Zero(parts.cases.count(), parts.rows.count)),
        motions_(MatrixXd::Zero(parts.model->parts.motions.cols(), parts.cases.count())),
        forces_(MatrixXd::Zero(parts.held(), parts.cases.count())), already_(parts.model->welds.size()),
        on_(parts.holds.size()), last_(&parts.beginning.front()) {}

  void put(std::size_t piece, bool on) {
    for (std::size_t h = p_.first_hold[piece]; h < p_.first_hold[piece + 1]; ++h)
      on_[h] = on;
    changed_ = true;
  }

  void happen(const Step& step) {
    settle_pieces();
    last_ = &step;
    if (!touched_) return;
    const Change& change = step.change;
    const Indices own = own_cases(change);
    MatrixXd moved = MatrixXd::Zero(step.by_own.later.rows(), static_cast<Index>(own.size()));
    if (change.kind == Change::Kind::tacked) advance(step.by_own, -gaps(change.which), step.more);
    if (change.kind == Change::Kind::taken_off) advance(step.by_own, pulls(change.tacks), step.more);
    if (change.kind == Change::Kind::welded && already_[change.which].size() > 0) {
      MatrixXd back = MatrixXd::Zero(step.by_own.rows.cols(), p_.cases.count());
      back(Eigen::all, own) = -already_[change.which];
      advance(step.by_own, back, step.more);
      moved -= step.by_own.later * already_[change.which];
    }
    settle(step, own, moved);
    Index from = 0;
    for (const std::size_t l : change.later) {
      const auto n = static_cast<Index>(p_.model->welds[l].readings.size());
      if (already_[l].size() == 0) already_[l] = MatrixXd::Zero(n, moved.cols());
      already_[l] += moved.middleRows(from, n);
      from += n;
    }
  }

  MatrixXd end() {
    settle_pieces();
    return off_.leftCols(p_.watched()).transpose();
  }

 private:
  // In which the shrinkage of a seam's welds has a part.
  Indices own_cases(const Change& change) const {
    if (change.kind != Change::Kind::welded) return {};
    const std::size_t seam = p_.model->welds[change.which].seam;
    Indices own{p_.cases.across(seam), p_.cases.along(seam), p_.cases.angle(seam)};
    if (p_.cases.second_taper)
      own.insert(own.end(), {p_.cases.second_across(seam), p_.cases.second_angle(seam)});
    return own;
  }

  MatrixXd gaps(std::size_t tack) const {
    const std::size_t n = p_.model->tacks[tack].readings.size();
    Indices rows;
    for (std::size_t i = 0; i < n; ++i)
      if (across_gap(i, n)) rows.push_back(p_.rows.of_tack[tack] + static_cast<Index>(i));
    return off_(Eigen::all, rows).transpose();
  }

  MatrixXd pulls(const std::vector<std::size_t>& tacks) const {
    MatrixXd all(0, p_.cases.count());
    for (const std::size_t t : tacks) {
      const VectorXd& k = p_.model->tacks[t].stiffness;
      all.conservativeResize(all.rows() + k.size(), Eigen::NoChange);
      all.bottomRows(k.size()) = k.asDiagonal() * off_.middleCols(p_.rows.of_tack[t], k.size()).transpose();
    }
    return all;
  }

  void advance(const Effect& by, const MatrixXd& amounts, const Indices& more) {
    const auto measures = static_cast<Index>(p_.model->measures.size());
    const MatrixXd rows = amounts.transpose() * by.rows.transpose();
    off_.leftCols(measures) += rows.leftCols(measures);
    for (std::size_t i = 0; i < more.size(); ++i)
      off_.col(more[i]) += rows.col(measures + static_cast<Index>(i));
    motions_.noalias() += by.motions * amounts;
  }

  void settle_pieces() {
    MatrixXd none(last_->by_own.later.rows(), 0);
    if (changed_) settle(*last_, {}, none);
    changed_ = false;
  }

  // The holds' forces anew, and the motions that nothing else holds. moved: later springs, of the seam's own
  // cases.
  void settle(const Step& step, const Indices& own, MatrixXd& moved) {
    Indices on;
    VectorXd stiffness(p_.held());
    for (Index h = 0; h < p_.held(); ++h)
      if (on_[static_cast<std::size_t>(h)]) {
        stiffness(static_cast<Index>(on.size())) = p_.holds[static_cast<std::size_t>(h)].stiffness;
        on.push_back(h);
      }
    touched_ = touched_ || !on.empty();
    if (!touched_) return;
    MatrixXd forces = MatrixXd::Zero(p_.held(), p_.cases.count());
    MatrixXd drift = -(step.by_free.motions.transpose() * motions_);
    if (!on.empty()) {
      const auto of_holds = [&](const MatrixXd& rows) { return rows_of(rows, p_.watched(), p_.held()); };
      const Structure seen{of_holds(step.by_holds.rows), of_holds(step.by_free.rows), {}};
      const MatrixXd off = step.stood + off_.middleCols(p_.watched(), p_.held()).transpose() +
                           seen.compliance * forces_ + seen.motions * drift - p_.rest;
      const Held held(seen, on, stiffness.head(static_cast<Index>(on.size())));
      const auto [pulls, moves] = held.answer(off(on, Eigen::all));
      forces(on, Eigen::all) = pulls;
      drift += moves;
    }
    const MatrixXd released = forces_ - forces;
    advance(step.by_holds, released, step.more);
    if (drift.rows() > 0) advance(step.by_free, drift, step.more);
    if (!own.empty() && moved.rows() > 0) {
      moved += step.by_holds.later * released(Eigen::all, own);
      moved += step.by_free.later * drift(Eigen::all, own);
    }
    forces_ = forces;
  }

  const Parts& p_;
  MatrixXd off_;                  // cases x rows: those lie side by side
  MatrixXd motions_;              // of the structure, x cases
  MatrixXd forces_;               // holds x cases: positive where they pull
  std::vector<MatrixXd> already_; // as welds: what is not turned again, springs x own cases
  std::vector<char> on_;          // holds
  const Step* last_;
  bool changed_ = false, touched_ = false;
};

Condensed::Condensed(const Prepared& prepared, const Making& making) {
  auto parts = std::make_shared<Parts>(prepared);
  std::vector<Event> bare = making.events;
  std::erase_if(bare,
                [](const Event& e) { return e.kind == Event::Kind::hold || e.kind == Event::Kind::let_go; });
  const Course course = course_of(bare, prepared);
  const auto split = course.events.begin() + static_cast<long>(course.before_welds);
  Indices springs;
  for (const Joint& tack : parts->model->tacks)
    springs.insert(springs.end(), tack.readings.begin(), tack.readings.end());
  Recorder kept(*parts->model, parts->rows, parts->held(), parts->beginning, parts->free.kept);
  std::optional<Recorder> remelted;
  look_on_both_ends(
      *parts->model, {course.events.begin(), split}, {split, course.events.end()}, parts->cases, springs,
      [&](const Change& change, const Grown& grown) { kept.write(change, grown); },
      [&] {
        remelted.emplace(kept);
        remelted->go_on_in(parts->remelted, parts->free.remelted, true);
        kept.go_on_in(parts->kept, parts->free.kept, false);
      },
      [&](const Change& change, const Grown& grown) { remelted->write(change, grown); });
  if (parts->remelted.empty()) parts->free.remelted = parts->free.kept;
  parts_ = std::move(parts);
}

Ends Condensed::ends(const std::vector<Event>& events) const {
  Replay kept(*parts_);
  auto step = parts_->beginning.begin() + 1;
  std::size_t at = 0;
  const auto pieces = [&](Replay& replay, const Event& e) {
    replay.put(e.which, e.kind == Event::Kind::hold);
  };
  const auto is_piece = [](const Event& e) {
    return e.kind == Event::Kind::hold || e.kind == Event::Kind::let_go;
  };
  for (; at < events.size() && events[at].kind != Event::Kind::weld; ++at)
    if (is_piece(events[at]))
      pieces(kept, events[at]);
    else
      kept.happen(*step++);
  Replay remelted = kept;
  const auto go_on = [&](Replay& replay, const std::vector<Step>& steps) {
    auto next = steps.begin();
    for (std::size_t i = at; i < events.size(); ++i) {
      const Event& e = events[i];
      if (is_piece(e)) {
        pieces(replay, e);
        continue;
      }
      // A tack that melts goes on its own before its length of bead.
      for (std::size_t left = e.kind == Event::Kind::weld ? parts_->lengths_of(e.which) : 1; left > 0;
           ++next) {
        if (next->change.kind != Change::Kind::taken_off) --left;
        replay.happen(*next);
      }
    }
  };
  go_on(kept, parts_->kept);
  go_on(remelted, parts_->remelted);
  return {parts_->free.kept + kept.end(), parts_->free.remelted + remelted.end()};
}

} // namespace tacksquare::elastic
