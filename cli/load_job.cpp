#include "cli/load_job.h"

#include "cli/state_orders.h"

#include <algorithm>
#include <filesystem>
#include <istream>
#include <ostream>

#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr std::string_view kStandardInput = "<standard input>";

std::optional<std::string> read_standard_input(Console& console) {
  std::string text;
  std::string chunk(1u << 16, '\0');
  while (console.in.read(chunk.data(), static_cast<std::streamsize>(chunk.size())) ||
         console.in.gcount() > 0) {
    text.append(chunk, 0, static_cast<std::size_t>(console.in.gcount()));
    if (text.size() > kLargestJobFile) {
      tell({"-",
            fmt::format("cannot read {}: it is longer than {}", kStandardInput, size_name(kLargestJobFile)),
            "check what is redirected into it"},
           console);
      return std::nullopt;
    }
  }
  if (console.in.bad()) {
    tell({"-", fmt::format("cannot read {}", kStandardInput), "redirect a file or a pipe into it"}, console);
    return std::nullopt;
  }
  return text;
}

// Opens what stands beside the job: paths in it count from its own folder, from the working one where it
// comes from standard input.
OpenFile beside(const std::string& job, FileSystem& files) {
  return [&files, folder = std::filesystem::path(job).parent_path()](
             const std::string& path) -> std::variant<FileRead, FileFault> {
    const std::string name = (folder / path).string();
    auto read = files.read(name, kLargestJobFile);
    if (const auto* fault = std::get_if<FileFault>(&read)) return *fault;
    return FileRead{name, std::move(std::get<std::string>(read))};
  };
}

// What is wrong with a box beyond how it is stated.
void look_further(const Job& job, const Box& box, Diagnostics& out) {
  Diagnostics faults;
  const BoxGeometry geometry = resolve_geometry(job, box, faults);
  if (!faults.has_errors()) make_work(job, box, geometry, faults);
  out.append(faults);
}

} // namespace

std::optional<LoadedJob> load_job(const std::string& path, Console& console,
                                  const std::vector<std::string>& orders) {
  LoadedJob loaded;
  if (path == "-") {
    std::optional<std::string> text = read_standard_input(console);
    if (!text) return std::nullopt;
    loaded.name = kStandardInput;
    loaded.text = std::move(*text);
  } else {
    auto read = console.files.read(path, kLargestJobFile);
    if (const auto* fault = std::get_if<FileFault>(&read)) {
      tell(*fault, console);
      return std::nullopt;
    }
    loaded.name = path;
    loaded.text = std::move(std::get<std::string>(read));
  }
  JobReading reading = read_job(loaded.text, beside(path, console.files));
  loaded.files = std::move(reading.files);
  loaded.job = std::move(reading.job);
  loaded.diagnostics = std::move(reading.diagnostics);
  std::optional<Job> sound = std::move(reading.sound);
  const bool well = loaded.job.has_value();
  Job* stated = well ? &*loaded.job : sound ? &*sound : nullptr;
  state_orders(orders, reading.boxes, stated, loaded.files, loaded.diagnostics);
  if (well && loaded.diagnostics.has_errors()) {
    sound = std::move(loaded.job);
    loaded.job.reset();
  }
  if (sound)
    for (const Box& box : sound->boxes)
      look_further(*sound, box, loaded.diagnostics);
  return loaded;
}

Resolved resolve(LoadedJob& loaded) {
  Resolved made;
  if (!loaded.job) return made;
  for (const Box& box : loaded.job->boxes) {
    Diagnostics faults;
    made.geometry.push_back(resolve_geometry(*loaded.job, box, faults));
    if (!faults.has_errors()) made.work.push_back(make_work(*loaded.job, box, made.geometry.back(), faults));
    loaded.diagnostics.append(faults);
  }
  return made;
}

void tell(const LoadedJob& loaded, Console& console) {
  const auto& items = loaded.diagnostics.items();
  if (items.empty()) return;
  console.err << print_diagnostics(loaded.diagnostics, loaded.name, loaded.text, console.colour,
                                   loaded.files);
  const auto errors = std::count_if(items.begin(), items.end(),
                                    [](const Diagnostic& item) { return item.severity == Severity::error; });
  if (errors > 0)
    console.err << fmt::format("{} error{}; nothing was written\n", errors, errors == 1 ? "" : "s");
}

} // namespace tacksquare
