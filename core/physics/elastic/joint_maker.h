// Springs, loads and rests of a box's joints, as readings on its plates. Only for box_model.
#pragma once

#include "physics/elastic/box_model.h"

namespace tacksquare::elastic {

struct JointMaker {
  const Job& job;
  const Box& box;
  const BoxGeometry& geometry;
  const ModelOptions& options;
  Fineness fineness;
  std::vector<JointLine> bend_lines{}, seam_lines{}; // as BoxGeometry::bends, Box::seams
  std::vector<LineReader> bend_readers{}, seam_readers{};
  std::vector<BoxReading> readings{};

  double thickness(std::size_t face) const;
  double size_at(const JointLine& line, double at_mm) const { // of elements
    return fineness.size_at(line.start + line.along * at_mm);
  }
  Index put(BoxReading reading);
  void find_lines();
  std::vector<JointLine> all_lines() const;
  void read_on(const Plates& plates);

  // Springs over from..to of a line, in cells about as long as elements. Those of a tack go by the sheet, not
  // the mesh; they have what elements do not see beside it in series, times `alone`, 0..1.
  Joint springs(const LineReader& reader, double from, double to, const LineSprings& metal) {
    const JointLine& line = reader.line();
    return springs(reader, fineness.cut(line.start, line.end, from, to), metal, {});
  }
  Joint tack_springs(const LineReader& reader, double from, double to, const LineSprings& metal,
                     double alone);
  // The softer metal and the thinner sheet: spring in its E, turn in its E t^2.
  LineSprings of_metal(const JointLine& line, double spring, double turn) const;
  LineSprings tack_metal(std::size_t seam) const;
  LineSprings weld_metal(std::size_t seam) const;
  // What a length of weld or a tack does when it shrinks across and turns, by either taper, and where it
  // opens.
  void shrinkage(Joint& joint, std::size_t seam);
  // What all readings would stand at under 1 mm or 1 rad of each misfit; a bend's goes into its rest.
  Eigen::MatrixXd misfit_cases(const BoxModel& model, const std::vector<Misfit>& misfits,
                               Closing& bends) const;

  // The load of 1 N of shrinkage force over the joint's length.
  BoxReading along_load(const Joint& joint) const;

 private:
  Joint springs(const LineReader& reader, const std::vector<double>& cuts, const LineSprings& metal,
                const JointGive& unseen);
  const Sheet& sheet(std::size_t face) const { return job.sheets[box.parts[box.faces[face].part].sheet]; }
  double slack(std::size_t a, std::size_t b) const { return 0.5 * (thickness(a) + thickness(b)) + 1.0; }
  Shrunk shrunk(const Joint& joint, std::size_t seam, double taper_mm);
  Vec3 gap_direction(std::size_t seam) const;
  double closing(std::size_t seam) const;
  double opening(const JointLine& bend) const;
  void open_seam(const Joint& joint, int place, Eigen::MatrixXd& free, Index col) const;
};

} // namespace tacksquare::elastic
