// A box on its way through its making: what history.h tells of. Only for history and begun.
#pragma once

#include "physics/elastic/grown.h"
#include "physics/elastic/history.h"

#include <map>
#include <memory>

namespace tacksquare::elastic {

class Passage {
 public:
  // also: readings that are looked at again and again. All must outlive it.
  Passage(const BoxModel& model, const std::vector<Hold>& holds, const Cases& cases,
          const Eigen::MatrixXd& amounts, const HistoryOptions& options, const Indices& also = {});

  Moment happen(const Event& event);
  // What gives is asked of kept tacks only.
  void remelt_tacks();
  void watch_by(Onlooker onlooker) { onlooker_ = std::move(onlooker); }
  void tell(const Change& change) const;
  Eigen::MatrixXd watched() const { return grown_.watched(); }
  EndState end() const { return {grown_.springs_left(), grown_.loads(0)}; }

  // The same from here on, quicker: all that is on is part of the box, and what is no longer looked at is
  // left out. Of this one reactions and its end state are not told, and stops an InternalError.
  Passage settled() const;

 private:
  // A spring of a tack or a hold that is on: by its number in Grown, or among those that are part of the box.
  struct On {
    Index spring = 0;
    std::optional<std::size_t> tack; // whose spring it is
    Index cell = 0;                  // which of its springs
    std::optional<std::size_t> hold;
    bool of_box = false;
  };
  struct Condensed {
    BoxModel model;
    std::vector<Hold> holds;
    std::vector<Spring> springs; // that are part of the box
  };
  Passage(std::shared_ptr<const Condensed> box, const Passage& before, Eigen::MatrixXd stands);

  Index columns() const { return amounts_->cols(); }
  Eigen::VectorXd gap_at(std::size_t which) const;
  Eigen::VectorXd tack(std::size_t which);
  void weld(std::size_t which);
  template <class Under> void melt(Under under);
  void shrink_with_bead(const On& s, double share);
  void shift_rest(const On& s, const Eigen::RowVectorXd& by);
  Indices columns_of(std::size_t seam) const;
  void hold(std::size_t which);
  void let_go(std::size_t which);
  void push(std::size_t which);
  template <class Which> void take_off(Which which);
  void settle_stops();
  Eigen::MatrixXd reactions() const;

  std::shared_ptr<const Condensed> box_; // of a settled one
  const BoxModel* m_;
  const std::vector<Hold>* holds_;
  const Cases* cases_;
  const Eigen::MatrixXd* amounts_;
  HistoryOptions options_;
  Onlooker onlooker_;
  Grown grown_;
  std::vector<On> on_;
  Eigen::MatrixXd rest_of_box_; // of springs that are part of it, x columns
  std::vector<bool> welded_;
  std::vector<Eigen::MatrixXd> already_; // what lengths of the same seam have done to one still to come
  std::vector<bool> put_on_;             // holds, whether they touch or not
  std::map<std::size_t, Eigen::MatrixXd> rest_of_;
};

} // namespace tacksquare::elastic
