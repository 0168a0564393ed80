// What to expect of a box at each step of its making, with bands: the elastic model under everything that is
// not known.
#pragma once

#include "base/band.h"
#include "physics/elastic/history.h"
#include "physics/elastic/piece.h"
#include "physics/elastic/standing.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace tacksquare::elastic {

// What one seam shrinks. The bands are those of the whole job: one hand, one machine, one formula; all seams
// reach their limits together.
struct SeamSpread {
  Band across_mm, force_N, angle_rad;
};

// A misfit that comes in: normal about its middle.
struct MisfitSpread {
  Misfit misfit;
  double middle = 0.0, deviation = 0.0;
};

// A figure to watch, as it is read.
struct Watched {
  Figure figure;
  bool without_sign = false; // read as how far off, not which way
  int ground_ends = 0;       // of a size: ends where a bead is ground to 0..proud, evenly between
  double proud_mm = 0.0;
};

// Sizes along one axis. What they lose at the corners, on average and in the middle of what is drawn, is put
// back into the blanks, so that all of them are larger by it from the first tack on.
struct PutBack {
  std::vector<std::size_t> sizes, corners; // indices in Making::watched
};

// A place at which a clamp presses a wall against a piece, while events from..to - 1 happen.
struct Pressed {
  std::size_t piece = 0, place = 0; // in Making::pieces, of Piece::at
  std::size_t from = 0, to = 0;     // indices in Making::events
};

struct Making {
  std::vector<TackPlace> tacks;
  std::vector<WeldLength> welds;
  std::vector<Piece> pieces;     // that hold the box
  std::vector<Event> events;     // what happens to these in turn; each tack and weld once
  std::vector<SeamSpread> seams; // as Box::seams
  std::vector<MisfitSpread> misfits;
  std::vector<Watched> watched;
  std::vector<PutBack> put_back;
  std::vector<Pressed> pressed;   // their slides are wanted; costs two watched figures each
  std::vector<Standing> standing; // what their places carry is wanted
  double seam_scatter = 0.0;      // from seam to seam, 90 %, relative
  Band tack_share{0.6, 0.3, 1.0}; // what a tack shrinks across, of what its seam does: evenly between
  double short_taper_mm = 15.0, long_taper_mm = 50.0; // of the jump at ends that are held: evenly between;
                                                      // the same: only that
};

struct ExpectedMoment {
  Event event;          // what has just happened
  std::vector<Band> mm; // as Making::watched; sizes without what is ground
  std::vector<double> tacks_kept,
      tacks_remelted; // the medians' shrinkage and misfit, mm: the two ends of the model
  Band gap_mm;        // of a tack: how far its gap stands open before it (negative: edges over each other)
  Band closing_N;     // and what presses it together; else nothing
  Band holding_N;     // the most that a piece has to hold at one of its places, either way
};

// What a place of a piece has to hold at most, in all that is made: the wall away from it (a clamp has to
// press so much), or towards it. N.
struct PlaceForce {
  Band pull, push;
};

// How far each reading springs when the pieces of events first to last come off.
struct Release {
  std::size_t first = 0, last = 0; // indices in Making::events
  std::vector<Band> mm;            // as Making::watched
};

// What a pressed place does in the middle of all that is uncertain: the most that the wall slides along the
// piece if nothing holds it there, and the most that a place as stiff along the wall as square to it would
// have to hold, each place by itself; docs/theory.md, The fixture.
struct Slide {
  double mm = 0.0, N = 0.0;
};

// What a place that the box stands on carries.
struct Carried {
  Band N;
  double nothing = 0.0; // in so many of all draws
};

struct Expectation {
  std::vector<ExpectedMoment> moments; // as Making::events
  std::vector<double> put_back_mm;     // as Making::put_back; in all that is said of those sizes
  std::vector<std::vector<PlaceForce>> place_forces; // of Making::pieces, each place
  std::vector<Slide> slides;                         // as Making::pressed
  std::vector<std::vector<Carried>> carried;         // as Making::standing, each place; none where it tips
  std::vector<Release> releases;
  std::vector<Band> ground_mm;  // at the end, what is ground put on
  Eigen::MatrixXd ground_draws; // of that: watched x draws, as it is read
  // At the end, not ground, of misfit nothing: what welds and pieces do by themselves, with its sign. And of
  // the corners of Making::put_back the one that grows most.
  std::vector<Band> by_weld_mm, corner_by_weld_mm;
  std::shared_ptr<const BoxModel> model; // first taper the short one; runs cut midway between their tacks
  EndState end;                          // of that model: medians of shrinkage, no misfit, tacks kept
};

// That a reading at the end, ground, has changed by low to high; to 0.0005.
double chance_within(const Expectation& e, std::size_t watched, double low, double high);

// 0.5, 0.05 and 0.95 of the values, which it reorders.
Band band_of(std::vector<double>& values);

inline constexpr int kExpectDraws = 2000; // of the box as tacked and at the end
inline constexpr int kStepDraws = 400;    // of every other step: the first of them

// Draws: shrinkage of the job (normal on either side of its median, never under zero, one draw for each
// kind), of each seam about that, misfits, tacks' share, whether tacks keep their force or lose it under the
// bead (all of them, none, a quarter of draws each; else evenly between), taper (evenly between). Same seed,
// same bands. Faults as make_box_model; throws NumericalFailure.
std::optional<Expectation> expect(const Job& job, const Box& box, const BoxGeometry& geometry,
                                  const Making& making, const ModelOptions& options, std::uint64_t seed,
                                  Diagnostics& out);

} // namespace tacksquare::elastic
