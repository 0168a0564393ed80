#include "physics/shrinkage/predicting.h"

#include "formulas/band_math.h"
#include "formulas/buckling.h"
#include "formulas/section.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::shrinkage {

namespace {

using namespace formulas;

constexpr double kAlong = 0.95; // cosine: seams at less than 18 degrees count as parallel
constexpr double kTightGap_mm = 0.1;
constexpr double kVeeRelative = 0.4;

const ShrinkageMetal& metal_of(const Predicting& p, std::size_t i) {
  return shrinkage_metal(p.sheet_of(p.seam(i).face_a).metal.family);
}

bool is_fillet_like(const Seam& s) {
  if (s.weld == WeldKind::vee) return false;
  return s.weld == WeldKind::fillet || s.joint == JointKind::tee || s.joint == JointKind::lap ||
         (s.joint == JointKind::corner && s.side == WeldSide::inside);
}

// Share of the free heat bound: tacked tight where no gap is let through, else half way to a small gap.
double fit_factor(const Predicting& p) {
  const double tight = across_share(FitUp::tacked_tight), small = across_share(FitUp::small_gap);
  return p.work.rules.gap_go_mm.value <= kTightGap_mm ? 1.0 : 0.5 * (tight + small) / tight;
}

double fraction_of(const WorkSeam& w) {
  return w.length_mm > 0.0 ? w.welded_mm / w.length_mm : 1.0;
}

// The formula's band and that of the heat, as independent factors.
Band with_heat(const Band& formula, const Predicting& p, const WorkSeam& w) {
  const Band& heat = p.work.settings[w.settings].net_heat;
  if (formula.value <= 0.0 || heat.value <= 0.0) return formula;
  return scaled(product({scaled(formula, 1.0 / formula.value), scaled(heat, 1.0 / heat.value)}),
                formula.value);
}

// Across by the heat bound with everything tacked tight, over all the sheets that lose it.
Band tight_across(const Predicting& p, std::size_t i) {
  const WorkSeam& w = p.work.seams[i];
  const ShrinkageMetal& metal = metal_of(p, i);
  switch (p.seam(i).joint) {
  case JointKind::butt:
    return butt_across_mm(metal, w.heat_J_mm, std::min(w.t_a_mm, w.t_b_mm), FitUp::tacked_tight);
  case JointKind::corner:
    return scaled(corner_across_mm(metal, w.heat_J_mm, w.t_a_mm, w.t_b_mm, FitUp::tacked_tight), 2.0);
  case JointKind::tee:
  case JointKind::lap:
    return tee_across_mm(metal, w.heat_J_mm, w.t_b_mm, w.t_a_mm, FitUp::tacked_tight);
  }
  throw InternalError("unknown joint");
}

Source derived(const char* what) {
  return {what, Mark::derived};
}
const Source kCoupon{"coupon, by the job file", Mark::stated};

void set_across(const Predicting& p, std::size_t i, SeamShrinkage& to) {
  const WorkSeam& w = p.work.seams[i];
  if (w.own.across) {
    to.across_mm = band_around(in_mm(*w.own.across), kSeamScatterRelative);
    to.across_source = kCoupon;
    to.notes.push_back("own-across");
  } else {
    to.across_mm = scaled(with_heat(tight_across(p, i), p, w), fit_factor(p));
    to.across_source = derived("heat bound across a seam");
  }
  to.across_mm = scaled(to.across_mm, fraction_of(w));
}

void set_along(const Predicting& p, std::size_t i, SeamShrinkage& to) {
  const WorkSeam& w = p.work.seams[i];
  const ShrinkageMetal& metal = metal_of(p, i);
  if (w.own.along) {
    to.force_N = band_around(in_n(*w.own.along), kSeamScatterRelative);
    to.force_source = kCoupon;
    to.notes.push_back("own-along");
  } else {
    to.force_N = with_heat(tendon_force_n(metal, w.heat_J_mm), p, w);
    to.force_source = derived("tendon force of a fast line source");
  }
  to.force_N = scaled(to.force_N, fraction_of(w));
  if (w.welded_mm < w.length_mm) to.notes.push_back("stitch");

  const SeamSection& s = p.geometry.sections[w.seam];
  const double yield_N = p.sheet_of(p.seam(i).face_a).metal.yield_MPa * s.area_mm2;
  if (s.area_mm2 > 0.0 && !w.own.along && to.force_N.high > yield_N) {
    // The whole section yields: the formula takes a strip that does so within a wider sheet.
    to.force_N = smaller(to.force_N, exactly(yield_N));
    to.notes.push_back("narrow-section");
  }
  if (s.area_mm2 > 0.0)
    to.shortening_mm = scaled(to.force_N, shortening_mm(1.0, w.length_mm, metal.E_mpa, s.area_mm2));
  const formulas::Section section{s.area_mm2, {0.0, 0.0}, s.Iuu_mm4, s.Ivv_mm4, s.Iuv_mm4};
  const double determinant = s.Iuu_mm4 * s.Ivv_mm4 - s.Iuv_mm4 * s.Iuv_mm4;
  if (determinant > 1e-9 * std::max(s.Iuu_mm4, s.Ivv_mm4) * std::max(s.Iuu_mm4, s.Ivv_mm4)) {
    const Vec2 bend = curvature_per_newton(section, {s.eu_mm, s.ev_mm}, metal.E_mpa);
    to.bow_mm = scaled(to.force_N, norm(bend) * w.length_mm * w.length_mm / 8.0);
  } else {
    to.notes.push_back("no-bow");
  }
}

void set_angle(const Predicting& p, std::size_t i, SeamShrinkage& to) {
  const WorkSeam& w = p.work.seams[i];
  const Seam& seam = p.seam(i);
  const ShrinkageMetal& metal = metal_of(p, i);
  if (w.own.angle) {
    to.angle_deg = band_around(in_deg(*w.own.angle), kSeamScatterRelative);
    to.angle_source = kCoupon;
    to.notes.push_back("own-angle");
    return;
  }
  const double thin = std::min(w.t_a_mm, w.t_b_mm);
  Band rad_band;
  if (seam.weld == WeldKind::vee && seam.groove) {
    // Contraction of locked weld metal, from the metal's one-sided fillet: angle = 2 eps.
    const double eps = 0.5 * in_rad(deg(metal.fillet_angle_deg));
    rad_band = band_around(vee_angle_rad(eps, in_rad(*seam.groove)), kVeeRelative);
    to.angle_source = derived("contraction of a V");
  } else {
    const bool fillet = is_fillet_like(seam);
    const double leg = seam.leg ? in_mm(*seam.leg) : thin;
    const AngleResult angle = seam_angle(
        metal, fillet ? AngleJoint::one_sided_fillet : AngleJoint::full_penetration, w.heat_J_mm, thin, leg);
    rad_band = angle.rad;
    to.angle_source = {fillet ? "one-sided fillet, fall-off on thin sheet" : "single pass through thin sheet",
                       Mark::common_practice};
    if (angle.validity != Validity::inside) to.notes.push_back("angle-range");
  }
  to.angle_deg = scaled(rad_band, 180.0 / kPi * fraction_of(w));
}

// A face as a seam on it sees it.
struct PanelView {
  double along_mm = 0.0, across_mm = 0.0;
  double at = 0.0; // where the seam lies across, 0..1
  Vec3 far_middle; // middle of the edge across from the seam
};
PanelView view_of(const Predicting& p, std::size_t i, std::size_t face) {
  const Vec3 s = p.direction(i), n = cross(p.box.faces[face].placement.normal(), s);
  const std::vector<Vec3>& ring = p.geometry.faces[face].ring;
  double s0 = dot(ring[0], s), s1 = s0, n0 = dot(ring[0], n), n1 = n0;
  for (const Vec3 q : ring) {
    s0 = std::min(s0, dot(q, s));
    s1 = std::max(s1, dot(q, s));
    n0 = std::min(n0, dot(q, n));
    n1 = std::max(n1, dot(q, n));
  }
  PanelView v;
  v.along_mm = s1 - s0;
  v.across_mm = n1 - n0;
  const Vec3 mid = (p.line(i).start + p.line(i).end) * 0.5;
  v.at = v.across_mm > 0.0 ? (dot(mid, n) - n0) / v.across_mm : 0.0;
  const double far = v.at < 0.5 ? n1 : n0;
  v.far_middle = mid + n * (far - dot(mid, n));
  return v;
}

double share_of_face(const Predicting& p, std::size_t i, std::size_t face) {
  const WorkSeam& w = p.work.seams[i];
  const bool a = p.seam(i).face_a == face;
  if (p.seam(i).joint == JointKind::tee) { // two flanks of the base and the web
    const double all = 2.0 * w.t_b_mm + w.t_a_mm;
    return a ? w.t_a_mm / all : 2.0 * w.t_b_mm / all;
  }
  return panel_share(a ? w.t_a_mm : w.t_b_mm, a ? w.t_b_mm : w.t_a_mm);
}

struct Buckling {
  double factor = kNoBuckling; // critical over expected force
  bool short_seam = false;     // shorter than the face is wide: the closed form is far on the safe side
};
Buckling buckling_of(const Predicting& p, std::size_t i, std::size_t face) {
  const double t = p.thickness_mm(face);
  const PanelView v = view_of(p, i, face);
  if (!(v.along_mm > 0.0) || !(v.across_mm > 0.0)) return {};
  const Vec3 s = p.direction(i);
  double force_N = 0.0;
  int along = 0, crossing = 0;
  for (std::size_t j = 0; j < p.work.seams.size(); ++j) {
    if (!p.on_face(j, face)) continue;
    const bool parallel = std::abs(dot(p.direction(j), s)) > kAlong;
    (parallel ? along : crossing) += 1;
    if (parallel) force_N += share_of_face(p, j, face) * p.seams[j].force_N.value;
  }
  if (!(force_N > 0.0)) return {};
  const double edge = 2.0 * t / v.across_mm;
  PanelSeams kind = PanelSeams::two_supported_edges;
  if (v.at > edge && v.at < 1.0 - edge)
    kind = std::abs(v.at - 0.5) < 0.125 ? PanelSeams::centre_line : PanelSeams::quarter_width;
  else if (along == 1 && on_rim(p, v.far_middle, 2.0 * t))
    kind = PanelSeams::lip;
  const double a_over_b = v.along_mm / v.across_mm;
  double K = buckling_coefficient(kind, a_over_b).value;
  if (along >= 2 && crossing >= 2)
    K = std::min(K, buckling_coefficient(PanelSeams::four_edges, a_over_b).value);
  const ShrinkageMetal& metal = shrinkage_metal(p.sheet_of(face).metal.family);
  const double critical_N = critical_force_n(K, metal.E_mpa, metal.nu, t, v.across_mm);
  return {std::min(critical_N / force_N, kNoBuckling), a_over_b < 1.0};
}

struct Strip {
  double from = 0.0, to = 0.0;
  Vec3 off; // its place square to the axis
};
Strip strip_of(const Predicting& p, std::size_t i, Vec3 axis) {
  const double a = dot(p.line(i).start, axis), b = dot(p.line(i).end, axis);
  return {std::min(a, b), std::max(a, b), p.line(i).start - axis * a};
}
double half_zone_mm(const Predicting& p, std::size_t i) {
  const WorkSeam& w = p.work.seams[i];
  return yielded_half_width_mm(metal_of(p, i), w.heat_J_mm, std::min(w.t_a_mm, w.t_b_mm),
                               p.sheet_of(p.seam(i).face_a).metal.yield_MPa);
}
bool share_a_zone(const Predicting& p, std::size_t i, std::size_t j, Vec3 axis) {
  const Strip a = strip_of(p, i, axis), b = strip_of(p, j, axis);
  const bool side_by_side = std::min(a.to, b.to) - std::max(a.from, b.from) > 0.0;
  return side_by_side && norm(a.off - b.off) <= half_zone_mm(p, i) + half_zone_mm(p, j);
}

} // namespace

