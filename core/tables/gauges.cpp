#include "tables/gauges.h"

#include <array>
#include <cstddef>

namespace tacksquare {

namespace {

// Weight of gauges 3 to 38 in ounces a square foot: US Standard Gauge, kept by the Manufacturers' Standard.
constexpr std::array<double, 36> ounces{160, 150, 140, 130, 120, 110, 100, 90,  80, 70,  60,   50,
                                        45,  40,  36,  32,  28,  24,  22,  20,  18, 16,  14,   12,
                                        11,  10,  9,   8,   7,   6.5, 6,   5.5, 5,  4.5, 4.25, 4};
constexpr double zinc_ounces = 2.5; // both faces: the weight that makes the galvanized thicknesses
constexpr double steel_lb_ft2_in = 41.82;
constexpr double stainless_lb_ft2_in = 40.0;

// Gauges 0 to 40, in.
constexpr std::array<double, 41> swg{0.324,  0.300,  0.276,  0.252,  0.232,  0.212,  0.192,  0.176,  0.160,
                                     0.144,  0.128,  0.116,  0.104,  0.092,  0.080,  0.072,  0.064,  0.056,
                                     0.048,  0.040,  0.036,  0.032,  0.028,  0.024,  0.022,  0.020,  0.018,
                                     0.0164, 0.0148, 0.0136, 0.0124, 0.0116, 0.0108, 0.0100, 0.0092, 0.0084,
                                     0.0076, 0.0068, 0.0060, 0.0052, 0.0048};

double pounds(int gauge) {
  return ounces[static_cast<std::size_t>(gauge - 3)] / 16.0;
}

} // namespace

const std::vector<std::string>& gauge_system_names() {
  static const std::vector<std::string> names{"us-steel", "us-galvanized", "stainless", "aluminium",
                                              "uk-swg"};
  return names;
}

const std::string& gauge_system_name(GaugeSystem system) {
  return gauge_system_names()[static_cast<std::size_t>(system)];
}

std::optional<GaugeSystem> parse_gauge_system(std::string_view name) {
  const auto& names = gauge_system_names();
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == name) return static_cast<GaugeSystem>(i);
  }
  return std::nullopt;
}

GaugeRange gauge_range(GaugeSystem system) {
  switch (system) {
  case GaugeSystem::us_steel:
  case GaugeSystem::stainless:
    return {3, 38};
  case GaugeSystem::us_galvanized:
    return {8, 32};
  case GaugeSystem::aluminium:
  case GaugeSystem::uk_swg:
    break;
  }
  return {0, 40};
}

std::optional<Length> sheet_thickness(GaugeSystem system, int gauge) {
  const GaugeRange range = gauge_range(system);
  if (gauge < range.first || gauge > range.last) return std::nullopt;
  switch (system) {
  case GaugeSystem::us_steel:
    return inch(pounds(gauge) / steel_lb_ft2_in);
  case GaugeSystem::us_galvanized:
    return inch((pounds(gauge) + zinc_ounces / 16.0) / steel_lb_ft2_in);
  case GaugeSystem::stainless:
    return inch(pounds(gauge) / stainless_lb_ft2_in);
  case GaugeSystem::aluminium: {
    // 0.005 * 92^((36 - n)/39), by a constant ratio so that no maths library's power changes a digit.
    constexpr double ratio = 1.1229321965322814; // 92^(1/39)
    double thickness = 0.005;
    for (int n = 36; n > gauge; --n)
      thickness *= ratio;
    for (int n = 36; n < gauge; ++n)
      thickness /= ratio;
    return inch(thickness);
  }
  case GaugeSystem::uk_swg:
    break;
  }
  return inch(swg[static_cast<std::size_t>(gauge)]);
}

const Source& gauge_source(GaugeSystem system) {
  static const std::array<Source, 5> sources{{
      {"Manufacturers' Standard Gauge: weight / 41.82 lb/ft2 per inch", Mark::standard},
      {"galvanized sheet gauge: steel rule with 2.5 oz/ft2 of coating added", Mark::from_memory},
      {"US Standard Gauge for stainless: weight / 40 lb/ft2 per inch", Mark::standard},
      {"Brown and Sharpe: 0.005 * 92^((36-n)/39) in", Mark::standard},
      {"Imperial Standard Wire Gauge, BS 3737", Mark::from_memory},
  }};
  return sources[static_cast<std::size_t>(system)];
}

} // namespace tacksquare
