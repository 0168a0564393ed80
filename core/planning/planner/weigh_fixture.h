// As few pieces as will do: a planned fixture weighed against those with less in it, by the elastic model.
#pragma once

#include "planning/planner/box_case.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace tacksquare {

// What of the pieces that could be left out holds the box, and what was weighed against it.
struct FewPieces {
  std::set<std::string> held; // ids
  bool throughout = true;     // those inside; else out when all is tacked
  std::vector<FixtureCompared> compared{};
  std::optional<int> smaller{}; // FixturePlan::smaller_weighed
};

// What a planned fixture has in it that the box does not do without, by few_pieces.h. Weighed are formers
// with the bars that press against them, squares, spreaders and corner clamps; stops, supports, hold-downs,
// other bars and backing bars are there for other reasons. Nothing is lost while of a hundred boxes that keep
// all limits not more than one is. Of panels that stand loose every corner keeps one of its pieces, or a
// former. On a coarser net than the figures of the plan.
// Nothing where the fixture is stated or has nothing to weigh, and of very many tacks.
std::optional<FewPieces> weigh_fixture(const BoxCase& box);

// Leaves out of the fixture what is not wanted, and what presses against it.
void hold_by(const FewPieces& few, BoxCase& box);

} // namespace tacksquare
