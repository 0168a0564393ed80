#include "base/numbers.h"
#include "geometry/scene.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace tacksquare {
namespace {

constexpr double kFlat_rad = 5.0 * kPi / 180.0;  // faces closer to one plane lie flat to each other
constexpr double kButt_rad = 30.0 * kPi / 180.0; // a butt joint may follow a gentle curve

double angle_between(Vec3 a, Vec3 b) {
  return std::atan2(norm(cross(a, b)), dot(a, b));
}

std::string place(Vec3 p) {
  return fmt::format("({}, {}, {})", fixed(p.x, 1), fixed(p.y, 1), fixed(p.z, 1));
}

void longest_first(std::vector<Meeting>& meetings) {
  std::stable_sort(meetings.begin(), meetings.end(),
                   [](const Meeting& a, const Meeting& b) { return length(a.line) > length(b.line) + 1e-6; });
}

// Pieces that continue each other in one line become one.
void join_pieces(std::vector<Meeting>& meetings) {
  constexpr double kJoin_mm = 0.5;
  for (std::size_t i = 0; i < meetings.size(); ++i)
    for (std::size_t j = i + 1; j < meetings.size();) {
      const Segment a = meetings[i].line, b = meetings[j].line;
      const Vec3 da = unit(a.end - a.start), db = unit(b.end - b.start);
      const bool onward = norm(a.end - b.start) < kJoin_mm, before = norm(b.end - a.start) < kJoin_mm;
      if ((onward || before) && dot(da, db) > 0.9999 && dot(meetings[i].into_a, meetings[j].into_a) > 0.99) {
        meetings[i].line = onward ? Segment{a.start, b.end} : Segment{b.start, a.end};
        meetings.erase(meetings.begin() + static_cast<std::ptrdiff_t>(j));
        j = i + 1;
      } else {
        ++j;
      }
    }
}

// Edge of a on the surface of b (tee), or over the inside of b (lap).
std::vector<Meeting> edge_on_face(const Panel& a, const Panel& b, JointKind joint, double slack_mm) {
  std::vector<Meeting> found;
  const Placement& frame = b.face->placement;
  for (std::size_t i = 0; i < a.ring.size(); ++i) {
    const Segment e = a.edge(i);
    const double above_start = dot(e.start - frame.origin, b.normal),
                 above_end = dot(e.end - frame.origin, b.normal);
    if (std::max(std::abs(above_start), std::abs(above_end)) > slack_mm) continue;
    const Vec2 p = frame.local(e.start), q = frame.local(e.end);
    const double flat_mm = norm(q - p);
    if (flat_mm <= 0.0) continue;
    for (const auto& [from, to] : pieces_within(b.shape, p, q, joint == JointKind::lap ? 0.0 : slack_mm)) {
      const Vec2 mid = p + (q - p) * (0.5 * (from + to) / flat_mm);
      if (joint == JointKind::lap && distance_to_edges(b.shape, mid) <= slack_mm) continue;
      const Vec3 d = (e.end - e.start) * (1.0 / flat_mm);
      Meeting m{{e.start + d * from, e.start + d * to}, a.inward(i), {}};
      const Vec3 across = unit(cross(b.normal, d)); // in b, square to the line
      const Vec3 weld_side = joint == JointKind::lap ? -m.into_a : a.normal;
      m.into_b = dot(across, weld_side) < 0.0 ? -across : across;
      found.push_back(m);
    }
  }
  join_pieces(found);
  longest_first(found);
  return found;
}

// The nearest that the edges of a come to b.
Nearest nearest_of(const Panel& a, const Panel& b, JointKind joint) {
  Nearest best;
  best.distance_mm = -1.0;
  const auto offer = [&](const Nearest& n) {
    if (best.distance_mm < 0.0 || n.distance_mm < best.distance_mm) best = n;
  };
  for (std::size_t i = 0; i < a.ring.size(); ++i)
    for (std::size_t j = 0; j < b.ring.size(); ++j)
      offer(nearest(a.edge(i), b.edge(j)));
  if (joint != JointKind::tee && joint != JointKind::lap) return best;
  for (const Vec3 p : a.ring) {
    const Vec2 local = b.face->placement.local(p);
    if (distance_to(b.shape, local) > 0.0) continue;
    const Vec3 foot = b.face->placement.at(local);
    offer({norm(p - foot), p, foot});
  }
  return best;
}

std::string joint_word(JointKind joint) {
  switch (joint) {
  case JointKind::butt:
    return "butt";
  case JointKind::corner:
    return "corner";
  case JointKind::tee:
    return "T";
  case JointKind::lap:
    return "lap";
  }
  return {};
}

// Butt: nearly one plane; corner: not; tee: an edge standing up; lap: parallel planes.
bool kind_fits(const Seam& seam, const Panel& a, const Panel& b, Diagnostics& out) {
  const double angle = angle_between(a.normal, b.normal), tilt = std::min(angle, kPi - angle);
  std::string remedy;
  switch (seam.joint) {
  case JointKind::butt:
    if (angle > kButt_rad) remedy = "state joint=\"corner\"";
    break;
  case JointKind::corner:
  case JointKind::tee:
    if (tilt < kFlat_rad) remedy = "state joint=\"butt\" or joint=\"lap\"";
    break;
  case JointKind::lap:
    if (tilt > kFlat_rad) remedy = "state joint=\"corner\" or joint=\"tee\"";
    break;
  }
  if (remedy.empty()) return true;
  out.error(
      "joint-angle", seam.where,
      fmt::format(
          "seam {} is stated as a {} joint, but the outward normals of faces {} and {} are {} degrees apart",
          seam.id, joint_word(seam.joint), a.face->id, b.face->id, fixed(in_deg(rad(angle)), 0)),
      remedy);
  return false;
}

void tell_apart(const Seam& seam, const Panel& a, const Panel& b, double slack_mm, double longest_mm,
                Diagnostics& out) {
  const Nearest n = nearest_of(a, b, seam.joint);
  const std::string faces = fmt::format("faces {} and {}", a.face->id, b.face->id);
  if (n.distance_mm > slack_mm) {
    out.error(
        "seam-apart", seam.where,
        fmt::format("seam {}: {} do not meet; they come nearest at {} and are {:.1f} mm apart there", seam.id,
                    faces, place((n.on_a + n.on_b) * 0.5), n.distance_mm),
        fmt::format("middle surfaces of these sheets may lie up to {:.1f} mm apart: move a face, or name "
                    "the faces that meet",
                    slack_mm));
  } else if (longest_mm > 0.0) {
    out.error("seam-short", seam.where,
              fmt::format("seam {}: {} share only {:.1f} mm of line", seam.id, faces, longest_mm),
              fmt::format("a seam needs at least {:.0f} mm", kShortestSeam_mm));
  } else {
    out.error("seam-no-line", seam.where,
              fmt::format("seam {}: {} touch at {} but share no line for a {} joint", seam.id, faces,
                          place((n.on_a + n.on_b) * 0.5), joint_word(seam.joint)),
              "turn the faces so that an edge lies along the other face, or state the joint that they form");
  }
}

// Union of faces or parts.
struct Groups {
  std::vector<std::size_t> of;
  explicit Groups(std::size_t n) : of(n) { std::iota(of.begin(), of.end(), std::size_t{0}); }
  bool join(std::size_t a, std::size_t b) { // false: they were together already
    const std::size_t keep = std::min(of[a], of[b]), gone = std::max(of[a], of[b]);
    if (keep == gone) return false;
    std::replace(of.begin(), of.end(), gone, keep);
    return true;
  }
};

void check_part_whole(const Box& box, const Groups& groups, std::size_t part, Diagnostics& out) {
  std::vector<std::size_t> faces;
  for (std::size_t f = 0; f < box.faces.size(); ++f)
    if (box.faces[f].part == part) faces.push_back(f);
  // The rest of the part is where most of its faces hang together.
  const auto together = [&](std::size_t f) {
    return std::count_if(faces.begin(), faces.end(),
                         [&](std::size_t o) { return groups.of[o] == groups.of[f]; });
  };
  const auto rest = std::max_element(faces.begin(), faces.end(),
                                     [&](std::size_t a, std::size_t b) { return together(a) < together(b); });
  for (const std::size_t f : faces)
    if (groups.of[f] != groups.of[*rest])
      out.error(
          "part-not-joined", box.faces[f].where,
          fmt::format("no bend joins face {} to the rest of part {}", box.faces[f].id, box.parts[part].id),
          "state the bend, or make the face a part of its own");
}

} // namespace

