// Names from a job file can be anything: they are escaped, wrapped and cannot break a page or a terminal.
#include "sheet/document.h"
#include "sheet/html.h"
#include "sheet/plain_text.h"
#include "sheet/sample_plan.h"
#include "support/catch.h"

#include <cstdlib>
#include <fstream>

namespace tacksquare {
namespace {

const std::string kMarkup = "<script>alert('x')</script> & \"quotes\" ]]>";
const std::string kArabic = "\xD8\xB5\xD9\x86\xD8\xAF\xD9\x88\xD9\x82"; // reads from right to left
const std::string kEmoji = "\xF0\x9F\x94\xA7\xF0\x9F\x94\xA7";
const std::string kTurned = "\xE2\x80\xAE"
                            "drawkcab";
const std::string kEscape = "\x1B[2Jcleared\x07\nnext";
const std::string kBroken = "\xC3(\xFF\xED\xA0\x80";
const std::string kLong(500, 'W');

Plan hostile_plan(const std::string& name) {
  Plan plan = test::sample_plan();
  plan.job = plan.number = plan.date = name;
  BoxPlan& box = plan.boxes[0];
  box.name = name;
  box.facts.push_back(test::say(name));
  box.steps[0].what = test::say(name);
  box.steps[0].checks[0].ladder[0].what = test::say(name);
  box.seams[0].id = box.seams[0].settings = name;
  box.runs[0].seam = box.runs[0].id = name;
  box.tacks[0].seam = name;
  box.faces[0].id = box.seams[0].face_a = name;
  box.measures[0].where = name;
  box.figures[0].source.text = name;
  box.settings[0].id = name;
  return plan;
}

// Tags opened and closed in order, attributes quoted, only the five entities and numbers: what an XML reader
// asks for. Returns what is wrong, or nothing.
std::string fault_of_xml(const std::string& page) {
  std::vector<std::string> open;
  for (std::size_t i = 0; i < page.size(); ++i) {
    if (page[i] == '&') {
      const std::size_t end = page.find(';', i);
      const std::string name = page.substr(i + 1, end - i - 1);
      if (name != "amp" && name != "lt" && name != "gt" && name != "quot" && name.substr(0, 1) != "#")
        return "entity " + name;
    }
    if (page[i] != '<') continue;
    if (page.compare(i, 9, "<!DOCTYPE") == 0) continue;
    std::size_t end = i + 1;
    for (bool quoted = false; end < page.size() && (quoted || page[end] != '>'); ++end) {
      if (page[end] == '"') quoted = !quoted;
      if (page[end] == '<') return "a < in a tag near " + page.substr(i, 60);
    }
    if (end == page.size()) return "an open tag";
    const std::string inside = page.substr(i + 1, end - i - 1);
    const std::string name = inside.substr(0, inside.find_first_of(" />", 1));
    if (inside[0] == '/') {
      if (open.empty() || open.back() != inside.substr(1)) return "closed out of order: " + inside;
      open.pop_back();
    } else if (inside.back() != '/') {
      open.push_back(name);
    }
    i = end;
  }
  return open.empty() ? "" : "never closed: " + open.back();
}

TEST_CASE("the checker of well-formed pages finds what is not") {
  CHECK(fault_of_xml("<a b=\"&lt;\"><c/></a>").empty());
  CHECK(!fault_of_xml("<a><b></a></b>").empty());
  CHECK(!fault_of_xml("<a>&nbsp;</a>").empty());
  CHECK(!fault_of_xml("<a>").empty());
}

TEST_CASE("whatever a name holds, the page is well-formed and the text keeps its width") {
  for (const std::string& name : {kMarkup, kArabic, kEmoji, kTurned, kEscape, kBroken, kLong,
                                  std::string("{text}"), std::string(" ")}) {
    INFO(name.substr(0, 40));
    const Document document = make_document(hostile_plan(name), {});
    const std::string page = write_html(document);
    CHECK(fault_of_xml(page).empty());
    CHECK(page.find("<script") == std::string::npos);
    const std::string text = write_text(document);
    for (std::size_t from = 0; from < text.size();) {
      const std::size_t end = text.find('\n', from);
      if (columns_of(text.substr(from, end - from)) > 80) FAIL_CHECK(text.substr(from, end - from));
      from = end + 1;
    }
    for (const std::string* out : {&page, &text})
      for (const char c : *out)
        if (c != '\n' && static_cast<unsigned char>(c) < 0x20)
          FAIL_CHECK("control character " << static_cast<int>(c));
  }
}

TEST_CASE("an XML reader that is not ours takes the page") {
  if (std::system("xmllint --version >/dev/null 2>&1") != 0) {
    WARN("no xmllint here: left out");
    return;
  }
  char path[] = "/tmp/tacksquare-sheet-XXXXXX";
  const int file = mkstemp(path);
  REQUIRE(file >= 0);
  for (const std::string& name : {std::string("GEAR LOCKER"), kMarkup, kBroken, kTurned}) {
    std::ofstream(path, std::ios::binary | std::ios::trunc)
        << write_html(make_document(hostile_plan(name), {}));
    CHECK(std::system((std::string("xmllint --noout ") + path).c_str()) == 0);
  }
  std::remove(path);
}

TEST_CASE("the page needs nothing from outside and runs no script") {
  const std::string page = write_html(make_document(test::sample_plan(), {}));
  for (const char* part :
       {"<script", "<link", "<img", "<iframe", "url(", "@import", "src=", "href=", "javascript"}) {
    INFO(part);
    CHECK(page.find(part) == std::string::npos);
  }
  CHECK(page.find("lang=\"en-GB\"") != std::string::npos);
  CHECK(page.find("name=\"viewport\"") != std::string::npos);
  CHECK(page.find("scope=\"col\"") != std::string::npos);
}

TEST_CASE("clean text keeps its signs and loses what can do harm") {
  CHECK(cleaned("Gr\xC3\xB6\xC3\x9F"
                "e \xE6\x9C\xA8") == "Gr\xC3\xB6\xC3\x9F"
                                     "e \xE6\x9C\xA8");
  CHECK(cleaned("a\tb\nc") == "a b c");
  CHECK(cleaned("\x1B") == "\xEF\xBF\xBD");
  CHECK(cleaned("\xC0\xAF") == "\xEF\xBF\xBD\xEF\xBF\xBD"); // overlong "/"
  CHECK(cleaned("\xE2\x80\xAE") == "\xEF\xBF\xBD");         // right-to-left override
  CHECK(cleaned("\xE2\x80") == "\xEF\xBF\xBD\xEF\xBF\xBD");
}

// Widths after Unicode 15 (EastAsianWidth, category Mn), from memory.
TEST_CASE("columns of a terminal: wide signs take two, combining marks none") {
  CHECK(columns_of("abc") == 3);
  CHECK(columns_of("\xC3\xB6") == 1);
  CHECK(columns_of("o\xCC\x88") == 1);
  CHECK(columns_of("\xE6\x9C\xA8") == 2);
  CHECK(columns_of("\xF0\x9F\x94\xA7") == 2);
}

TEST_CASE("wrapping breaks at spaces, and in a word only where it must") {
  CHECK(wrapped("one two three", 7) == std::vector<std::string>{"one two", "three"});
  CHECK(wrapped("", 7) == std::vector<std::string>{""});
  CHECK(wrapped("abcdefghij kl", 4) == std::vector<std::string>{"abcd", "efgh", "ij", "kl"});
  CHECK(wrapped("\xE6\x9C\xA8\xE6\x9C\xA8\xE6\x9C\xA8", 5) ==
        std::vector<std::string>{"\xE6\x9C\xA8\xE6\x9C\xA8", "\xE6\x9C\xA8"});
}

} // namespace
} // namespace tacksquare
