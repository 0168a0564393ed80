#include "cli/commands.h"
#include "cli/load_job.h"

#include "plan/file/plan_file.h"
#include "plan/verify/check_plan.h"
#include "sheet/plain_text.h"

#include <fmt/format.h>

#include <ostream>

namespace tacksquare {
namespace {

struct LoadedPlan {
  Plan plan;
  bool changed = false; // since it was written
};

// Nothing where it cannot be read; that has been told.
std::optional<LoadedPlan> load_plan(const std::string& path, Console& console) {
  auto read = console.files.read(path, kLargestPlanFile);
  if (const auto* fault = std::get_if<FileFault>(&read)) {
    tell(*fault, console);
    return std::nullopt;
  }
  const std::string& text = std::get<std::string>(read);
  PlanReading reading = read_plan(text);
  if (reading.plan) return LoadedPlan{std::move(*reading.plan), false};
  if (reading.changed) return LoadedPlan{std::move(*reading.changed), true};
  console.err << print_diagnostics(reading.diagnostics, path, text, console.colour);
  return std::nullopt;
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string all_of(const Plan& plan) {
  std::size_t seams = 0, tacks = 0, runs = 0, steps = 0;
  for (const BoxPlan& box : plan.boxes) {
    seams += box.seams.size();
    tacks += box.tacks.size();
    runs += box.runs.size();
    steps += box.steps.size();
  }
  return fmt::format("{}, {}, {}, {}, {}", counted(plan.boxes.size(), "box", "boxes"),
                     counted(seams, "seam", "seams"), counted(tacks, "tack", "tacks"),
                     counted(runs, "run", "runs"), counted(steps, "step", "steps"));
}

} // namespace

Exit check_command(const CheckOptions& options, Console& console) {
  std::optional<LoadedJob> loaded = load_job(options.job, console);
  std::vector<BoxGeometry> geometry;
  bool well = loaded.has_value();
  if (loaded) {
    geometry = resolve(*loaded).geometry;
    tell(*loaded, console);
    well = loaded->job && !loaded->diagnostics.has_errors();
  }
  const std::optional<LoadedPlan> read = load_plan(options.plan, console);
  if (!well || !read) return Exit::bad_input;

  std::vector<std::string> broken = check_plan(*loaded->job, geometry, read->plan);
  if (read->changed)
    broken.emplace(broken.begin(), "it was changed since it was written: its signature does not fit");
  if (broken.empty()) {
    console.out << fmt::format("{} keeps its own rules: {} checked\n", cleaned(options.plan),
                               all_of(read->plan));
    return Exit::done;
  }
  console.out << fmt::format("{} breaks its rules in {}:\n", cleaned(options.plan),
                             counted(broken.size(), "place", "places"));
  for (const std::string& line : broken)
    console.out << "  " << cleaned(line) << "\n";
  return Exit::limit_likely_missed;
}

} // namespace tacksquare
