// The nouns that all models share: what has to be welded, with what, where it is tacked, and what is
// measured. Everything that the job left open is filled here; what was filled from a table says so.
#pragma once

#include "base/band.h"
#include "base/diagnostic.h"
#include "geometry/box_geometry.h"
#include "job/job.h"
#include "tables/bench_gauges.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// A value with where it comes from.
template <class T> struct Filled {
  T value{};
  Source source;
};

// A procedure with nothing left open.
struct Settings {
  std::string id; // the stated procedure's id, else made from metal, thickness and joint
  Process process = Process::mag;
  Filled<Speed> wire_feed; // zero for TIG and MMA
  Filled<Voltage> volts;
  Filled<Current> amps;
  Filled<Speed> travel;
  Filled<Length> wire_diameter;
  Filled<std::string> wire;
  Filled<std::string> gas;
  Filled<FlowRate> gas_flow;
  Filled<Length> stick_out;
  Filled<double> efficiency;
  bool full_penetration = false;
  std::optional<Length> penetration;
  bool starting_point = false; // something came from a table: prove on a trial coupon
  Band net_heat;               // J/mm, k U I / v
  Band slowness;               // what a length of weld takes, in parts of what it takes at `travel`; wire,
                               // gas and bead of a length go with it
  std::vector<Diagnostic> oddities; // amps, feed, travel and bead that do not go together
};

struct WorkSeam {
  std::size_t seam = 0; // index in Box::seams
  std::string id;
  std::size_t settings = 0; // index in Work::settings
  double length_mm = 0.0;
  double welded_mm = 0.0; // less than length for a stitch
  double t_a_mm = 0.0, t_b_mm = 0.0;
  double bead_mm2 = 0.0;
  double heat_J_mm = 0.0; // net
  double wire_g = 0.0;
  double gas_l = 0.0;
  Band throat_mm; // left after the stated finish
  double throat_needed_mm = 0.0;
  std::optional<double> t85_s; // unalloyed steel only
  OwnShrinkage own;            // the seam's, else the procedure's
  bool inside = false;
};

// A start-to-stop length of weld.
struct Run {
  std::string id;         // "S1a", "S1b"; "S1" when the seam is one run
  std::size_t seam = 0;   // index in Work::seams
  double from_mm = 0.0;   // along the seam, where the arc starts
  double to_mm = 0.0;     // where it stops: less than from when welded backward
  double tie_in_mm = 0.0; // overlap on a run made before, where the two meet; not in from..to
  double arc_s = 0.0;
  double heat_J = 0.0; // net
  Vec3 middle;         // in the box's frame
  int rank = 0;        // runs of one seam are made in order of rank
  bool dab = false;    // a short fill at a free end (from the first tack to the edge) or, with from == to, of
                       // a corner relief hole or three-way corner; made after all runs that end there
  double length_mm() const { return from_mm < to_mm ? to_mm - from_mm : from_mm - to_mm; }
};

struct Tack {
  std::string id;       // "S1@12"
  std::size_t seam = 0; // index in Work::seams
  double at_mm = 0.0;   // its middle, along the seam
  double length_mm = 0.0;
  int round = 0;           // 0: the rim tacks; diagonals are checked after it
  bool flat_after = false; // knocked down and feathered at both ends
};

enum class MeasureKind { width, opposite_sides, diagonals, rock, wall_lean, belly, gap, step, proud };

// One check as a named functional with its limit.
struct Measure {
  std::string id; // "width-1", "diagonals-rim"
  MeasureKind kind = MeasureKind::width;
  std::string where; // key of a place: "rim-top" (sizes), "rim", a face id (belly, lean, closed diagonals) or
                     // "S1-middle" (gaps)
  std::vector<Vec3> points; // between or over which it is taken, box frame. Diagonals, rock: four corners in
                            // ring order; opposite sides: the two ends of one side, then of the other
  std::string gauge;        // id in tables/bench_gauges.h
  double nominal_mm = 0.0;
  double under_mm = 0.0, over_mm = 0.0; // allowed below and above nominal, both >= 0
  Source limit_source;
};

// Rules with nothing left open.
struct WorkRules {
  Filled<double> tack_length_mm, tack_pitch_mm, first_tack_mm, longest_run_mm, tie_in_mm;
  bool back_step = false;
  Filled<double> gap_go_mm, gap_colder_mm, gap_dress_mm, step_mm;
  std::optional<Filled<double>> start_limit_C; // absent: plain steel waits for nothing before the arc
  Filled<double> touch_limit_C, bare_limit_C;
  Filled<double> proud_mm, dig_mm, edge_radius_mm;
  Filled<std::vector<int>> grits;
  Filled<double> grind_min_per_m; // per grit
};

// Times of the pair's tasks, all filled; turn_s for this box's mass (one person, two, or a hoist).
struct CrewRates {
  std::string welder, grinder;
  double fit_s = 0, turn_s = 0, look_s = 0, tack_s = 0, weld_start_s = 0, knock_down_s = 0, disc_change_s = 0;
  double m_per_disc = 0;
  std::optional<double> takt_s;
  Source source;
};

struct Work {
  WorkRules rules;
  CrewRates crew;
  double ambient_C = 20.0;
  std::vector<Settings> settings;
  std::vector<WorkSeam> seams; // as Box::seams
  std::vector<Run> runs;       // by seam id (S2 before S10), then rank
  std::vector<Measure> measures;
  // Seam a is welded before seam b (indices in seams).
  std::vector<std::pair<std::size_t, std::size_t>> before;
  std::optional<std::string> last_face;  // closed box: the face that goes on last
  std::vector<std::size_t> inside_first; // seams to finish before the last face goes on
};

// Faults with origin: flush on a joint that keeps no throat, grinding deeper than 0.1 t, cyclic precedence,
// what is inside a closed box and waits for what is outside, a stated order that welds before what has to
// come first, a stitch longer than its pitch, settings outside every table that the job does not state. Odd
// settings are cautions.
Work make_work(const Job& job, const Box& box, const BoxGeometry& geometry, Diagnostics& out);

} // namespace tacksquare
