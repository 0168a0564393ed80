#include "formulas/tack.h"

#include "base/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace tacksquare::formulas {

namespace {

// Compliance of 1 mm of seam beyond shells that reach up to the line where they meet, for t = E = 1, nu 0.3.
// into, square: by forces that leave the sheets free to turn; lever_*: turn times the hinge's place.
struct Cut {
  double throat, into, square, along, turn, lever_into, lever_square;
};
using Cuts = std::array<Cut, 7>;

// By tests/formulas/tack_by_calculix.py --table.
constexpr Cuts kButt{{{0.30, 15.179, 2.358, 2.549, 134.372, 0.0, 44.682},
                      {0.40, 6.082, 1.380, 1.712, 68.035, 0.0, 20.128},
                      {0.50, 2.634, 0.735, 1.114, 36.859, 0.0, 9.765},
                      {0.60, 1.154, 0.335, 0.678, 19.993, 0.0, 4.771},
                      {0.70, 0.477, 0.116, 0.365, 10.132, 0.0, 2.191},
                      {0.85, 0.084, 0.007, 0.085, 2.354, 0.0, 0.443},
                      {1.00, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0}}};
constexpr Cuts kOpen{{{0.30, 46.829, 46.829, 2.022, 211.170, 98.570, -98.570},
                      {0.40, 22.886, 22.886, 1.135, 106.269, 49.497, -49.497},
                      {0.50, 11.990, 11.990, 0.480, 57.758, 27.283, -27.283},
                      {0.60, 6.244, 6.244, -0.021, 31.649, 15.618, -15.618},
                      {0.70, 2.979, 2.979, -0.410, 16.296, 8.966, -8.966},
                      {0.85, 0.507, 0.507, -0.828, 3.671, 3.773, -3.773},
                      {1.00, -0.369, -0.369, -1.081, -1.881, 1.718, -1.718}}};
constexpr Cuts kHalfOpen{{{0.30, 38.371, 3.904, 2.358, 200.268, -8.240, -87.149},
                          {0.40, 19.914, 3.222, 1.753, 107.389, -7.224, -46.097},
                          {0.50, 12.969, 2.757, 1.343, 67.567, -6.913, -29.653},
                          {0.60, 6.247, 1.036, 0.501, 33.760, -2.210, -15.539},
                          {0.70, 2.703, 0.218, -0.121, 16.117, -0.112, -8.297},
                          {0.85, 0.244, -0.302, -0.774, 3.114, 1.203, -3.222},
                          {1.00, -0.427, -0.438, -1.130, -2.554, 1.505, -1.516}}};
constexpr Cuts kLapped{{{0.30, 35.924, 14.978, 2.423, 135.517, -43.525, -68.653},
                        {0.40, 18.272, 5.822, 1.491, 69.579, -18.965, -35.580},
                        {0.50, 9.737, 2.320, 0.774, 38.581, -8.557, -20.086},
                        {0.60, 5.027, 0.797, 0.197, 21.610, -3.495, -11.737},
                        {0.70, 2.267, 0.088, -0.279, 11.317, -0.839, -6.864},
                        {0.85, 0.165, -0.341, -0.829, 2.155, 1.000, -2.949},
                        {1.00, -0.447, -0.447, -1.151, -2.739, 1.456, -1.456}}};
constexpr Cuts kTee{{{0.30, 51.073, 54.261, 2.317, 145.047, 88.792, 86.452},
                     {0.40, 31.360, 31.909, 1.558, 75.362, 49.822, 50.124},
                     {0.50, 21.633, 20.422, 0.940, 42.656, 30.878, 32.919},
                     {0.60, 15.910, 13.251, 0.408, 24.443, 19.877, 23.303},
                     {0.70, 12.091, 8.036, -0.069, 13.016, 12.600, 17.288},
                     {0.85, 8.092, 1.725, -0.720, 2.063, 5.010, 11.603},
                     {1.00, 5.056, -4.162, -1.321, -5.217, -0.743, 7.929}}};

const Cuts& cuts(TackJoint joint) {
  switch (joint) {
  case TackJoint::open_corner:
    return kOpen;
  case TackJoint::half_open_corner:
    return kHalfOpen;
  case TackJoint::lapped_corner:
    return kLapped;
  case TackJoint::tee:
    return kTee;
  case TackJoint::butt:
    break;
  }
  return kButt;
}

// Between rows straight in throat^2 times compliance, which has a limit for small throats.
Cut cut(TackJoint joint, double throat) {
  const Cuts& rows = cuts(joint);
  const double at = std::clamp(throat, rows.front().throat, rows.back().throat);
  std::size_t i = 1;
  while (i + 1 < rows.size() && rows[i].throat < at)
    ++i;
  const Cut &p = rows[i - 1], &q = rows[i];
  const double share = (at - p.throat) / (q.throat - p.throat), deep = std::min(throat, rows.back().throat);
  const auto between = [&](double Cut::*what) {
    const double u = p.*what * p.throat * p.throat, v = q.*what * q.throat * q.throat;
    return (u + share * (v - u)) / (deep * deep);
  };
  return {throat,
          between(&Cut::into),
          between(&Cut::square),
          between(&Cut::along),
          between(&Cut::turn),
          between(&Cut::lever_into),
          between(&Cut::lever_square)};
}

// What a tack has beside its slice. a, b: so far that sheet ends short of the line, where the shell does not.
// The rest by bricks against shells, for t = E = 1: along, by its eccentric ends, over a length of 1; square
// to a sheet, for it is held beside the line; of butts for each part of the sheet that is not fused, for it
// lets the edges twist.
struct Ends {
  double a, b, along, into, square, twist;
};
Ends ends_of(TackJoint joint, double a, double b) {
  switch (joint) {
  case TackJoint::open_corner:
    return {0.5 * b, 0.5 * a, 25.0, 20.0, 20.0, 0.0};
  case TackJoint::half_open_corner:
  case TackJoint::lapped_corner:
    return {0.0, 0.5 * a, 12.0, 20.0, 0.0, 0.0};
  case TackJoint::tee:
    return {0.5 * b, 0.0, 39.0, 0.0, 5.0, 0.0};
  case TackJoint::butt:
    break;
  }
  return {0.0, 0.0, 0.0, 0.0, 0.0, 42.0};
}

// By bricks against shells, in thicknesses: what a butt's ends hold beyond it, how far the missing shell
// reaches.
constexpr double kHoldsBeyond = 0.25, kTurnFades = 13.0, kAlongFades = 2.0;
constexpr double kSquareUnsure = 2.0, kTurnUnsure = 1.1, kMoveUnsure = 1.35, kUnlike = 2.2;

// Of a tack: its ends bear more than its middle, and the shell that is not there spreads beyond its length.
Cut with_ends(Cut c, TackJoint joint, double a, double b, double length, double nu) {
  const double within = length * length / (length * length + kTurnFades * kTurnFades);
  const double bends = 12.0 * (1.0 - nu * nu) * (1.0 - within);
  const Ends m = ends_of(joint, a, b);
  if (m.a == 0.0 && m.b == 0.0)
    for (double Cut::*what :
         {&Cut::into, &Cut::square, &Cut::along, &Cut::turn, &Cut::lever_into, &Cut::lever_square})
      c.*what *= length / (length + kHoldsBeyond);
  const double bend_a = bends * m.a / (a * a * a), bend_b = bends * m.b / (b * b * b);
  c.turn += bend_a + bend_b;
  // a's bending lies half of what is missing into a, b's as far into b, which is away from the welder.
  c.lever_into += bend_a * 0.5 * m.a;
  c.lever_square -= bend_b * 0.5 * m.b;
  c.square += bend_a * m.a * m.a / 3.0;
  c.into += bend_b * m.b * m.b / 3.0;
  c.along += m.along / (length + kAlongFades);
  return c;
}

struct Springs {
  double into, square, along, turn, hinge_into, hinge_square;
};
// beside: how much of what a tack has square to its sheets. The hinge is drawn to the line as far as it must
// be for springs that give nothing back: the shell is there, the metal is not.
Springs springs(const Cut& c, const Ends& m, double beside) {
  constexpr double least = 1.0 / kAsOneSheet;
  const double turn = std::max(c.turn, least);
  const auto hinge = [&](double lever, double free) {
    return std::copysign(std::min(std::fabs(lever) / turn, std::sqrt(std::max(free - least, 0.0) / turn)),
                         lever);
  };
  const double into = hinge(c.lever_into, c.square), square = hinge(c.lever_square, c.into);
  return {1.0 / (std::max(c.into - square * square * turn, least) + beside * m.into),
          1.0 / (std::max(c.square - into * into * turn, least) +
                 beside * (m.square + m.twist * (1.0 - std::min(c.throat, 1.0)))),
          1.0 / std::max(c.along, least),
          1.0 / turn,
          into,
          square};
}

// length 0: a seam, whose ends do not matter.
TackStiffness stiffness(TackJoint joint, double a, double b, const Band& throat, double length, double E,
                        double nu) {
  TackStiffness made;
  if (!(a > 0.0 && b > 0.0 && throat.value > 0.0 && throat.low > 0.0 && E > 0.0)) {
    made.validity = Validity::refused;
    made.note = "sheets, throat and length are positive";
    return made;
  }
  const double t = std::min(a, b), unlike = std::max(a, b) / t;
  const Ends m = ends_of(joint, a / t, b / t);
  const auto at = [&](double throat_mm, double beside) {
    Cut c = cut(joint, throat_mm / t);
    const double bending = (1.0 - nu * nu) / (1.0 - 0.3 * 0.3);
    for (double Cut::*what : {&Cut::into, &Cut::square, &Cut::turn, &Cut::lever_into, &Cut::lever_square})
      c.*what *= bending;
    c.along *= (1.0 + nu) / 1.3;
    if (length > 0.0) c = with_ends(c, joint, a / t, b / t, length / t, nu);
    return springs(c, m, length > 0.0 ? beside : 0.0);
  };
  const Springs value = at(throat.value, 1.0), low = at(throat.low, kSquareUnsure),
                high = at(throat.high, 1.0 / kSquareUnsure);
  const double apart = std::pow(unlike, kUnlike);
  const auto band = [&](double Springs::*what, double unit, double unsure) {
    const auto [least, most] = std::minmax({value.*what, low.*what, high.*what});
    return Band{unit * value.*what, unit * least / (unsure * apart),
                unit * std::min(kAsOneSheet, most * unsure * apart)};
  };
  made.into_a = band(&Springs::into, E, kMoveUnsure);
  made.square_to_a = band(&Springs::square, E, kMoveUnsure);
  made.along = band(&Springs::along, E, kMoveUnsure);
  made.turn = band(&Springs::turn, E * t * t, kTurnUnsure);
  made.hinge_into_a_mm = value.hinge_into * t;
  made.hinge_square_to_a_mm = value.hinge_square * t;
  const auto caution = [&](const char* why) {
    made.validity = Validity::outside;
    made.note = why;
  };
  if (throat.value < 0.3 * t) caution("a throat under 0.3 of the thinner sheet");
  if (unlike > 1.5) caution("one sheet is over 1.5 times as thick as the other");
  if (nu < 0.25 || nu > 0.35) caution("tabled for a Poisson's ratio of 0.3");
  if (length > 0.0 && length < 3.0 * t) caution("a tack shorter than three times the thinner sheet");
  return made;
}

} // namespace

