#include "work/making.h"

#include "base/numbers.h"
#include "formulas/band_math.h"
#include "formulas/deposit.h"
#include "formulas/heat.h"
#include "tables/settings.h"

#include <algorithm>
#include <cmath>

namespace tacksquare::work {

namespace {

// An outside corner loses less heat than a butt: this far under the butt row.
constexpr double kCornerUnder = 0.05;
// What a stated figure holds at the machine, and a travel held by hand.
constexpr double kDialRelative = 0.05;
constexpr double kHandRelative = 0.10;

const Source kStated{"job file", Mark::stated};

bool outside_corner(const Seam& seam) {
  return seam.joint == JointKind::corner && seam.side == WeldSide::outside;
}

SettingsRow row_of(const Seam& seam) {
  const bool joins_a_surface = seam.joint == JointKind::tee || seam.joint == JointKind::lap;
  const bool inside_fillet = seam.weld == WeldKind::fillet && seam.side == WeldSide::inside;
  return joins_a_surface || inside_fillet ? SettingsRow::fillet : SettingsRow::butt;
}

std::string row_name(const Seam& seam) {
  if (row_of(seam) == SettingsRow::fillet) return "fillet";
  return outside_corner(seam) ? "corner" : "butt";
}

template <class T> Filled<T> stated(const T& value) {
  return {value, kStated};
}

// A figure that lies within `relative` of what is asked for, or within the row's range when it came from a
// table.
Band spread(double value, bool from_job, double relative, double low, double high) {
  if (from_job) return formulas::band_around(value, relative);
  return {value, std::min(value, low), std::max(value, high)};
}

struct Limit {
  const char* attribute;
  double value;
  double low; // excluded when zero
  double high;
  const char* unit;
};

// Values that no machine sets.
bool possible(const Making& m, const Procedure& p) {
  std::vector<Limit> limits;
  const auto add = [&](const char* name, bool there, double value, double high, const char* unit) {
    if (there) limits.push_back({name, value, 0.0, high, unit});
  };
  add("wire-feed", p.wire_feed.has_value(), p.wire_feed ? in_m_per_min(*p.wire_feed) : 0, 30.0, "m/min");
  add("volts", p.volts.has_value(), p.volts ? in_v(*p.volts) : 0, 50.0, "V");
  add("amps", p.amps.has_value(), p.amps ? in_a(*p.amps) : 0, 600.0, "A");
  add("travel", p.travel.has_value(), p.travel ? in_cm_per_min(*p.travel) : 0, 300.0, "cm/min");
  add("wire-diameter", p.wire_diameter.has_value(), p.wire_diameter ? in_mm(*p.wire_diameter) : 0, 6.0, "mm");
  add("gas-flow", p.gas_flow.has_value(), p.gas_flow ? in_l_per_min(*p.gas_flow) : 0, 50.0, "L/min");
  add("stick-out", p.stick_out.has_value(), p.stick_out ? in_mm(*p.stick_out) : 0, 50.0, "mm");
  add("efficiency", p.efficiency.has_value(), p.efficiency.value_or(0), 1.0, "");
  add("penetration", p.penetration.has_value(), p.penetration ? in_mm(*p.penetration) : 0, 20.0, "mm");
  bool good = true;
  for (const Limit& l : limits) {
    if (l.value > l.low && l.value <= l.high) continue;
    good = false;
    const std::string unit = *l.unit ? std::string(" ") + l.unit : std::string();
    m.error_once("settings-impossible", p.where,
                 "procedure " + p.id + ": " + l.attribute + " of " + rounded(l.value, 0.01) + unit +
                     " cannot be welded with",
                 std::string("state ") + l.attribute + " above 0 and up to " + shortest(l.high) + unit);
  }
  return good;
}

// The rule for the feed of steel wire: plain steel, and stainless, whose wire takes somewhat more.
enum class FeedRule { none, near, holds };
FeedRule feed_rule(const Making& m, const Seam& seam) {
  FeedRule rule = FeedRule::holds;
  for (const std::size_t face : {seam.face_a, seam.face_b}) {
    const MetalFamily family = m.sheet_of(face).metal.family;
    if (family == MetalFamily::aluminium) return FeedRule::none;
    if (family == MetalFamily::stainless) rule = FeedRule::near;
  }
  return rule;
}

// Which of amps, feed, travel and bead does not go with the others; what it says goes on after the seam.
std::optional<Diagnostic> odd_setting(const Settings& s, const Making& m, const Seam& seam,
                                      const Procedure& p) {
  const bool wire = s.process == Process::mag || s.process == Process::mig;
  if (!wire || !(p.amps || p.wire_feed || p.travel)) return std::nullopt;
  const FeedRule rule = feed_rule(m, seam);
  // What a butt takes is known from rows for steel only.
  if (rule == FeedRule::none && seam.joint == JointKind::butt) return std::nullopt;
  const formulas::BalanceInput in{in_a(s.amps.value),           in_mm_per_s(s.wire_feed.value),
                                  in_mm_per_s(s.travel.value),  bead_of(m, seam),
                                  in_mm(s.wire_diameter.value), deposition_efficiency(s.process).value,
                                  rule != FeedRule::none};
  // The bead of a fillet follows from its leg; that of a corner or butt is an estimate.
  const bool sharp = is_fillet(seam) && rule != FeedRule::near;
  const formulas::Balance b = formulas::check_balance(in, sharp ? 0.2 : 0.35);
  if (b.odd == formulas::OddSetting::none) return std::nullopt;
  const std::string set = rounded(in.amps, 1) + " A and " + rounded(in_m_per_min(s.wire_feed.value), 0.1) +
                          " m/min of " + rounded(in.diameter_mm, 0.1) + " mm wire at " +
                          rounded(in_cm_per_min(s.travel.value), 1) + " cm/min";
  std::string what, fits;
  switch (b.odd) {
  case formulas::OddSetting::amps:
    what = "the amps do not go with wire feed, travel and bead";
    fits = "about " + rounded(b.amps, 1) + " A";
    break;
  case formulas::OddSetting::feed:
    what = "the wire feed does not go with amps, travel and bead";
    fits = "about " + rounded(in_m_per_min(mm_per_s(b.feed_mm_s)), 0.1) + " m/min";
    break;
  case formulas::OddSetting::travel:
    what = "the travel does not go with wire feed and bead";
    fits = "about " + rounded(in_cm_per_min(mm_per_s(b.travel_mm_s)), 1) + " cm/min";
    break;
  case formulas::OddSetting::bead:
    if (is_fillet(seam)) {
      // Between the plain triangle and one with a cap.
      const double most = formulas::fillet_leg_for_area_mm(b.bead_mm2);
      const double least = formulas::fillet_leg_for_area_mm(b.bead_mm2 / formulas::kFilletCapAllowance);
      what = "they lay a leg of " + rounded(least, 0.1) + " to " + rounded(most, 0.1) + " mm, not " +
             rounded(leg_of(m, seam), 0.1) + " mm";
    } else {
      what = "they lay " + rounded(b.bead_mm2, 0.1) + " mm2 of metal where the seam takes about " +
             rounded(in.bead_mm2, 0.1) + " mm2";
    }
    fits = "about " + rounded(in_cm_per_min(mm_per_s(b.travel_mm_s)), 1) + " cm/min";
    break;
  case formulas::OddSetting::several:
    what = "neither amps and wire feed nor wire feed, travel and bead go together";
    fits = "the settings of a coupon that worked";
    break;
  case formulas::OddSetting::none:
    break;
  }
  return Diagnostic{Severity::caution,
                    "settings-odd",
                    ", procedure " + p.id + ", " + set + ": " + what,
                    "check on the coupon; " + fits + " would fit",
                    p.where,
                    {}};
}

// Told with the settings; what it says goes on after the seam.
Diagnostic outside_table(Length thickness, Length row, Origin where) {
  return {Severity::caution,
          "settings-outside-table",
          ": " + shortest(round_to(in_mm(thickness), 0.01)) + " mm is outside the table: nearest row, " +
              shortest(in_mm(row)) + " mm, with amps in proportion to the thickness",
          "weld the coupon first, then state its settings in a procedure",
          where,
          {}};
}

bool same_settings(const Settings& a, const Settings& b) {
  const auto same = [](const auto& x, const auto& y) { return x.value == y.value && x.source == y.source; };
  return a.process == b.process && same(a.wire_feed, b.wire_feed) && same(a.volts, b.volts) &&
         same(a.amps, b.amps) && same(a.travel, b.travel) && same(a.wire_diameter, b.wire_diameter) &&
         same(a.wire, b.wire) && same(a.gas, b.gas) && same(a.gas_flow, b.gas_flow) &&
         same(a.stick_out, b.stick_out) && same(a.efficiency, b.efficiency) &&
         a.full_penetration == b.full_penetration && a.penetration == b.penetration;
}

// Adds what is new.
std::size_t add_settings(SeamMaking& making, Settings fresh) {
  std::vector<Settings>& all = making.settings;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (same_settings(all[i], fresh)) return i;
  const std::string wanted = fresh.id;
  for (int turn = 2;; ++turn) {
    if (std::none_of(all.begin(), all.end(), [&](const Settings& s) { return s.id == fresh.id; })) break;
    fresh.id = wanted + "-" + std::to_string(turn);
  }
  all.push_back(std::move(fresh));
  making.odd.emplace_back();
  return all.size() - 1;
}

} // namespace

std::optional<std::size_t> resolve_settings(const Making& m, const Seam& seam, SeamMaking& making) {
  static const Procedure kNothing{};
  const Procedure& p = seam.procedure ? m.job.procedures[*seam.procedure] : kNothing;
  if (!possible(m, p)) return std::nullopt;

  const Length thickness = mm(m.thinner_mm(seam));
  const std::optional<MetalFamily> family = common_family(m, seam);
  const SettingsRow row = row_of(seam);
  Settings s;
  s.process = p.process ? *p.process : family ? default_process(*family, thickness) : Process::mag;
  const bool wire = s.process == Process::mag || s.process == Process::mig;
  const FeedRule rule_for_feed = feed_rule(m, seam);
  const std::optional<StartingPoint> point =
      family ? starting_point(*family, s.process, row, thickness) : std::nullopt;
  const std::optional<Consumables> use = family ? default_consumables(*family, s.process) : std::nullopt;

  std::vector<std::string> missing;
  const auto fill = [&](auto& field, const auto& said, bool known, const auto& value, const Source& source,
                        const char* attribute) {
    if (said) {
      field = stated(*said);
    } else if (known) {
      field = {value, source};
      s.starting_point = true;
    } else {
      missing.push_back(attribute);
    }
  };
  const StartingPoint row_values = point.value_or(StartingPoint{});
  const Consumables consumables = use.value_or(Consumables{});
  const bool corner = outside_corner(seam);
  const double under = corner ? 1.0 - kCornerUnder : 1.0;
  const Source amps_source =
      corner ? Source{row_values.source.text + ", 5 % under it for an outside corner", Mark::common_practice}
             : row_values.source;

  fill(s.wire_diameter, p.wire_diameter, point.has_value(), row_values.wire_diameter.low, row_values.source,
       "wire-diameter");
  // A stated feed says more about the amps of this machine than a table does.
  const bool by_feed = p.wire_feed && !p.amps && rule_for_feed == FeedRule::holds && wire && missing.empty();
  if (by_feed)
    fill(s.amps, p.amps, true,
         ampere(formulas::amps_from_feed(in_mm_per_s(*p.wire_feed), in_mm(s.wire_diameter.value)).value),
         Source{"rule of thumb, amps from wire feed", Mark::standard}, "amps");
  else
    fill(s.amps, p.amps, point.has_value(), row_values.amps.middle() * under, amps_source, "amps");
  fill(s.volts, p.volts, point.has_value(), row_values.volts.middle(), row_values.source, "volts");
  fill(s.travel, p.travel, point.has_value(), row_values.travel.middle(), row_values.source, "travel");
  fill(s.wire, p.wire, use.has_value(), consumables.wire, consumables.source, "wire");
  if (s.process == Process::mma) { // no gas, no feed
    s.gas = {{}, kStated};
    s.gas_flow = {{}, kStated};
  } else {
    fill(s.gas, p.gas, use.has_value(), consumables.gas, consumables.source, "gas");
    fill(s.gas_flow, p.gas_flow, use.has_value(), consumables.gas_flow, consumables.source, "gas-flow");
  }
  if (wire)
    fill(s.stick_out, p.stick_out, use && use->stick_out, consumables.stick_out.value_or(Length{}),
         consumables.source, "stick-out");
  const SourcedNumber k = arc_efficiency(s.process);
  s.efficiency = p.efficiency ? stated(*p.efficiency) : Filled<double>{k.value, k.source};

  if (!missing.empty()) {
    const std::string sheet = shortest(round_to(in_mm(thickness), 0.01)) + " mm";
    const std::string metal = family ? family_name(*family) : "two different metals";
    making.faults.add(seam, {Severity::error,
                             "settings-unknown",
                             ": no table holds " + process_name(s.process) + " settings for " + sheet +
                                 " of " + metal + ", " + row_name(seam),
                             "give it a procedure that states " + list_words(missing),
                             seam.where,
                             {}});
    return std::nullopt;
  }

  if (wire) {
    const double diameter = in_mm(s.wire_diameter.value);
    const Speed by_rule = mm_per_s(formulas::feed_from_amps_mm_s(in_a(s.amps.value), diameter).value);
    const Speed by_balance =
        wire_feed_by_balance(Area(bead_of(m, seam)), s.travel.value, s.wire_diameter.value,
                             deposition_efficiency(s.process).value, 1.0);
    const Source rule{"rule of thumb, wire feed from amps", Mark::standard};
    const Source balance{"wire that fills the bead at this travel", Mark::derived};
    const bool ruled = rule_for_feed == FeedRule::holds || (rule_for_feed == FeedRule::near && p.amps);
    fill(s.wire_feed, p.wire_feed, true, ruled ? by_rule : by_balance, ruled ? rule : balance, "wire-feed");
  }
  s.full_penetration = p.full_penetration;
  s.penetration = p.penetration;
  s.id = seam.procedure
             ? p.id
             : family_name(*family) + "-" + shortest(round_to(in_mm(thickness), 0.01)) + "-" + row_name(seam);

  const double volts = in_v(s.volts.value), amps = in_a(s.amps.value), travel = in_mm_per_s(s.travel.value);
  const double net = formulas::net_heat_j_mm(s.efficiency.value, volts, amps, travel);
  const Band v = spread(volts, p.volts.has_value(), kDialRelative, in_v(row_values.volts.low),
                        in_v(row_values.volts.high));
  const bool dial = p.amps || by_feed;
  const Band a = spread(amps, dial, kDialRelative, in_a(row_values.amps.low) * under,
                        in_a(row_values.amps.high) * under);
  const Band t = spread(travel, p.travel.has_value(), kHandRelative, in_mm_per_s(row_values.travel.low),
                        in_mm_per_s(row_values.travel.high));
  s.slowness = {1.0, travel / t.high, travel / t.low};
  s.net_heat = formulas::scaled(
      formulas::product({formulas::scaled(v, 1.0 / volts), formulas::scaled(a, 1.0 / amps), s.slowness}),
      net);

  const std::optional<Diagnostic> odd = odd_setting(s, m, seam, p);
  const std::size_t index = add_settings(making, std::move(s));
  if (odd) making.odd[index].add(seam, *odd);
  if (point && point->outside_row && !(p.amps && p.volts && p.travel))
    making.odd[index].add(seam, outside_table(thickness, *point->outside_row, seam.where));
  return index;
}

} // namespace tacksquare::work
