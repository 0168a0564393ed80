// The stated world as values: what the job file says, short forms already expanded, nothing computed.
// Every element carries its Origin, so that a fault found later can point back into the file.
#pragma once

#include "base/diagnostic.h"
#include "base/units.h"
#include "base/vec.h"
#include "job/brake.h"
#include "job/fixture.h"
#include "job/opening.h"
#include "job/readings.h"
#include "tables/gauges.h"
#include "tables/metals.h"
#include "tables/practice.h"
#include "tables/process.h"
#include "tables/tolerances.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// Sheet as bought: one metal, one thickness. A measured thickness wins over the nominal one.
struct Sheet {
  std::string id;
  Metal metal;
  Length thickness;           // the one to compute with
  std::string thickness_said; // as the file says it: "14 ga us-steel", "2 mm", "1.9 mm measured"
  Origin where;
};

// A flat face on the middle surface of its sheet, extended to where it meets its neighbours' middle surfaces.
struct Face {
  std::string id;                         // what is painted on the metal: "T"
  std::size_t part = 0;                   // index in Box::parts
  std::vector<Vec2> outline;              // counter-clockwise seen from outside, mm, not closed
  std::vector<double> setback_mm;         // per edge i (vertex i to i+1): cut edge lies this far inside the
                                          // outline (negative: beyond it); size of outline
  std::vector<std::vector<Vec2>> cutouts; // holes, mm
  Placement placement;                    // normal points out of the box
  Origin where;
};

struct Bend {
  std::size_t face_a = 0, face_b = 0; // indices in Box::faces, both of the same part
  Length inside_radius;
  Origin where;
};

// One piece as it comes from the cutter or the brake.
struct Part {
  std::string id;
  std::size_t sheet = 0; // index in Job::sheets
  bool loose = false;    // goes with the box, is not welded to it: a lid
  std::vector<Bend> bends;
  Origin where;
};

enum class JointKind { butt, corner, tee, lap };
enum class CornerStyle { open, half_open, lapped };
enum class WeldKind { square, fillet, vee };
enum class WeldSide { outside, inside };
enum class Finish { flush, left };
enum class WeldPosition { flat, horizontal, downhill, uphill, overhead };

// Shrinkage measured on coupons: wins over formulas.
struct OwnShrinkage {
  std::optional<Length> across;
  std::optional<Force> along;
  std::optional<Angle> angle;
  Origin where;
  bool any() const { return across || along || angle; }
};

struct Stitch {
  Length length, pitch;
};

struct Seam {
  std::string id;
  std::size_t face_a = 0, face_b = 0; // for a T joint b is the base that a stands on
  JointKind joint = JointKind::corner;
  CornerStyle corner = CornerStyle::open; // corner joints
  std::optional<std::size_t> over;        // half-open and lapped: the face that covers the other's edge
  WeldKind weld = WeldKind::square;
  std::optional<Length> leg;   // fillet
  std::optional<Angle> groove; // V: included angle
  WeldSide side = WeldSide::outside;
  std::optional<Stitch> stitch;
  Finish finish = Finish::flush;
  std::optional<std::size_t> procedure; // index in Job::procedures; else from the tables
  std::optional<WeldPosition> position; // stated: only this one is allowed
  OwnShrinkage own;
  std::vector<std::string> after; // seams that must be welded before this one
  Origin where;
};

// A hole that lets the air of a closed volume out.
struct Vent {
  std::size_t face = 0;
  Vec2 at; // in the face's frame, mm
  Length diameter;
  bool plugged_last = true; // false: stays open in service
  Origin where;
};

// A welding procedure. What is left out is filled from the tables when the work is made.
struct Procedure {
  std::string id;
  std::optional<Process> process;
  std::optional<Speed> wire_feed;
  std::optional<Voltage> volts;
  std::optional<Current> amps;
  std::optional<Speed> travel;
  std::optional<Length> wire_diameter;
  std::optional<std::string> wire;
  std::optional<std::string> gas;
  std::optional<FlowRate> gas_flow;
  std::optional<Length> stick_out;
  std::optional<double> efficiency;  // k of EN 1011-1
  bool full_penetration = false;     // proven on a coupon: root fused through
  std::optional<Length> penetration; // measured on a coupon
  OwnShrinkage own;
  Origin where;
};

// How a box was stated, for names and finished sizes. Lengths are outside sizes when the box is finished.
enum class BoxForm { open_box, closed_box, own_faces };
enum class Construction { folded, panels };

struct Box {
  std::string id;   // "locker"
  std::string name; // "GEAR LOCKER"
  int count = 1;
  BoxForm form = BoxForm::own_faces;
  Construction construction = Construction::panels;
  std::optional<Length> width, depth, height; // outside: left-right, front-back, under-top
  std::string open_side;                      // face letter that an open box lacks ("F" or "T"), else empty
  std::vector<Part> parts;
  std::vector<Face> faces;
  std::vector<Seam> seams;
  std::vector<Vent> vents;
  std::optional<std::string> last_face; // of a closed volume: closed last, from outside only
  std::optional<std::string> attitude;  // face that is down while tacking; else chosen
  std::vector<std::string> weld_order;  // the shop's own order: each seam once, or empty where none is stated
  Origin weld_order_where;
  Origin where;
};

// Rules of the work. What is left out takes the default of tables/practice.h for the sheet at hand.
struct Rules {
  TackRule tack_rule = TackRule::sheet; // for what of the next three is left out
  std::optional<Length> tack_length, tack_pitch, first_tack;
  std::optional<Length> tack_throat; // fused metal of a tack, as cut through; else usual
  std::optional<Length> run_length;  // longest run
  bool back_step = false;
  std::optional<Length> tie_in;
  std::optional<Length> gap;              // widest gap to weld as it is; default t/4
  std::optional<Length> step;             // between faces at a seam
  std::optional<Temperature> start_limit; // no arc above
  std::optional<Temperature> touch_limit; // no grinding or handling above
  std::optional<Length> proud;            // after grinding
  std::optional<double> dig_fraction;     // of the thickness
  std::optional<std::vector<int>> grits;
  std::optional<Length> edge_radius;
  Origin where;
};

// What the finished box must keep. What is left out takes the default, or the ISO 13920 class where stated.
struct Limits {
  std::optional<Length> opposite_sides, diagonals, rock, wall_lean, belly;
  std::optional<Length> size_over, size_under; // allowed above and below the outside size, both positive
  std::optional<LinearClass> linear_class;
  std::optional<FlatnessClass> flatness_class;
  Origin where;
};

struct Crew {
  std::string welder = "W", grinder = "G"; // names on the sheet
  std::optional<Duration> fit, turn, look, tack, weld_start, knock_down, disc_change;
  std::optional<MinutesPerMetre> grind; // per grit
  std::optional<Length> metres_per_disc;
  std::optional<Duration> takt; // against a date: minutes that the pair has for one box
  Origin where;
};

struct Job {
  std::string name;
  std::string number;
  std::string date; // wanted by, as written
  std::vector<Sheet> sheets;
  std::vector<Procedure> procedures;
  std::vector<Box> boxes;
  Rules rules;
  Limits limits;
  Crew crew;
  std::optional<HardOpening> opening;
  std::optional<Brake> brake;
  Incoming incoming;
  std::vector<MeasuredBox> measured; // by box and copy
  std::optional<Shop> shop;
  std::vector<Fixture> fixtures; // by box, at most one of each
  Temperature ambient = celsius(20.0);
  bool ambient_stated = false;
};

} // namespace tacksquare
