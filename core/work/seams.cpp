#include "work/making.h"

#include "base/numbers.h"
#include "formulas/band_math.h"
#include "formulas/deposit.h"
#include "formulas/heat.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::work {

namespace {

// A fillet of a leg equal to the thinner sheet has this throat: what is asked of every seam.
constexpr double kNeededThroat = 0.7;
// Leg of a hand-made fillet against the one asked for.
constexpr double kLegRelative = 0.10;

double usual_cap_mm2(double t) {
  return formulas::cap_area_mm2(formulas::usual_cap_width_mm(t), formulas::usual_cap_height_mm(t));
}

formulas::CornerNotch notch_of(CornerStyle style) {
  switch (style) {
  case CornerStyle::open:
    return formulas::CornerNotch::open;
  case CornerStyle::half_open:
    return formulas::CornerNotch::half_open;
  case CornerStyle::lapped:
    return formulas::CornerNotch::lapped;
  }
  throw InternalError("unknown corner style");
}

struct Covering {
  double over_mm = 0.0, under_mm = 0.0;
};
Covering covering_of(const Making& m, const Seam& seam) {
  const double ta = m.thickness_mm(seam.face_a), tb = m.thickness_mm(seam.face_b);
  return seam.over && *seam.over == seam.face_b ? Covering{tb, ta} : Covering{ta, tb};
}

formulas::GroundJoint ground_joint(const Seam& seam) {
  if (is_fillet(seam)) return formulas::GroundJoint::fillet;
  if (seam.joint == JointKind::butt || seam.side == WeldSide::inside) return formulas::GroundJoint::butt;
  switch (seam.corner) {
  case CornerStyle::open:
    return formulas::GroundJoint::open_corner;
  case CornerStyle::half_open:
    return formulas::GroundJoint::half_open_corner;
  case CornerStyle::lapped:
    return formulas::GroundJoint::lapped_corner;
  }
  throw InternalError("unknown corner style");
}

Band fillet_throat(const Making& m, const Seam& seam) {
  return formulas::band_around(formulas::fillet_throat_mm(leg_of(m, seam)), kLegRelative);
}

bool is_lapped(const Seam& seam) {
  return seam.joint == JointKind::corner && seam.corner == CornerStyle::lapped && !is_fillet(seam) &&
         seam.weld != WeldKind::vee;
}

std::optional<double> measured_penetration(const Settings& s) {
  return s.penetration ? std::optional(in_mm(*s.penetration)) : std::nullopt;
}

// What the stated finish leaves, mm: value without a dig, low with the deepest one that is allowed.
Band throat_of(const Making& m, const Seam& seam, const Settings& s, double dig_mm) {
  const double thin = m.thinner_mm(seam);
  if (seam.finish == Finish::left) {
    if (is_fillet(seam)) return fillet_throat(m, seam);
    if (is_lapped(seam) && !s.full_penetration)
      return formulas::lapped_throat_as_welded_mm(thin, measured_penetration(s));
  }
  const Covering sheets = covering_of(m, seam);
  formulas::GroundSeam ground{ground_joint(seam), sheets.over_mm, sheets.under_mm, 0.0, 0.0, {},
                              s.full_penetration};
  ground.measured_penetration = measured_penetration(s);
  // A groove cut through the sheet is filled to its root.
  if (seam.weld == WeldKind::vee && !s.full_penetration) ground.measured_penetration = thin;
  Band throat = formulas::throat_after_flush_mm(ground);
  if (seam.finish == Finish::flush) {
    ground.dig_mm = dig_mm;
    throat.low = std::min(throat.value, formulas::throat_after_flush_mm(ground).low);
  }
  return throat;
}

// A fillet on the other side of the same line that stays as it is welded holds the joint, too.
std::optional<Band> fillet_behind(const Making& m, std::size_t seam) {
  const std::optional<std::size_t> behind = m.geometry.seams[seam].other_side;
  if (!behind) return std::nullopt;
  const Seam& other = m.box.seams[*behind];
  if (!is_fillet(other) || other.finish != Finish::left || other.stitch) return std::nullopt;
  return fillet_throat(m, other);
}

// What would leave the throat that is needed.
std::string remedy_of(const Making& m, const Seam& seam, const WorkSeam& w, const Settings& s) {
  const bool lapped = is_lapped(seam);
  const Band as_welded =
      lapped ? formulas::lapped_throat_as_welded_mm(m.thinner_mm(seam), measured_penetration(s))
             : fillet_throat(m, seam);
  const std::string leg = rounded(m.thinner_mm(seam), 0.1);
  return std::string(lapped ? "make it a half-open-corner, " : "") +
         (as_welded.value >= w.throat_needed_mm ? "leave it as welded, " : "") +
         (lapped ? "weld it inside, too, with a fillet of " : "weld the other side, too, with a fillet of ") +
         leg + " mm leg that stays, or state a procedure with proven full-penetration";
}

void check_throat(const Making& m, std::size_t index, const WorkSeam& w, const Settings& s,
                  SeamFaults& faults) {
  const Seam& seam = m.box.seams[index];
  if (seam.finish != Finish::flush || s.full_penetration) return;
  const std::string left = "about " + rounded(w.throat_mm.value, 0.1) + " mm of throat where " +
                           rounded(w.throat_needed_mm, 0.1) + " mm are needed";
  if (is_lapped(seam) || is_fillet(seam)) {
    // A usual penetration is no proof.
    const bool known = s.penetration || fillet_behind(m, index);
    if (known && w.throat_mm.value >= w.throat_needed_mm) return;
    faults.add(seam, {Severity::error,
                      "flush-no-throat",
                      std::string(": grinding a ") + (is_fillet(seam) ? "fillet" : "lapped-corner") +
                          " flush leaves " + left,
                      remedy_of(m, seam, w, s),
                      seam.where,
                      {}});
  } else if (w.throat_mm.value < w.throat_needed_mm) {
    faults.add(seam, {Severity::caution,
                      "flush-thin-throat",
                      ": grinding it flush leaves " + left,
                      "prove the root on the coupon and state full-penetration or the measured penetration",
                      seam.where,
                      {}});
  }
}

std::optional<double> t85_of(const Making& m, const Seam& seam, const WorkSeam& w) {
  const std::optional<MetalFamily> family = common_family(m, seam);
  if (family != MetalFamily::mild_steel && family != MetalFamily::galvanized) return std::nullopt;
  if (is_fillet(seam)) return std::nullopt; // public copies of the standard disagree on its shape factor
  formulas::T85Input in;
  in.net_heat_j_mm = w.heat_J_mm;
  in.thickness_mm = std::min(w.t_a_mm, w.t_b_mm);
  in.preheat_c = in_celsius(m.job.ambient);
  in.f2 = in.f3 = 0.9;
  const formulas::Ranged t = formulas::t85_s(in);
  if (!t.in_range() || in.thickness_mm > formulas::t85_transition_mm(in.net_heat_j_mm, in.preheat_c))
    return std::nullopt;
  return t.value;
}

bool stitch_possible(const Seam& seam, double seam_mm, SeamFaults& faults) {
  if (!seam.stitch) return true;
  const double length = in_mm(seam.stitch->length), pitch = in_mm(seam.stitch->pitch);
  if (!(length > 0.0) || length > pitch) {
    faults.add(seam,
               {Severity::error,
                "stitch-pitch",
                ": stitches of " + shortest(length) + " mm do not fit a pitch of " + shortest(pitch) + " mm",
                "state a length above 0 and a pitch of at least that length",
                seam.where,
                {}});
    return false;
  }
  if (length > seam_mm) {
    faults.add(
        seam, {Severity::error,
               "stitch-long",
               " of " + rounded(seam_mm, 0.1) + " mm: shorter than one stitch of " + shortest(length) + " mm",
               "state a shorter stitch, or weld it in one",
               seam.where,
               {}});
    return false;
  }
  return true;
}

} // namespace

