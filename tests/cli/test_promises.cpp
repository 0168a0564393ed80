// What holds for every sample, whatever its numbers: widths of text, the same bytes twice, a long form that
// plans alike, and a man page that knows every option.
#include "cli/run.h"
#include "sheet/plain_text.h"
#include "support/catch.h"
#include "support/repeat.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

using namespace tacksquare;
using tacksquare::test::kSanitized;

namespace {

const std::vector<std::string> kSamples = {"ballast-float.xml", "battery-box.xml", "divided-tray.xml",
                                           "gear-locker.xml"};

std::string text_of(const std::string& path) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE) + "/" + path, std::ios::binary);
  if (!in) FAIL("no file " << path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// Standard output of a run on the samples; the test fails when there is anything on standard error.
std::string out_of(const std::vector<std::string>& arguments, const std::string& input = "",
                   int columns = 80) {
  MemoryFiles files;
  for (const std::string& name : kSamples)
    files.files[name] = text_of("samples/" + name);
  std::istringstream in(input);
  std::ostringstream out, err;
  Console console{in, out, err, files};
  console.columns = columns;
  const int code = run(arguments, console);
  INFO(err.str());
  REQUIRE((code == 0 || code == 3));
  CHECK(err.str() == "");
  return out.str();
}

int widest(const std::string& text) {
  int most = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    most = std::max(most, columns_of(line));
  return most;
}

} // namespace

TEST_CASE("no line of a text is wider than the terminal, from 80 columns on") {
  for (const std::string& sample : kSamples) {
    INFO(sample);
    for (const char* units : {"metric", "inch", "inch-fractions"}) {
      CHECK(widest(out_of({"plan", sample, "--quick", "--units", units}, "", 40)) <= 80);
      CHECK(widest(out_of({"plan", sample, "--quick", "--units", units}, "", 120)) <= 120);
      CHECK(widest(out_of({"inspect", sample, "--units", units}, "", 80)) <= 80);
      CHECK(widest(out_of({"inspect", sample, "--units", units}, "", 120)) <= 120);
    }
    CHECK(widest(out_of({"inspect", sample}, "", 160)) > 100); // and a wide terminal is made use of
  }
  if (!kSanitized) CHECK(widest(out_of({"plan", "gear-locker.xml"}, "", 40)) <= 80);
  CHECK(widest(out_of({"plan", "gear-locker.xml"}, "", 120)) <= 120);
  for (const char* command : {"plan", "check", "inspect", "start"})
    CHECK(widest(out_of({command, "--help"})) <= 80);
  CHECK(widest(out_of({"--help"})) <= 80);
}

TEST_CASE("the same job gives the same bytes, in each form") {
  for (const std::string& sample : kSamples)
    for (const char* form : {"text", "html", "xml"}) {
      INFO(sample << " as " << form);
      CHECK(out_of({"plan", sample, "--quick", "--form", form}) ==
            out_of({"plan", sample, "--quick", "--form", form}));
    }
  if (kSanitized) return; // .ci/run compares its whole plans with those of the optimised build
  const std::string whole = out_of({"plan", "gear-locker.xml", "--form", "xml"});
  CHECK(whole.find("<elastic ") != std::string::npos);
  CHECK(whole == out_of({"plan", "gear-locker.xml", "--form", "xml"}));
}

TEST_CASE("the long form of a job reads back, stays as it is, and plans to the same plan") {
  for (const std::string& sample : kSamples) {
    INFO(sample);
    const std::string long_form = out_of({"inspect", sample, "--long"});
    CHECK(long_form.find("<face ") != std::string::npos);
    CHECK(out_of({"inspect", "-", "--long"}, long_form) == long_form);
    CHECK(out_of({"plan", "-", "--quick", "--form", "xml"}, long_form) ==
          out_of({"plan", sample, "--quick", "--form", "xml"}));
  }
}

TEST_CASE("a starter of each form and metal can be planned as it is") {
  for (const char* form : {"open", "closed"})
    for (const char* metal : {"mild-steel", "galvanized", "304", "5052", "6061"}) {
      INFO(form << " of " << metal);
      const std::string job = out_of({"start", "--box", form, "--metal", metal});
      CHECK(out_of({"plan", "-", "--quick"}, job).find("GEAR LOCKER") != std::string::npos);
    }
}

TEST_CASE("the man page knows every option of the program") {
  const std::string page = text_of("docs/tacksquare.1");
  int options = 0;
  for (const char* command : {"plan", "check", "inspect", "start"}) {
    const std::string help = out_of({command, "--help"});
    for (auto at = help.find("--"); at != std::string::npos; at = help.find("--", at + 2)) {
      const auto end = help.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at + 2);
      const std::string name = help.substr(at + 2, end - at - 2);
      if (name.empty()) continue;
      INFO(command << " --" << name);
      CHECK((page.find("Fl -" + name) != std::string::npos));
      ++options;
    }
  }
  CHECK(options > 15);
}
