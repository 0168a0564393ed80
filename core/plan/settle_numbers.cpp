#include "plan/describe.h"
#include "plan/plan.h"

#include <array>
#include <charconv>

namespace tacksquare {
namespace {

void settle(double& number) {
  constexpr int kDigits = 9;
  std::array<char, 40> text{};
  const auto written = std::to_chars(text.data(), text.data() + text.size(), number,
                                     std::chars_format::scientific, kDigits - 1);
  std::from_chars(text.data(), written.ptr, number);
  if (number == 0.0) number = 0.0; // no minus zero
}

// Visitor of describe.h.
class Settling {
 public:
  void value(const char*, double& field) { settle(field); }
  void value(const char*, std::optional<double>& field) {
    if (field) settle(*field);
  }
  template <class T> void value(const char*, T&) {}
  void text(const char* name, Text& field) {
    for (Arg& arg : field.args) {
      settle(arg.number);
      texts(name, arg.list);
    }
  }
  void texts(const char* name, std::vector<Text>& field) {
    for (Text& one : field)
      text(name, one);
  }
  void band(const char*, Band& field) {
    settle(field.value);
    settle(field.low);
    settle(field.high);
  }
  void band(const char* name, std::optional<Band>& field) {
    if (field) band(name, *field);
  }
  void source(const char*, Source&) {}
  void point(const char*, Vec3& field) {
    settle(field.x);
    settle(field.y);
    settle(field.z);
  }
  void points(const char* name, std::vector<Vec3>& field) {
    for (Vec3& one : field)
      point(name, one);
  }
  void spot(const char*, Vec2& field) {
    settle(field.x);
    settle(field.y);
  }
  void spot(const char* name, std::optional<Vec2>& field) {
    if (field) spot(name, *field);
  }
  void ring(const char* name, std::vector<Vec2>& field) {
    for (Vec2& at : field)
      spot(name, at);
  }
  void rings(const char* name, std::vector<std::vector<Vec2>>& field) {
    for (auto& one : field)
      ring(name, one);
  }
  void strings(const char*, std::vector<std::string>&) {}
  void indices(const char*, std::vector<std::size_t>&) {}
  void numbers(const char*, std::vector<double>& field) {
    for (double& one : field)
      settle(one);
  }
  template <class T> void child(const char*, T& field) { describe(*this, field); }
  template <class T> void child(const char*, std::optional<T>& field) {
    if (field) describe(*this, *field);
  }
  template <class T> void children(const char*, std::vector<T>& field) {
    for (T& one : field)
      describe(*this, one);
  }
};

} // namespace

void settle_numbers(Plan& plan) {
  Settling settling;
  describe(settling, plan);
}

} // namespace tacksquare
