// The reader never throws and never hangs: it gives a job or an error.
#include "base/random.h"
#include "job/file/read_job.h"
#include "job/file/scan.h"
#include "support/catch.h"

#include <clocale>
#include <fstream>
#include <iterator>
#include <string>

using namespace tacksquare;

namespace {

std::string sample(const std::string& name) {
  std::ifstream in(std::string(TACKSQUARE_SOURCE "/") + name, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  REQUIRE(!text.empty());
  return text;
}

std::string only_code(const std::string& text) {
  const JobReading reading = read_job(text);
  CHECK(!reading.job);
  REQUIRE(reading.diagnostics.items().size() == 1);
  return reading.diagnostics.items()[0].code;
}

// Swaps, deletes, doubles and replaces bytes and pieces.
std::string damaged(std::string text, Random& random) {
  static const std::string pieces[] = {"\"",
                                       "<",
                                       ">",
                                       "/",
                                       "&",
                                       "=",
                                       "<!--",
                                       "]]>",
                                       "<box id=\"b\">",
                                       " mm",
                                       "-",
                                       "1e308",
                                       "nan",
                                       std::string("\0", 1),
                                       "\xFF",
                                       "\xE2\x82",
                                       "<?",
                                       "&#x0;"};
  for (std::uint64_t edits = 1 + random.below(6); edits > 0 && !text.empty(); --edits) {
    const auto at = static_cast<std::size_t>(random.below(text.size()));
    switch (random.below(5)) {
    case 0:
      text[at] = static_cast<char>(random.below(256));
      break;
    case 1:
      text.erase(at, static_cast<std::size_t>(random.below(40)));
      break;
    case 2:
      text.insert(at, text.substr(static_cast<std::size_t>(random.below(text.size())), 30));
      break;
    case 3:
      text.insert(at, pieces[random.below(std::size(pieces))]);
      break;
    default:
      std::swap(text[at], text[static_cast<std::size_t>(random.below(text.size()))]);
    }
  }
  return text;
}

} // namespace

TEST_CASE("a damaged sample gives a job or an error, and its printing is valid UTF-8") {
  std::size_t jobs = 0, errors = 0;
  for (const char* name : {"samples/gear-locker.xml", "samples/ballast-float.xml", "samples/battery-box.xml",
                           "samples/divided-tray.xml", "tests/data/job-everything.xml"}) {
    const std::string whole = sample(name);
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
      INFO(name << ", seed " << seed);
      Random random(seed);
      const std::string text = damaged(whole, random);
      const JobReading reading = read_job(text);
      REQUIRE(reading.job.has_value() != reading.diagnostics.has_errors());
      ++(reading.job ? jobs : errors);
      const std::string printed = print_diagnostics(reading.diagnostics, name, text, true);
      for (std::size_t i = 0; i < printed.size();) {
        const std::size_t length = utf8_length(std::string_view(printed).substr(i));
        REQUIRE(length > 0);
        i += length;
      }
      if (!reading.job) continue;
      const std::string written = write_job(*reading.job);
      REQUIRE(read_job(written).job.has_value());
    }
  }
  CHECK(jobs > 50);
  CHECK(errors > 1000);
}

TEST_CASE("a damaged fixture file gives a job or an error, told in its own text") {
  const std::string job =
      "<tacksquare-job name=\"N\"><sheet id=\"s\" metal=\"304\" thickness=\"2 mm\"/><box "
      "id=\"tray\"><open-box "
      "width=\"400 mm\" depth=\"300 mm\" height=\"100 mm\" open=\"top\" made=\"panels\"/></box>"
      "<fixture file=\"f.xml\"/></tacksquare-job>";
  const std::string whole = sample("tests/data/fixture-everything.xml");
  std::size_t jobs = 0, errors = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    INFO("seed " << seed);
    Random random(seed);
    const std::string text = damaged(whole, random);
    const JobReading reading =
        read_job(job, [&](const std::string& path) -> std::variant<FileRead, FileFault> {
          return FileRead{path, text};
        });
    REQUIRE(reading.job.has_value() != reading.diagnostics.has_errors());
    ++(reading.job ? jobs : errors);
    for (const Diagnostic& d : reading.diagnostics.items())
      REQUIRE(d.where.file == 1);
    REQUIRE(print_diagnostics(reading.diagnostics, "job.xml", job, false, reading.files).find("job.xml:") ==
            std::string::npos);
    if (reading.job) REQUIRE(read_job(write_job(*reading.job)).job.has_value());
  }
  CHECK(jobs > 10);
  CHECK(errors > 200);
}

