#include "formulas/shrinkage.h"

#include "base/units.h"
#include "formulas/band_math.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

namespace {

constexpr double kEuler = 2.71828182845904523536;
constexpr double kDegree = kPi / 180.0;
constexpr double kAngleFloor = 0.3 * kDegree;
constexpr double kAngleRelative = 0.4;

} // namespace

const ShrinkageMetal& shrinkage_metal(MetalFamily family) {
  switch (family) {
  case MetalFamily::stainless:
    return kAusteniticShrinkage;
  case MetalFamily::aluminium:
    return kAluminiumShrinkage;
  case MetalFamily::mild_steel:
  case MetalFamily::galvanized:
    break;
  }
  return kMildSteelShrinkage;
}

Band mig_heat_of_bead_j_mm(double bead_mm2) {
  return band_plus_minus(27.0 * bead_mm2, 5.0 * bead_mm2);
}

Band butt_across_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double thickness_mm, FitUp fit) {
  return band_around(across_share(fit) * metal.contraction() * net_heat_j_mm / thickness_mm, kAcrossRelative);
}

Band corner_across_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double t1_mm, double t2_mm,
                      FitUp fit) {
  return butt_across_mm(metal, net_heat_j_mm, t1_mm + t2_mm, fit);
}

Band tee_across_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double base_mm, double web_mm,
                   FitUp fit) {
  return scaled(butt_across_mm(metal, net_heat_j_mm, 2.0 * base_mm + web_mm, fit), 2.0);
}

double spraragen_ettinger_mm(double bead_mm2, double thickness_mm, double gap_mm) {
  return 0.2 * bead_mm2 / thickness_mm + 0.05 * gap_mm;
}

double blodgett_across_mm(double bead_mm2, double thickness_mm) {
  return 0.10 * bead_mm2 / thickness_mm;
}

Band twi_butt_across_mm() {
  return {2.25, 1.5, 3.0};
}

Ranged twi_fillet_across_mm(double leg_mm, double thickness_mm) {
  if (leg_mm > 0.75 * thickness_mm) return outside(0.8, "the allowance is for a leg of at most 0.75 t");
  return inside(0.8);
}

double twi_butt_along_mm(double length_mm) {
  return length_mm * 3.0 / 3000.0;
}
double twi_fillet_along_mm(double length_mm) {
  return length_mm * 0.8 / 3000.0;
}

Ranged restraint_share(double normalised_restraint) {
  const double k = std::clamp(normalised_restraint, 0.0, 1.0);
  const double share = 1.0 - 0.82 * std::pow(k, 0.86);
  if (k != normalised_restraint) return outside(share, "restraint is normalised to 0..1");
  return inside(share);
}

double tendon_constant() {
  return 2.0 * std::log(2.0) / std::sqrt(2.0 * kPi * kEuler);
}

double tendon_force_per_heat(const ShrinkageMetal& metal) {
  return tendon_constant() * metal.E_mpa * metal.contraction();
}

Band tendon_force_n(const ShrinkageMetal& metal, double net_heat_j_mm) {
  return band_around(tendon_force_per_heat(metal) * net_heat_j_mm, kTendonRelative);
}

double welded_fraction(double stitch_mm, double pitch_mm) {
  return stitch_mm / pitch_mm;
}

double shortening_mm(double force_n, double length_mm, double E_mpa, double section_mm2) {
  return force_n * length_mm / (E_mpa * section_mm2);
}

double yielded_half_width_mm(const ShrinkageMetal& metal, double net_heat_j_mm, double thickness_mm,
                             double yield_mpa) {
  const double yield_strain = yield_mpa / metal.E_mpa;
  // alpha Tmax = 2 eps_y there: half of 1/sqrt(2 pi e)
  return 0.5 / std::sqrt(2.0 * kPi * kEuler) * metal.contraction() * net_heat_j_mm /
         (yield_strain * thickness_mm);
}

double bow_mm(double force_n, double eccentricity_mm, double length_mm, double E_mpa, double inertia_mm4) {
  return force_n * eccentricity_mm * length_mm * length_mm / (8.0 * E_mpa * inertia_mm4);
}

double blodgett_bow_mm(double bead_mm2, double eccentricity_mm, double length_mm, double inertia_mm4) {
  return 0.005 * bead_mm2 * eccentricity_mm * length_mm * length_mm / inertia_mm4;
}

Ranged chord_angle_rad(double contraction, double included_angle_rad) {
  const double angle =
      included_angle_rad - 2.0 * std::asin((1.0 - contraction) * std::sin(0.5 * included_angle_rad));
  if (!(contraction >= 0.0 && contraction <= 0.03))
    return outside(angle, "contraction of locked weld metal lies between 0 and 0.03");
  return inside(angle);
}

double vee_angle_rad(double contraction, double included_angle_rad) {
  return 2.0 * contraction * std::tan(0.5 * included_angle_rad);
}

Ranged thin_sheet_angle_rad(double net_heat_j_mm, double thickness_mm) {
  const double x = net_heat_j_mm / (thickness_mm * thickness_mm);
  const double angle = std::max(kAngleFloor, x <= 6.27 ? 1.44e-3 * x : 5.66e-2 / x);
  if (thickness_mm > 6.0) return outside(angle, "the thin-sheet form is for sheet up to 6 mm");
  return inside(angle);
}

Ranged thick_plate_angle_rad(double leg_mm, double thickness_mm) {
  if (!(thickness_mm >= 6.0)) return refused("the thick-plate power form blows up below 6 mm");
  return inside(0.25 * std::pow(leg_mm, 1.3) / (thickness_mm * thickness_mm));
}

AngleResult seam_angle(const ShrinkageMetal& metal, AngleJoint joint, double net_heat_j_mm,
                       double thickness_mm, double leg_mm) {
  const double fillet = metal.fillet_angle_deg * kDegree;
  // Other metals turn as their fillet values stand to that of mild steel; the floor is the same for all.
  const auto sheet = [&](double t) {
    const double of_steel = thin_sheet_angle_rad(net_heat_j_mm, t).value;
    return std::max(kAngleFloor, of_steel * metal.fillet_angle_deg / kMildSteelShrinkage.fillet_angle_deg);
  };
  AngleResult out;
  if (joint == AngleJoint::full_penetration) {
    const double value = sheet(thickness_mm);
    out.rad = {value, (1.0 - kAngleRelative) * value,
               std::max(0.8 * kDegree, (1.0 + kAngleRelative) * value)};
    if (thickness_mm > 3.0) {
      out.validity = Validity::outside;
      out.note = "a single pass is known to penetrate up to 3 mm only";
    }
    return out;
  }
  if (thickness_mm <= 3.0) {
    const double value = sheet(thickness_mm);
    out.rad = {value, (1.0 - kAngleRelative) * value, std::max(fillet, (1.0 + kAngleRelative) * value)};
  } else if (thickness_mm < 4.0) {
    const double at_3 = sheet(3.0);
    const double value = at_3 + (fillet - at_3) * (thickness_mm - 3.0);
    out.rad = {value, (1.0 - kAngleRelative) * value, (1.0 + kAngleRelative) * fillet};
  } else if (thickness_mm <= 6.0) {
    out.rad = band_around(fillet, kAngleRelative);
  } else {
    out.rad = band_around(thick_plate_angle_rad(leg_mm, thickness_mm).value, kAngleRelative);
  }
  return out;
}

} // namespace tacksquare::formulas
