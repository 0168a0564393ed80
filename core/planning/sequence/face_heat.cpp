#include "planning/sequence/face_heat.h"

#include "formulas/heat.h"

#include <cmath>

namespace tacksquare {
FaceHeat::FaceHeat(const Job& job, const Box& box, const BoxGeometry& geometry, const Work& work)
    : box_(box), geometry_(geometry), work_(work), rise_(box.faces.size(), 0.0) {
  for (std::size_t face = 0; face < box.faces.size(); ++face) {
    const Sheet& sheet = job.sheets[box.parts[box.faces[face].part].sheet];
    const double rho_c = sheet.metal.density_kg_m3 * sheet.metal.specific_heat_J_kgK * 1e-9;
    capacity_J_K_.push_back(rho_c * in_mm(sheet.thickness) * geometry.faces[face].area_mm2);
    two_sided_tau_s_.push_back(formulas::cooling_tau_s(
        rho_c, in_mm(sheet.thickness), formulas::kStillAirFilm.value, formulas::CooledSides::both));
  }
}

void FaceHeat::lie(std::size_t attitude) {
  attitude_ = attitude;
}

double FaceHeat::kept(std::size_t face, double seconds) const {
  const bool one_sided = geometry_.closed || box_.faces[face].id == geometry_.attitudes[attitude_].down;
  return std::exp(-seconds / (two_sided_tau_s_[face] * (one_sided ? 2.0 : 1.0)));
}

void FaceHeat::pass(double seconds) {
  for (std::size_t face = 0; face < rise_.size(); ++face)
    rise_[face] *= kept(face, seconds);
}

double FaceHeat::rise_K(const Run& run, std::size_t face) const {
  if (capacity_J_K_[face] <= 0.0) return 0.0;
  const WorkSeam& seam = work_.seams[run.seam];
  const Seam& stated = box_.seams[seam.seam];
  double share = 0.0;
  if (stated.face_a == face) share += seam.t_a_mm / (seam.t_a_mm + seam.t_b_mm);
  if (stated.face_b == face) share += seam.t_b_mm / (seam.t_a_mm + seam.t_b_mm);
  return share * run.heat_J / capacity_J_K_[face];
}

void FaceHeat::take(const Run& run) {
  const Seam& stated = box_.seams[work_.seams[run.seam].seam];
  rise_[stated.face_a] += rise_K(run, stated.face_a);
  if (stated.face_b != stated.face_a) rise_[stated.face_b] += rise_K(run, stated.face_b);
}

double FaceHeat::warmth_K(const Run& run) const {
  const Seam& stated = box_.seams[work_.seams[run.seam].seam];
  return 0.5 * (rise_[stated.face_a] + rise_[stated.face_b]);
}

double FaceHeat::left_K(const Run& first, const Run& second, double seconds) const {
  const Seam& stated = box_.seams[work_.seams[second.seam].seam];
  return 0.5 * (rise_K(first, stated.face_a) * kept(stated.face_a, seconds) +
                rise_K(first, stated.face_b) * kept(stated.face_b, seconds));
}

} // namespace tacksquare