bool is_fillet(const Seam& seam) {
  if (seam.weld == WeldKind::fillet) return true;
  if (seam.weld == WeldKind::vee) return false;
  return seam.joint == JointKind::tee || seam.joint == JointKind::lap ||
         (seam.joint == JointKind::corner && seam.side == WeldSide::inside);
}

double leg_of(const Making& m, const Seam& seam) {
  return seam.leg ? in_mm(*seam.leg) : m.thinner_mm(seam);
}

double bead_of(const Making& m, const Seam& seam) {
  const double thin = m.thinner_mm(seam);
  if (is_fillet(seam)) return formulas::kFilletCapAllowance * formulas::fillet_area_mm2(leg_of(m, seam));
  const double cap = usual_cap_mm2(thin);
  if (seam.weld == WeldKind::vee)
    return formulas::vee_butt_area_mm2(thin, 0.0, 0.0, in_rad(seam.groove.value_or(deg(60.0))), cap);
  if (seam.joint == JointKind::butt) return formulas::square_butt_area_mm2(thin, 0.0, thin, cap);
  const Covering sheets = covering_of(m, seam);
  return formulas::corner_area_mm2(notch_of(seam.corner), sheets.over_mm, sheets.under_mm, 0.0, 0.0, cap)
      .value;
}

