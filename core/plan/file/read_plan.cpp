#include "plan/file/plan_file.h"

#include "plan/describe.h"
#include "plan/words.h"

#include <pugixml.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <concepts>
#include <set>

namespace tacksquare {
namespace {

Origin origin_of(pugi::xml_node node) {
  const std::ptrdiff_t offset = node.offset_debug();
  return offset < 0 ? Origin{} : Origin{static_cast<std::size_t>(offset)};
}

template <class N> bool parse_whole(std::string_view text, N& out) {
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), out);
  return fault == std::errc() && end == text.data() + text.size();
}

bool take(std::string_view text, std::string& field) {
  field = text;
  return true;
}
bool take(std::string_view text, bool& field) {
  field = text == "true";
  return field || text == "false";
}
bool take(std::string_view text, char& field) {
  if (text.size() != 1) return false;
  field = text[0];
  return true;
}
bool take(std::string_view text, std::integral auto& field) {
  return parse_whole(text, field);
}
bool take(std::string_view text, double& field) {
  return parse_whole(text, field) && std::isfinite(field);
}
// Between single spaces.
bool take(std::string_view text, std::vector<double>& field) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    if (!take(text.substr(0, end), field.emplace_back()) || end + 1 == text.size()) return false;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return true;
}
template <class E>
requires std::is_enum_v<E>
bool take(std::string_view text, E& field) {
  const auto words = words_of(E{});
  const auto found = std::find(words.begin(), words.end(), text);
  if (found == words.end()) return false;
  field = static_cast<E>(found - words.begin());
  return true;
}

// Visitor of describe.h that takes one element apart. What it does not take is an error.
class Reading {
 public:
  Reading(pugi::xml_node node, Diagnostics& out) : node_(node), out_(out) {}

  template <class T> void value(const char* name, T& field) {
    known_.insert(name);
    const pugi::xml_attribute attribute = node_.attribute(name);
    if (!attribute)
      missing("attribute", name);
    else
      accept(attribute, field);
  }
  template <class T> void value(const char* name, std::optional<T>& field) {
    known_.insert(name);
    if (const pugi::xml_attribute attribute = node_.attribute(name)) accept(attribute, field.emplace());
  }
  void text(const char* name, Text& field) {
    known_.insert(name);
    const pugi::xml_node child = node_.child(name);
    if (!child) return;
    alone(child);
    field = read_text(child);
  }
  void texts(const char* name, std::vector<Text>& field) {
    each(name, [&](pugi::xml_node child) { field.push_back(read_text(child)); });
  }
  void band(const char* name, Band& field) {
    one(name, [&](Reading& inner) {
      inner.value("value", field.value);
      inner.value("low", field.low);
      inner.value("high", field.high);
    });
  }
  void band(const char* name, std::optional<Band>& field) {
    if (stands(name)) band(name, field.emplace());
  }
  void source(const char* name, Source& field) {
    one(name, [&](Reading& inner) {
      inner.value("text", field.text);
      inner.value("mark", field.mark);
    });
  }
  void point(const char* name, Vec3& field) {
    one(name, [&](Reading& inner) { inner.coordinates(field); });
  }
  void spot(const char* name, Vec2& field) {
    one(name, [&](Reading& inner) {
      inner.value("x", field.x);
      inner.value("y", field.y);
    });
  }
  void spot(const char* name, std::optional<Vec2>& field) {
    if (stands(name)) spot(name, field.emplace());
  }
  void points(const char* name, std::vector<Vec3>& field) {
    each(name, [&](pugi::xml_node child) {
      Reading inner(child, out_);
      inner.coordinates(field.emplace_back());
      inner.finish();
    });
  }
  void ring(const char* name, std::vector<Vec2>& field) {
    one(name, [&](Reading& inner) { inner.corners(field); });
  }
  void rings(const char* name, std::vector<std::vector<Vec2>>& field) {
    each(name, [&](pugi::xml_node child) {
      Reading inner(child, out_);
      inner.corners(field.emplace_back());
      inner.finish();
    });
  }
  void strings(const char* name, std::vector<std::string>& field) {
    each(name, [&](pugi::xml_node child) {
      Reading inner(child, out_);
      inner.value("is", field.emplace_back());
      inner.finish();
    });
  }
  void indices(const char* name, std::vector<std::size_t>& field) {
    each(name, [&](pugi::xml_node child) {
      Reading inner(child, out_);
      inner.value("is", field.emplace_back());
      inner.finish();
    });
  }
  void numbers(const char* name, std::vector<double>& field) { value(name, field); }
  template <class T> void child(const char* name, T& field) {
    one(name, [&](Reading& inner) { describe(inner, field); });
  }
  template <class T> void child(const char* name, std::optional<T>& field) {
    if (stands(name)) child(name, field.emplace());
  }
  template <class T> void children(const char* name, std::vector<T>& field) {
    each(name, [&](pugi::xml_node child) {
      Reading inner(child, out_);
      describe(inner, field.emplace_back());
      inner.finish();
    });
  }

  // After all fields: nothing may be left over.
  void finish() {
    std::set<std::string> seen;
    for (const pugi::xml_attribute attribute : node_.attributes()) {
      const std::string name = attribute.name();
      if (!known_.count(name))
        unknown("attribute", name);
      else if (!seen.insert(name).second)
        out_.error("plan-twice", origin_of(node_), "attribute '" + name + "' stands twice", remedy());
    }
    for (const pugi::xml_node child : node_.children())
      if (!known_.count(child.name())) unknown("element", child.name());
  }

