// The plates of a box, and readings that reach over several of them: jumps across joints, loads, measures.
#pragma once

#include "physics/elastic/fineness.h"
#include "physics/elastic/lines.h"
#include "physics/elastic/structure.h"
#include "physics/shell/plate.h"

#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare::elastic {

// A weighted sum over the freedoms of several plates.
using BoxReading = std::vector<std::pair<std::size_t, shell::Reading>>; // by index in Box::faces

void add(BoxReading& to, const BoxReading& other, double factor);

// Faces that are welded, each meshed and factored; equal ones share their plate.
class Plates {
 public:
  // lines: all bends and seams. Throws NumericalFailure.
  Plates(const Job& job, const Box& box, const std::vector<JointLine>& lines, const Fineness& fineness);

  const shell::Plate& plate(std::size_t face) const { return *plates_[face]; }
  bool has(std::size_t face) const { return plates_[face] != nullptr; }
  const Placement& frame(std::size_t face) const { return frames_[face]; }
  std::size_t faces() const { return plates_.size(); }
  std::size_t different() const { return different_; }

  // Displacement of a point in space: the mean of the faces that pass within near_mm of it, or of the
  // nearest.
  BoxReading displacement(Vec3 point, Vec3 direction, double near_mm) const;
  BoxReading displacement(std::size_t face, Vec3 point, Vec3 direction) const;
  BoxReading mean_displacement(std::size_t face, Vec3 direction) const; // over its area
  BoxReading rotation(std::size_t face, Vec3 point, Vec3 axis) const;

  // What a reading says when this face is larger by 1 mm over its extent along a direction in it.
  double stretched(const BoxReading& reading, std::size_t face, Vec3 direction) const;

  // All faces free: motions are six a welded face, translations along x, y, z and rotations about `centre`,
  // these in mm at `reach_mm` from it.
  Structure structure(const std::vector<BoxReading>& readings, Vec3 centre, double reach_mm) const;

  Vec3 local(std::size_t face, Vec3 direction) const;

 private:
  std::vector<Face> faces_;
  std::vector<std::shared_ptr<const shell::Plate>> plates_; // null: loose
  std::vector<Placement> frames_;
  std::size_t different_ = 0;
};

// What both sides of a joint that stands alone give beyond what elements see, in the line's directions; mm/N,
// rad/(N mm). Slopes: of the jump along the line.
struct JointGive {
  double along = 0.0, first = 0.0, second = 0.0, turn = 0.0, first_slope = 0.0, second_slope = 0.0;
};

// What can be read along a line, on either side of it; from..to in mm along the line.
class LineReader {
 public:
  LineReader(const Plates& plates, const JointLine& line);

  const JointLine& line() const { return line_; }
  // Of the line itself, moving stiffly with the face; of its slope along the line; about the line.
  BoxReading displacement(const LineSide& side, double from_mm, double to_mm, Vec3 direction,
                          shell::Weight weight = shell::Weight::mean) const;
  BoxReading rotation(const LineSide& side, double from_mm, double to_mm) const;
  // The load of 1 mm of shrinkage across the line within the face.
  BoxReading strip(const LineSide& side, double from_mm, double to_mm) const;
  // Of side a against side b: displacement along `direction`, rotation.
  BoxReading jump(double from_mm, double to_mm, Vec3 direction,
                  shell::Weight weight = shell::Weight::mean) const;
  BoxReading turn(double from_mm, double to_mm) const;
  JointGive unseen(double from_mm, double to_mm) const;

 private:
  const shell::Chain& chain(const LineSide& side) const { return &side == &line_.b ? on_b_ : on_a_; }
  // The same part as the side's chain has it, within its ends.
  std::pair<double, double> part_of(const LineSide& side, double from_mm, double to_mm) const;

  const Plates& plates_;
  const JointLine& line_;
  shell::Chain on_a_, on_b_;
};

} // namespace tacksquare::elastic
