// The elastic model of a planned box: what goes into it, and what its answer means for the measures.
#pragma once

#include "physics/elastic/expect.h"
#include "planning/planner/box_case.h"

#include <optional>

namespace tacksquare {

// Tacks and runs in the order in which they are made, the seams' shrinkage with its bands, the misfit that
// comes in (as measured on the first copy where it was), and every measure that a weld can move. `measure`
// names them.
struct ElasticCase {
  elastic::Making making;
  std::vector<std::size_t> measure; // of each watched figure: index in Work::measures
  std::vector<std::string> made;    // of each moment: id of the tack or run
};
ElasticCase elastic_case(const BoxCase& box);

} // namespace tacksquare
