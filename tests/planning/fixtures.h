// Boxes built by hand, so that planning is tested without the rooms that read and resolve a job.
// Frame as in job/forms.h: x to the right, y to the back, z up; faces F B L R U T.
#pragma once

#include "base/random.h"
#include "base/vec.h"
#include "work/work.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

namespace tacksquare::test {

struct BoxCase {
  Job job;
  Box box;
  BoxGeometry geometry;
  Work work;
};

struct HandBox {
  double width = 400, depth = 300, height = 600, thickness = 2;
  std::string faces = "BLRUT";    // letters of the faces that exist
  std::vector<std::string> seams; // "TL": an outside corner seam between two faces, id S1, S2, ...
  double heat_J_mm = 150, travel_mm_s = 7.5;
  int runs = 2;                          // per seam, the inner one first
  std::vector<std::string> down = {"B"}; // attitudes
};

inline Vec3 outward(char face) {
  switch (face) {
  case 'F':
    return {0, -1, 0};
  case 'B':
    return {0, 1, 0};
  case 'L':
    return {-1, 0, 0};
  case 'R':
    return {1, 0, 0};
  case 'U':
    return {0, 0, -1};
  default:
    return {0, 0, 1};
  }
}

// How a corner seam of an upright box lies: a seam that looks down cannot be reached.
inline SeamAccess access_of(const SeamLine& line, Vec3 down) {
  const double along = dot(unit(line.end - line.start), down), looks_down = dot(line.towards_welder, down);
  SeamAccess access;
  access.reachable = looks_down < 0.5;
  if (std::abs(along) > 0.7) {
    access.forward = along > 0 ? WeldPosition::downhill : WeldPosition::uphill;
    access.backward = along > 0 ? WeldPosition::uphill : WeldPosition::downhill;
  } else {
    access.forward = looks_down < -0.5  ? WeldPosition::flat
                     : looks_down < 0.5 ? WeldPosition::horizontal
                                        : WeldPosition::overhead;
    access.backward = access.forward;
  }
  return access;
}

inline void add_runs(Work& work, std::size_t seam, const SeamLine& line, int count, double heat_J_mm,
                     double travel_mm_s) {
  for (int k = 0; k < count; ++k) {
    const double part = line.length_mm / count;
    Run run;
    run.id = work.seams[seam].id + (count > 1 ? std::string(1, static_cast<char>('a' + k)) : "");
    run.seam = seam;
    run.rank = k;
    run.from_mm = part * (count - 1 - k); // from the inner end towards the rim, each away from the rim
    run.to_mm = run.from_mm + part;
    run.arc_s = part / travel_mm_s;
    run.heat_J = heat_J_mm * part;
    run.middle = line.start + (line.end - line.start) * (0.5 * (run.from_mm + run.to_mm) / line.length_mm);
    work.runs.push_back(run);
  }
}

inline BoxCase build(const HandBox& hand) {
  BoxCase made;
  Sheet sheet;
  sheet.id = "sheet";
  sheet.metal = *find_metal("mild-steel");
  sheet.thickness = mm(hand.thickness);
  made.job.sheets = {sheet};
  made.box.parts.resize(1);
  made.geometry.low = {0, 0, 0};
  made.geometry.high = {hand.width, hand.depth, hand.height};
  const Vec3 half = made.geometry.high * 0.5;
  const auto spot = [&](Vec3 n) { return half + Vec3{n.x * half.x, n.y * half.y, n.z * half.z}; };
  for (const char letter : hand.faces) {
    Face face;
    const Vec3 n = outward(letter), size = made.geometry.high;
    face.id = std::string(1, letter);
    const Vec3 along = {n.y, n.z, n.x};
    face.placement = {spot(n), along, cross(n, along)};
    made.box.faces.push_back(face);
    const double area = n.x != 0 ? size.y * size.z : n.y != 0 ? size.x * size.z : size.x * size.y;
    FaceGeometry geometry;
    geometry.area_mm2 = area;
    geometry.centroid = spot(n);
    made.geometry.faces.push_back(geometry);
  }
  made.work.settings.push_back({}); // MAG
  for (const std::string& pair : hand.seams) {
    const Vec3 a = outward(pair[0]), b = outward(pair[1]);
    const Vec3 axis = {std::abs(cross(a, b).x), std::abs(cross(a, b).y), std::abs(cross(a, b).z)};
    SeamLine line;
    line.start = spot(a + b - axis);
    line.end = spot(a + b + axis);
    line.length_mm = norm(line.end - line.start);
    line.towards_welder = unit(a + b);
    line.start_at_rim = axis.y > 0.5 && hand.faces.find('F') == std::string::npos;
    line.end_at_rim = axis.z > 0.5 && hand.faces.find('T') == std::string::npos;
    if (line.end_at_rim && !line.start_at_rim) {
      std::swap(line.start, line.end);
      std::swap(line.start_at_rim, line.end_at_rim);
    }
    made.geometry.seams.push_back(line);

    Seam seam;
    seam.id = "S" + std::to_string(made.box.seams.size() + 1);
    seam.face_a = hand.faces.find(pair[0]);
    seam.face_b = hand.faces.find(pair[1]);
    made.box.seams.push_back(seam);
    WorkSeam worked;
    worked.seam = made.work.seams.size();
    worked.id = seam.id;
    worked.length_mm = worked.welded_mm = line.length_mm;
    worked.t_a_mm = worked.t_b_mm = hand.thickness;
    worked.heat_J_mm = hand.heat_J_mm;
    made.work.seams.push_back(worked);
    add_runs(made.work, worked.seam, line, hand.runs, hand.heat_J_mm, hand.travel_mm_s);
  }
  for (std::size_t i = 0; i < made.geometry.seams.size(); ++i)
    for (std::size_t k = 0; k < made.geometry.seams.size(); ++k) {
      SeamLine& line = made.geometry.seams[i];
      const SeamLine& other = made.geometry.seams[k];
      const auto meets = [&](Vec3 p) {
        return i != k && (norm(p - other.start) < 1 || norm(p - other.end) < 1);
      };
      if (meets(line.start)) line.at_start.push_back(k);
      if (meets(line.end)) line.at_end.push_back(k);
    }
  for (const std::string& down : hand.down) {
    const Vec3 direction = down == "rim" ? Vec3{0, -1, 0} : outward(down[0]);
    made.geometry.attitudes.push_back({down, direction});
    std::vector<SeamAccess> row;
    for (const SeamLine& line : made.geometry.seams)
      row.push_back(access_of(line, direction));
    made.geometry.access.push_back(row);
  }
  if (hand.faces.size() == 6) made.geometry.closed = ClosedVolume{hand.width * hand.depth * hand.height, {}};

  WorkRules& rules = made.work.rules;
  rules.tack_length_mm.value = 6;
  rules.tack_pitch_mm.value = 75;
  rules.first_tack_mm.value = 12;
  made.work.crew.weld_start_s = 30;
  made.work.crew.turn_s = 120;
  return made;
}

// The gear locker of the bench: on its back, S1 T-L, S2 T-R, S3 U-R, S4 U-L.
inline HandBox locker() {
  HandBox hand;
  hand.seams = {"TL", "TR", "UR", "UL"};
  return hand;
}

// The ballast float: twelve seams, standing on its under or its top.
inline HandBox float_box() {
  HandBox hand;
  hand.width = 600;
  hand.depth = 400;
  hand.height = 300;
  hand.thickness = 3;
  hand.heat_J_mm = 300;
  hand.faces = "FBLRUT";
  hand.seams = {"FL", "FR", "BR", "BL", "UF", "UR", "UB", "UL", "TF", "TR", "TB", "TL"};
  hand.down = {"F", "B", "L", "R", "U", "T"};
  return hand;
}

// Any box with up to eight of the twelve seams and one to three runs a seam, seen from one attitude.
inline BoxCase random_case(Random& random) {
  HandBox hand = float_box();
  hand.width = std::round(random.uniform(150, 900));
  hand.depth = std::round(random.uniform(150, 900));
  hand.height = std::round(random.uniform(150, 900));
  random.shuffle(hand.seams);
  hand.seams.resize(1 + static_cast<std::size_t>(random.below(8)));
  hand.runs = 1 + static_cast<int>(random.below(3));
  hand.down = {"U"};
  BoxCase made = build(hand);
  for (SeamAccess& access : made.geometry.access[0])
    access = {true, WeldPosition::flat, WeldPosition::flat};
  if (made.work.seams.size() > 2 && random.below(2) == 0) {
    const auto a = static_cast<std::size_t>(random.below(made.work.seams.size() - 1));
    made.work.before.emplace_back(a + 1, a);
  }
  return made;
}

} // namespace tacksquare::test
