// Welding processes and their efficiencies.
#pragma once

#include "base/band.h"

#include <optional>
#include <string>
#include <string_view>

namespace tacksquare {

enum class Process { mag, mig, tig, mma };

const std::string& process_name(Process process); // "mag", "mig", "tig", "mma"
std::optional<Process> parse_process(std::string_view name);

struct SourcedNumber {
  double value = 0.0;
  Source source;
};

// Share k of the arc's energy that enters the work: 0.8, TIG 0.6 (EN 1011-1).
SourcedNumber arc_efficiency(Process process);

// Share of the wire or rod that ends in the bead: MAG and MIG 0.96, TIG 0.98, stick 0.65.
SourcedNumber deposition_efficiency(Process process);

} // namespace tacksquare