bool on_rim(const Predicting& p, Vec3 q, double near_mm) {
  return std::any_of(p.geometry.rim.begin(), p.geometry.rim.end(), [&](const auto& edge) {
    const Vec3 d = edge.second - edge.first;
    const double length2 = dot(d, d);
    const double t = length2 > 0.0 ? std::clamp(dot(q - edge.first, d) / length2, 0.0, 1.0) : 0.0;
    return norm(edge.first + d * t - q) <= near_mm;
  });
}

SeamShrinkage seam_shrinkage(const Predicting& p, std::size_t seam) {
  SeamShrinkage s;
  set_across(p, seam, s);
  set_along(p, seam, s);
  set_angle(p, seam, s);
  return s;
}

void add_neighbours(const Predicting& p, std::size_t seam, SeamShrinkage& to) {
  for (std::size_t j = 0; j < p.work.seams.size(); ++j) {
    const bool parallel = std::abs(dot(p.direction(j), p.direction(seam))) > kAlong;
    if (j == seam || !parallel || !share_a_zone(p, seam, j, p.direction(seam))) continue;
    to.notes.push_back("shared-zone");
    break;
  }
  const Buckling a = buckling_of(p, seam, p.seam(seam).face_a), b = buckling_of(p, seam, p.seam(seam).face_b);
  to.buckling_factor_a = a.factor;
  to.buckling_factor_b = b.factor;
  const Buckling& least = b.factor < a.factor ? b : a;
  const BucklingLevel level = buckling_level(1.0 / least.factor);
  if (level == BucklingLevel::caution) to.notes.emplace_back("buckling-caution");
  if (level == BucklingLevel::beyond) to.notes.push_back("buckling-beyond");
  if (level != BucklingLevel::calm && least.short_seam) to.notes.push_back("buckling-floor");
}

