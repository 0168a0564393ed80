// What limits and verdicts share. Not for other rooms.
#pragma once

#include "base/band.h"
#include "receiving/verdicts.h"
#include "receiving/walls.h"

#include <optional>
#include <utility>
#include <vector>

namespace tacksquare::receiving {

// Pull at the rim that moves its ends by these. Value: the whole rim pulled, or its corners where that takes
// more; low: the easier way.
Band pull_of(const BentWall& wall, double one_mm, double other_mm);
// Largest belly when both ends are held square, and back.
Band belly_of(const BentWall& wall, double lean_rad);

double lean_mm(const BentWall& wall, double lean_rad); // at the rim
// Lean outward at the rim whose belly is this wall's half of the row's room, where that is less than the
// usual limit. A wall that is not held stands out by its lean.
std::optional<double> row_lean_mm(const BentWall& wall, std::optional<double> width_room_mm);
const Source& row_source();

double blank_mm(const Job& job); // plus or minus, stated or by practice
const Source& blank_source(const Job& job);
// Step between faces that is still dressed with block and file: half the thinner sheet.
double step_dress_mm(const Job& job, const Box& box, const Seam& seam, double go_mm);
// What hand work does not put right.
PartVerdict beyond_hand(const Box& box, const Seam& seam);
// Panels that are alike.
std::vector<std::pair<std::size_t, std::size_t>> stacked_panels(const Box& box);

} // namespace tacksquare::receiving
