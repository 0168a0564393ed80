// Weld settings to start a trial coupon from, by metal, thickness and joint. Never a qualified procedure.
#pragma once

#include "base/units.h"
#include "tables/metals.h"
#include "tables/process.h"

#include <optional>
#include <string>

namespace tacksquare {

// Butt and outside-corner welds take the butt row, T, lap and inside fillets the fillet row. An outside
// corner never takes the fillet row: 85-90 A on 1 mm is a hole by hand.
enum class SettingsRow { butt, fillet };

template <class Q> struct Span {
  Q low, high;
  Q middle() const { return (low + high) / 2.0; }
  bool operator==(const Span&) const = default;
};

struct StartingPoint {
  Span<Current> amps;
  Span<Voltage> volts;
  Span<Speed> travel;
  Span<Length> wire_diameter;      // of the rod for TIG
  std::optional<Span<Length>> gap; // butt rows
  std::optional<Span<Length>> leg; // fillet rows that state one
  Source source;
  bool interpolated = false;         // between two rows of the table
  std::optional<Length> outside_row; // outside the table: its nearest row
};

// Between two rows of the table in proportion. Outside, up to 1.6 times thicker or thinner than the nearest
// row: that row with its amps in proportion to the thickness, as 1 A per 0.001 in has it, and their range 15
// % wider on either side [common practice]; beyond that nothing. Wire diameters are those of the row or of
// the thinner of two neighbours.
std::optional<StartingPoint> starting_point(MetalFamily family, Process process, SettingsRow row,
                                            Length thickness);

// MAG for steel and galvanized, TIG for stainless, for aluminium MIG from 3 mm and TIG below. Common
// practice.
Process default_process(MetalFamily family, Length thickness);

struct Consumables {
  std::string wire; // designation of wire or rod
  std::string gas;
  FlowRate gas_flow;
  std::optional<Length> stick_out; // wire processes
  Source source;
};
// Nothing for mma: stick electrodes are chosen by the shop.
std::optional<Consumables> default_consumables(MetalFamily family, Process process);

// 1 A per 0.001 in of steel.
Current amps_by_rule(Length steel_thickness);

// Wire speed that goes with a current on steel, by the rule of thumb (in/min per A: 3.5 at 0.023 in wire, 2
// at 0.030, 1.6 at 0.035), between them by 1/d^2, beyond to 1.2 mm by the last value's d^2. Nothing for wire
// under 0.55 or over 1.25 mm.
std::optional<Speed> wire_feed_by_rule(Current amps, Length wire_diameter);
std::optional<Current> amps_by_wire_feed(Speed wire_feed, Length wire_diameter); // its inverse

// Wire speed whose metal fills a bead of this section at this travel: bead * cap * travel / (wire section *
// efficiency).
Speed wire_feed_by_balance(Area bead, Speed travel, Length wire_diameter, double efficiency, double cap);

} // namespace tacksquare
