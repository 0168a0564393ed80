// The elastic model of a planned box: what goes into it, and what its answer means for the measures.
#pragma once

#include "physics/elastic/judging.h"
#include "physics/elastic/whole_box.h"
#include "planning/planner/box_case.h"

#include <memory>
#include <optional>

namespace tacksquare {

// Tacks and runs in the order in which they are made, what holds the box meanwhile, the seams' springs, their
// shrinkage with its bands, the misfit that comes in (as measured on the first copy where it was), every
// measure that a weld can move, and edges and faces. Sizes by axis: Making::put_back has those of x, y, z.
struct ElasticCase {
  elastic::Making making;
  elastic::ModelOptions options;
  std::vector<ElasticReading> readings; // as Making::watched, the measures first
  std::vector<std::size_t> measure;     // of each of those: index in Work::measures
  std::vector<std::string> made;        // of each event: id of the tack, the run, or the piece that holds
  std::vector<std::size_t> step;        // of each event: index in write_steps
  std::vector<HoldingPiece> pieces;     // as Making::pieces
};
ElasticCase elastic_case(const BoxCase& box);
// The same to weigh one thing against another by: no short elements, one taper for both ends of what it can
// be, only the measures watched.
ElasticCase coarse_case(const BoxCase& box);

struct ReckonedBox {
  ElasticCase made;
  elastic::Expectation expected; // without its model: that is large
  ElasticPlan plan;
  std::shared_ptr<const elastic::Plates> plates;
  elastic::Shape shape;
};

// Of the draws by which makings are weighed against each other.
inline constexpr std::uint64_t kWeighingSeed = 20270412;
// What each measure must keep, as how far it may change.
std::vector<elastic::Limit> limits_of(const BoxCase& box, const ElasticCase& made);

// Its parts.
std::vector<elastic::SeamSprings> seam_springs(const BoxCase& box); // as Box::seams
void add_readings(const BoxCase& box, ElasticCase& made);
double mesh_for_mm(const BoxCase& box);
// Springs that come and go: a history costs the cube of them.
double springs_in(const ElasticCase& made);

} // namespace tacksquare
