// What the stated faces and seams are in space: lines, areas, masses, sections, and how the box can lie.
#pragma once

#include "base/diagnostic.h"
#include "base/vec.h"
#include "job/job.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

struct FaceGeometry {
  double area_mm2 = 0.0;          // middle surface, cut-outs taken off
  Vec3 centroid;                  // of that area
  std::vector<Vec3> ring;         // outline in space
};

// The line of a seam on the middle surfaces. 0 mm is at start: the end on a free rim, else the lower-front-left one.
struct SeamLine {
  Vec3 start, end;
  double length_mm = 0.0;
  double dihedral_rad = 0.0;      // between the faces' outward normals; 0 for a butt
  Vec3 towards_welder;            // unit vector from the seam to where the torch comes from (side of the weld)
  bool start_at_rim = false, end_at_rim = false; // that end lies on a free edge
  std::vector<std::size_t> at_start, at_end;     // other seams that meet there
};

struct BendLine {
  std::size_t part = 0, bend = 0; // indices in Box::parts and Part::bends
  Vec3 start, end;
  double angle_rad = 0.0;         // the angle bent through, 90 deg for a box wall
};

// Flat pattern of one part by DIN 6935: size of the rectangle around it, and net area.
struct Blank {
  std::size_t part = 0;
  double length_mm = 0.0, width_mm = 0.0, area_mm2 = 0.0;
  double mass_kg = 0.0;
};

// The cross-section that a seam bends, cut square to the seam at its middle. Axes: u = first face's in-plane
// direction away from the seam, v = third direction. e = from the section's centroid to the seam.
struct SeamSection {
  double area_mm2 = 0.0;
  double Iuu_mm4 = 0.0, Ivv_mm4 = 0.0, Iuv_mm4 = 0.0; // about the centroid: Iuu = integral of v^2
  double eu_mm = 0.0, ev_mm = 0.0;
  Vec3 u, v;
  Vec3 centroid;
};

// A way of lying on the table: one face (or the open rim) down.
struct Attitude {
  std::string down;       // face id, or "rim"
  Vec3 down_direction;    // unit, in the box's frame
};

struct SeamAccess {
  bool reachable = false;
  WeldPosition forward = WeldPosition::flat;  // welded from start to end
  WeldPosition backward = WeldPosition::flat; // from end to start
};

struct ClosedVolume {
  double volume_mm3 = 0.0;
  std::vector<std::size_t> faces;
};

struct BoxGeometry {
  std::vector<FaceGeometry> faces;     // as Box::faces
  std::vector<SeamLine> seams;         // as Box::seams
  std::vector<SeamSection> sections;   // as Box::seams
  std::vector<BendLine> bends;
  std::vector<Blank> blanks;           // as Box::parts
  double mass_kg = 0.0;                // all parts
  Vec3 centre_of_gravity;              // of the welded parts
  Vec3 low, high;                      // outside of the welded parts, axis-parallel
  std::vector<std::vector<double>> seam_distance_mm; // nearest distance, seam to seam
  std::vector<std::pair<Vec3, Vec3>> rim;            // free edges (no bend, no seam)
  std::optional<ClosedVolume> closed;  // the welded faces enclose a volume
  std::vector<Attitude> attitudes;     // stable ones, in order of face id, "rim" last
  std::vector<std::vector<SeamAccess>> access; // [attitude][seam]
};

// Faults go to the diagnostics with their origin: open or self-crossing outlines, cut-outs outside, faces that do
// not meet where a bend or seam is stated, a closed volume without a vent, parts that nothing ties to the rest.
// The result is usable only when no error was added.
BoxGeometry resolve_geometry(const Job& job, const Box& box, Diagnostics& out);

} // namespace tacksquare
