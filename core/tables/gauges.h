// Sheet gauges. A number says nothing without its system.
#pragma once

#include "base/band.h"
#include "base/units.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tacksquare {

enum class GaugeSystem { us_steel, us_galvanized, stainless, aluminium, uk_swg };

// "us-steel", "us-galvanized", "stainless", "aluminium", "uk-swg", in the order of the enum.
const std::vector<std::string>& gauge_system_names();
const std::string& gauge_system_name(GaugeSystem system);
std::optional<GaugeSystem> parse_gauge_system(std::string_view name);

struct GaugeRange {
  int first = 0, last = 0; // both included
};
GaugeRange gauge_range(GaugeSystem system);

// Nominal thickness (of coated sheet for us_galvanized); nothing outside gauge_range.
std::optional<Length> sheet_thickness(GaugeSystem system, int gauge);

const Source& gauge_source(GaugeSystem system);

} // namespace tacksquare
