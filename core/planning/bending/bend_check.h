// Whether one stroke's bends can be made when some others are made already.
#pragma once

#include "planning/bending/folding.h"
#include "planning/bending/stroke.h"

#include <deque>
#include <optional>

namespace tacksquare {

// All common practice, no source.
inline constexpr double kLeastClearMm = 0.5;    // of what is up already, to punch, ram, die and bed
inline constexpr double kPunchShortShare = 0.5; // of the die's opening: bend beyond each end of the punch
inline constexpr double kOverEdgeMm = 0.5;      // of a leg over the die's edge when the bend is made
inline constexpr double kStopMm = 10.0;         // of a straight edge, for one stop
inline constexpr double kOneStopMm = 60.0;      // bends shorter than this are held square by one stop
inline constexpr double kBaseShare = 1.0 / 3.0; // of the bend, from the outer side of one stop to the other's
inline constexpr double kMostBaseMm = 200.0;    // no bend needs the stops further apart
inline constexpr double kFarTimes = 2.0;        // a gauge distance over this many times the least is far

// What keeps a bend from being made, in the order in which it is looked for.
enum class Hindrance { short_leg, gauge, die, bed, punch, ram };
std::string word(Hindrance hindrance); // "short", "gauge", "die", ...

struct BendCheck {
  std::optional<Hindrance> hindrance;   // the first one; none: the bend can be made
  double needed_mm = 0.0;               // short, gauge: as BendBlocked
  Stretch punch;                        // along the bend, from its middle
  std::vector<std::size_t> gauge_faces; // that carry a stop: one or two, by index
  bool on_bend = false;
  double gauge_mm = 0.0;
  bool far = false; // the bend could be gauged over less than half of it, by the edges that lie free
};

struct Nearest {
  double clear_mm = 0.0;
  Tool tool = Tool::punch;
};

// Each face is held against the tooling once for each set of bends between it and the bend: nothing else
// moves it. The two must outlive the checker.
class BendChecker {
 public:
  BendChecker(const Tooling& tooling, const Folding& folding);

  // a_back: face_a's half lies at the back, where the gauge is.
  // Of a line of the folding. Precondition: none of its bends is made.
  BendCheck check(BendSet done, std::size_t line, bool a_back);
  // Precondition: the line's bends can be made.
  Nearest nearest(BendSet done, std::size_t line, bool a_back, Stretch punch) const;

 private:
  struct Taken {
    Tool tool = Tool::punch;
    Stretch along;
  };
  // What a face with its bent zone meets in the stroke: [0] at the back, [1] at the front.
  struct Met {
    std::vector<Taken> taken[2]; // where punch or die may not be
    bool ram = false, bed = false;
  };
  // A strip of the sheet that ends at this distance from the bend.
  struct Strip {
    double away_mm = 0.0;
    Stretch along;
  };
  // A face as it lies in the plane of the sheet, and its bent zone once that is made.
  struct Lying {
    std::vector<Strip> strips, zone;
    std::vector<GaugeEdge> edges;
    std::optional<GaugeEdge> bent;
  };

  // Edges at one distance from the line, and the stops as far apart as their free pieces allow.
  struct Base {
    double gauge_mm = 0.0;
    bool on_bend = false;
    Stretch stops;
    std::size_t from_face = 0, to_face = 0;
  };

  bool front(std::size_t line, std::size_t face, bool a_back) const {
    return folding_->beyond(line, face) == a_back;
  }
  BendSet key(std::size_t line, std::size_t face, BendSet done) const;
  const Met& met(std::size_t line, std::size_t face, BendSet done);
  Met look(std::size_t line, std::size_t face, BendSet done) const;
  std::vector<Base> bases(BendSet done, std::size_t line, bool a_back) const;
  double out_of_reach(const Base& base) const; // how far the stops would have to go further
  void gauge(const std::vector<Base> (&halves)[2], bool a_back, BendCheck& result) const;
  // Nothing where the half reaches over the die; else the opening that it would reach over.
  std::optional<double> short_for(BendSet done, std::size_t line, bool beyond) const;
  void set_up(std::size_t line, const std::vector<Taken>& taken, BendCheck& result) const;

  const Tooling* tooling_;
  const Folding* folding_;
  std::vector<Stroke> strokes_;                   // as lines
  std::vector<Lying> lying_;                      // [line][face]
  std::vector<std::vector<std::uint32_t>> known_; // [line][face]: by key, place in met_ plus 1
  std::deque<Met> met_;
  // What is the same both ways round, of what was asked for last.
  struct {
    BendSet done = 0;
    std::optional<std::size_t> line;
    std::optional<double> short_for;
    std::vector<Base> bases[2]; // [a_back]
  } last_;
};

} // namespace tacksquare
