// Whether one bend can be made when some others are made already.
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
inline constexpr double kGaugeEdgeMm = 10.0;    // of a straight edge, to lie square against the stops

// What keeps a bend from being made, in the order in which it is looked for.
enum class Hindrance { short_leg, gauge, die, bed, punch, ram };
std::string word(Hindrance hindrance); // "short", "gauge", "die", ...

struct BendCheck {
  std::optional<Hindrance> hindrance; // the first one; none: the bend can be made
  double needed_mm = 0.0;             // short, gauge: as BendBlocked
  Stretch punch;                      // along the bend, from its middle
  std::size_t gauge_face = 0;
  bool on_bend = false;
  double gauge_mm = 0.0;
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
  BendCheck check(BendSet done, std::size_t bend, bool a_back);
  // Precondition: the bend can be made.
  Nearest nearest(BendSet done, std::size_t bend, bool a_back, Stretch punch) const;

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

  bool front(std::size_t bend, std::size_t face, bool a_back) const {
    return folding_->beyond(bend, face) == a_back;
  }
  BendSet key(std::size_t bend, std::size_t face, BendSet done) const;
  const Met& met(std::size_t bend, std::size_t face, BendSet done);
  Met look(std::size_t bend, std::size_t face, BendSet done) const;
  void gauge(BendSet done, std::size_t bend, bool a_back, BendCheck& result) const;
  bool reaches(BendSet done, std::size_t bend, bool beyond, BendCheck& result) const;
  void set_up(std::size_t bend, const std::vector<Taken>& taken, BendCheck& result) const;

  const Tooling* tooling_;
  const Folding* folding_;
  std::vector<Stroke> strokes_;                   // as bends
  std::vector<Lying> lying_;                      // [bend][face]
  std::vector<std::vector<std::uint32_t>> known_; // [bend][face]: by key, place in met_ plus 1
  std::deque<Met> met_;
};

} // namespace tacksquare
