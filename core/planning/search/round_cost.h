// Lengths of running sums, shared by both searches.
#pragma once

#include "planning/search/round_search.h"

namespace tacksquare {

// Running sum before each round: what all units do in the rounds before it.
std::vector<Load> round_bases(const RoundProblem& problem);

long long length_points(const RoundProblem& problem, const Load& sum);
long long widths(const RoundProblem& problem, long long points); // rounded up

} // namespace tacksquare
