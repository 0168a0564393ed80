#include "physics/elastic/history.h"

#include "base/at_once.h"
#include "physics/elastic/passage.h"

namespace tacksquare::elastic {

using Eigen::MatrixXd;
using Eigen::VectorXd;

Cases cases_of(const BoxModel& model, std::size_t seams) {
  return {static_cast<std::size_t>(model.parts.free.cols()), seams, 0, false};
}

std::vector<Moment> make_history(const BoxModel& model, const std::vector<Event>& events,
                                 const std::vector<Hold>& holds, const Cases& cases, const MatrixXd& amounts,
                                 const HistoryOptions& options) {
  Passage passage(model, holds, cases, amounts, options);
  std::vector<Moment> moments;
  for (const Event& e : events)
    moments.push_back(passage.happen(e));
  return moments;
}

EndState end_of_history(const BoxModel& model, const std::vector<Event>& events,
                        const std::vector<Hold>& holds, const Cases& cases, const VectorXd& amounts) {
  const MatrixXd column = amounts;
  Passage passage(model, holds, cases, column, {});
  for (const Event& e : events)
    passage.happen(e);
  return passage.end();
}

BothEnds make_both_ends(const BoxModel& model, const std::vector<Event>& first,
                        const std::vector<Event>& then, const std::vector<Hold>& holds, const Cases& cases,
                        const MatrixXd& amounts, Index first_give) {
  Passage kept(model, holds, cases, amounts, {false, true, first_give});
  BothEnds made;
  for (const Event& e : first)
    made.kept.push_back(kept.happen(e));
  made.remelted = made.kept;
  Passage remelted = kept;
  remelted.remelt_tacks();
  const auto go_on = [&](Passage& passage, std::vector<Moment>& moments) {
    for (const Event& e : then)
      moments.push_back(passage.happen(e));
  };
  at_once([&] { go_on(kept, made.kept); }, [&] { go_on(remelted, made.remelted); });
  return made;
}

struct Begun::Parts {
  Passage passage;
};

Begun::Begun(const BoxModel& model, const std::vector<Event>& first, const std::vector<Hold>& holds,
             const Cases& cases, const MatrixXd& amounts) {
  Passage passage(model, holds, cases, amounts, {false, false});
  for (const Event& e : first)
    passage.happen(e);
  parts_ = std::make_shared<const Parts>(Parts{passage.settled()});
}

MatrixXd Begun::end(const std::vector<Event>& then, bool tacks_remelted) const {
  Passage passage = parts_->passage;
  if (tacks_remelted) passage.remelt_tacks();
  for (const Event& e : then)
    passage.happen(e);
  return passage.watched();
}

void look_on_both_ends(const BoxModel& model, const std::vector<Event>& first, const std::vector<Event>& then,
                       const Cases& cases, const Indices& also, const Onlooker& kept,
                       const std::function<void()>& parting, const Onlooker& remelted) {
  const std::vector<Hold> none;
  const MatrixXd each = MatrixXd::Identity(cases.count(), cases.count());
  Passage beginning(model, none, cases, each, {}, also);
  beginning.watch_by(kept);
  beginning.tell({});
  for (const Event& e : first)
    beginning.happen(e);
  parting();
  Passage other = beginning;
  other.remelt_tacks();
  other.watch_by(remelted);
  const auto go_on = [&](Passage& passage) {
    for (const Event& e : then)
      passage.happen(e);
  };
  at_once([&] { go_on(beginning); }, [&] { go_on(other); });
}

} // namespace tacksquare::elastic
