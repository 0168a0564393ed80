// Orders of the welds beside each other, and how sure it is that none makes a squarer box.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

struct OrderCompared {
  // "planned"; "by-id", "round-and-round", "longest-first"; "balanced": of least heat off centre;
  // "squarest", "worst": of those in rounds that were gone through; "whole": the squarest of seams that are
  // each welded in one go, or "in-rounds" where that is planned; "own": the shop's, seam after seam
  std::string key;
  std::vector<std::string> runs;
  int turns = 0;
  double heat_moment = 0.0, mean_moment = 0.0, worst_warmth_K = 0.0, turning_s = 0.0;
  long long cost = 0;
  // Mean over what is not known of the worst limit of squareness, in parts of it; of a hundred boxes those
  // that keep all limits. Where the elastic model was asked.
  std::optional<double> square, chance;
  bool operator==(const OrderCompared&) const = default;
};

// All in parts of the limits of squareness, the worst of them.
struct OrderProof {
  double orders = 0.0; // that keep the turns, the rounds and what must come first; 0: too many to table
  // Of boxes whose tacks keep their force, over all of these orders. Nominal: in the middle of all that is
  // not known, the best order. Mean over draws: the best and the worst order found, and what none is below or
  // above. Where they are too many: the best that was found of seams as wholes, and what none is below.
  bool proven = false; // to `within`
  double within = 0.0;
  double nominal = 0.0, nominal_bound = 0.0;
  double least = 0.0, least_bound = 0.0, most = 0.0, most_bound = 0.0;
  // The same, best alone, of seams that are each welded in one go, in any order and with any turns; where
  // searched.
  std::optional<double> whole, whole_bound;
  // Gone through, tacks that melt under the bead among what is not known.
  int tried = 0;
  bool all_within = false; // those are all whose `least` is within `width`
  double squarest = 0.0, width = 0.0;
  double scatter = 0.0; // half of the 90 % range of the worst limit, of the planned order from box to box
  std::string matters;  // "none", "below", "at", "above" the scatter
  // Once more on a net of half the mesh, where orders differ: the planned and the squarest of those that were
  // looked at there. One that would be planned by the coarser net alone, but is not by the finer, is passed
  // over.
  double finer_mesh_mm = 0.0, planned_finer = 0.0, squarest_finer = 0.0;
  std::optional<double> passed_over_finer;
  bool operator==(const OrderProof&) const = default;
};

} // namespace tacksquare
