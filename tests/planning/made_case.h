// A job's first box as it is before anything of it is weighed.
#pragma once

#include "planning/planner/case_of.h"
#include "support/planned.h"

#include <memory>
#include <optional>

namespace tacksquare::test {

struct Made {
  Job job;
  std::optional<BoxCase> box;
};

// needed: fails the test where the box has a fault.
inline std::unique_ptr<Made> made(const std::string& xml, bool needed = true) {
  auto all = std::make_unique<Made>();
  JobReading reading = read_job(xml);
  REQUIRE(reading.job);
  all->job = std::move(*reading.job);
  Diagnostics faults;
  std::optional<BoxCase> box = case_of(all->job, 0, std::nullopt, faults);
  if (needed && !box) FAIL("a box with faults:\n" << told(faults));
  if (box) all->box.emplace(std::move(*box));
  return all;
}

} // namespace tacksquare::test