TackStiffness tack_stiffness(TackJoint joint, double a_mm, double b_mm, const Band& throat_mm,
                             double length_mm, double E_mpa, double nu) {
  if (length_mm > 0.0) return stiffness(joint, a_mm, b_mm, throat_mm, length_mm, E_mpa, nu);
  return stiffness(joint, 0.0, 0.0, throat_mm, 0.0, E_mpa, nu); // refused
}

TackStiffness seam_stiffness(TackJoint joint, double a_mm, double b_mm, const Band& throat_mm, double E_mpa,
                             double nu) {
  return stiffness(joint, a_mm, b_mm, throat_mm, 0.0, E_mpa, nu);
}

Band usual_tack_throat_mm(double thickness_mm) {
  return {0.7 * thickness_mm, 0.5 * thickness_mm, thickness_mm};
}

Band tack_across_share(double length_mm, double thickness_mm, double net_heat_j_mm, double rho_c) {
  if (!(length_mm > 0.0 && thickness_mm > 0.0 && net_heat_j_mm > 0.0 && rho_c > 0.0)) return {};
  // The heat has spread by s = sqrt(4 a time) when the middle is down to `rise`: s is all of the time there
  // is in it.
  const auto share = [&](double rise) {
    const double whole = net_heat_j_mm / (rho_c * thickness_mm * std::sqrt(kPi) * rise);
    double below = 0.0, above = whole; // erf is at most 1
    for (int i = 0; i < 60; ++i) {
      const double s = 0.5 * (below + above);
      (whole * std::erf(0.5 * length_mm / s) > s ? below : above) = s;
    }
    const double u = length_mm / above;
    return std::erf(u) - (1.0 - std::exp(-u * u)) / (u * std::sqrt(kPi));
  };
  return {share(700.0), 0.75 * share(500.0), std::min(1.0, 1.25 * share(900.0))};
}

Band tack_angle_share(const Band& across_share) {
  return {0.5 * (1.0 + across_share.low), across_share.low, 1.0};
}

} // namespace tacksquare::formulas