 private:
  void coordinates(Vec3& field) {
    value("x", field.x);
    value("y", field.y);
    value("z", field.z);
  }
  void corners(std::vector<Vec2>& field) {
    each("at", [&](pugi::xml_node child) {
      Reading inner(child, out_);
      Vec2& at = field.emplace_back();
      inner.value("x", at.x);
      inner.value("y", at.y);
      inner.finish();
    });
  }
  bool stands(const char* name) {
    known_.insert(name);
    return node_.child(name);
  }
  template <class F> void each(const char* name, F read) {
    known_.insert(name);
    for (const pugi::xml_node child : node_.children(name))
      read(child);
  }
  template <class F> void one(const char* name, F read) {
    known_.insert(name);
    const pugi::xml_node child = node_.child(name);
    if (!child) return missing("element", name);
    alone(child);
    Reading inner(child, out_);
    read(inner);
    inner.finish();
  }
  void alone(pugi::xml_node first) {
    if (const pugi::xml_node second = first.next_sibling(first.name()))
      out_.error("plan-twice", origin_of(second), "<" + std::string(first.name()) + "> stands twice",
                 remedy(), Note{"the first one", origin_of(first)});
  }
  template <class T> void accept(pugi::xml_attribute attribute, T& field) {
    if (!take(attribute.value(), field))
      out_.error("plan-value", origin_of(node_),
                 "'" + std::string(attribute.value()) + "' is no value of attribute '" + attribute.name() +
                     "'",
                 remedy());
  }
  Text read_text(pugi::xml_node node) {
    Text text;
    Reading inner(node, out_);
    inner.value("key", text.key);
    inner.each("arg", [&](pugi::xml_node child) {
      Arg& arg = text.args.emplace_back();
      Reading fields(child, out_);
      fields.value("name", arg.name);
      fields.value("kind", arg.kind);
      std::optional<double> number;
      std::optional<std::string> word;
      fields.value("number", number);
      fields.value("word", word);
      arg.number = number.value_or(0.0);
      arg.word = word.value_or(std::string());
      fields.texts("text", arg.list);
      fields.finish();
    });
    inner.finish();
    return text;
  }
  void missing(const std::string& what, const std::string& name) {
    out_.error("plan-missing", origin_of(node_),
               "<" + std::string(node_.name()) + "> lacks the " + what + " '" + name + "'", remedy());
  }
  void unknown(const std::string& what, const std::string& name) {
    out_.error("plan-unknown", origin_of(node_),
               "<" + std::string(node_.name()) + "> has an unknown " + what + " '" + name + "'", remedy());
  }
  static std::string remedy() { return "plans are written by tacksquare, not by hand: plan the job again"; }

  pugi::xml_node node_;
  Diagnostics& out_;
  std::set<std::string> known_;
};

// Texts may stand in texts, but no plan needs more than a few levels.
bool too_deep(pugi::xml_node root) {
  constexpr int kDeepest = 64;
  int depth = 0;
  for (pugi::xml_node node = root; node;) {
    if (depth > kDeepest) return true;
    if (node.first_child()) {
      node = node.first_child();
      ++depth;
      continue;
    }
    while (node != root && !node.next_sibling()) {
      node = node.parent();
      --depth;
    }
    if (node == root) return false;
    node = node.next_sibling();
  }
  return false;
}

struct Head {
  std::string format, signature;
};

} // namespace

PlanReading read_plan(std::string_view text) {
  PlanReading result;
  pugi::xml_document document;
  const pugi::xml_parse_result parsed = document.load_buffer(text.data(), text.size(), pugi::parse_default);
  if (!parsed) {
    result.diagnostics.error("plan-not-xml",
                             Origin{static_cast<std::size_t>(std::max<std::ptrdiff_t>(parsed.offset, 0))},
                             std::string("not XML: ") + parsed.description());
    return result;
  }
  const pugi::xml_node root = document.document_element();
  if (std::string_view(root.name()) != "tacksquare-plan") {
    result.diagnostics.error("plan-root", origin_of(root),
                             "the root element is <" + std::string(root.name()) + ">, not <tacksquare-plan>");
    return result;
  }
  for (pugi::xml_node after = root.next_sibling(); after; after = after.next_sibling())
    result.diagnostics.error("plan-root", origin_of(after), "something stands behind the plan",
                             "plan the job again");
  if (too_deep(root)) {
    result.diagnostics.error("plan-deep", origin_of(root), "the plan is nested too deep",
                             "plan the job again");
    return result;
  }
  Plan plan;
  Head head;
  Reading reading(root, result.diagnostics);
  reading.value("format", head.format);
  reading.value("signature", head.signature);
  describe(reading, plan);
  reading.finish();
  if (result.diagnostics.has_errors()) return result;
  if (head.format != "1") {
    result.diagnostics.error("plan-format", origin_of(root), "plan format '" + head.format + "' is not known",
                             "this program reads format 1");
  } else if (const std::string expected = plan_signature(plan); head.signature != expected) {
    result.diagnostics.error("plan-changed", origin_of(root),
                             "the plan was changed after it was signed: " + head.signature + " stands, " +
                                 expected + " would be right",
                             "plan the job again");
    result.changed = std::move(plan);
  } else {
    result.plan = std::move(plan);
  }
  return result;
}

} // namespace tacksquare
