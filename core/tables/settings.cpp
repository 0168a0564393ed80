#include "tables/settings.h"

#include "base/numbers.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <vector>

namespace tacksquare {

namespace {

// One row: mm, A, V, cm/min; a leg or gap of -1 is not stated.
struct Row {
  double t;
  double amps_low, amps_high;
  double volts_low, volts_high;
  double travel_low, travel_high;
  double wire_low, wire_high;
  double gap_low, gap_high;
  double leg_low, leg_high;
  const Source* source;
};

const Source manual_a{"machine manual, short-arc MAG on mild steel, butt", Mark::standard};
const Source manual_b{"machine manual, short-arc MAG on mild steel, fillet", Mark::published};
const Source practice_2mm{"shop setting for 2 mm, between the published rows", Mark::common_practice};
const Source mig_aluminium{"machine manual, MIG on aluminium; wire diameter common practice",
                           Mark::published};
const Source tig_fillet{"amps: gas supplier's handbook; volts and travel from memory; rod common practice",
                        Mark::from_memory};
const Source tig_butt{"10 % under the fillet row of the gas supplier's handbook", Mark::common_practice};

const std::vector<Row> mag_steel_butt{
    {1.0, 50, 55, 13, 15, 40, 55, 0.8, 1.0, 0, 0, -1, -1, &manual_a},
    {1.2, 60, 70, 14, 16, 30, 50, 0.8, 1.0, 0, 0, -1, -1, &manual_a},
    {1.6, 100, 110, 16, 17, 40, 60, 0.8, 1.0, 0, 0, -1, -1, &manual_a},
    {2.0, 80, 95, 16, 17, 40, 50, 0.8, 0.8, 0, 0, -1, -1, &practice_2mm},
    {2.3, 110, 120, 17, 18, 30, 40, 0.9, 1.2, 0, 1.0, -1, -1, &manual_a},
    {3.2, 120, 140, 17, 19, 25, 30, 0.9, 1.2, 1.0, 1.5, -1, -1, &manual_a},
    {4.0, 150, 170, 18, 21, 25, 40, 0.9, 1.2, 1.5, 2.0, -1, -1, &manual_a},
};
const std::vector<Row> mag_steel_fillet{
    {0.6, 70, 80, 17, 18, 50, 60, 0.4, 0.6, -1, -1, 2, 2, &manual_b},
    {1.0, 85, 90, 19, 19, 50, 60, 0.6, 0.8, -1, -1, 2, 2.5, &manual_b},
    {1.6, 100, 110, 18, 19.5, 50, 60, 0.6, 0.8, -1, -1, 3, 3, &manual_b},
    {2.4, 115, 125, 19.5, 20, 50, 60, 0.8, 1.0, -1, -1, 3.5, 3.5, &manual_b},
    {3.2, 130, 140, 19.5, 21, 50, 60, 0.8, 1.2, -1, -1, 4, 4, &manual_b},
};
const std::vector<Row> mig_aluminium_butt{
    {3.0, 120, 140, 20, 22, 60, 80, 1.0, 1.2, -1, -1, -1, -1, &mig_aluminium},
    {4.0, 150, 170, 22, 24, 60, 80, 1.0, 1.2, -1, -1, -1, -1, &mig_aluminium},
    {6.0, 180, 210, 23, 25, 40, 60, 1.2, 1.2, -1, -1, -1, -1, &mig_aluminium},
};
const std::vector<Row> mig_aluminium_fillet{
    {3.0, 140, 160, 21, 22, 60, 70, 1.0, 1.2, -1, -1, -1, -1, &mig_aluminium},
    {4.0, 150, 170, 22, 24, 50, 60, 1.0, 1.2, -1, -1, -1, -1, &mig_aluminium},
    {6.0, 200, 230, 24, 26, 50, 65, 1.2, 1.2, -1, -1, -1, -1, &mig_aluminium},
};

Row tig(double t, double amps_low, double amps_high, double rod_low, double rod_high) {
  return {t, amps_low, amps_high, 10, 14, 6, 15, rod_low, rod_high, -1, -1, -1, -1, &tig_fillet};
}
const std::vector<Row> tig_aluminium_fillet{tig(1.6, 60, 80, 1.6, 1.6), tig(3.2, 125, 145, 2.4, 2.4),
                                            tig(4.8, 195, 230, 2.4, 3.2), tig(6.0, 260, 295, 3.2, 3.2)};
const std::vector<Row> tig_stainless_fillet{tig(1.6, 50, 70, 1.6, 1.6), tig(3.2, 85, 105, 2.4, 2.4),
                                            tig(4.8, 120, 145, 2.4, 3.2), tig(6.0, 165, 180, 3.2, 3.2)};
const std::vector<Row> tig_steel_fillet{tig(1.6, 50, 70, 1.6, 1.6), tig(3.2, 90, 120, 2.4, 2.4),
                                        tig(4.8, 135, 175, 2.4, 3.2), tig(6.0, 170, 200, 3.2, 3.2)};

std::vector<Row> ten_percent_under(std::vector<Row> rows) {
  for (Row& row : rows) {
    row.amps_low *= 0.9;
    row.amps_high *= 0.9;
    row.source = &tig_butt;
  }
  return rows;
}
const std::vector<Row> tig_aluminium_butt = ten_percent_under(tig_aluminium_fillet);
const std::vector<Row> tig_stainless_butt = ten_percent_under(tig_stainless_fillet);
const std::vector<Row> tig_steel_butt = ten_percent_under(tig_steel_fillet);

bool is_steel(MetalFamily family) {
  return family == MetalFamily::mild_steel || family == MetalFamily::galvanized;
}

const std::vector<Row>* rows_of(MetalFamily family, Process process, SettingsRow row) {
  const bool butt = row == SettingsRow::butt;
  if (process == Process::mag && is_steel(family)) return butt ? &mag_steel_butt : &mag_steel_fillet;
  if (process == Process::mig && family == MetalFamily::aluminium) {
    return butt ? &mig_aluminium_butt : &mig_aluminium_fillet;
  }
  if (process != Process::tig) return nullptr;
  if (family == MetalFamily::aluminium) return butt ? &tig_aluminium_butt : &tig_aluminium_fillet;
  if (family == MetalFamily::stainless) return butt ? &tig_stainless_butt : &tig_stainless_fillet;
  return butt ? &tig_steel_butt : &tig_steel_fillet;
}

// The source that vouches for less. Only these marks stand in the rows.
const Source& weaker(const Source& a, const Source& b) {
  const auto rank = [](Mark mark) {
    constexpr Mark falling[] = {Mark::standard, Mark::published, Mark::from_memory, Mark::common_practice};
    return std::find(std::begin(falling), std::end(falling), mark) - std::begin(falling);
  };
  return rank(a.mark) < rank(b.mark) ? b : a;
}

StartingPoint between(const Row& thin, const Row& thick, double share) {
  const auto mix = [share](double a, double b) { return a + share * (b - a); };
  StartingPoint point;
  point.amps = {ampere(mix(thin.amps_low, thick.amps_low)), ampere(mix(thin.amps_high, thick.amps_high))};
  point.volts = {volt(mix(thin.volts_low, thick.volts_low)), volt(mix(thin.volts_high, thick.volts_high))};
  point.travel = {cm_per_min(mix(thin.travel_low, thick.travel_low)),
                  cm_per_min(mix(thin.travel_high, thick.travel_high))};
  point.wire_diameter = {mm(thin.wire_low), mm(thin.wire_high)};
  if (thin.gap_low >= 0.0) {
    point.gap = Span<Length>{mm(mix(thin.gap_low, thick.gap_low)), mm(mix(thin.gap_high, thick.gap_high))};
  }
  if (thin.leg_low >= 0.0) {
    point.leg = Span<Length>{mm(mix(thin.leg_low, thick.leg_low)), mm(mix(thin.leg_high, thick.leg_high))};
  }
  point.interpolated = share > 0.0;
  point.source = point.interpolated ? weaker(*thin.source, *thick.source) : *thin.source;
  return point;
}

// docs/theory.md, "Settings".
constexpr double kFarthestRatio = 1.6, kWider = 0.15;

std::optional<StartingPoint> outside(const Row& nearest, double t) {
  const double ratio = t / nearest.t;
  if (std::max(ratio, 1.0 / ratio) > kFarthestRatio * (1.0 + 1e-9)) return std::nullopt;
  StartingPoint point = between(nearest, nearest, 0.0);
  point.amps = {point.amps.low * (ratio * (1.0 - kWider)), point.amps.high * (ratio * (1.0 + kWider))};
  point.outside_row = mm(nearest.t);
  point.source = {"outside the table: nearest row, " + shortest(nearest.t) +
                      " mm, with amps in proportion to the thickness; " + nearest.source->text,
                  Mark::common_practice};
  return point;
}

// in/min of wire per A times d^2 (mm2): nearly the same for all wires, so it is what to interpolate.
double feed_per_amp(double diameter_mm) {
  constexpr double d[3] = {0.023 * kMmPerInch, 0.030 * kMmPerInch, 0.035 * kMmPerInch};
  constexpr double c[3] = {3.5 * d[0] * d[0], 2.0 * d[1] * d[1], 1.6 * d[2] * d[2]};
  double scaled = diameter_mm <= d[0] ? c[0] : c[2];
  for (int i = 0; i < 2; ++i) {
    if (diameter_mm > d[i] && diameter_mm <= d[i + 1]) {
      scaled = c[i] + (diameter_mm - d[i]) / (d[i + 1] - d[i]) * (c[i + 1] - c[i]);
    }
  }
  return scaled / (diameter_mm * diameter_mm);
}

bool rule_covers(Length wire) {
  return wire >= mm(0.55) && wire <= mm(1.25);
}

} // namespace

std::optional<StartingPoint> starting_point(MetalFamily family, Process process, SettingsRow row,
                                            Length thickness) {
  constexpr double same_mm = 1e-6;
  const std::vector<Row>* const rows = rows_of(family, process, row);
  if (rows == nullptr) return std::nullopt;
  const double t = in_mm(thickness);
  for (std::size_t i = 0; i < rows->size(); ++i) {
    const Row& here = (*rows)[i];
    if (std::abs(t - here.t) < same_mm) return between(here, here, 0.0);
    if (t < here.t) {
      if (i == 0) return outside(here, t);
      const Row& thinner = (*rows)[i - 1];
      return between(thinner, here, (t - thinner.t) / (here.t - thinner.t));
    }
  }
  return outside(rows->back(), t);
}

Process default_process(MetalFamily family, Length thickness) {
  if (is_steel(family)) return Process::mag;
  if (family == MetalFamily::aluminium && thickness >= mm(3.0)) return Process::mig;
  return Process::tig;
}

std::optional<Consumables> default_consumables(MetalFamily family, Process process) {
  const Source source{"usual choice of the trade", Mark::common_practice};
  const bool aluminium = family == MetalFamily::aluminium;
  const bool stainless = family == MetalFamily::stainless;
  if (process == Process::tig) {
    const char* const rod = aluminium ? "ER5356" : stainless ? "ER308L" : "ER70S-6";
    return Consumables{rod, "Ar", l_per_min(8.0), std::nullopt, source};
  }
  if (process == Process::mig && aluminium)
    return Consumables{"ER5356", "Ar", l_per_min(15.0), mm(12.0), source};
  if (process == Process::mag && stainless) {
    return Consumables{"ER308LSi", "Ar + 2 % CO2", l_per_min(12.0), mm(10.0), source};
  }
  if (process == Process::mag && !aluminium) {
    return Consumables{"ER70S-6", "Ar + 18 % CO2", l_per_min(12.0), mm(10.0), source};
  }
  return std::nullopt;
}

Current amps_by_rule(Length steel_thickness) {
  return ampere(in_inch(steel_thickness) * 1000.0);
}

std::optional<Speed> wire_feed_by_rule(Current amps, Length wire_diameter) {
  if (!rule_covers(wire_diameter)) return std::nullopt;
  return mm_per_s(in_a(amps) * feed_per_amp(in_mm(wire_diameter)) * kMmPerInch / 60.0);
}

std::optional<Current> amps_by_wire_feed(Speed wire_feed, Length wire_diameter) {
  if (!rule_covers(wire_diameter)) return std::nullopt;
  return ampere(in_mm_per_s(wire_feed) * 60.0 / kMmPerInch / feed_per_amp(in_mm(wire_diameter)));
}

Speed wire_feed_by_balance(Area bead, Speed travel, Length wire_diameter, double efficiency, double cap) {
  const double wire_mm2 = kPi / 4.0 * in_mm(wire_diameter) * in_mm(wire_diameter);
  return travel * (bead.stored() * cap / (wire_mm2 * efficiency));
}

} // namespace tacksquare
