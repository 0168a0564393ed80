// The parts of predict. Not for others.
#pragma once

#include "formulas/shrinkage.h"
#include "physics/shrinkage/expected.h"
#include "tables/practice.h"

namespace tacksquare::shrinkage {

// What every part looks at; seams once they are computed.
struct Predicting {
  const Job& job;
  const Box& box;
  const BoxGeometry& geometry;
  const Work& work;
  const std::vector<SeamShrinkage>& seams;

  const Sheet& sheet_of(std::size_t face) const { return job.sheets[box.parts[box.faces[face].part].sheet]; }
  double thickness_mm(std::size_t face) const { return in_mm(sheet_of(face).thickness); }
  const Seam& seam(std::size_t i) const { return box.seams[work.seams[i].seam]; }
  const SeamLine& line(std::size_t i) const { return geometry.seams[work.seams[i].seam]; }
  Vec3 direction(std::size_t i) const { return unit(line(i).end - line(i).start); }
  bool on_face(std::size_t i, std::size_t face) const {
    return seam(i).face_a == face || seam(i).face_b == face;
  }
  bool welded(std::size_t face) const { return !box.parts[box.faces[face].part].loose; }
  // Misfit that comes in, plus or minus, 90 %.
  double blank_mm() const { return in_mm(job.incoming.blank.value_or(incoming_misfit().blank)); }
  double bend_rad() const { return in_rad(job.incoming.bend.value_or(incoming_misfit().bend)); }
};

inline constexpr double kWarmer_K = 10.0; // trapped air against when it was closed in

SeamShrinkage seam_shrinkage(const Predicting& p, std::size_t seam);
// Needs the forces of all seams: shared zones and buckling.
void add_neighbours(const Predicting& p, std::size_t seam, SeamShrinkage& to);

// A seam's shrinkage across, as one face loses it.
Band across_of_face(const Predicting& p, std::size_t seam, std::size_t face);
// A point lies on a free edge of the box.
bool on_rim(const Predicting& p, Vec3 point, double near_mm);

// Shortening along a direction (unit) by all seams that run along it; near ones share their zone.
Band along_of(const Predicting& p, Vec3 axis);

std::vector<Expected> expect_measures(const Predicting& p);
std::vector<Contribution> contributions_of(const Predicting& p, const std::vector<Expected>& measures);
std::optional<Band> trapped_air_bulge(const Predicting& p);

// Bounds of the belly of a face: hollow (negative) to out, mm.
Band belly_bounds(const Predicting& p, std::size_t face);

} // namespace tacksquare::shrinkage
