// Metals that are built in, at room temperature. Thin data: typical values, not certificates.
#pragma once

#include "base/band.h"

#include <string>
#include <string_view>
#include <vector>

namespace tacksquare {

enum class MetalFamily { mild_steel, galvanized, stainless, aluminium };

struct Metal {
  std::string id;   // "mild-steel"
  std::string name; // "mild steel S235"
  MetalFamily family = MetalFamily::mild_steel;
  double density_kg_m3 = 0.0;
  double youngs_MPa = 0.0;
  double poisson = 0.0;
  double expansion_per_K = 0.0;
  double conductivity_W_mK = 0.0;
  double specific_heat_J_kgK = 0.0;
  double yield_MPa = 0.0;
  double ultimate_MPa = 0.0;
  double solidus_C = 0.0;
  double liquidus_C = 0.0;
  double min_bend_ratio = 0.0; // least inside radius / thickness of a bend; common practice
  Source source;               // of all but min_bend_ratio
  bool operator==(const Metal&) const = default;
};

// "mild-steel", "galvanized", "304", "5052", "6061", in this order.
const std::vector<Metal>& built_in_metals();
const Metal* find_metal(std::string_view id); // null when there is none
std::vector<std::string> built_in_metal_ids();

const std::string& family_name(MetalFamily family); // "mild-steel", "galvanized", "stainless", "aluminium"

} // namespace tacksquare
