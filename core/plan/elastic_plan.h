// What the elastic model expects of a box, step by step, as the plan holds it. Figures are multiples of
// kElasticStep_mm, far below what any gauge reads, so that they are the same on every machine.
#pragma once

#include "base/band.h"
#include "base/vec.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

inline constexpr double kElasticStep_mm = 0.001;

// Something that is read of the box at every step: a measure by its id, or more than the bench reads.
struct ElasticReading {
  std::string id;
  std::string kind;  // "measure"; "edge-length", "edge-bow": of a seam or of a free edge; "face-bow": its
                     // middle against its corners, out of the box
  std::string where; // of a measure its own place; seam, face, or face and two corners
  bool without_sign = false; // how far off, not which way
  bool operator==(const ElasticReading&) const = default;
};

// A former or a square that holds the box from within until a step takes it off: clamped to the walls at
// these places, square to them and both ways. Or the table with what is pressed onto it, by the hold-down
// that comes off first: `out` is up, there.
struct HoldingPiece {
  std::string id;
  double stiffness_N_mm = 0.0; // of each place
  double untrue_mm = 0.0;    // 90 %: what a former's diagonals differ by; a square's error at the end of its
                             // arm; how far the table is out of flat
  std::vector<Vec3> at, out; // box frame, mm; unit, out of the box
  std::vector<double> off;   // of each place, when it is untrue by 1 mm
  // Of each place, the most in all that is made, 95 %: the wall away from the piece (a clamp presses so much
  // or more), and towards it. N.
  std::vector<double> pull_N, push_N;
  bool operator==(const HoldingPiece&) const = default;
};

// Where a clamp presses a wall against a piece that holds the box: the model lets the wall slide along it.
// Middle of all that is uncertain, the most from when both are on until one of them is off.
struct PressedPlace {
  std::string clamp, piece; // ids; a corner clamp is both
  int place = 0;            // of HoldingPiece::at
  double slide_mm = 0.0;    // free, of the wall past the piece
  double stops_N = 0.0;     // along the wall: what a place that sticks, as stiff as it is, has to hold
  bool operator==(const PressedPlace&) const = default;
};

// What carries the box while it stands as it was set up, cold after a tack or a run, each place with its 90
// %.
struct ElasticStand {
  std::string after;
  double weight_N = 0.0;                // of what hangs together by then
  std::vector<std::string> on;          // supports; "table": a corner of what lies on it
  std::vector<Vec3> at;                 // of each of these, box frame, mm
  std::vector<double> value, low, high; // N
  std::vector<double> nothing;          // the box stands off there in so many of all cases
  bool operator==(const ElasticStand&) const = default;
};

// The box cold after a tack or a run, or after a piece that held it was taken off. value: median; low, high:
// 90 %; as ElasticPlan::readings. Change against the drawing in mm, with what the blanks were cut larger.
struct ElasticState {
  std::string after; // id of the tack, the run or the piece
  std::vector<double> value, low, high;
  std::optional<Band> gap_mm;    // of a tack: how far the seam stands open there just before it; negative:
                                 // its edges lie over each other
  std::optional<Band> closing_N; // of a tack: what presses its gap together
  std::optional<Band> holding_N; // the most that a piece has to hold at one of its places
  bool operator==(const ElasticState&) const = default;
};

// How far each reading springs when pieces come off one right after the other; as ElasticPlan::readings.
struct ElasticRelease {
  std::string after; // the last of them
  std::vector<double> value, low, high;
  bool operator==(const ElasticRelease&) const = default;
};

// An edge of a face as drawn, and by how much the welds move its points: middle of all that is uncertain.
struct MovedEdge {
  std::string face;
  std::vector<Vec3> at, moved; // box frame, mm
  bool operator==(const MovedEdge&) const = default;
};

// A face that bulges in a buckling mode of the welded box at least half as far as the one that does most;
// factor: the seams' forces may grow to so many times what is expected.
struct FaceBuckling {
  std::string face;
  Band factor;
  std::optional<double> depth_mm; // beyond: how deep it bulges, an order of size
  bool operator==(const FaceBuckling&) const = default;
};

struct ElasticPlan {
  double mesh_mm = 0.0;
  int elements = 0;
  std::vector<double> put_back_mm; // into the blanks: along x, y, z
  std::vector<ElasticReading> readings;
  std::vector<HoldingPiece> pieces;  // all are on before the first tack
  std::vector<PressedPlace> pressed; // in the order of the clamps
  std::vector<ElasticStand> stands;  // figures of none where it tips over
  std::vector<ElasticState> states;  // in the order in which things are done
  std::vector<ElasticRelease> releases;
  std::vector<MovedEdge> shape;
  std::vector<FaceBuckling> buckling; // lowest factor first; each face at most once
  bool operator==(const ElasticPlan&) const = default;
};

} // namespace tacksquare
