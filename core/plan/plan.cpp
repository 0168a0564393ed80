#include "plan/plan.h"

#include "base/hash.h"
#include "base/numbers.h"
#include "plan/describe.h"
#include "plan/words.h"

#include <algorithm>
#include <concepts>

namespace tacksquare {
namespace {

// Feeds every field, with its name and its end, to one hash.
class Signing {
 public:
  std::uint64_t hash() const { return hash_; }

  template <class T> void value(std::string_view name, const T& field) {
    feed(name);
    put(field);
  }
  void text(std::string_view name, const Text& field) {
    feed(name);
    feed(field.key);
    for (const Arg& arg : field.args) {
      feed(arg.name);
      feed(word_of(arg.kind));
      put(arg.number);
      feed(arg.word);
      texts("text", arg.list);
    }
    feed("end");
  }
  void texts(std::string_view name, const std::vector<Text>& field) {
    for (const Text& one : field)
      text(name, one);
  }
  void band(std::string_view name, const Band& field) {
    feed(name);
    for (const double x : {field.value, field.low, field.high})
      put(x);
  }
  void band(std::string_view name, const std::optional<Band>& field) {
    if (field) band(name, *field);
  }
  void source(std::string_view name, const Source& field) {
    feed(name);
    feed(field.text);
    feed(word_of(field.mark));
  }
  void point(std::string_view name, const Vec3& field) {
    feed(name);
    for (const double x : {field.x, field.y, field.z})
      put(x);
  }
  void points(std::string_view name, const std::vector<Vec3>& field) {
    for (const Vec3& one : field)
      point(name, one);
  }
  void spot(std::string_view name, const Vec2& field) {
    feed(name);
    put(field.x);
    put(field.y);
  }
  void spot(std::string_view name, const std::optional<Vec2>& field) {
    if (field) spot(name, *field);
  }
  void ring(std::string_view name, const std::vector<Vec2>& field) {
    feed(name);
    for (const Vec2& at : field) {
      put(at.x);
      put(at.y);
    }
  }
  void rings(std::string_view name, const std::vector<std::vector<Vec2>>& field) {
    for (const auto& one : field)
      ring(name, one);
  }
  void strings(std::string_view name, const std::vector<std::string>& field) {
    for (const std::string& one : field)
      value(name, one);
  }
  void indices(std::string_view name, const std::vector<std::size_t>& field) {
    for (const std::size_t one : field)
      value(name, one);
  }
  void numbers(std::string_view name, const std::vector<double>& field) {
    feed(name);
    for (const double one : field)
      put(one);
    feed("end");
  }
  template <class T> void child(std::string_view name, const T& field) {
    feed(name);
    describe(*this, field);
    feed("end");
  }
  template <class T> void child(std::string_view name, const std::optional<T>& field) {
    if (field) child(name, *field);
  }
  template <class T> void children(std::string_view name, const std::vector<T>& field) {
    for (const T& one : field)
      child(name, one);
  }

 private:
  void feed(std::string_view bytes) {
    hash_ = stable_hash(bytes, hash_);
    hash_ = stable_hash(std::string_view("\0", 1), hash_);
  }
  void put(const std::string& field) { feed(field); }
  void put(bool field) { feed(field ? "true" : "false"); }
  void put(char field) { feed(std::string_view(&field, 1)); }
  void put(int field) { feed(std::to_string(field)); }
  void put(long long field) { feed(std::to_string(field)); }
  void put(std::unsigned_integral auto field) { feed(std::to_string(field)); }
  void put(double field) { feed(shortest(field)); }
  template <class E>
  requires std::is_enum_v<E>
  void put(E field) { feed(word_of(field)); }
  template <class T> void put(const std::optional<T>& field) {
    if (field)
      put(*field);
    else
      feed("none");
  }

  std::uint64_t hash_ = kHashStart;
};

} // namespace

bool more_likely_missed(const Plan& plan) {
  constexpr double kEven = 0.5;
  if (plan.row && (plan.row->fits_never || plan.row->as_aimed.value < kEven)) return true;
  return std::any_of(plan.boxes.begin(), plan.boxes.end(), [](const BoxPlan& box) {
    const bool red =
        std::any_of(box.cautions.begin(), box.cautions.end(), [](const Caution& c) { return c.red; });
    const bool missed = std::any_of(box.measures.begin(), box.measures.end(), [](const PlannedMeasure& m) {
      return m.has_expected && m.chance_kept >= 0.0 && m.chance_kept < kEven;
    });
    return red || missed;
  });
}

std::string plan_signature(const Plan& plan) {
  Signing signing;
  describe(signing, plan);
  return signature_text(signing.hash());
}

} // namespace tacksquare
