#include "geometry/parts_of_resolve.h"

#include <algorithm>

namespace tacksquare {
namespace {

std::size_t errors_in(const Diagnostics& out) {
  return static_cast<std::size_t>(
      std::count_if(out.items().begin(), out.items().end(),
                    [](const Diagnostic& d) { return d.severity == Severity::error; }));
}

void add_faces(const std::vector<Panel>& panels, BoxGeometry& g) {
  for (const Panel& p : panels)
    g.faces.push_back({area(p.shape), p.face->placement.at(centroid(p.shape)), p.ring, p.cut.outline});
}

void add_masses(const std::vector<Panel>& panels, BoxGeometry& g) {
  for (const Blank& blank : g.blanks)
    g.mass_kg += blank.mass_kg;
  double welded = 0.0;
  Vec3 moment;
  for (const Panel& p : panels) {
    if (!p.welded()) continue;
    const double mass = area(p.cut) * p.t_mm * p.sheet->metal.density_kg_m3;
    welded += mass;
    moment = moment + p.face->placement.at(centroid(p.cut)) * mass;
  }
  if (welded > 0.0) g.centre_of_gravity = moment * (1.0 / welded);
}

struct Bounds {
  Vec3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};

  void take(const Panel& p) {
    for (const Vec3 corner : p.cut_ring)
      for (const double side : {-0.5, 0.5}) {
        const Vec3 q = corner + p.normal * (side * p.t_mm);
        low = {std::min(low.x, q.x), std::min(low.y, q.y), std::min(low.z, q.z)};
        high = {std::max(high.x, q.x), std::max(high.y, q.y), std::max(high.z, q.z)};
      }
  }
};

void add_bounds(const std::vector<Panel>& panels, BoxGeometry& g) {
  Bounds welded, all;
  for (const Panel& p : panels) {
    all.take(p);
    if (p.welded()) welded.take(p);
  }
  g.low = welded.low;
  g.high = welded.high;
  g.overall_low = all.low;
  g.overall_high = all.high;
}

void add_distances(BoxGeometry& g) {
  const std::size_t n = g.seams.size();
  g.seam_distance_mm.assign(n, std::vector<double>(n, 0.0));
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j)
      g.seam_distance_mm[i][j] = g.seam_distance_mm[j][i] =
          nearest({g.seams[i].start, g.seams[i].end}, {g.seams[j].start, g.seams[j].end}).distance_mm;
}

} // namespace

BoxGeometry resolve_geometry(const Job& job, const Box& box, Diagnostics& out) {
  const std::size_t before = errors_in(out);
  const std::vector<Panel> panels = make_panels(job, box, out);
  const std::vector<BendMeeting> bends = find_bends(box, panels, out);
  const std::vector<SeamMeeting> meetings = find_seams(box, panels, out);
  BoxGeometry g;
  if (errors_in(out) != before) return g;

  const std::vector<FreeEdge> free = free_edges(box, panels, bends, meetings);
  for (const FreeEdge& e : free) {
    g.rim.emplace_back(e.line.start, e.line.end);
    g.rim_face.push_back(e.face);
  }
  g.opening = find_opening(panels, free);
  add_faces(panels, g);
  g.seams = seam_lines(box, panels, meetings, free);
  for (const BendMeeting& b : bends)
    g.bends.push_back({b.part, b.bend, b.meeting.line.start, b.meeting.line.end, b.angle_rad});
  g.blanks = blanks(job, box, panels, bends, out);
  add_masses(panels, g);
  add_bounds(panels, g);
  add_distances(g);
  for (const SeamLine& seam : g.seams)
    g.sections.push_back(section_across(panels, seam));
  g.closed = closed_volume(box, panels, bends, meetings);
  check_vents(box, panels, g, out);
  g.attitudes = stable_attitudes(panels, g);
  check_attitudes(box, panels, g, out);
  for (const Attitude& attitude : g.attitudes) {
    std::vector<SeamAccess> access;
    for (std::size_t s = 0; s < g.seams.size(); ++s)
      access.push_back(access_to(box, panels, g, s, attitude.down_direction));
    g.access.push_back(std::move(access));
  }
  return g;
}

} // namespace tacksquare
