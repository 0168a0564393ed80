// Any bytes give a job or an error, and what is printed of them is valid UTF-8; the long form of a job reads
// back.
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

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace tacksquare;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const JobReading reading = read_job(text);
  demand(reading.job.has_value() != reading.diagnostics.has_errors());
  const std::string printed = print_diagnostics(reading.diagnostics, "job.xml", text, false);
  for (std::size_t i = 0; i < printed.size();) {
    const std::size_t length = utf8_length(std::string_view(printed).substr(i));
    demand(length > 0);
    i += length;
  }
  if (reading.job) demand(read_job(write_job(*reading.job)).job.has_value());
  return 0;
}
