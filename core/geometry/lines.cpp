#include "geometry/parts_of_resolve.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

constexpr double kSame_mm = 0.01; // coordinates closer than this do not decide which end is lower

bool lower_front_left(Vec3 a, Vec3 b) {
  if (std::abs(a.z - b.z) > kSame_mm) return a.z < b.z;
  if (std::abs(a.y - b.y) > kSame_mm) return a.y < b.y;
  return a.x < b.x;
}

Vec3 torch_side(const Seam& seam, const Panel& a, const Panel& b, const Meeting& m) {
  if (seam.joint == JointKind::tee) return unit(m.into_a + m.into_b);
  Vec3 outward = a.normal;
  if (seam.joint == JointKind::corner && norm(a.normal + b.normal) > 0.1) outward = unit(a.normal + b.normal);
  return seam.side == WeldSide::outside ? outward : -outward;
}

bool same_line(const Seam& a, const SeamLine& line_a, const Seam& b, const SeamLine& line_b) {
  return std::minmax(a.face_a, a.face_b) == std::minmax(b.face_a, b.face_b) &&
         norm(line_a.start - line_b.start) < kSame_mm && norm(line_a.end - line_b.end) < kSame_mm;
}

} // namespace

std::vector<SeamLine> seam_lines(const Box& box, const std::vector<Panel>& panels,
                                 const std::vector<SeamMeeting>& meetings,
                                 const std::vector<FreeEdge>& free) {
  std::vector<SeamLine> lines;
  for (std::size_t s = 0; s < box.seams.size(); ++s) {
    const Seam& seam = box.seams[s];
    const Panel &a = panels[seam.face_a], &b = panels[seam.face_b];
    const Meeting& m = meetings[s].meeting;
    const double near_mm = meet_slack_mm(a, b);
    const auto at_rim = [&](Vec3 p) {
      return std::any_of(free.begin(), free.end(),
                         [&](const FreeEdge& e) { return distance(e.line, p) <= near_mm; });
    };
    SeamLine line;
    line.start = plain(m.line.start);
    line.end = plain(m.line.end);
    line.start_at_rim = at_rim(line.start);
    line.end_at_rim = at_rim(line.end);
    const bool turn =
        line.start_at_rim != line.end_at_rim ? line.end_at_rim : lower_front_left(line.end, line.start);
    if (turn) {
      std::swap(line.start, line.end);
      std::swap(line.start_at_rim, line.end_at_rim);
    }
    line.length_mm = norm(line.end - line.start);
    line.dihedral_rad = std::atan2(norm(cross(a.normal, b.normal)), dot(a.normal, b.normal));
    line.into_a = plain(m.into_a);
    line.into_b = plain(m.into_b);
    line.towards_welder = plain(torch_side(seam, a, b, m));
    for (std::size_t o = 0; o < box.seams.size(); ++o) {
      if (o == s) continue;
      const double reach_mm = 2.0 * std::max(a.t_mm, b.t_mm);
      if (distance(meetings[o].meeting.line, line.start) <= reach_mm) line.at_start.push_back(o);
      if (distance(meetings[o].meeting.line, line.end) <= reach_mm) line.at_end.push_back(o);
    }
    lines.push_back(line);
  }
  for (std::size_t s = 0; s < lines.size(); ++s)
    for (std::size_t o = 0; o < s; ++o) {
      if (!same_line(box.seams[s], lines[s], box.seams[o], lines[o])) continue;
      lines[s].other_side = o;
      lines[o].other_side = s;
      const bool later_leads =
          box.seams[s].side == WeldSide::outside && box.seams[o].side == WeldSide::inside;
      lines[s].leads = later_leads;
      lines[o].leads = !later_leads;
    }
  return lines;
}

} // namespace tacksquare