Stitches stitches_of(const Stitch& stitch, double seam_mm) {
  Stitches s;
  s.length_mm = std::min(in_mm(stitch.length), seam_mm);
  s.pitch_mm = in_mm(stitch.pitch);
  s.count = 1 + static_cast<int>(std::floor((seam_mm - s.length_mm) / s.pitch_mm + 1e-9));
  s.first_mm = 0.5 * (seam_mm - (s.count - 1) * s.pitch_mm - s.length_mm);
  return s;
}

std::vector<WorkSeam> make_seams(const Making& m, const WorkRules& rules, std::vector<Settings>& settings) {
  std::vector<WorkSeam> all;
  SeamMaking making{settings};
  for (std::size_t i = 0; i < m.box.seams.size(); ++i) {
    const Seam& seam = m.box.seams[i];
    WorkSeam w;
    w.seam = i;
    w.id = seam.id;
    w.length_mm = m.geometry.seams[i].length_mm;
    w.welded_mm = w.length_mm;
    w.t_a_mm = m.thickness_mm(seam.face_a);
    w.t_b_mm = m.thickness_mm(seam.face_b);
    w.inside = seam.side == WeldSide::inside;
    w.own = seam.own.any() || !seam.procedure ? seam.own : m.job.procedures[*seam.procedure].own;
    const bool stitched = stitch_possible(seam, w.length_mm, making.faults);
    const std::optional<std::size_t> found = resolve_settings(m, seam, making);
    if (!found || !stitched) {
      all.push_back(w);
      continue;
    }
    if (seam.stitch) {
      const Stitches s = stitches_of(*seam.stitch, w.length_mm);
      w.welded_mm = s.count * s.length_mm;
    }
    w.settings = *found;
    const Settings& s = settings[*found];
    w.bead_mm2 = bead_of(m, seam);
    w.heat_J_mm = s.net_heat.value;
    const double arc_s = formulas::arc_seconds(w.welded_mm, in_mm_per_s(s.travel.value));
    const double density = m.sheet_of(seam.face_a).metal.density_kg_m3;
    // Wire that runs off the spool; a rod or electrode by the bead that it fills.
    const bool spool = s.process == Process::mag || s.process == Process::mig;
    const double wire_m = in_mm_per_s(s.wire_feed.value) * arc_s / 1000.0;
    w.wire_g = spool ? wire_m * formulas::wire_g_per_m(in_mm(s.wire_diameter.value), density)
                     : formulas::deposit_g_per_m(w.bead_mm2, density) * w.welded_mm / 1000.0 /
                           deposition_efficiency(s.process).value;
    w.gas_l = formulas::gas_litres(in_l_per_min(s.gas_flow.value), arc_s);
    // The dig is allowed by the sheet at hand, not by the thinnest of the box.
    const double share = m.job.rules.dig_fraction.value_or(rules.dig_mm.value / thinnest_mm(m));
    w.throat_mm = throat_of(m, seam, s, share * m.thinner_mm(seam));
    if (const auto behind = fillet_behind(m, i)) w.throat_mm = formulas::larger(w.throat_mm, *behind);
    w.throat_needed_mm = kNeededThroat * m.thinner_mm(seam);
    w.t85_s = t85_of(m, seam, w);
    check_throat(m, i, w, s, making.faults);
    all.push_back(w);
  }
  for (std::size_t i = 0; i < settings.size(); ++i)
    settings[i].oddities = making.odd[i].told();
  m.out.append(making.faults.told());
  return all;
}

} // namespace tacksquare::work
