// A box as its orders of seams are weighed: what each comes to when it is cold.
#pragma once

#include "physics/elastic/additive.h"
#include "physics/elastic/ordering.h"
#include "planning/planner/whole_seams.h"

#include <array>
#include <map>
#include <string>

namespace tacksquare {

class OrderModel {
 public:
  // Nothing where the box has no limit of squareness, more springs than that, or a fault. The box must
  // outlive it. Throws NumericalFailure.
  static std::optional<OrderModel> make(const BoxCase& box, double most_springs);
  std::optional<OrderModel> finer() const; // the same on half the mesh

  // seams: of the groups of the box's order. Of kept tacks out of the tables where they are exact; where
  // clamps or tacks come and go between the welds, by going through it. Throws NumericalFailure.
  elastic::Ends ends(const SeamOrders& seams) const;
  elastic::Ends ends_seam_by_seam(const std::vector<std::size_t>& seams) const;
  WeldOrder laid_out(const SeamOrders& seams) const;
  WeldOrder laid_out_whole(const std::vector<std::size_t>& seams) const;

  // Of each of the first draws the worst limit of squareness, in parts of it; and the draws that keep every
  // limit.
  std::vector<double> worst(const elastic::Ends& ends, int draws) const;
  double chance(const elastic::Ends& ends) const;

  // The middle of all that is not known, then the draws: cases x 1 + draws.
  const Eigen::MatrixXd& amounts() const { return ordering_.judging().amounts(); }

  // Orders of boxes whose tacks keep their force: of the middle alone (0 draws), or of the first draws.
  // Nothing without tables.
  std::optional<SetSearch> kept_search(int draws) const;

  // The same of seams that are each welded in one go. Throws NumericalFailure.
  WholeSeams whole_seams() const;
  std::vector<std::size_t> flattened(const SeamOrders& seams) const; // of Work::seams, group after group

  // What a run does to a measure when these are made, tacks kept: indices in Work::runs, of runs with a
  // length. Nothing where the measure is not watched.
  std::optional<Band> step_mm(std::vector<std::size_t> made, std::size_t run,
                              const std::string& measure) const;

  double springs() const { return springs_; }
  double mesh_mm() const { return made_.options.mesh_mm; }

 private:
  OrderModel(const BoxCase& box, ElasticCase made, elastic::Ordering ordering);
  bool only_welds_between() const;
  void make_tables();
  elastic::Ends ends_of(const BoxCase& ordered) const;
  std::map<std::string, std::size_t> run_numbers() const; // in the making, by id
  std::vector<elastic::Event> events_of(WeldOrder order) const;
  std::array<elastic::Index, 3> columns(std::size_t group, std::size_t unit) const;
  Eigen::MatrixXd kept_by_table(const SeamOrders& seams) const;

  const BoxCase* box_;
  ElasticCase made_;
  elastic::Ordering ordering_;
  std::vector<char> square_; // of the limits: those of squareness
  double springs_ = 0.0;
  std::optional<elastic::Additive> additive_;
  std::vector<elastic::StepTable> tables_; // of each group; none where one is too large
  bool tables_hold_ = false;               // exactly, clamps and all
  Eigen::MatrixXd kept_;                   // of the box's own order, watched x cases
  elastic::Indices rows_;                  // of limits of squareness: watched
  Eigen::VectorXd limit_mm_;               // and each limit
};

} // namespace tacksquare
