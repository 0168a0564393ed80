#include "formulas/gaussian.h"

#include "base/random.h"
#include "formulas/rows.h"
#include "support/ritz.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

using Matrix = std::vector<std::vector<double>>;

// All readings at once: mean + P H' (H P H' + R)^-1 (y - H mean), by elimination.
std::vector<double> all_at_once(const Gaussian& prior, const Matrix& h, const std::vector<double>& y,
                                const std::vector<double>& r, std::vector<double>& variances) {
  const std::size_t n = prior.mean.size(), k = h.size();
  Matrix ph(n, std::vector<double>(k)), s(k, std::vector<double>(k));
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t a = 0; a < k; ++a)
      for (std::size_t j = 0; j < n; ++j)
        ph[i][a] += prior.covariance[i][j] * h[a][j];
  std::vector<double> miss = y;
  for (std::size_t a = 0; a < k; ++a) {
    for (std::size_t b = 0; b < k; ++b)
      for (std::size_t i = 0; i < n; ++i)
        s[a][b] += h[a][i] * ph[i][b];
    s[a][a] += r[a];
    for (std::size_t i = 0; i < n; ++i)
      miss[a] -= h[a][i] * prior.mean[i];
  }
  std::vector<double> mean = prior.mean;
  const std::vector<double> solved = test::solve_by_elimination(s, miss);
  variances.clear();
  for (std::size_t i = 0; i < n; ++i) {
    double less = 0.0;
    const std::vector<double> own = test::solve_by_elimination(s, ph[i]);
    for (std::size_t a = 0; a < k; ++a) {
      mean[i] += ph[i][a] * solved[a];
      less += ph[i][a] * own[a];
    }
    variances.push_back(prior.covariance[i][i] - less);
  }
  return mean;
}

} // namespace

TEST_CASE("Conditioning gives the figures of its closed forms") {
  check_rows("formulas_gaussian.tsv", 10,
             {{"posterior",
               [](const Arguments& a) {
                 Gaussian g = independent({0, 0}, {4, 1});
                 observe(g, {1, 1}, a[0], a[1]);
                 const auto which = static_cast<std::size_t>(a[2]);
                 return which < 2   ? g.mean[which]
                        : which < 4 ? g.covariance[which - 2][which - 2]
                                    : g.covariance[0][1];
               }},
              {"deviations",
               [](const Arguments& a) {
                 Gaussian g = independent({0, 0}, {4, 1});
                 return observe(g, {1, 1}, a[0], a[1]);
               }},
              {"chain", [](const Arguments& a) {
                 Gaussian g = independent({0}, {1});
                 for (const double reading : {2.0, 3.5, 3.0, 4.0, 2.5})
                   observe(g, {1}, reading, 1);
                 return a[0] == 0.0 ? g.covariance[0][0] : g.mean[0];
               }}});
}

TEST_CASE("Readings one after the other, in any order, teach what all of them teach at once") {
  Random random(7);
  const std::size_t n = 6, k = 4;
  Gaussian prior = independent({1, -2, 0, 0.5, 3, 0}, {1, 0.2, 2, 0.7, 0.1, 1.3});
  Matrix h(k, std::vector<double>(n));
  std::vector<double> y, r;
  for (auto& row : h) {
    for (double& w : row)
      w = random.normal();
    y.push_back(random.normal());
    r.push_back(0.1 + random.uniform01());
  }
  std::vector<double> variances;
  const std::vector<double> mean = all_at_once(prior, h, y, r, variances);
  for (const bool backward : {false, true}) {
    Gaussian g = prior;
    for (std::size_t a = 0; a < k; ++a) {
      const std::size_t at = backward ? k - 1 - a : a;
      observe(g, h[at], y[at], r[at]);
    }
    for (std::size_t i = 0; i < n; ++i) {
      CHECK(g.mean[i] == Approx(mean[i]).margin(1e-10));
      CHECK(g.covariance[i][i] == Approx(variances[i]).margin(1e-10));
      for (std::size_t j = 0; j < n; ++j)
        CHECK(g.covariance[i][j] == Approx(g.covariance[j][i]).margin(1e-12));
    }
  }
}

TEST_CASE(
    "A perfect reading takes all variance; a second one that says the same is no surprise, another is") {
  Gaussian g = independent({1, 2}, {0.04, 0.09});
  observe(g, {1, 0}, 1.3, 0);
  CHECK(g.mean[0] == Approx(1.3));
  CHECK(g.covariance[0][0] == 0.0);
  CHECK(g.mean[1] == 2.0);
  CHECK(g.covariance[1][1] == 0.09);
  CHECK(surprise(g, {1, 0}, 1.3, 0) == 0.0);
  CHECK(std::fabs(surprise(g, {1, 0}, 1.2, 0)) > 1000.0);
  const Gaussian before = g;
  observe(g, {1, 0}, 1.2, 0);
  CHECK(g.mean == before.mean);
  CHECK(weighed(g, {1, 1}).mean == Approx(3.3));
  CHECK(weighed(g, {1, -2}).variance == Approx(0.36));
}
