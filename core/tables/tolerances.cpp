#include "tables/tolerances.h"

#include <array>
#include <cstddef>
#include <limits>

namespace tacksquare {

namespace {

constexpr double beyond = std::numeric_limits<double>::infinity();

template <std::size_t N> using Limits = std::array<double, N>;
template <std::size_t N> using Rows = std::array<std::array<double, N>, 4>;

// Each column holds "over the last limit, up to and including this one".
constexpr Limits<11> linear_up_to{30, 120, 400, 1000, 2000, 4000, 8000, 12000, 16000, 20000, beyond};
constexpr Rows<11> linear_rows{{
    {1, 1, 1, 2, 3, 4, 5, 6, 7, 8, 9},
    {1, 2, 2, 3, 4, 6, 8, 10, 12, 14, 16}, // the first column is one cell of 1 for all classes
    {1, 3, 4, 6, 8, 11, 14, 18, 21, 24, 27},
    {1, 4, 7, 9, 12, 16, 21, 27, 32, 36, 40},
}};
constexpr Limits<3> angular_up_to{400, 1000, beyond};
constexpr Rows<3> angular_minutes{{{20, 15, 10}, {45, 30, 20}, {60, 45, 30}, {90, 75, 60}}};
constexpr Rows<3> angular_mm_per_m{{{6, 4.5, 3}, {13, 9, 6}, {18, 13, 9}, {26, 22, 18}}};
constexpr Limits<10> flatness_up_to{120, 400, 1000, 2000, 4000, 8000, 12000, 16000, 20000, beyond};
constexpr Rows<10> flatness_rows{{
    {0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8},
    {1, 1.5, 3, 4.5, 6, 8, 10, 12, 14, 16},
    {1.5, 3, 5.5, 9, 11, 16, 20, 22, 25, 25},
    {2.5, 5, 9, 14, 18, 26, 32, 36, 40, 40},
}};

template <std::size_t N, class Class>
double cell(const Rows<N>& rows, const Limits<N>& up_to, Class c, Length length) {
  std::size_t column = 0;
  while (column + 1 < N && in_mm(length) > up_to[column])
    ++column;
  return rows[static_cast<std::size_t>(c)][column];
}

template <class Class> std::optional<Class> parse_class(std::string_view text, char first) {
  if (text.size() != 1 || text[0] < first || text[0] > first + 3) return std::nullopt;
  return static_cast<Class>(text[0] - first);
}

} // namespace

std::string class_name(LinearClass c) {
  return std::string(1, "ABCD"[static_cast<std::size_t>(c)]);
}
std::string class_name(FlatnessClass c) {
  return std::string(1, "EFGH"[static_cast<std::size_t>(c)]);
}

std::optional<LinearClass> parse_linear_class(std::string_view text) {
  return parse_class<LinearClass>(text, 'A');
}
std::optional<FlatnessClass> parse_flatness_class(std::string_view text) {
  return parse_class<FlatnessClass>(text, 'E');
}

std::optional<Length> linear_tolerance(LinearClass c, Length nominal) {
  if (nominal < mm(2.0)) return std::nullopt;
  return mm(cell(linear_rows, linear_up_to, c, nominal));
}

Angle angular_tolerance(LinearClass c, Length shorter_leg) {
  return deg(cell(angular_minutes, angular_up_to, c, shorter_leg) / 60.0);
}

double angular_tolerance_mm_per_m(LinearClass c, Length shorter_leg) {
  return cell(angular_mm_per_m, angular_up_to, c, shorter_leg);
}

std::optional<Length> flatness_tolerance(FlatnessClass c, Length longer_side) {
  if (longer_side <= mm(30.0)) return std::nullopt;
  return mm(cell(flatness_rows, flatness_up_to, c, longer_side));
}

const Source& tolerance_source() {
  static const Source source{"ISO 13920:1996", Mark::standard};
  return source;
}

} // namespace tacksquare
