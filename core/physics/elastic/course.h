// A making as the model goes through it: its two ends moment by moment, each load case by itself. Only for
// expect.
#pragma once

#include "physics/elastic/expect.h"

namespace tacksquare::elastic {

// One end of what the model leaves open: after each of Making::events what is watched (x cases), how far a
// tack's gap stood open and what pressed it together, and what the pieces hold with (holds x cases).
struct Variant {
  std::vector<Eigen::MatrixXd> measures;
  std::vector<Eigen::VectorXd> gap_mm, closing_N;
  std::vector<Eigen::MatrixXd> reactions;
  std::vector<Eigen::MatrixXd> beside; // x cases: two rows a pressed place, then those of each Standing
  std::vector<Eigen::MatrixXd> gives;  // of these, mm/N
};

// Making::events as the model has them: runs cut midway between their tacks, in the order in which the arc
// gets there, since a bead melts one tack after the other and what lies behind it holds already; a piece hold
// by hold.
struct Course {
  std::vector<Event> events;
  std::vector<std::size_t> over; // of each of Making::events: how many are over when it is
  std::size_t before_welds = 0;  // events before the first weld
};

struct Holding {
  std::vector<Hold> holds;
  std::vector<Figure> figures;         // that they read
  std::vector<std::size_t> first;      // of each piece, and the end
  std::vector<Eigen::MatrixXd> shapes; // of each piece: holds_of
};

// Runs cut midway between their tacks.
struct Cut {
  std::vector<WeldLength> welds;
  std::vector<std::size_t> last_of; // of each run: its last part
};

// The model of a making, and what of it does not hang on which pieces hold the box.
struct Prepared {
  std::shared_ptr<const BoxModel> model; // first taper the short one
  Cut runs;
  Holding holding;
  Cases cases;
  std::vector<Footing> footings; // as Making::standing
};
// Faults as make_box_model.
std::optional<Prepared> prepared_of(const Job& job, const Box& box, const BoxGeometry& geometry,
                                    const Making& making, const ModelOptions& options, Diagnostics& out);

// events: of the making that was prepared, in any order.
Course course_of(const std::vector<Event>& events, const Prepared& prepared);

struct Variants {
  Variant kept, remelted;
  Cases cases;
  Course course;
  Holding holding;
  std::vector<Footing> footings;
  std::shared_ptr<const BoxModel> model;
};
// making: the one that was prepared, but for its events: pieces that no event puts on hold nothing.
Variants variants_of(const Prepared& prepared, const Making& making);

} // namespace tacksquare::elastic
