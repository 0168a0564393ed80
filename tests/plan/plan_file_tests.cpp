// plan.xml: written, read back to an equal plan, and trusted by nobody.
#include "hand_plan.h"
#include "plan/file/plan_file.h"
#include "support/golden.h"
#include "support/planned.h"
#include "support/repeat.h"

#include <pugixml.hpp>

#include <sstream>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::string text_of(const pugi::xml_document& document) {
  std::ostringstream out;
  document.save(out, " ", pugi::format_indent, pugi::encoding_utf8);
  return out.str();
}

void load(pugi::xml_document& document, const std::string& text) {
  REQUIRE(document.load_buffer(text.data(), text.size()));
}

// Every element below the node, in document order.
void collect(pugi::xml_node node, std::vector<pugi::xml_node>& all) {
  for (const pugi::xml_node child : node.children()) {
    all.push_back(child);
    collect(child, all);
  }
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const std::size_t at = text.find(what);
  if (at == std::string::npos) FAIL("the plan does not hold " << what);
  return text.replace(at, what.size(), by);
}

// Codes of all diagnostics, in order.
std::vector<std::string> codes(const std::string& text) {
  const PlanReading reading = read_plan(text);
  std::vector<std::string> all;
  for (const Diagnostic& d : reading.diagnostics.items()) {
    all.push_back(d.code);
    CHECK_FALSE(d.message.empty());
  }
  CHECK(reading.plan.has_value() == all.empty());
  CHECK(reading.changed.has_value() == (all == std::vector<std::string>{"plan-changed"}));
  return all;
}

using Codes = std::vector<std::string>;

// Of the elements that are spoilt one after the other: each, under the sanitizers each fifth.
constexpr auto kEach = static_cast<std::size_t>(times(1, 5));

} // namespace

TEST_CASE("a plan reads back equal, whatever its fields hold") {
  const Plan plan = hand_plan();
  const PlanReading reading = read_plan(write_plan(plan));
  INFO(told(reading.diagnostics));
  REQUIRE(reading.plan);
  CHECK(*reading.plan == plan);
  CHECK(write_plan(*reading.plan) == write_plan(plan));
  CHECK(plan_signature(*reading.plan) == plan_signature(plan));
}

TEST_CASE("the format of plan.xml is the one that was promised") {
  check_golden("hand-plan.xml", write_plan(hand_plan()));
}

TEST_CASE("the plan of each sample reads back equal") {
  for (const std::string& name : sample_names()) {
    INFO(name);
    const Plan& plan = planned_sample(name).plan;
    const PlanReading reading = read_plan(write_plan(plan));
    INFO(told(reading.diagnostics));
    REQUIRE(reading.plan);
    CHECK(*reading.plan == plan);
  }
}

TEST_CASE("no attribute of a plan can be changed, lost or doubled unnoticed") {
  const std::string text = write_plan(hand_plan());
  pugi::xml_document document;
  load(document, text);
  std::vector<pugi::xml_node> elements;
  collect(document, elements);
  int changed = 0;
  for (std::size_t i = 0; i < elements.size(); i += kEach)
    for (pugi::xml_attribute attribute : elements[i].attributes()) {
      INFO(elements[i].path() << " " << attribute.name());
      const std::string was = attribute.value();
      attribute.set_value(("1" + was).c_str());
      CHECK_FALSE(read_plan(text_of(document)).plan);
      attribute.set_value(was.c_str());
      ++changed;
    }
  CHECK(changed > times(300, 40));
  for (std::size_t i = 0; i < elements.size(); i += kEach) {
    std::vector<std::string> names;
    for (const pugi::xml_attribute attribute : elements[i].attributes())
      names.push_back(attribute.name());
    for (const std::string& name : names) {
      INFO(elements[i].path() << " " << name);
      pugi::xml_document less, more;
      load(less, text);
      load(more, text);
      std::vector<pugi::xml_node> of_less, of_more;
      collect(less, of_less);
      collect(more, of_more);
      of_less[i].remove_attribute(name.c_str());
      CHECK_FALSE(read_plan(text_of(less)).plan);
      of_more[i].append_attribute(name.c_str()).set_value(elements[i].attribute(name.c_str()).value());
      CHECK_FALSE(read_plan(text_of(more)).plan);
    }
  }
}

TEST_CASE("no element of a plan can be lost, doubled or renamed unnoticed") {
  const std::string text = write_plan(hand_plan());
  pugi::xml_document document;
  load(document, text);
  std::vector<pugi::xml_node> elements;
  collect(document, elements);
  REQUIRE(elements.size() > 200);
  for (std::size_t i = 0; i < elements.size(); i += kEach) {
    INFO(elements[i].path());
    pugi::xml_document less, more, other;
    std::vector<pugi::xml_node> of_less, of_more, of_other;
    load(less, text);
    load(more, text);
    load(other, text);
    collect(less, of_less);
    collect(more, of_more);
    collect(other, of_other);
    of_less[i].parent().remove_child(of_less[i]);
    CHECK_FALSE(read_plan(text_of(less)).plan);
    of_other[i].set_name("stranger");
    CHECK_FALSE(read_plan(text_of(other)).plan);
    of_more[i].parent().insert_copy_after(of_more[i], of_more[i]);
    CHECK_FALSE(read_plan(text_of(more)).plan);
  }
}