std::vector<Meeting> edges_meeting(const Panel& a, const Panel& b, double slack_mm) {
  std::vector<Meeting> found;
  for (std::size_t i = 0; i < a.ring.size(); ++i)
    for (std::size_t j = 0; j < b.ring.size(); ++j) {
      const Segment ea = a.edge(i), eb = b.edge(j);
      const auto part = common_part(ea, eb, slack_mm);
      if (!part) continue;
      // Half-way between the two edges.
      const Vec3 d = ea.end - ea.start, db = unit(eb.end - eb.start);
      const auto half_way = [&](double f) {
        const Vec3 on_a = ea.start + d * f;
        return (on_a + eb.start + db * dot(on_a - eb.start, db)) * 0.5;
      };
      const Segment line{half_way(part->first), half_way(part->second)};
      if (length(line) > 0.1) found.push_back({line, a.inward(i), b.inward(j)});
    }
  join_pieces(found);
  longest_first(found);
  return found;
}

std::vector<BendMeeting> find_bends(const Box& box, const std::vector<Panel>& panels, Diagnostics& out) {
  std::vector<BendMeeting> all;
  Groups groups(box.faces.size());
  for (std::size_t p = 0; p < box.parts.size(); ++p) {
    for (std::size_t i = 0; i < box.parts[p].bends.size(); ++i) {
      const Bend& bend = box.parts[p].bends[i];
      const Panel &a = panels[bend.face_a], &b = panels[bend.face_b];
      BendMeeting m{p, i, {}, 0.0, false};
      const std::string faces = fmt::format("faces {} and {}", a.face->id, b.face->id);
      if (!groups.join(bend.face_a, bend.face_b))
        out.error("bend-loop", bend.where, fmt::format("the bend of {} closes a loop of bends", faces),
                  "a flat sheet cannot be bent into a ring: weld one of these edges");
      if (a.sound && b.sound) {
        m.angle_rad = angle_between(a.normal, b.normal);
        const std::vector<Meeting> lines = edges_meeting(a, b, kMeetSlack_mm);
        if (lines.empty() || length(lines.front().line) < kShortestSeam_mm) {
          const Nearest n = nearest_of(a, b, JointKind::corner);
          out.error("bend-apart", bend.where,
                    fmt::format("bend: {} share no edge; their edges come nearest at {}, {:.1f} mm apart",
                                faces, place((n.on_a + n.on_b) * 0.5), n.distance_mm),
                    "draw both faces to the sharp line where their middle surfaces meet");
        } else if (m.angle_rad < 1e-3 || m.angle_rad > 170.0 * kPi / 180.0) {
          out.error("bend-angle", bend.where,
                    fmt::format("the bend of {} turns the sheet by {:.1f} degrees", faces,
                                in_deg(rad(m.angle_rad))),
                    "bends from above 0 up to 170 degrees can be unfolded; draw a hem as a lap");
        } else {
          m.meeting = lines.front();
          m.found = true;
        }
      }
      all.push_back(m);
    }
    check_part_whole(box, groups, p, out);
  }
  return all;
}

