// Elements of a written job.
#pragma once

#include "base/escape.h"
#include "base/numbers.h"
#include "base/quantity.h"
#include "base/vec.h"
#include "job/file/reading.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tacksquare {

inline std::string millimetres(double v) {
  return written(mm(v));
}
inline std::string place(Vec2 p) {
  return millimetres(p.x).append(", ").append(millimetres(p.y));
}
inline std::string place(Vec3 p) {
  return place(Vec2{p.x, p.y}).append(", ").append(millimetres(p.z));
}

// A start tag with its attributes; what is absent is left out.
class Tag {
 public:
  Tag(std::string& out, std::size_t depth, std::string_view name) : out_(out), depth_(depth), name_(name) {
    out_.append(2 * depth, ' ').append(1, '<').append(name);
  }
  Tag& with(std::string_view name, const std::string& value) {
    out_.append(1, ' ').append(name).append("=\"").append(escaped(value)).append(1, '"');
    return *this;
  }
  template <class T> Tag& with(std::string_view name, const std::optional<T>& value) {
    return value ? with(name, as_text(*value)) : *this;
  }
  // Between commas; nothing of an empty list.
  template <class Q> Tag& with(std::string_view name, const std::vector<Q>& list) {
    std::string text;
    for (const Q& item : list)
      text.append(text.empty() ? "" : ", ").append(as_text(item));
    return list.empty() ? *this : with(name, text);
  }
  template <class E> Tag& with(std::string_view name, const Words<E>& words, E value) {
    return with(name, word_of(words, value));
  }
  void empty() { out_ += "/>\n"; }
  void open() { out_ += ">\n"; }
  void close() { out_.append(2 * depth_, ' ').append("</").append(name_).append(">\n"); }

 private:
  static const std::string& as_text(const std::string& value) { return value; }
  static std::string as_text(double value) { return shortest(value); }
  template <class T> static std::string as_text(Quantity<T> value) { return written(value); }

  std::string& out_;
  std::size_t depth_;
  std::string name_;
};

} // namespace tacksquare
