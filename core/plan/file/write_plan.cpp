#include "plan/file/plan_file.h"

#include "base/numbers.h"
#include "plan/describe.h"
#include "plan/words.h"

#include <pugixml.hpp>

#include <concepts>
#include <string>
#include <utility>

namespace tacksquare {
namespace {

std::string put(const std::string& field) {
  return field;
}
std::string put(bool field) {
  return field ? "true" : "false";
}
std::string put(int field) {
  return std::to_string(field);
}
std::string put(long long field) {
  return std::to_string(field);
}
std::string put(double field) {
  return shortest(field);
}
std::string put(char field) {
  return std::string(1, field);
}
std::string put(std::unsigned_integral auto field) {
  return std::to_string(field);
}
template <class E>
requires std::is_enum_v<E> std::string put(E field) {
  return std::string(word_of(field));
}

// Visitor of describe.h that fills one element.
class Writing {
 public:
  explicit Writing(pugi::xml_node node) : node_(node) {}

  template <class T> void value(const char* name, const T& field) { set(node_, name, put(field)); }
  template <class T> void value(const char* name, const std::optional<T>& field) {
    if (field) value(name, *field);
  }
  void text(const char* name, const Text& field) {
    if (!field.empty()) write_text(node_.append_child(name), field);
  }
  void texts(const char* name, const std::vector<Text>& field) {
    for (const Text& one : field)
      write_text(node_.append_child(name), one);
  }
  void band(const char* name, const Band& field) {
    pugi::xml_node child = node_.append_child(name);
    set(child, "value", put(field.value));
    set(child, "low", put(field.low));
    set(child, "high", put(field.high));
  }
  void band(const char* name, const std::optional<Band>& field) {
    if (field) band(name, *field);
  }
  void source(const char* name, const Source& field) {
    pugi::xml_node child = node_.append_child(name);
    set(child, "text", field.text);
    set(child, "mark", put(field.mark));
  }
  void point(const char* name, const Vec3& field) {
    pugi::xml_node child = node_.append_child(name);
    set(child, "x", put(field.x));
    set(child, "y", put(field.y));
    set(child, "z", put(field.z));
  }
  void points(const char* name, const std::vector<Vec3>& field) {
    for (const Vec3& one : field)
      point(name, one);
  }
  void spot(const char* name, const Vec2& field) {
    pugi::xml_node child = node_.append_child(name);
    set(child, "x", put(field.x));
    set(child, "y", put(field.y));
  }
  void spot(const char* name, const std::optional<Vec2>& field) {
    if (field) spot(name, *field);
  }
  void ring(const char* name, const std::vector<Vec2>& field) {
    Writing inner(node_.append_child(name));
    for (const Vec2& at : field)
      inner.spot("at", at);
  }
  void rings(const char* name, const std::vector<std::vector<Vec2>>& field) {
    for (const auto& one : field)
      ring(name, one);
  }
  void strings(const char* name, const std::vector<std::string>& field) {
    for (const std::string& one : field)
      set(node_.append_child(name), "is", one);
  }
  void indices(const char* name, const std::vector<std::size_t>& field) {
    for (const std::size_t one : field)
      set(node_.append_child(name), "is", put(one));
  }
  void numbers(const char* name, const std::vector<double>& field) {
    std::string all;
    for (const double one : field) {
      if (!all.empty()) all += ' ';
      all += put(one);
    }
    set(node_, name, all);
  }
  template <class T> void child(const char* name, const T& field) {
    Writing inner(node_.append_child(name));
    describe(inner, field);
  }
  template <class T> void child(const char* name, const std::optional<T>& field) {
    if (field) child(name, *field);
  }
  template <class T> void children(const char* name, const std::vector<T>& field) {
    for (const T& one : field)
      child(name, one);
  }

 private:
  static void set(pugi::xml_node node, const char* name, const std::string& text) {
    node.append_attribute(name).set_value(text.c_str());
  }
  static void write_text(pugi::xml_node node, const Text& text) {
    set(node, "key", text.key);
    for (const Arg& arg : text.args) {
      pugi::xml_node child = node.append_child("arg");
      set(child, "name", arg.name);
      set(child, "kind", put(arg.kind));
      if (arg.number != 0.0) set(child, "number", put(arg.number));
      if (!arg.word.empty()) set(child, "word", arg.word);
      for (const Text& one : arg.list)
        write_text(child.append_child("text"), one);
    }
  }

  pugi::xml_node node_;
};

struct StringWriter : pugi::xml_writer {
  std::string text;
  void write(const void* data, std::size_t size) override {
    text.append(static_cast<const char*>(data), size);
  }
};

} // namespace

std::string write_plan(const Plan& plan, std::string signature) {
  if (signature.empty()) signature = plan_signature(plan);
  pugi::xml_document document;
  pugi::xml_node root = document.append_child("tacksquare-plan");
  root.append_attribute("format").set_value("1");
  root.append_attribute("signature").set_value(signature.c_str());
  Writing writing(root);
  describe(writing, plan);
  StringWriter out;
  document.save(out, " ", pugi::format_indent, pugi::encoding_utf8);
  return std::move(out.text);
}

} // namespace tacksquare
