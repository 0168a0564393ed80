#include "support/ritz.h"

#include <array>
#include <cmath>
#include <utility>

namespace tacksquare::test {

namespace {

struct Places {
  std::vector<double> at, weight; // on -1..1
};

// Gauss and Legendre, by Newton from the usual start.
Places gauss(int n) {
  Places all;
  for (int i = 0; i < n; ++i) {
    double x = std::cos(std::acos(-1.0) * (i + 0.75) / (n + 0.5)), slope = 1.0;
    for (int turn = 0; turn < 50; ++turn) {
      double before = 1.0, now = x;
      for (int k = 2; k <= n; ++k)
        before = std::exchange(now, ((2 * k - 1) * x * now - (k - 1) * before) / k);
      slope = n * (x * now - before) / (x * x - 1.0);
      x -= now / slope;
    }
    all.at.push_back(x);
    all.weight.push_back(2.0 / ((1.0 - x * x) * slope * slope));
  }
  return all;
}

// Value, first and second derivative.
using Jet = std::array<double, 3>;
Jet operator*(const Jet& a, const Jet& b) {
  return {a[0] * b[0], a[1] * b[0] + a[0] * b[1], a[2] * b[0] + 2.0 * a[1] * b[1] + a[0] * b[2]};
}

Jet legendre(int i, double x) {
  Jet before{1, 0, 0}, now{x, 1, 0};
  if (i == 0) return before;
  for (int k = 2; k <= i; ++k) {
    const Jet line = Jet{x, 1, 0} * now;
    Jet next{};
    for (std::size_t d = 0; d < 3; ++d)
      next[d] = ((2 * k - 1) * line[d] - (k - 1) * before[d]) / k;
    before = std::exchange(now, next);
  }
  return now;
}

std::size_t whole(int n) {
  return static_cast<std::size_t>(n);
}

} // namespace

std::vector<double> solve_by_elimination(std::vector<std::vector<double>> matrix, std::vector<double> right) {
  const std::size_t n = right.size();
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k; i < n; ++i)
      if (std::fabs(matrix[i][k]) > std::fabs(matrix[pivot][k])) pivot = i;
    std::swap(matrix[k], matrix[pivot]);
    std::swap(right[k], right[pivot]);
    for (std::size_t i = k + 1; i < n; ++i) {
      const double share = matrix[i][k] / matrix[k][k];
      for (std::size_t j = k; j < n; ++j)
        matrix[i][j] -= share * matrix[k][j];
      right[i] -= share * right[k];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j)
      right[k] -= matrix[k][j] * right[j];
    right[k] /= matrix[k][k];
  }
  return right;
}

double RitzPlate::shape(std::size_t n, double x, double y, int dx, int dy) const {
  const double u = 2.0 * x / deep - 1.0, v = 2.0 * y / tall - 1.0;
  Jet in_x = legendre(static_cast<int>(n) % along, u), in_y = legendre(static_cast<int>(n) / along, v);
  if (ends_held) in_x = in_x * Jet{1.0 - u * u, -2.0 * u, -2.0};
  for (int power = 0; power < foot; ++power)
    in_y = in_y * Jet{0.5 * (1.0 + v), 0.5, 0.0};
  if (top_held) in_y = in_y * Jet{0.5 * (1.0 - v), -0.5, 0.0};
  return in_x[whole(dx)] * std::pow(2.0 / deep, dx) * in_y[whole(dy)] * std::pow(2.0 / tall, dy);
}

std::vector<std::vector<double>> RitzPlate::stiffness() const {
  std::vector<std::vector<double>> k(size(), std::vector<double>(size()));
  const Places places = gauss(along + up);
  for (std::size_t p = 0; p < places.at.size(); ++p)
    for (std::size_t q = 0; q < places.at.size(); ++q) {
      const double x = 0.5 * deep * (1.0 + places.at[p]), y = 0.5 * tall * (1.0 + places.at[q]);
      const double weight = 0.25 * deep * tall * places.weight[p] * places.weight[q] * D;
      std::vector<double> xx, yy, xy;
      for (std::size_t n = 0; n < size(); ++n) {
        xx.push_back(shape(n, x, y, 2, 0));
        yy.push_back(shape(n, x, y, 0, 2));
        xy.push_back(shape(n, x, y, 1, 1));
      }
      for (std::size_t i = 0; i < size(); ++i)
        for (std::size_t j = 0; j < size(); ++j)
          k[i][j] += weight * (xx[i] * xx[j] + yy[i] * yy[j] + nu * (xx[i] * yy[j] + yy[i] * xx[j]) +
                               2.0 * (1.0 - nu) * xy[i] * xy[j]);
    }
  return k;
}

double RitzPlate::at(const std::vector<double>& factors, double x, double y) const {
  double sum = 0.0;
  for (std::size_t n = 0; n < size(); ++n)
    sum += factors[n] * shape(n, x, y, 0, 0);
  return sum;
}

double ritz_held_wall(double tall, double deep, double lean, double base) {
  const RitzPlate wall{deep, tall, 1.0, 0.3, true, 1, false, 9, 8};
  const RitzPlate floor{deep, base, 1.0, 0.3, true, 1, true, 9, 8};
  const bool gives = base > 0.0;
  const std::size_t n = wall.size(), all = n + (gives ? floor.size() : 0);
  std::vector<std::vector<double>> k(all, std::vector<double>(all));
  std::vector<double> right(all);
  const auto add = [&](const RitzPlate& plate, std::size_t from) {
    const auto own = plate.stiffness();
    for (std::size_t i = 0; i < own.size(); ++i)
      for (std::size_t j = 0; j < own.size(); ++j)
        k[from + i][from + j] += own[i][j];
  };
  add(wall, 0);
  if (gives) add(floor, n);
  // The bend keeps its angle: a stiff spring between the slopes of both sides and the lean.
  const Places places = gauss(24);
  const double spring = 2000.0 / deep;
  for (std::size_t p = 0; p < places.at.size(); ++p) {
    const double x = 0.5 * deep * (1.0 + places.at[p]), weight = 0.5 * deep * places.weight[p] * spring;
    std::vector<double> slope;
    for (std::size_t i = 0; i < all; ++i)
      slope.push_back(i < n ? wall.shape(i, x, 0, 0, 1) : floor.shape(i - n, x, 0, 0, 1));
    for (std::size_t i = 0; i < all; ++i) {
      right[i] += weight * slope[i] * lean;
      for (std::size_t j = 0; j < all; ++j)
        k[i][j] += weight * slope[i] * slope[j];
    }
  }
  std::vector<double> factors = solve_by_elimination(std::move(k), std::move(right));
  factors.resize(n);
  return wall.at(factors, 0.5 * deep, tall);
}

RitzCorners ritz_pulled_wall(double tall, double deep, double D, double nu, double pull_one,
                             double pull_other) {
  const RitzPlate wall{deep, tall, D, nu, false, 2, false, 9, 8};
  std::vector<double> right;
  for (std::size_t i = 0; i < wall.size(); ++i)
    right.push_back(pull_one * wall.shape(i, 0, tall, 0, 0) + pull_other * wall.shape(i, deep, tall, 0, 0));
  const std::vector<double> factors = solve_by_elimination(wall.stiffness(), right);
  return {wall.at(factors, 0, tall), wall.at(factors, deep, tall)};
}

} // namespace tacksquare::test