TEST_CASE("each mistake in a plan is told with its place, all of them in one run") {
  const std::string good = write_plan(hand_plan());
  REQUIRE(codes(good).empty());

  CHECK(codes("") == Codes{"plan-not-xml"});
  CHECK(codes("no xml") == Codes{"plan-not-xml"});
  CHECK(codes("<tacksquare-plan") == Codes{"plan-not-xml"});
  CHECK(codes(good.substr(0, good.size() / 2)) == Codes{"plan-not-xml"});
  CHECK(codes("<tacksquare-job/>") == Codes{"plan-root"});
  CHECK(codes(good + "<tacksquare-plan/>") == Codes{"plan-root"});
  CHECK(codes(replaced(good, "format=\"1\"", "format=\"2\"")) == Codes{"plan-format"});
  CHECK(codes(replaced(good, "mass-kg=\"13.2\"", "mass-kg=\"13.3\"")) == Codes{"plan-changed"});
  CHECK(codes(replaced(good, " mass-kg=\"13.2\"", "")) == Codes{"plan-missing"});
  CHECK(codes(replaced(good, "mass-kg=\"13.2\"", "mass-kg=\"\"")) == Codes{"plan-value"});
  CHECK(codes(replaced(good, "mass-kg=\"13.2\"", "mass-kg=\"13,2\"")) == Codes{"plan-value"});
  CHECK(codes(replaced(good, "mass-kg=\"13.2\"", "mass-kg=\"inf\"")) == Codes{"plan-value"});
  CHECK(codes(replaced(good, "phase=\"final-check\"", "phase=\"later\"")) == Codes{"plan-value"});
  CHECK(codes(replaced(good, "safe-stop-after=\"true\"", "safe-stop-after=\"yes\"")) == Codes{"plan-value"});
  CHECK(codes(replaced(good, "<low ", "<low z=\"1\" ")) == Codes{"plan-twice"});
  CHECK(codes(replaced(good, "<low ", "<low w=\"1\" ")) == Codes{"plan-unknown"});
  CHECK(codes(replaced(good, "<low ", "<lower/><low ")) == Codes{"plan-unknown"});
  CHECK(codes(replaced(good, "<low ", "<low x=\"1\" y=\"1\" z=\"1\"/><low ")) == Codes{"plan-twice"});
  CHECK(codes(replaced(good, "<low ", "stray <low ")) == Codes{"plan-unknown"});

  const PlanReading heavier = read_plan(replaced(good, "mass-kg=\"13.2\"", "mass-kg=\"13.3\""));
  REQUIRE(heavier.changed);
  CHECK(heavier.changed->boxes[0].mass_kg == 13.3);

  const std::string two =
      replaced(replaced(good, " mass-kg=\"13.2\"", ""), "phase=\"final-check\"", "phase=\"x\"");
  const PlanReading reading = read_plan(two);
  REQUIRE(reading.diagnostics.items().size() == 2);
  for (const Diagnostic& d : reading.diagnostics.items()) {
    REQUIRE(d.where.known());
    CHECK(d.where.offset < two.size());
    CHECK_FALSE(d.remedy.empty());
  }
  // The element's name stands there.
  CHECK(two.substr(reading.diagnostics.items()[0].where.offset, 3) == "box");
  CHECK(two.substr(reading.diagnostics.items()[1].where.offset, 4) == "step");
}

TEST_CASE("texts nested without end are refused, not followed") {
  std::string deep, back;
  for (int i = 0; i < 200000; ++i) {
    deep += "<text key=\"k\"><arg name=\"a\" kind=\"list\">";
    back += "</arg></text>";
  }
  const std::string good = write_plan(hand_plan());
  const std::size_t at = good.find("<fact ");
  REQUIRE(at != std::string::npos);
  const std::string bad = good.substr(0, at) + "<fact key=\"k\"><arg name=\"a\" kind=\"list\">" + deep +
                          back + "</arg></fact>" + good.substr(at);
  CHECK(codes(bad) == Codes{"plan-deep"});
}

TEST_CASE("the signature changes with every plan, and is the same for equal ones") {
  const Plan plan = hand_plan();
  CHECK(plan_signature(plan) == plan_signature(hand_plan()));
  Plan other = plan;
  other.boxes[0].figures[0].value.high = std::nextafter(other.boxes[0].figures[0].value.high, 0.0);
  CHECK(plan_signature(other) != plan_signature(plan));
  // A text moved from one list to the next is another plan.
  Plan moved = plan;
  moved.boxes[0].care.insert(moved.boxes[0].care.begin(), moved.boxes[0].kit.back());
  moved.boxes[0].kit.pop_back();
  CHECK(plan_signature(moved) != plan_signature(plan));
  Plan split = plan;
  split.boxes[0].steps[0].tacks = {"S1@12S2@12"};
  CHECK(plan_signature(split) != plan_signature(plan));
}
