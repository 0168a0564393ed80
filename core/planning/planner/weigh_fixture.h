// As few pieces as will do: a planned fixture weighed against those with less in it, by the elastic model.
#pragma once

#include "planning/planner/box_case.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace tacksquare {

// What holds the box from within, and all that was weighed against it.
struct FewPieces {
  std::set<std::string> inside; // ids
  bool throughout = true;       // else out when all is tacked
  std::vector<FixtureCompared> compared;
};

// What a planned fixture has in it that the box does not do without. Weighed is what holds it from within:
// not at all, for the tacks, until all is cold; then one piece less, the one that is missed least first, as
// long as nothing is lost. Nothing is lost while of a hundred boxes that keep all limits not more than one
// is. Panels that stand loose are always set by something. On a coarser net than the figures of the plan.
// Nothing where the fixture is stated or has nothing inside, and of very many tacks.
std::optional<FewPieces> weigh_fixture(const BoxCase& box);

// Leaves out of the fixture what is not wanted, and what presses against it.
void hold_by(const FewPieces& few, BoxCase& box);

} // namespace tacksquare
