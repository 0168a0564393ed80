// plan.xml, both ways. Numbers in shortest form that reads back to the same double.
#pragma once

#include "base/diagnostic.h"
#include "plan/plan.h"

#include <optional>
#include <string>
#include <string_view>

namespace tacksquare {

inline constexpr std::size_t kLargestPlanFile = 256u << 20; // bytes

// signature: that of plan_signature, where it is known already.
std::string write_plan(const Plan& plan, std::string signature = {});

struct PlanReading {
  std::optional<Plan> plan; // absent when the diagnostics hold an error
  // Then, where nothing is wrong but that the signature does not fit: the plan as it stands now.
  std::optional<Plan> changed;
  Diagnostics diagnostics;
};

// Reads back to an equal Plan; a changed signature, a missing or unknown element is an error with its place.
PlanReading read_plan(std::string_view text);

} // namespace tacksquare