namespace {

// Which of their common lines a seam of two faces takes. Seams on one side take the lines in turn, the
// longest first; those on the other side do the same. Of a lap only one side can be reached. A T knows only
// the two sides of face_a: of two on one line the outside one, else the first, takes the side of
// face_a's outward normal, layer 0; layer 1 lies behind it.
struct Turn {
  std::size_t line = 0, layer = 0;
  std::size_t lines = 0; // taken by all seams of these faces
  bool first = true;     // of all seams of these faces
};

Turn turn_of(const Box& box, std::size_t index, std::size_t usable) {
  const Seam& seam = box.seams[index];
  const bool tee = seam.joint == JointKind::tee, lap = seam.joint == JointKind::lap;
  std::size_t before = 0, sides[2] = {0, 0};
  Turn turn;
  for (std::size_t i = 0; i < box.seams.size(); ++i) {
    const Seam& o = box.seams[i];
    if (std::minmax(o.face_a, o.face_b) != std::minmax(seam.face_a, seam.face_b) ||
        ((tee || lap) && o.face_a != seam.face_a))
      continue;
    ++sides[o.side == WeldSide::outside];
    before += i < index && (lap || o.side == seam.side);
    turn.first = turn.first && i >= index;
  }
  turn.lines = lap ? sides[0] + sides[1] : std::max(sides[0], sides[1]);
  if (usable == 0) return turn;
  turn.line = before % usable;
  turn.layer = before / usable;
  if (tee && seam.side == WeldSide::inside)
    turn.layer += sides[1] / usable + (turn.line < sides[1] % usable); // those of the outside on this line
  return turn;
}

} // namespace

