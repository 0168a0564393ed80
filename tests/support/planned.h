// Jobs planned the whole way from their XML. Only for test programs that link planner and job/file.
#pragma once

#include "geometry/box_geometry.h"
#include "job/file/read_job.h"
#include "planning/planner/make_plan.h"
#include "support/catch.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace tacksquare::test {

struct Planned {
  Job job;
  std::vector<BoxGeometry> geometry; // as job.boxes
  Plan plan;
};

inline std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines)
    all += line + "\n";
  return all;
}

inline std::string told(const Diagnostics& diagnostics) {
  std::string all;
  for (const Diagnostic& d : diagnostics.items())
    all += d.code + ": " + d.message + "\n";
  return all;
}

// Fails the test when the job cannot be read or planned. quick: by closed forms alone, as most tests want it.
inline Planned planned(const std::string& xml, bool quick = true) {
  JobReading reading = read_job(xml);
  if (!reading.job) FAIL("cannot be read:\n" << told(reading.diagnostics));
  Planned made{std::move(*reading.job), {}, {}};
  Diagnostics faults;
  for (const Box& box : made.job.boxes)
    made.geometry.push_back(resolve_geometry(made.job, box, faults));
  std::optional<Plan> plan = make_plan(made.job, faults, quick);
  if (!plan) FAIL("cannot be planned:\n" << told(faults));
  made.plan = std::move(*plan);
  return made;
}

inline std::vector<std::string> jobs_in(const std::string& folder, std::size_t at_least) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".xml") names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  if (names.size() < at_least) FAIL("jobs are missing in " << folder << ": only " << names.size());
  return names;
}
inline std::string job_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) FAIL("no job " << path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline std::vector<std::string> sample_names() {
  return jobs_in(std::string(TACKSQUARE_SOURCE) + "/samples", 4);
}
inline std::string sample_text(const std::string& name) {
  return job_text(TACKSQUARE_SOURCE "/samples/" + name);
}

// Jobs that go other ways than the samples do: inches, gauges, inside fillets, stitches, brackets, a V, two
// metals.
inline std::vector<std::string> odd_job_names() {
  return jobs_in(std::string(TACKSQUARE_TEST_DATA) + "/jobs", 10);
}
inline std::string odd_job_text(const std::string& name) {
  return job_text(TACKSQUARE_TEST_DATA "/jobs/" + name);
}

// Planned once in a program, by closed forms alone or whole. Who changes a plan copies it.
inline const Planned& planned_once(const std::string& xml, bool quick) {
  static std::map<std::pair<std::string, bool>, Planned> made;
  const auto found = made.find({xml, quick});
  return found != made.end() ? found->second
                             : made.emplace(std::pair(xml, quick), planned(xml, quick)).first->second;
}
inline const Planned& planned_sample(const std::string& name) {
  return planned_once(sample_text(name), true);
}
inline const Planned& planned_odd_job(const std::string& name) {
  return planned_once(odd_job_text(name), true);
}

// With the elastic model, which takes many seconds a job. Test cases that ask for these are tagged
// [together], so that ctest runs those of a folder in one process (tests/CMakeLists.txt).
inline const Planned& whole_sample(const std::string& name) {
  return planned_once(sample_text(name), false);
}
inline const Planned& whole_odd_job(const std::string& name) {
  return planned_once(odd_job_text(name), false);
}

} // namespace tacksquare::test
