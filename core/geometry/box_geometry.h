// What the stated faces and seams are in space: lines, areas, masses, sections, and how the box can lie.
#pragma once

#include "base/diagnostic.h"
#include "base/vec.h"
#include "job/job.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare {

struct FaceGeometry {
  double area_mm2 = 0.0;         // middle surface, cut-outs taken off
  Vec3 centroid;                 // of that area
  std::vector<Vec3> ring;        // outline in space
  std::vector<Vec2> cut_outline; // as cut: edges moved by their setbacks (none at a bend); face's frame
};

// The line of a seam on the middle surfaces. 0 mm is at start: the end on a free rim; when both or neither
// are, the lower one, then the one more in front, then the one more to the left. Torch side: outside welds of
// corners along the bisector of the outward normals, of butts and laps along face_a's outward normal; inside
// welds the opposite way. A T is welded on the side of face_a's outward normal, outside or inside: between
// that normal's side of face_b and face_a itself. A second T seam on the same line takes the side behind
// face_a: of an outside and an inside one the inside one, of two alike the later.
struct SeamLine {
  Vec3 start, end;
  double length_mm = 0.0;
  double dihedral_rad = 0.0; // between the faces' outward normals; 0 for a butt
  Vec3 towards_welder;       // unit vector from the seam to where the torch comes from (side of the weld)
  Vec3 into_a, into_b;       // unit, in the faces, square to the seam, away from it; T and lap: into_b is the
                             // part of face_b on the side of the weld
  bool start_at_rim = false, end_at_rim = false; // that end lies on a free edge
  std::vector<std::size_t> at_start, at_end;     // other seams that meet there
  std::optional<std::size_t> other_side;         // the seam of the same faces on this line's other side
  // Of the two seams of a line the one that is tacked and fitted: the outside one, else the first.
  bool leads = true;
};

struct BendLine {
  std::size_t part = 0, bend = 0; // indices in Box::parts and Part::bends
  Vec3 start, end;
  double angle_rad = 0.0; // the angle bent through, 90 deg for a box wall
};

// Flat pattern of one part by DIN 6935, or the brake's own deductions: size of the rectangle around it (along
// the axes of its largest face), and net area with the bends' own length in it, cut-outs off. Vents and
// corner reliefs are not taken off.
struct Blank {
  std::size_t part = 0;
  double length_mm = 0.0, width_mm = 0.0, area_mm2 = 0.0;
  double mass_kg = 0.0;
};

// The cross-section that a seam bends: all welded faces of the box, cut square to the seam at its middle, as
// strips along the middle surfaces. That is the finished box; a box in the making is softer. Axes: u = in
// face_a, away from the seam; v = along the seam x u. e = from the section's centroid to the seam.
struct SeamSection {
  double area_mm2 = 0.0;
  double Iuu_mm4 = 0.0, Ivv_mm4 = 0.0, Iuv_mm4 = 0.0; // about the centroid: Iuu = integral of v^2
  double eu_mm = 0.0, ev_mm = 0.0;
  Vec3 u, v;
  Vec3 centroid;
};

// A way of lying on the table: one face (or the open rim) down, and the centre of gravity over what touches
// it. A face that lies in one plane with an earlier one, or with the rim, is no attitude of its own.
struct Attitude {
  std::string down;    // face id, or "rim"
  Vec3 down_direction; // unit, in the box's frame
};

// reachable: the torch does not have to come from below a seam near the table, and for inside welds the
// opening (of a closed box: the place of the last face) does not lie on the table. Other metal in the way is
// not looked for. Positions from the slope of the seam and the torch side, by the bands of ISO 6947 (from
// memory).
struct SeamAccess {
  bool reachable = false;
  WeldPosition forward = WeldPosition::flat;  // welded from start to end
  WeldPosition backward = WeldPosition::flat; // from end to start
};

// The rim of a box that is open on one side.
struct Opening {
  Vec3 outward;              // unit, out of the box
  std::vector<Vec3> corners; // in order round the opening, on the middle surface
};

// The skin of a closed volume. Compartments inside a box, closed by dividers, are not looked for.
struct ClosedVolume {
  double volume_mm3 = 0.0;
  std::vector<std::size_t> faces;
};

struct BoxGeometry {
  std::vector<FaceGeometry> faces;   // as Box::faces
  std::vector<SeamLine> seams;       // as Box::seams
  std::vector<SeamSection> sections; // as Box::seams
  std::vector<BendLine> bends;
  std::vector<Blank> blanks;      // as Box::parts
  double mass_kg = 0.0;           // all parts
  Vec3 centre_of_gravity;         // of the welded parts, from cut areas: bends count as sharp
  Vec3 low, high;                 // outside of the welded parts, axis-parallel
  Vec3 overall_low, overall_high; // the same with the loose parts
  std::vector<std::vector<double>> seam_distance_mm; // nearest distance, seam to seam
  std::vector<std::pair<Vec3, Vec3>> rim;            // free edges of welded faces (no bend, no seam)
  std::vector<std::size_t> rim_face;                 // as rim: whose edge
  std::optional<Opening> opening;
  std::optional<ClosedVolume> closed;          // the welded faces enclose a volume
  std::vector<Attitude> attitudes;             // stable ones, in order of face id, "rim" last
  std::vector<std::vector<SeamAccess>> access; // [attitude][seam]
};

// Faults go to the diagnostics with their origin: outlines that cross themselves or run clockwise, cut-outs
// outside, faces that do not meet where a bend or seam is stated (middle surfaces further apart than half of
// both thicknesses and 0.5 mm, or less than 5 mm of common line), a closed volume without a vent, parts that
// nothing ties to the rest, a box that has no way to lie. The result is usable only when no error was added.
BoxGeometry resolve_geometry(const Job& job, const Box& box, Diagnostics& out);

} // namespace tacksquare
