#include "tables/process.h"

#include <array>
#include <cstddef>

namespace tacksquare {

namespace {

const std::array<std::string, 4> names{"mag", "mig", "tig", "mma"};

} // namespace

const std::string& process_name(Process process) {
  return names[static_cast<std::size_t>(process)];
}

std::optional<Process> parse_process(std::string_view name) {
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == name) return static_cast<Process>(i);
  }
  return std::nullopt;
}

SourcedNumber arc_efficiency(Process process) {
  return {process == Process::tig ? 0.6 : 0.8, {"EN 1011-1, ISO/TR 17671-1", Mark::standard}};
}

SourcedNumber deposition_efficiency(Process process) {
  switch (process) {
  case Process::tig:
    return {0.98, {"published range, TIG rod", Mark::published}};
  case Process::mma:
    return {0.65, {"published range, stick electrodes", Mark::published}};
  case Process::mag:
  case Process::mig:
    break;
  }
  return {0.96, {"published range 0.95-0.98, solid wire", Mark::published}};
}

} // namespace tacksquare
