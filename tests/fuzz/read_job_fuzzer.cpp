// Any bytes give a job or an error, as a job and as a fixture file, and what is printed of them is valid
// UTF-8; the long form of a job reads back.
#include "job/file/read_job.h"
#include "job/file/scan.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>

namespace {

void demand(bool kept) {
  if (!kept) std::abort();
}

// A job whose fixture stands in a file of its own.
constexpr std::string_view kRefers =
    "<tacksquare-job name=\"N\"><sheet id=\"s\" metal=\"304\" thickness=\"2 mm\"/><box id=\"tray\"><open-box "
    "width=\"400 mm\" depth=\"300 mm\" height=\"100 mm\" open=\"top\" made=\"panels\"/></box>"
    "<fixture file=\"f.xml\"/></tacksquare-job>";

void read_and_print(std::string_view job, const tacksquare::OpenFile& open) {
  using namespace tacksquare;
  const JobReading reading = read_job(job, open);
  demand(reading.job.has_value() != reading.diagnostics.has_errors());
  const std::string printed = print_diagnostics(reading.diagnostics, "job.xml", job, false, reading.files);
  for (std::size_t i = 0; i < printed.size();) {
    const std::size_t length = utf8_length(std::string_view(printed).substr(i));
    demand(length > 0);
    i += length;
  }
  if (reading.job) demand(read_job(write_job(*reading.job)).job.has_value());
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tacksquare;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  read_and_print(text, {});
  if (text.find(kFixtureFile.root) != std::string_view::npos)
    read_and_print(kRefers, [&](const std::string& path) -> std::variant<FileRead, FileFault> {
      return FileRead{path, std::string(text)};
    });
  return 0;
}