Band across_of_face(const Predicting& p, std::size_t seam, std::size_t face) {
  const Band& all = p.seams[seam].across_mm;
  if (p.seam(seam).joint == JointKind::tee) return p.seam(seam).face_b == face ? all : exactly(0.0);
  return scaled(all, 0.5);
}

Band along_of(const Predicting& p, Vec3 axis) {
  std::vector<std::size_t> parallel;
  for (std::size_t i = 0; i < p.work.seams.size(); ++i)
    if (std::abs(dot(p.direction(i), axis)) > kAlong) parallel.push_back(i);
  // Seams in one zone, the strongest for all of them.
  std::vector<bool> taken(parallel.size(), false);
  std::vector<Band> parts;
  for (std::size_t i = 0; i < parallel.size(); ++i) {
    if (taken[i]) continue;
    std::vector<std::size_t> zone{i};
    taken[i] = true;
    for (std::size_t k = 0; k < zone.size(); ++k)
      for (std::size_t j = 0; j < parallel.size(); ++j) {
        if (taken[j] || !share_a_zone(p, parallel[zone[k]], parallel[j], axis)) continue;
        taken[j] = true;
        zone.push_back(j);
      }
    Band strongest = p.seams[parallel[i]].shortening_mm;
    for (const std::size_t k : zone)
      strongest = larger(strongest, p.seams[parallel[k]].shortening_mm);
    parts.push_back(strongest);
  }
  return sum_same_cause(parts);
}

} // namespace tacksquare::shrinkage
