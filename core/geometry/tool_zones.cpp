#include "geometry/tool_zones.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

constexpr double kFlat = 0.1; // sine: faces that meet at less have no corner between them

double half_thickness_mm(const Job& job, const Box& box, std::size_t face) {
  return 0.5 * in_mm(job.sheets[box.parts[box.faces[face].part].sheet].thickness);
}

// From the seam's line to where it leaves the metal of a face, towards the welder.
double surface_mm(const Job& job, const Box& box, std::size_t face, Vec3 towards_welder) {
  const double slope = std::abs(dot(box.faces[face].placement.normal(), towards_welder));
  return slope > kFlat ? half_thickness_mm(job, box, face) / slope : 0.0;
}

// A length of a seam.
struct Stretch {
  double from_mm = 0.0, to_mm = 0.0;
};

// Over one face: from beyond_mm outside of the seam's line to into_mm inside of it, along `into`.
Solid disc_zone(const ToolRoom& room, const SeamLine& line, Stretch ground, Vec3 normal, double half_t_mm,
                Vec3 into, double beyond_mm, double into_mm) {
  const Vec3 along = unit(line.end - line.start);
  const Vec3 middle = line.start + along * (0.5 * (ground.from_mm + ground.to_mm)) +
                      into * (0.5 * (into_mm - beyond_mm)) + normal * (half_t_mm + 0.5 * room.grinder_mm);
  return {middle,
          {along, into, normal},
          {0.5 * (ground.to_mm - ground.from_mm + room.disc_mm), 0.5 * (into_mm + beyond_mm),
           0.5 * room.grinder_mm}};
}

} // namespace

Solid torch_zone(const ToolRoom& room, const Job& job, const Box& box, const BoxGeometry& geometry,
                 std::size_t seam, double from_mm, double to_mm) {
  const SeamLine& line = geometry.seams[seam];
  const Vec3 along = unit(line.end - line.start), towards = line.towards_welder;
  const double surface = std::max(surface_mm(job, box, box.seams[seam].face_a, towards),
                                  surface_mm(job, box, box.seams[seam].face_b, towards));
  const double leans_out = room.torch_reach_mm * std::sin(room.torch_lean_rad);
  return {line.start + along * (0.5 * (from_mm + to_mm)) + towards * (surface + 0.5 * room.torch_reach_mm),
          {along, cross(towards, along), towards},
          {0.5 * (to_mm - from_mm) + room.nozzle_mm + leans_out, room.nozzle_mm, 0.5 * room.torch_reach_mm}};
}

std::vector<Solid> grinder_zones(const ToolRoom& room, const Job& job, const Box& box,
                                 const BoxGeometry& geometry, std::size_t seam, double from_mm,
                                 double to_mm) {
  const Stretch ground{from_mm, to_mm};
  const Seam& s = box.seams[seam];
  const SeamLine& line = geometry.seams[seam];
  if (s.finish != Finish::flush || s.side != WeldSide::outside || s.joint == JointKind::tee) return {};
  const Vec3 normal_a = box.faces[s.face_a].placement.normal();
  const Vec3 normal_b = box.faces[s.face_b].placement.normal();
  const double half_a = half_thickness_mm(job, box, s.face_a);
  const double half_b = half_thickness_mm(job, box, s.face_b);
  const double on_mm = room.disc_mm * 2.0 / 3.0, off_mm = room.disc_mm / 3.0;
  const double sine = std::sin(line.dihedral_rad), cosine = std::cos(line.dihedral_rad);
  if (s.joint != JointKind::corner || sine < kFlat)
    return {disc_zone(room, line, ground, normal_a, half_a, line.into_a, on_mm, on_mm)};
  if (dot(normal_a, line.into_b) > 0.0) return {};
  // The outside surfaces meet in the outer edge, beyond the line where the middle surfaces do.
  const double edge_a = (half_b - half_a * cosine) / sine, edge_b = (half_a - half_b * cosine) / sine;
  return {disc_zone(room, line, ground, normal_a, half_a, line.into_a, edge_a + off_mm, on_mm - edge_a),
          disc_zone(room, line, ground, normal_b, half_b, line.into_b, edge_b + off_mm, on_mm - edge_b)};
}

} // namespace tacksquare
