#include "formulas/deposit.h"

#include "base/units.h"
#include "formulas/band_math.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::formulas {

double fillet_area_mm2(double leg_mm) {
  return 0.5 * leg_mm * leg_mm;
}
double fillet_throat_mm(double leg_mm) {
  return leg_mm / std::sqrt(2.0);
}
double fillet_leg_for_area_mm(double area_mm2) {
  return std::sqrt(2.0 * area_mm2);
}

double deposit_g_per_m(double area_mm2, double density_kg_m3) {
  return area_mm2 * density_kg_m3 * 1e-3;
}

double cap_area_mm2(double width_mm, double height_mm) {
  return 2.0 / 3.0 * width_mm * height_mm;
}

double square_butt_area_mm2(double thickness_mm, double gap_mm, double penetration_mm, double cap_mm2) {
  return gap_mm * std::min(penetration_mm, thickness_mm) + cap_mm2;
}

double vee_butt_area_mm2(double thickness_mm, double gap_mm, double root_face_mm, double included_angle_rad,
                         double cap_mm2) {
  const double depth = std::max(0.0, thickness_mm - root_face_mm);
  return gap_mm * thickness_mm + depth * depth * std::tan(0.5 * included_angle_rad) + cap_mm2;
}

namespace {

// Width of the under sheet's edge that the over sheet leaves bare.
double bare_edge_mm(CornerNotch notch, double under_mm) {
  switch (notch) {
  case CornerNotch::open:
    return under_mm;
  case CornerNotch::half_open:
    return 0.5 * under_mm;
  case CornerNotch::lapped:
    break;
  }
  return 0.0;
}

} // namespace

double corner_notch_mm2(CornerNotch notch, double over_mm, double under_mm) {
  return over_mm * bare_edge_mm(notch, under_mm);
}

Band corner_area_mm2(CornerNotch notch, double over_mm, double under_mm, double gap_mm, double penetration_mm,
                     double cap_mm2) {
  const double whole = corner_notch_mm2(notch, over_mm, under_mm);
  // The gap opens under the covering sheet; past the sheet's thickness there is nothing to fill.
  const double more = gap_mm * std::min(penetration_mm, under_mm) + cap_mm2;
  return {kPi / 4.0 * whole + more, 0.5 * whole + more, whole + more};
}

double wire_area_mm2(double diameter_mm) {
  return kPi / 4.0 * diameter_mm * diameter_mm;
}
double wire_g_per_m(double diameter_mm, double density_kg_m3) {
  return deposit_g_per_m(wire_area_mm2(diameter_mm), density_kg_m3);
}

double wire_used_mm(double bead_mm2, double length_mm, double diameter_mm, double deposition_efficiency) {
  return bead_mm2 * length_mm / (wire_area_mm2(diameter_mm) * deposition_efficiency);
}

double travel_from_feed_mm_s(double feed_mm_s, double diameter_mm, double deposition_efficiency,
                             double bead_mm2) {
  return wire_area_mm2(diameter_mm) * feed_mm_s * deposition_efficiency / bead_mm2;
}

double bead_from_feed_mm2(double feed_mm_s, double diameter_mm, double deposition_efficiency,
                          double travel_mm_s) {
  return wire_area_mm2(diameter_mm) * feed_mm_s * deposition_efficiency / travel_mm_s;
}

double amps_from_thickness(double thickness_mm) {
  return thickness_mm / kMmPerInch * 1000.0;
}

namespace {

// Feed of steel wire per ampere, mm/s per A, from the rule of thumb in in/min per A.
Ranged feed_per_amp(double diameter_mm) {
  struct Rule {
    double diameter_mm, in_per_min;
  };
  constexpr Rule rules[] = {{0.6, 3.5}, {0.8, 2.0}, {0.9, 1.6}};
  const Rule* nearest = rules;
  for (const Rule& r : rules) {
    if (std::fabs(std::log(diameter_mm / r.diameter_mm)) <
        std::fabs(std::log(diameter_mm / nearest->diameter_mm)))
      nearest = &r;
  }
  const double feed = nearest->in_per_min * kMmPerInch / 60.0;
  const double ratio = nearest->diameter_mm / diameter_mm;
  // The rule takes 0.030 in and 0.8 mm for the same wire: 5 % apart.
  if (std::fabs(1.0 / ratio - 1.0) <= 0.05) return inside(feed);
  return outside(feed * ratio * ratio, "the rule of thumb for wire feed knows 0.6, 0.8 and 0.9 mm wire only");
}

} // namespace

Ranged feed_from_amps_mm_s(double amps, double diameter_mm) {
  Ranged r = feed_per_amp(diameter_mm);
  r.value *= amps;
  return r;
}

