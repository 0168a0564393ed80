// The elastic box: every face condensed to what seams, bends, loads and measures see of it.
#pragma once

#include "base/diagnostic.h"
#include "physics/elastic/box_readings.h"
#include "physics/elastic/measures.h"
#include "physics/elastic/structure.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare::elastic {

// A length of seam that is welded in one go; from < to, mm from the seam's start.
struct WeldLength {
  std::size_t seam = 0; // index in Box::seams
  double from_mm = 0.0, to_mm = 0.0;
  bool backward = false; // the arc goes from to_mm to from_mm
  bool operator==(const WeldLength&) const = default;
};
struct TackPlace {
  std::size_t seam = 0;
  double at_mm = 0.0, length_mm = 0.0; // its middle, its length
  bool operator==(const TackPlace&) const = default;
};

// Springs of fused metal for 1 mm of a line: N/mm in three directions, N mm/rad about it.
struct LineSprings {
  double along = 0.0, into_a = 0.0, square_to_a = 0.0, turn = 0.0;
};
struct SeamSprings {
  LineSprings tack, weld;
};

// Where the model is told what cannot be known for sure. Each has a band: docs/theory.md.
struct ModelOptions {
  double mesh_mm = 50.0; // of elements
  double end_mm = 5.0;   // of elements at the ends of seams, a third of the taper; nothing: as elsewhere
  double force_taper_mm =
      50.0; // shrinkage force grows from nothing at a seam's end; at most a third of the seam
  double jump_taper_mm = 15.0; // shrinkage across and angle grow from nothing at an end that is not free
  std::optional<double> second_taper_mm; // beside it: Joint::second
  std::vector<SeamSprings> of_seams;     // as Box::seams; none: by what follows
  // The same in all directions per length: displacement in E, rotation in E t^2. Bends go by weld_*.
  double weld_spring = 2.0, weld_turn = 2.0;
  double tack_spring = 2.0, tack_turn = 2.0;
  // What gives inside the elements beside a tack is added to it. Another program's net does not have it.
  bool beside_tacks = true;
  std::size_t most_cells = 60000; // elements in a box
};

// Misfit of 1 mm or 1 rad that a box comes in with. Its load case: what parts would look like with nothing
// closed.
struct Misfit {
  enum class Kind {
    lean,    // a bend that is open too far, all along (place 0), or at its end and as much too little at its
             // start (1); rad
    stretch, // a face cut too long along a direction; mm over its whole length
    gap      // a seam that stands open at its start (0), middle (1) or end (2), nothing at the next place; mm
  } kind = Kind::lean;
  std::size_t of = 0; // index in BoxGeometry::bends, Box::faces or Box::seams
  int place = 0;
  Vec3 direction{}; // stretch: unit, in the face
};

// Rest of each spring of a joint after 1 mm of shrinkage across and 1 rad of angle: the sheets drawn in, the
// corner turned towards the welder.
struct Shrunk {
  Eigen::VectorXd across, angle;
  Index across_load = -1; // T and lap: 1 mm of shrinkage of the base; across is then zero
};

// Springs between two faces over a length, cell by cell, and what its shrinkage does.
struct Joint {
  Indices readings;          // jumps and turns, one a spring
  Eigen::VectorXd stiffness; // N/mm, N mm/rad
  Shrunk shrunk, second;     // by either taper
  Eigen::VectorXd apart;     // how far each spring opens when the gap opens by 1 mm
  Index along_load =
      -1; // reading whose unit load is 1 N of shrinkage force; of tacks none, too short for it to grow
  std::size_t seam = 0;
  double from_mm = 0.0, to_mm = 0.0;
  std::vector<double> cuts; // from, to, and where its cells meet
};

struct BoxModel {
  std::shared_ptr<const Plates> plates;
  std::vector<BoxReading> readings; // all that follows is numbered by these
  Structure parts;                  // bends closed, nothing else: parts move freely; cases: the misfits
  std::vector<Joint> bends;         // as BoxGeometry::bends; no shrinkage
  std::vector<Joint> tacks, welds;  // as they were asked for
  Indices measures;                 // as the figures that were asked for
  std::size_t elements = 0;
};

// Figures are read at every step. Faults: a mesh larger than stated, a part that no tack ties to the rest, a
// seam that is welded without a tack, parts that can still move when all is tacked. Throws NumericalFailure.
std::optional<BoxModel> make_box_model(const Job& job, const Box& box, const BoxGeometry& geometry,
                                       const std::vector<TackPlace>& tacks,
                                       const std::vector<WeldLength>& welds,
                                       const std::vector<Figure>& figures, const std::vector<Misfit>& misfits,
                                       const ModelOptions& options, Diagnostics& out);

// The springs of several joints in one, at rest where they are: nothing of shrinkage.
Closing closing_of(const std::vector<Joint>& joints, Index cases);

// Cells of four springs each: along, across twice, turn; one alone has two more, against turning across the
// line.
int cells_of(const Joint& joint);

// How much of a tack a length of weld of the same seam runs over: 0..1.
double covered(const Joint& tack, const Joint& weld);

// All tacks in place: readings are the welds' springs, their loads, and the figures. A tack that a bead runs
// over keeps its force and shrinks with the bead: the structure's load cases are what that does, 1 mm across
// (2 w) and 1 rad of angle (2 w + 1) of weld w.
struct TackedBox {
  Structure structure;
  std::vector<Joint> welds; // readings by the new numbers
  Indices measures;
};
// held: springs on readings of the model that are there for good as well.
TackedBox tacked(const BoxModel& model, const std::vector<Spring>& held = {});

// The same with several welds as one, made at once: `together` names those of each.
TackedBox merged(const TackedBox& box, const std::vector<std::vector<std::size_t>>& together);

} // namespace tacksquare::elastic
