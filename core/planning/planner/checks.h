// Checks with what to expect and what to do when they are off.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// How far the box has come: decides what can still be put right, and how.
enum class Stage { dry, rim_tacked, fully_tacked, half_welded, as_welded, ground };

// The checks of one kind: measures join in one check when they share gauge, nominal and limits. Empty when
// the box has no such measure. Expected figures are given once there has been heat.
// Diagonals, as far as they can be read. A closed box is square as its opening is: until the last face is on,
// that is where they are read.
std::vector<Check> check_of_diagonals(const BoxCase& box, Stage stage);
std::vector<Check> check_of(const BoxCase& box, MeasureKind kind, Stage stage);

// The same for measures that belong to these seams only (gap, step, proud): indices in Work::seams.
std::vector<Check> check_of_seams(const BoxCase& box, MeasureKind kind, Stage stage,
                                  const std::vector<std::size_t>& seams);

// Seams of a closed box's last face, and all others; all are others when no face goes on last.
std::vector<std::size_t> seams_of_last_face(const BoxCase& box);
std::vector<std::size_t> seams_before_last_face(const BoxCase& box);

// Time to read checks: the first reading of each takes a whole look, each further one with the same gauge a
// quarter.
double reading_time_s(const BoxCase& box, const std::vector<Check>& checks);

std::vector<Remedy> ladder(const BoxCase& box, MeasureKind kind, Stage stage, double limit_mm);

} // namespace tacksquare
