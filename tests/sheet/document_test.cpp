// Every string of the Document is found in every output, and an output is the same bytes each time.
#include "sheet/document.h"
#include "sheet/plain_text.h"
#include "sheet/sample_row.h"
#include "support/catch.h"
#include "support/locker_fixture.h"

#include <algorithm>
#include <set>
#include <sstream>

namespace tacksquare {
namespace {

// With everything that a plan may have and the hand can make.
Plan whole_plan() {
  Plan plan = test::sample_plan_in_row();
  plan.boxes.at(0).fixture = test::locker_fixture(plan.boxes[0]);
  return plan;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    out.push_back(line);
  return out;
}

// All strings that a writer has to print. Drawings are for writers that can draw.
struct Strings {
  std::vector<std::string> all;
  bool drawings = false;

  void add(const std::string& text) {
    if (!text.empty()) all.push_back(text);
  }
  void add(const std::vector<std::string>& texts) {
    for (const std::string& text : texts)
      add(text);
  }
  void add(const DocumentBlock& block) {
    add(block.title);
    add(block.lines);
  }
  void add(const DocumentTable& table) {
    add(table.title);
    add(table.head);
    for (const auto& row : table.rows)
      add(row);
    add(table.below);
  }
  void add(const Drawing& drawing) {
    add(drawing.title);
    add(drawing.told);
    for (const DrawnLabel& label : drawing.labels)
      add(label.text);
  }
  void add(const DocumentStep& step) {
    for (const std::string* text :
         {&step.number, &step.who, &step.what, &step.record, &step.meanwhile, &step.hold, &step.time})
      add(*text);
    add(step.notes);
    add(step.names);
    for (const DocumentCheck& check : step.checks) {
      for (const std::string* text :
           {&check.what, &check.gauge, &check.go, &check.expect, &check.unit, &check.put_right_as})
        add(*text);
      for (const DocumentBlanks& group : check.blanks) {
        add(group.place);
        add(group.each);
      }
      for (const DocumentRung& rung : check.put_right)
        for (const std::string* text : {&rung.who, &rung.what, &rung.time})
          add(*text);
    }
  }
  void add(const DocumentPage& page) {
    add(page.title);
    add(page.page);
    add(page.head);
    add(page.red);
    if (!page.red.empty()) add(page.red_title);
    for (const DocumentSection& section : page.sections) {
      if (!section.block.lines.empty()) add(section.block);
      for (const DocumentTable& table : section.tables)
        add(table);
      if (!drawings) continue;
      for (const Drawing& drawing : section.drawings)
        add(drawing);
    }
  }
  void add(const DocumentBox& box) {
    add(box.title);
    for (const DocumentPage& page : box.cards)
      add(page);
    for (const auto* texts : {&box.head, &box.red, &box.facts, &box.sign_off})
      add(*texts);
    for (const auto* blocks : {&box.settings, &box.before, &box.notes})
      for (const DocumentBlock& block : *blocks)
        add(block);
    add(box.seam_map);
    for (const DocumentPhase& phase : box.phases) {
      add(phase.title);
      for (const DocumentStep& step : phase.steps)
        add(step);
    }
    for (const DocumentTable& table : box.foreman)
      add(table);
    if (!drawings) return;
    for (const auto* each : {&box.bench_drawings, &box.foreman_drawings})
      for (const Drawing& drawing : *each)
        add(drawing);
  }
};

Strings strings_of(const Document& document, bool drawings) {
  Strings out;
  out.drawings = drawings;
  out.add(document.title);
  out.add(document.signature);
  out.add(document.defer);
  out.add(document.legend);
  for (const DocumentPage& page : document.first)
    out.add(page);
  for (const DocumentBox& box : document.boxes)
    out.add(box);
  const PageWords& w = document.words;
  for (const std::string* text :
       {&w.bench, &w.foreman, &w.settings, &w.check, &w.off, &w.stop_here, &w.sign, &w.red, &w.plan})
    out.add(*text);
  return out;
}

std::string without_spaces(const std::string& text) {
  std::string out;
  std::copy_if(text.begin(), text.end(), std::back_inserter(out),
               [](char c) { return c != ' ' && c != '\n'; });
  return out;
}

// Cells of a table and wrapped lines stand beside other text: each word of the string must be there, and
// where it is a sentence of its own, all of it.
bool told(const std::string& page, const std::string& page_without_spaces, const std::string& text) {
  if (page_without_spaces.find(without_spaces(text)) != std::string::npos) return true;
  std::istringstream words(text);
  for (std::string word; words >> word;)
    if (page.find(word) == std::string::npos) return false;
  return true;
}

std::string read_html(const std::string& html) {
  std::string text = html.substr(html.find("</style>"));
  std::string out;
  bool tag = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '<') tag = true;
    if (!tag) out += text[i];
    if (text[i] == '>') {
      tag = false;
      if (out.empty() || out.back() != '\n') out += '\n';
    }
  }
  const std::pair<const char*, const char*> entities[] = {{"&lt;", "<"},  {"&gt;", ">"},   {"&quot;", "\""},
                                                          {"&#39;", "'"}, {"&#183;", " "}, {"&amp;", "&"}};
  for (const auto& [from, to] : entities)
    for (std::size_t at = out.find(from); at != std::string::npos; at = out.find(from, at + 1))
      out.replace(at, std::string(from).size(), to);
  return out;
}

