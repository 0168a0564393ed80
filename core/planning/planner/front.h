// What stands above the steps: facts of the box, settings, what to get, cautions of care.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

std::vector<Text> facts_of(const BoxCase& box);
std::vector<SettingsBlock> settings_of(const BoxCase& box);
std::vector<Text> kit_of(const BoxCase& box);
std::vector<Text> care_of(const BoxCase& box); // at most eight
std::vector<Text> where_mm_of(const BoxCase& box);

// Words of the job file for an enumerator: "corner", "half-open-corner", "inside", ...
std::string joint_word(JointKind joint);
std::string corner_word(CornerStyle corner);
std::string weld_word(WeldKind weld);
std::string position_word(WeldPosition position);

} // namespace tacksquare
