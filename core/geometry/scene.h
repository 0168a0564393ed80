// What the steps of resolve_geometry share: the faces as shapes in space.
#pragma once

#include "geometry/polygon.h"
#include "geometry/segments.h"
#include "job/job.h"

#include <cstddef>
#include <vector>

namespace tacksquare {

inline constexpr double kMeetSlack_mm = 0.5;    // beyond half of both thicknesses
inline constexpr double kShortestSeam_mm = 5.0; // a common line shorter than this is none

// A face as metal: shape in its own plane, ring in space, thickness.
struct Panel {
  const Face* face = nullptr;
  const Part* part = nullptr;
  const Sheet* sheet = nullptr;
  double t_mm = 0.0;
  bool sound = true;            // false: a fault was told, nothing may be computed from its shape
  Shape shape;                  // as stated, on the middle surface
  Shape cut;                    // after the setbacks of its edges
  std::vector<double> inset_mm; // the setbacks, none at a bend
  std::vector<Vec3> ring, cut_ring;
  Vec3 normal; // out of the box

  bool welded() const { return !part->loose; }
  Segment edge(std::size_t i) const { return {ring[i], ring[(i + 1) % ring.size()]}; }
  // Unit vector in the face, square to edge i, into the metal.
  Vec3 inward(std::size_t i) const;
};

// How far apart two middle surfaces may lie and still be taken to meet.
inline double meet_slack_mm(const Panel& a, const Panel& b) {
  return 0.5 * (a.t_mm + b.t_mm) + kMeetSlack_mm;
}

// Places all faces; tells faults of outlines, cut-outs, setbacks and placements.
std::vector<Panel> make_panels(const Job& job, const Box& box, Diagnostics& out);

// Where face a meets face b along a line.
struct Meeting {
  Segment line;
  Vec3 into_a, into_b; // unit, in the faces, square to the line, away from it
};

// Edge of a along edge of b, longest first.
std::vector<Meeting> edges_meeting(const Panel& a, const Panel& b, double slack_mm);

// Both ways of each part's bends. Faults: faces that do not share a line, that lie flat or folded back, a
// loop of bends, a face that no bend ties to its part.
struct BendMeeting {
  std::size_t part = 0, bend = 0;
  Meeting meeting;
  double angle_rad = 0.0;
  bool found = false;
};
std::vector<BendMeeting> find_bends(const Box& box, const std::vector<Panel>& panels, Diagnostics& out);

// As Box::seams; nothing where a fault was told.
struct SeamMeeting {
  Meeting meeting;
  bool found = false;
};
std::vector<SeamMeeting> find_seams(const Box& box, const std::vector<Panel>& panels, Diagnostics& out);

// Parts of the edges of welded faces that neither a bend nor a seam covers.
struct FreeEdge {
  std::size_t face = 0;
  Segment line;
};
std::vector<FreeEdge> free_edges(const Box& box, const std::vector<Panel>& panels,
                                 const std::vector<BendMeeting>& bends,
                                 const std::vector<SeamMeeting>& seams);

} // namespace tacksquare
