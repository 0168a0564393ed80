#include "tables/metals.h"

#include <array>
#include <cstddef>

namespace tacksquare {

namespace {

const Source steel_source{
    "EN 1993-1-1:2005, 3.2.6, and EN 1993-1-2:2005, 3.4, for S235; melting range by typical data",
    Mark::standard};
const Source sheet_source{"typical-value data sheets, two or more agreeing", Mark::standard};

} // namespace

const std::vector<Metal>& built_in_metals() {
  static const std::vector<Metal> metals{
      {"mild-steel", "mild steel S235", MetalFamily::mild_steel, 7850.0, 210000.0, 0.30, 12e-6, 53.3, 440.0,
       235.0, 360.0, 1480.0, 1526.0, 0.5, steel_source},
      {"galvanized", "galvanized mild steel", MetalFamily::galvanized, 7850.0, 210000.0, 0.30, 12e-6, 53.3,
       440.0, 235.0, 360.0, 1480.0, 1526.0, 1.0, steel_source},
      {"304", "stainless 304", MetalFamily::stainless, 8000.0, 193000.0, 0.29, 17.3e-6, 16.2, 500.0, 215.0,
       505.0, 1400.0, 1455.0, 1.0, sheet_source},
      {"5052", "aluminium 5052-H32", MetalFamily::aluminium, 2680.0, 70300.0, 0.33, 23.8e-6, 138.0, 880.0,
       193.0, 228.0, 607.0, 649.0, 1.0, sheet_source},
      {"6061", "aluminium 6061-T6", MetalFamily::aluminium, 2700.0, 68900.0, 0.33, 23.6e-6, 167.0, 896.0,
       276.0, 310.0, 582.0, 652.0, 3.0, sheet_source},
  };
  return metals;
}

const Metal* find_metal(std::string_view id) {
  for (const Metal& metal : built_in_metals()) {
    if (metal.id == id) return &metal;
  }
  return nullptr;
}

std::vector<std::string> built_in_metal_ids() {
  std::vector<std::string> ids;
  for (const Metal& metal : built_in_metals())
    ids.push_back(metal.id);
  return ids;
}

const std::string& family_name(MetalFamily family) {
  static const std::array<std::string, 4> names{"mild-steel", "galvanized", "stainless", "aluminium"};
  return names[static_cast<std::size_t>(family)];
}

} // namespace tacksquare