Ranged amps_from_feed(double feed_mm_s, double diameter_mm) {
  Ranged r = feed_per_amp(diameter_mm);
  r.value = feed_mm_s / r.value;
  return r;
}

double arc_seconds(double length_mm, double travel_mm_s) {
  return length_mm / travel_mm_s;
}
double gas_litres(double flow_l_min, double arc_s) {
  return flow_l_min * arc_s / 60.0;
}

Balance check_balance(const BalanceInput& in, double tolerance) {
  const auto agree = [tolerance](double stated, double fitting) {
    return std::fabs(stated - fitting) <= tolerance * fitting;
  };
  Balance out;
  out.amps = amps_from_feed(in.feed_mm_s, in.diameter_mm).value;
  const double feed_by_amps = feed_from_amps_mm_s(in.amps, in.diameter_mm).value;
  out.feed_mm_s = feed_by_amps;
  out.travel_mm_s =
      travel_from_feed_mm_s(in.feed_mm_s, in.diameter_mm, in.deposition_efficiency, in.bead_mm2);
  out.bead_mm2 = bead_from_feed_mm2(in.feed_mm_s, in.diameter_mm, in.deposition_efficiency, in.travel_mm_s);

  const bool amps_fit_feed = !in.feed_rule || agree(in.amps, out.amps);
  const bool bead_fits_feed = agree(in.bead_mm2, out.bead_mm2);
  if (amps_fit_feed && bead_fits_feed) {
    out.odd = OddSetting::none;
  } else if (bead_fits_feed) {
    out.odd = OddSetting::amps;
  } else if (amps_fit_feed) {
    // Hand speed of short-arc runs, 20-80 cm/min.
    const bool hand_speed = in.travel_mm_s >= 20.0 / 6.0 && in.travel_mm_s <= 80.0 / 6.0;
    out.odd = hand_speed ? OddSetting::bead : OddSetting::travel;
  } else {
    const double bead_by_amps =
        bead_from_feed_mm2(feed_by_amps, in.diameter_mm, in.deposition_efficiency, in.travel_mm_s);
    out.odd = agree(in.bead_mm2, bead_by_amps) ? OddSetting::feed : OddSetting::several;
  }
  return out;
}

Band usual_penetration_mm(double thickness_mm) {
  return {0.35 * thickness_mm, 0.0, 0.5 * thickness_mm};
}

namespace {

Band penetration_mm(double thickness_mm, std::optional<double> measured) {
  return measured ? band_around(*measured, 0.2) : usual_penetration_mm(thickness_mm);
}

} // namespace

double usual_cap_width_mm(double thickness_mm) {
  return thickness_mm + 3.0;
}
double usual_cap_height_mm(double thickness_mm) {
  return 0.5 + 0.25 * thickness_mm;
}

Band lapped_throat_as_welded_mm(double thickness_mm, std::optional<double> measured_penetration) {
  const Band cap = band_around(usual_cap_height_mm(thickness_mm), 0.25);
  return smaller(sum_independent({cap, penetration_mm(thickness_mm, measured_penetration)}),
                 exactly(thickness_mm));
}

Band throat_after_flush_mm(const GroundSeam& seam) {
  const double thin = std::min(seam.over_mm, seam.under_mm);
  const double whole = std::max(0.0, thin - seam.dig_mm);
  if (seam.full_penetration_proven) return {whole, 0.9 * whole, whole};

  const bool measured = seam.measured_penetration.has_value();
  const Band penetration = penetration_mm(thin, seam.measured_penetration);
  // Metal that the joint holds once the outside is level, before any penetration past its root.
  double held = 0.0;
  switch (seam.joint) {
  case GroundJoint::open_corner:
    held = thin;
    break;
  case GroundJoint::half_open_corner:
    held = std::min(thin, 0.5 * seam.under_mm);
    break;
  case GroundJoint::butt:
    // One pass goes through sheet of 3 mm, or through an open root gap; a coupon that says otherwise wins.
    if (!measured && (thin <= 3.0 || seam.gap_mm >= 0.3 * thin)) held = thin;
    break;
  case GroundJoint::lapped_corner:
  case GroundJoint::fillet:
    break;
  }
  const auto left = [&](double penetrated) {
    return std::max(0.0, std::min(thin, held + penetrated) - seam.dig_mm);
  };
  Band throat{left(penetration.value), left(penetration.low), left(penetration.high)};
  // Even where the metal should be whole, an unproven bead can bridge its root.
  if (held == thin) throat.low = 0.7 * throat.value;
  return throat;
}

} // namespace tacksquare::formulas