TEST_CASE("files that no text editor writes are refused at once") {
  CHECK(only_code(std::string(200'000'000, 'x')) == "file-large");
  CHECK(only_code(std::string(kLargestJobFile + 1, ' ')) == "file-large");
  CHECK(only_code(std::string("\xFF\xFE<\0t\0", 6)) == "utf16");
  CHECK(only_code(std::string("\xFE\xFF\0<\0t", 6)) == "utf16");
  CHECK(only_code(std::string("<\0t\0", 4)) == "utf16");
  CHECK(only_code(std::string("<tacksquare-job>\0</tacksquare-job>", 34)) == "nul");
  std::string deep;
  for (int i = 0; i < 1'000'000; ++i)
    deep += "<a>";
  CHECK(only_code(deep) == "nesting");
  std::string many = "<tacksquare-job>";
  for (int i = 0; i < 500'000; ++i)
    many += "<sheet/>";
  CHECK(only_code(many + "</tacksquare-job>") == "elements-many");
  std::string wide = "<tacksquare-job";
  for (int i = 0; i < 100'000; ++i)
    wide += " a" + std::to_string(i) + "=\"1\"";
  const JobReading reading = read_job(wide + "/>");
  bool told = false;
  for (const Diagnostic& d : reading.diagnostics.items())
    told = told || d.code == "attributes-many";
  CHECK(told);
  CHECK(reading.diagnostics.items().size() < 100);
}

TEST_CASE("a file of a hundred thousand faults is read in seconds, and its printing ends") {
  std::string text =
      "<tacksquare-job name=\"N\">\n<sheet id=\"s\" metal=\"304\" thickness=\"2 mm\"/>\n<box id=\"b\">\n"
      "<closed-box width=\"400 mm\" depth=\"400 mm\" height=\"400 mm\"/>\n";
  for (int i = 0; i < 50'000; ++i)
    text += "<seam id=\"A" + std::to_string(i) +
            "\" between=\"T F\" joint=\"corner\" procedure=\"p\" weld=\"x\"/>\n";
  const JobReading reading = read_job(text + "</box></tacksquare-job>");
  CHECK(reading.diagnostics.items().size() == 100'000);
  const std::string printed = print_diagnostics(reading.diagnostics, "a.xml", text, false);
  CHECK(printed.size() < 500'000);
  CHECK(printed.find("... and 99500 more\n") != std::string::npos);
}

TEST_CASE("a file of a hundred thousand readings and stands is read in seconds, a row has an end") {
  std::string text =
      "<tacksquare-job name=\"N\">\n<sheet id=\"s\" metal=\"304\" thickness=\"2 mm\"/>\n<box id=\"b\" "
      "count=\"1000\">\n<closed-box width=\"400 mm\" depth=\"400 mm\" height=\"400 mm\"/></box>\n"
      "<opening clearance=\"1 mm\"><widths middle=\"9000 mm\"/>";
  for (int i = 0; i < 30'000; ++i)
    text += "<stand copy=\"" + std::to_string(i % 1000 + 1) + "\"/>\n";
  text += "</opening>";
  for (int i = 0; i < 30'000; ++i)
    text += "<measured copy=\"" + std::to_string(i % 1000 + 1) +
            "\"><stack faces=\"L R\" off=\"0.1 mm\"/></measured>\n";
  const JobReading reading = read_job(text + "</tacksquare-job>");
  // Of 30 000 each copy stands and is measured once too often 29 times; and the row is too long.
  CHECK(reading.diagnostics.items().size() == 2 * 29'000 + 1);
  CHECK(!reading.job);
}

TEST_CASE("UTF-8 is judged as RFC 3629 says") {
  CHECK(utf8_length("a") == 1);
  CHECK(utf8_length("\xC2\xB0") == 2);         // degree sign
  CHECK(utf8_length("\xE2\x82\xAC") == 3);     // euro sign
  CHECK(utf8_length("\xF4\x8F\xBF\xBF") == 4); // U+10FFFF
  CHECK(utf8_length("\xC0\xAF") == 0);         // overlong "/"
  CHECK(utf8_length("\xE0\x80\xAF") == 0);
  CHECK(utf8_length("\xED\xA0\x80") == 0);     // surrogate D800
  CHECK(utf8_length("\xF4\x90\x80\x80") == 0); // beyond U+10FFFF
  CHECK(utf8_length("\x80") == 0);
  CHECK(utf8_length("\xE2\x82") == 0);
}

TEST_CASE("a UTF-8 byte order mark is taken, and the words mean the same in another locale") {
  const std::string text = sample("samples/gear-locker.xml");
  CHECK(read_job("\xEF\xBB\xBF" + text).job.has_value());
  const char* before = std::setlocale(LC_ALL, nullptr);
  const std::string kept = before ? before : "C";
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"}) {
    std::setlocale(LC_ALL, name);
    const JobReading reading = read_job(text);
    REQUIRE(reading.job);
    CHECK(reading.job->incoming.bend == deg(0.2));
  }
  std::setlocale(LC_ALL, kept.c_str());
}

TEST_CASE("colour only adds escape sequences") {
  const std::string text = "<tacksquare-job>\n</tacksquare-job>\n";
  const JobReading reading = read_job(text);
  const std::string plain = print_diagnostics(reading.diagnostics, "a.xml", text, false);
  std::string coloured = print_diagnostics(reading.diagnostics, "a.xml", text, true);
  CHECK(coloured != plain);
  for (auto at = coloured.find('\x1b'); at != std::string::npos; at = coloured.find('\x1b'))
    coloured.erase(at, coloured.find('m', at) - at + 1);
  CHECK(coloured == plain);
}

TEST_CASE("a diagnostic without a place is printed without one, after the others") {
  Diagnostics all;
  all.caution("late", {}, "a default is odd", "state it");
  all.error("early", {4}, "the fifth byte");
  CHECK(print_diagnostics(all, "a.xml", "abc\ndef\n", false) ==
        "a.xml:2:1: error: the fifth byte\n    2 | def\n      | ^\n"
        "a.xml: caution: a default is odd\n      do: state it\n");
}