std::vector<SeamMeeting> find_seams(const Box& box, const std::vector<Panel>& panels, Diagnostics& out) {
  std::vector<SeamMeeting> all(box.seams.size());
  Groups groups(box.parts.size());
  for (std::size_t s = 0; s < box.seams.size(); ++s) {
    const Seam& seam = box.seams[s];
    const Panel &a = panels[seam.face_a], &b = panels[seam.face_b];
    groups.join(a.face->part, b.face->part);
    for (const Panel* p : {&a, &b})
      if (!p->welded())
        out.error("seam-on-loose", seam.where,
                  fmt::format("seam {} is on face {} of part {}, which is stated as loose", seam.id,
                              p->face->id, p->part->id),
                  "take the seam away, or state the part as not loose");
    if (seam.face_a == seam.face_b) {
      out.error("seam-one-face", seam.where,
                fmt::format("seam {} joins face {} to itself", seam.id, a.face->id), "name two faces");
      continue;
    }
    if (!a.sound || !b.sound || !kind_fits(seam, a, b, out)) continue;
    const double slack = meet_slack_mm(a, b);
    const bool on_edge = seam.joint == JointKind::butt || seam.joint == JointKind::corner;
    std::vector<Meeting> lines = on_edge ? edges_meeting(a, b, slack) : edge_on_face(a, b, seam.joint, slack);
    const auto usable = static_cast<std::size_t>(std::count_if(
        lines.begin(), lines.end(), [](const Meeting& m) { return length(m.line) >= kShortestSeam_mm; }));
    const Turn turn = turn_of(box, s, usable);
    if (usable == 0 || turn.layer >= (seam.joint == JointKind::tee ? 2u : 1u)) {
      if (usable == 0) {
        tell_apart(seam, a, b, slack, lines.empty() ? 0.0 : length(lines.front().line), out);
      } else {
        out.error(
            "seam-twice", seam.where,
            fmt::format("seam {}: faces {} and {} share no further line beside those of the seams before it",
                        seam.id, a.face->id, b.face->id),
            "state one seam for each common line and side of it");
      }
      continue;
    }
    if (turn.first && usable > turn.lines)
      out.caution(
          "seam-pieces", seam.where,
          fmt::format("seam {}: faces {} and {} meet along {} lines; the longest of {:.1f} mm is taken",
                      seam.id, a.face->id, b.face->id, usable, length(lines.front().line)),
          "state a further seam of the same faces for each of the others");
    all[s] = {lines[turn.line], true};
    if (turn.layer == 1) all[s].meeting.into_b = -all[s].meeting.into_b; // behind face_a
  }

  std::size_t home = box.parts.size();
  for (std::size_t p = 0; p < box.parts.size(); ++p) {
    if (box.parts[p].loose) continue;
    if (home == box.parts.size()) home = p;
    if (groups.of[p] != groups.of[home])
      out.error("part-untied", box.parts[p].where,
                fmt::format("no seam ties part {} to part {}", box.parts[p].id, box.parts[home].id),
                "state the seam that holds it, or state the part as loose");
  }
  return all;
}

std::vector<FreeEdge> free_edges(const Box& box, const std::vector<Panel>& panels,
                                 const std::vector<BendMeeting>& bends,
                                 const std::vector<SeamMeeting>& seams) {
  std::vector<FreeEdge> free;
  for (std::size_t f = 0; f < panels.size(); ++f) {
    if (!panels[f].welded()) continue;
    for (std::size_t i = 0; i < panels[f].ring.size(); ++i) {
      const Segment edge = panels[f].edge(i);
      std::vector<std::pair<double, double>> covered;
      const auto cover = [&](std::size_t a, std::size_t b, const Segment& line) {
        if (f != a && f != b) return;
        if (const auto part = common_part(edge, line, meet_slack_mm(panels[a], panels[b])))
          covered.push_back(*part);
      };
      for (const BendMeeting& m : bends) {
        const Bend& bend = box.parts[m.part].bends[m.bend];
        cover(bend.face_a, bend.face_b, m.meeting.line);
      }
      for (std::size_t s = 0; s < seams.size(); ++s)
        cover(box.seams[s].face_a, box.seams[s].face_b, seams[s].meeting.line);
      const double edge_mm = length(edge);
      for (const auto& [from, to] : uncovered(covered)) {
        if ((to - from) * edge_mm < std::max(kShortestSeam_mm, 2.0 * panels[f].t_mm)) continue;
        const Vec3 d = edge.end - edge.start;
        free.push_back({f, {edge.start + d * from, edge.start + d * to}});
      }
    }
  }
  return free;
}

} // namespace tacksquare
