// Each bad job is a file of tests/data/bad-jobs: the job, a line "==== job.xml", and what is printed for it.
#include "job/file/read_job.h"
#include "support/catch.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

using namespace tacksquare;

namespace {

const std::string kSplit = "==== job.xml\n";

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<std::filesystem::path> cases() {
  std::vector<std::filesystem::path> all;
  for (const auto& entry : std::filesystem::directory_iterator(TACKSQUARE_TEST_DATA "/bad-jobs"))
    all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

} // namespace

TEST_CASE("every bad job is told with its place, all faults in one run, word for word") {
  const auto all = cases();
  REQUIRE(all.size() == 137);
  for (const auto& path : all) {
    INFO(path.filename().string());
    const std::string text = bytes_of(path);
    const auto split = text.find(kSplit);
    REQUIRE(split != std::string::npos);
    const std::string job = text.substr(0, split);
    const JobReading reading = read_job(job);
    const std::string printed = print_diagnostics(reading.diagnostics, "job.xml", job, false);
    if (std::getenv("TACKSQUARE_ACCEPT") != nullptr)
      std::ofstream(path, std::ios::binary) << job << kSplit << printed;
    CHECK(text.substr(split + kSplit.size()) == printed);
    CHECK(!printed.empty());
    CHECK(reading.job.has_value() != reading.diagnostics.has_errors());
  }
}

TEST_CASE("every code that the reader can give is given by one of the bad jobs") {
  std::set<std::string> given;
  for (const auto& path : cases()) {
    const std::string text = bytes_of(path);
    const JobReading reading = read_job(text.substr(0, text.find(kSplit)));
    for (const Diagnostic& d : reading.diagnostics.items())
      given.insert(d.code);
  }
  // The codes stand in the sources of the reader and of the forms as error("code" and caution("code".
  std::set<std::string> known;
  for (const char* folder : {"/core/job", "/core/job/file"}) {
    for (const auto& entry : std::filesystem::directory_iterator(std::string(TACKSQUARE_SOURCE) + folder)) {
      if (entry.path().extension() != ".cpp") continue;
      const std::string source = bytes_of(entry.path());
      for (const std::string call : {"error(\"", "caution(\""}) {
        for (auto at = source.find(call); at != std::string::npos; at = source.find(call, at + 1)) {
          const auto from = at + call.size();
          known.insert(source.substr(from, source.find('"', from) - from));
        }
      }
    }
  }
  CHECK(known.size() > 50);
  // These need bytes that a text file cannot hold, or a file of many megabytes: test_robust.cpp.
  for (const char* elsewhere :
       {"file-large", "utf16", "nul", "elements-many", "attributes-many", "files-large"})
    CHECK(known.erase(elsewhere) == 1);
  for (const std::string& code : known) {
    INFO(code);
    CHECK(given.count(code) == 1);
  }
}
