// Springs of fused metal, seam by seam: docs/theory.md, "A tack as a spring".
#include "formulas/band_math.h"
#include "formulas/tack.h"
#include "planning/planner/elastic_case.h"

#include <algorithm>

namespace tacksquare {
namespace {

using elastic::LineSprings;
using formulas::TackJoint;

constexpr double kUsualTack_mm = 10.0;
constexpr double kThroatRead = 0.15; // one tack that was cut stands for all, common practice
constexpr double kAsMetal = 2.0;     // of what no formula covers: in E, and in E t^2

// The formulas' side a is the sheet that covers the other's edge; into it is square to the other one.
LineSprings springs_of(const formulas::TackStiffness& s, bool swapped, const LineSprings& otherwise) {
  if (s.validity == formulas::Validity::refused) return otherwise;
  LineSprings made{s.along.value, s.into_a.value, s.square_to_a.value, s.turn.value};
  if (swapped) std::swap(made.into_a, made.square_to_a);
  return made;
}

std::optional<TackJoint> joint_of(const Seam& seam) {
  switch (seam.joint) {
  case JointKind::corner:
    return seam.corner == CornerStyle::open        ? TackJoint::open_corner
           : seam.corner == CornerStyle::half_open ? TackJoint::half_open_corner
                                                   : TackJoint::lapped_corner;
  case JointKind::tee:
    return TackJoint::tee;
  case JointKind::butt:
    return TackJoint::butt;
  case JointKind::lap:
    break;
  }
  return std::nullopt;
}

elastic::SeamSprings springs_of_seam(const BoxCase& box, const WorkSeam& work) {
  const Seam& seam = box.box.seams[work.seam];
  const auto metal_of = [&](std::size_t face) -> const Metal& {
    return box.sheet_of(box.box.parts[box.box.faces[face].part]).metal;
  };
  const Metal& softer = metal_of(seam.face_a).youngs_MPa <= metal_of(seam.face_b).youngs_MPa
                            ? metal_of(seam.face_a)
                            : metal_of(seam.face_b);
  const double E = softer.youngs_MPa, t = std::min(work.t_a_mm, work.t_b_mm);
  const LineSprings metal{kAsMetal * E, kAsMetal * E, kAsMetal * E, kAsMetal * E * t * t};
  const std::optional<TackJoint> joint = joint_of(seam);
  if (!joint) return {metal, metal};
  double tacked = 0.0, tacks = 0.0;
  for (const Tack& tack : box.tacks)
    if (box.work.seams[tack.seam].seam == work.seam) {
      tacked += tack.length_mm;
      tacks += 1.0;
    }
  const double length = tacks > 0.0 ? tacked / tacks : kUsualTack_mm;
  const bool swapped = seam.over == seam.face_b;
  const double a = swapped ? work.t_b_mm : work.t_a_mm, b = swapped ? work.t_a_mm : work.t_b_mm;
  const std::optional<Length>& stated = box.job.rules.tack_throat;
  const Band throat =
      stated ? formulas::band_around(in_mm(*stated), kThroatRead) : formulas::usual_tack_throat_mm(t);
  const auto tack = formulas::tack_stiffness(*joint, a, b, throat, length, E, softer.poisson);
  const auto weld = formulas::seam_stiffness(*joint, a, b, work.throat_mm, E, softer.poisson);
  return {springs_of(tack, swapped, metal), springs_of(weld, swapped, metal)};
}

} // namespace

std::vector<elastic::SeamSprings> seam_springs(const BoxCase& box) {
  std::vector<elastic::SeamSprings> springs(box.box.seams.size());
  for (const WorkSeam& work : box.work.seams)
    springs[work.seam] = springs_of_seam(box, work);
  return springs;
}

} // namespace tacksquare
