// The drawings of the sheet.
#pragma once

#include "base/units.h"
#include "sheet/compose.h"
#include "sheet/figure.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace tacksquare {

// The box in space, seen from the front, from above and from the right: seam numbers, face letters, what is
// behind metal dashed, the free edges of an open box as RIM.
Drawing draw_box(const Composer& compose, const BoxPlan& box);

// How depth is drawn: an oblique view keeps the front's shape.
inline constexpr double kDepthRight = 0.42, kDepthUp = 0.30;
inline Vec2 oblique(Vec3 p) {
  return {p.x + kDepthRight * p.y, -(p.z + kDepthUp * p.y)};
}

// How the welds pull the box, much enlarged, in the same view. None where the plan has no shape.
std::optional<Drawing> draw_shape(const Composer& compose, const BoxPlan& box);

// A face as seen from outside: outline and cut-outs, its seams with tacks in mm, and the runs in order.
Drawing draw_face(const Composer& compose, const BoxPlan& box, const FaceOutline& face);

// How warm the neighbourhood is at each arc start, in order. Long orders are cut into several drawings.
std::vector<Drawing> draw_warmth(const Composer& compose, const BoxPlan& box);

// The pair's time: a lane each, steps as bars.
Drawing draw_lanes(const Composer& compose, const BoxPlan& box);

// The row in its opening from the front: boxes numbered from the left. Precondition: the plan has a row.
Drawing draw_row(const Composer& compose, const Plan& plan);

// A flat pattern as it lies on the cutter: cut line and holes, bends dashed with their numbers as in
// FlatPattern::bends, the places of bends and edges from the lower left, and what is etched.
Drawing draw_flat(const Composer& compose, const FlatPattern& pattern);

// The table from above with the box as it lies: where each piece stands, measured from the datum corner.
// Precondition: the box has a fixture.
Drawing draw_fixture(const Composer& compose, const BoxPlan& box);

// Walls from outside with what touches them, measured up from the table; a wall that shows no piece that
// another has not shown is left out. Precondition: the box has a fixture.
std::vector<Drawing> draw_fixture_walls(const Composer& compose, const BoxPlan& box);

// A point of the box in the fixture's frame.
inline Vec3 on_table(const FixturePlan& fixture, Vec3 p) {
  const Vec3 from = p - fixture.origin;
  return {dot(from, fixture.x), dot(from, fixture.y), dot(from, fixture.z)};
}

// A flat part with its bends numbered in their order.
Drawing draw_bends(const Composer& compose, const FlatPattern& pattern, const BendOrder& order);

// A round hole as a polygon; hole: its middle in x and y, its diameter in z.
inline std::vector<Vec2> circle(Vec3 hole) {
  constexpr int kCorners = 24;
  std::vector<Vec2> out;
  for (int i = 0; i < kCorners; ++i) {
    const double angle = 2.0 * kPi * i / kCorners;
    out.push_back(Vec2{hole.x, hole.y} + Vec2{std::cos(angle), std::sin(angle)} * (hole.z / 2.0));
  }
  return out;
}

// A face with neither seam nor hole has nothing to show.
inline bool has_work(const BoxPlan& box, const FaceOutline& face) {
  return !face.cutouts.empty() || !face.vents.empty() ||
         std::any_of(box.seams.begin(), box.seams.end(), [&](const PlannedSeam& seam) {
           return seam.face_a == face.id || seam.face_b == face.id;
         });
}

inline std::vector<Drawing> bench_drawings(const Composer& compose, const BoxPlan& box) {
  std::vector<Drawing> out;
  if (box.faces.empty()) return out;
  out.push_back(draw_box(compose, box));
  for (const FaceOutline& face : box.faces)
    if (has_work(box, face)) out.push_back(draw_face(compose, box, face));
  return out;
}

struct LabelArea {
  double x0, y0, x1, y1;
};
// What a label covers when it stands at that place, with a little air.
LabelArea label_area(const DrawnLabel& label, Vec2 at);

// Puts labels where they cover neither each other nor the edge of the paper: first come, first placed. A
// label that had to go further than its own height gets a leader.
class LabelPlacer {
 public:
  explicit LabelPlacer(Drawing& drawing) : drawing_(drawing) {}
  // Nothing may be written on this segment.
  void avoid(Vec2 a, Vec2 b);
  void place(DrawnLabel label, bool leader = true);
  // Beside what it names: a label that had to move gets a leader to that.
  void place_for(DrawnLabel label, Vec2 named);
  // At the first of the spots that is free; left out when none is.
  void place_if_free(DrawnLabel label, const std::vector<Vec2>& spots);

 private:
  bool is_free(const LabelArea& area) const;
  Drawing& drawing_;
  std::vector<LabelArea> taken_;
};

// Cuts off the paper on which nothing is drawn; labels have room for the widest font that a machine may have.
void crop(Drawing& drawing);

// Width of text set in a common sans serif, mm: an estimate on the wide side.
double text_width_mm(const DrawnLabel& label);

} // namespace tacksquare