TEST_CASE("every string of the document is found in the text, whatever its width") {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inch_decimal, UnitSystem::inch_fractions}) {
    const Document document = make_document(whole_plan(), {units, "en-GB"});
    const Strings strings = strings_of(document, false);
    REQUIRE(strings.all.size() > 300);
    for (const int columns : {80, 120}) {
      const std::string page = write_text(document, columns);
      const std::string packed = without_spaces(page);
      for (const std::string& text : strings.all) {
        INFO(columns << " columns: " << text);
        CHECK(told(page, packed, text));
      }
    }
  }
}

TEST_CASE("every string of the document, drawings included, is found in the page after unescaping") {
  const Document document = make_document(whole_plan(), {});
  const std::string page = read_html(write_html(document));
  const std::string packed = without_spaces(page);
  for (const std::string& text : strings_of(document, true).all) {
    INFO(text);
    CHECK(packed.find(without_spaces(text)) != std::string::npos);
  }
}

TEST_CASE("no line of the text is wider than the terminal and none ends in a space") {
  const Document document = make_document(whole_plan(), {});
  for (const int columns : {40, 80, 120}) {
    const auto lines = lines_of(write_text(document, columns));
    REQUIRE(lines.size() > 100);
    for (const std::string& line : lines) {
      INFO(columns << ": " << line);
      CHECK(columns_of(line) <= columns);
      CHECK((line.empty() || line.back() != ' '));
    }
  }
}

TEST_CASE("the signature of the plan stands on the bench card and on the foreman's pages of each box") {
  Plan plan = test::sample_plan();
  plan.boxes.push_back(plan.boxes.front());
  plan.boxes.back().id = "second";
  const Document document = make_document(plan, {});
  const auto count_in = [&](const std::string& page) {
    int count = 0;
    for (std::size_t at = page.find(document.signature); at != std::string::npos;
         at = page.find(document.signature, at + 1))
      ++count;
    return count;
  };
  CHECK(count_in(write_text(document)) == 4);
  CHECK(count_in(write_html(document)) == 5); // and in the title
}

TEST_CASE("the same plan gives the same bytes, another plan another signature") {
  const Plan plan = test::sample_plan();
  CHECK(write_text(make_document(plan, {})) == write_text(make_document(plan, {})));
  CHECK(write_html(make_document(plan, {})) == write_html(make_document(plan, {})));
  Plan other = plan;
  other.boxes[0].runs[0].arc_s += 0.1;
  CHECK(make_document(plan, {}).signature != make_document(other, {}).signature);
}

TEST_CASE("the bench card keeps one thing a step: number, who, box to tick") {
  const Document document = make_document(test::sample_plan(), {});
  std::set<std::string> numbers;
  for (const DocumentPhase& phase : document.boxes[0].phases)
    for (const DocumentStep& step : phase.steps) {
      CHECK(numbers.insert(step.number).second);
      CHECK(!step.who.empty());
      CHECK(!step.what.empty());
      CHECK(step.names.empty() == step.hold.empty());
      if (step.number == "4") CHECK(step.names == std::vector<std::string>{"G", "W"});
      if (step.number == "17") CHECK(step.names == std::vector<std::string>{"F"});
    }
  CHECK(numbers.size() == 17);
}

TEST_CASE("a check says what passes, rounded to the strict side of what the gauge reads") {
  Plan plan = test::sample_plan();
  auto& checks = plan.boxes[0].steps[13].checks;
  checks[0].accept_low_mm = 398.84; // calliper, 0.1 mm
  checks[0].accept_high_mm = 400.06;
  checks[1].no_change_seen = true;
  const auto shown = [&](UnitSystem units) {
    const Document document = make_document(plan, {units, "en-GB"});
    for (const DocumentPhase& phase : document.boxes[0].phases)
      for (const DocumentStep& step : phase.steps)
        if (step.number == "14") return step.checks;
    return std::vector<DocumentCheck>();
  };
  const auto metric = shown(UnitSystem::metric);
  REQUIRE(metric.size() == 3);
  CHECK(metric[0].go == "398.9 to 400.0 mm");
  CHECK(metric[0].expect == "expect 399.7 mm (399.5 to 399.9 mm)");
  CHECK(metric[1].go == "within 1.5 mm either way");
  CHECK(metric[1].expect == "expect no change you can see; more than 1.5 mm: stop");
  CHECK(metric[2].go == "not over 1.00 mm");
  const auto inch = shown(UnitSystem::inch_fractions);
  CHECK(inch[0].go == "15.703 to 15.750 in");       // a calliper reads thousandths
  CHECK(inch[1].go == "within 3/64 in either way"); // 1.5 mm is 3.78/64: not 1/16, which lets more through
  CHECK(inch[2].go == "not over 0.039 in");
}

} // namespace
} // namespace tacksquare
