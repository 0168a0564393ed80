// Which pieces of the fixture go on and come off when, as steps.
#pragma once

#include "planning/planner/steps.h"

#include <initializer_list>
#include <string>
#include <vector>

namespace tacksquare {

using Pieces = std::vector<std::size_t>; // indices in SetUp::placed

// All lists in the order in which pieces go on.
Pieces all_pieces(const BoxCase& box);
Pieces pieces_of_kind(const BoxCase& box, std::initializer_list<ItemKind> kinds);
Pieces pieces_inside(const BoxCase& box);

// What has to go before these tacks, before the tacks are knocked down, before these runs.
Pieces leaving_before_tacks(const BoxCase& box, const std::vector<std::string>& tacks);
Pieces leaving_before_knock_down(const BoxCase& box);
Pieces leaving_before_runs(const BoxCase& box, fixture::Why why, const std::vector<std::string>& runs);
// What is on until the box is let go. Of a closed box nothing that was inside.
Pieces staying(const BoxCase& box);
Pieces without_stops(const BoxCase& box, const Pieces& pieces); // and pads: nobody takes those off
// What stays inside a closed box until it is counted out.
Pieces counted_out(const BoxCase& box);

std::vector<std::string> ids_of(const BoxCase& box, const Pieces& pieces);
// "corner clamps K1 and K2", one text a kind.
std::vector<Text> names_of(const BoxCase& box, const Pieces& pieces);

// A step that takes them off; none where there are none. why: key of a reason. hot: a weld has been made.
void take_off(const BoxCase& box, const Pieces& pieces, const char* why, bool hot, StepWriter& out);

// Set-up steps: the table with its stops; pads; what goes inside; clamps.
Step& write_table(const BoxCase& box, StepWriter& out);
void write_supports(const BoxCase& box, StepWriter& out);
void write_inside_pieces(const BoxCase& box, StepWriter& out);
void write_clamps(const BoxCase& box, StepWriter& out);

} // namespace tacksquare
