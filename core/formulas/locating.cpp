#include "formulas/locating.h"

#include "base/diagnostic.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace tacksquare::formulas {
namespace {

constexpr std::size_t kFreedoms = 6;
constexpr double kDependent = 1e-3;

using Row = std::array<double, kFreedoms>;

Vec3 centre_of(const std::vector<Locator>& locators) {
  Vec3 sum;
  for (const Locator& l : locators)
    sum = sum + l.at;
  return sum * (1.0 / static_cast<double>(std::max<std::size_t>(locators.size(), 1)));
}

Row row_of(const Locator& l, Vec3 origin, double reach_mm) {
  const Vec3 turn = cross(l.at - origin, l.towards) * (1.0 / reach_mm);
  return {l.towards.x, l.towards.y, l.towards.z, turn.x, turn.y, turn.z};
}

double product(const Row& a, const Row& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < kFreedoms; ++i)
    sum += a[i] * b[i];
  return sum;
}

// About the contacts' centre and by their reach, so that a turn counts like a shift.
std::vector<Row> scaled_rows(const std::vector<Locator>& locators) {
  const Vec3 centre = centre_of(locators);
  double reach = 0.0;
  for (const Locator& l : locators)
    reach = std::max(reach, norm(l.at - centre));
  std::vector<Row> rows;
  for (const Locator& l : locators)
    rows.push_back(row_of(l, centre, reach > 0.0 ? reach : 1.0));
  return rows;
}

// J | I to I | inverse, row by row with the largest pivot of the column; the determinant beside it.
struct Inverse {
  std::array<Row, kFreedoms> of{};
  double determinant = 1.0;
};
Inverse inverse_of(std::array<Row, kFreedoms> j) {
  Inverse made;
  for (std::size_t i = 0; i < kFreedoms; ++i)
    made.of[i][i] = 1.0;
  for (std::size_t c = 0; c < kFreedoms; ++c) {
    std::size_t pivot = c;
    for (std::size_t r = c + 1; r < kFreedoms; ++r)
      if (std::abs(j[r][c]) > std::abs(j[pivot][c])) pivot = r;
    if (pivot != c) {
      std::swap(j[pivot], j[c]);
      std::swap(made.of[pivot], made.of[c]);
      made.determinant = -made.determinant;
    }
    made.determinant *= j[c][c];
    if (j[c][c] == 0.0) return made;
    const double by = 1.0 / j[c][c];
    for (std::size_t i = 0; i < kFreedoms; ++i) {
      j[c][i] *= by;
      made.of[c][i] *= by;
    }
    for (std::size_t r = 0; r < kFreedoms; ++r) {
      if (r == c) continue;
      const double part = j[r][c];
      for (std::size_t i = 0; i < kFreedoms; ++i) {
        j[r][i] -= part * j[c][i];
        made.of[r][i] -= part * made.of[c][i];
      }
    }
  }
  return made;
}

} // namespace

std::vector<std::size_t> locates_again(const std::vector<Locator>& locators) {
  const std::vector<Row> rows = scaled_rows(locators);
  std::vector<Row> basis;
  std::vector<std::size_t> again;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    Row left = rows[i];
    for (int twice = 0; twice < 2; ++twice) // Gram and Schmidt, once more for the rounding
      for (const Row& b : basis) {
        const double part = product(left, b);
        for (std::size_t k = 0; k < kFreedoms; ++k)
          left[k] -= part * b[k];
      }
    const double length = std::sqrt(product(left, left));
    if (length < kDependent) {
      again.push_back(i);
      continue;
    }
    for (double& value : left)
      value /= length;
    basis.push_back(left);
  }
  return again;
}

int locating_rank(const std::vector<Locator>& locators) {
  return static_cast<int>(locators.size() - locates_again(locators).size());
}

double locating_determinant_mm3(const std::array<Locator, kFreedoms>& six) {
  std::array<Row, kFreedoms> j{};
  for (std::size_t i = 0; i < kFreedoms; ++i)
    j[i] = row_of(six[i], six[0].at, 1.0);
  return inverse_of(j).determinant;
}

LocatingError locating_error(const std::array<Locator, kFreedoms>& six, double error_mm,
                             const std::vector<Vec3>& points, Vec3 axis) {
  if (locating_rank({six.begin(), six.end()}) < static_cast<int>(kFreedoms))
    throw InternalError("the error of a layout that does not locate");
  std::array<Row, kFreedoms> j{};
  for (std::size_t i = 0; i < kFreedoms; ++i)
    j[i] = row_of(six[i], six[0].at, 1.0);
  const Inverse inverse = inverse_of(j);
  LocatingError worst;
  for (unsigned signs = 0; signs < 1u << kFreedoms; ++signs) {
    Row q{};
    for (std::size_t i = 0; i < kFreedoms; ++i)
      for (std::size_t e = 0; e < kFreedoms; ++e)
        q[i] += inverse.of[i][e] * ((signs >> e & 1u) != 0 ? error_mm : -error_mm);
    const Vec3 shift{q[0], q[1], q[2]}, turn{q[3], q[4], q[5]};
    worst.turn_rad = std::max(worst.turn_rad, std::abs(dot(turn, axis)));
    for (const Vec3 p : points)
      worst.shift_mm = std::max(worst.shift_mm, norm(shift + cross(turn, p - six[0].at)));
  }
  return worst;
}

} // namespace tacksquare::formulas
