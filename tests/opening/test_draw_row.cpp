// The draws of a row against closed forms and against another tool.
#include "opening/rowing.h"
#include "opening/rows.h"
#include "support/table.h"

#include <cmath>
#include <map>
#include <numeric>

using namespace tacksquare;
using namespace tacksquare::test;
using opening::quantile_of;

namespace {

constexpr std::size_t kDraws = 400000;

SizeCause cause(Spread spread, double under, double over, double common = 0.0) {
  return {"blank", spread, 0.0, under, over, common, "one order", {}};
}
std::vector<SizeBudget> row_of_alike(std::size_t n, const SizeCause& c) {
  SizeBudget budget;
  budget.nominal_mm = 400.0;
  budget.causes = {c};
  return std::vector<SizeBudget>(n, budget);
}
double mean_of(const std::vector<double>& all) {
  return std::accumulate(all.begin(), all.end(), 0.0) / static_cast<double>(all.size());
}
double deviation_of(const std::vector<double>& all) {
  const double mean = mean_of(all);
  double sum = 0.0;
  for (const double x : all)
    sum += (x - mean) * (x - mean);
  return std::sqrt(sum / static_cast<double>(all.size()));
}
// Share of draws up to x; a draw of kDraws is off by at most five of its own deviations.
void check_share(const std::vector<double>& sorted, double x, double expected) {
  const auto below = std::upper_bound(sorted.begin(), sorted.end(), x) - sorted.begin();
  const double n = static_cast<double>(sorted.size()), share = static_cast<double>(below) / n;
  CAPTURE(x, share, expected);
  CHECK(std::abs(share - expected) <= 5.0 * std::sqrt(expected * (1.0 - expected) / n) + 1e-9);
}
// Sum of n even draws in 0..1 is at most x (Irwin 1927, Hall 1927).
double irwin_hall(int n, double x) {
  double sum = 0.0, choose = 1.0, factorial = 1.0;
  for (int k = 2; k <= n; ++k)
    factorial *= k;
  for (int k = 0; k <= n && k <= x; ++k) {
    sum += (k % 2 ? -1.0 : 1.0) * choose * std::pow(x - k, n);
    choose = choose * (n - k) / (k + 1);
  }
  return sum / factorial;
}

} // namespace

TEST_CASE("Normal causes add by root-sum-square, with what they have in common before squaring") {
  for (const std::size_t n : {1u, 3u, 10u})
    for (const double common : {0.0, 0.5, 1.0}) {
      // Variance of a sum of n with correlation c: n (1 - c) + n^2 c.
      const double m = static_cast<double>(n);
      const double reach = 0.5 * std::sqrt(m * (1.0 - common) + m * m * common);
      const auto draws = draw_row(row_of_alike(n, cause(Spread::normal, 0.5, 0.5, common)), kDraws, 1);
      CAPTURE(n, common);
      check_share(draws, reach, 0.95);
      check_share(draws, -reach, 0.05);
      check_share(draws, 0.0, 0.5);
    }
}

TEST_CASE("Even causes add as Irwin and Hall say, triangular ones as two even ones of half the width") {
  for (const int n : {1, 2, 3, 6}) {
    const auto even =
        draw_row(row_of_alike(static_cast<std::size_t>(n), cause(Spread::uniform, 0.5, 0.5)), kDraws, 2);
    const auto peaked =
        draw_row(row_of_alike(static_cast<std::size_t>(n), cause(Spread::triangular, 1.0, 1.0)), kDraws, 3);
    for (const double x : {0.15, 0.35, 0.5, 0.8, 0.95}) {
      CAPTURE(n);
      check_share(even, n * (x - 0.5), irwin_hall(n, n * x));
      check_share(peaked, n * (2.0 * x - 1.0), irwin_hall(2 * n, 2 * n * x));
    }
  }
}

TEST_CASE("Even causes keep their own shape and the stated correlation") {
  for (const double common : {0.3, 0.8, 1.0}) {
    const auto one = draw_row(row_of_alike(1, cause(Spread::uniform, 0.2, 0.4, common)), kDraws, 4);
    check_share(one, 0.1, 0.5);
    check_share(one, 0.25, 0.75);
    const auto four = draw_row(row_of_alike(4, cause(Spread::uniform, 0.2, 0.4, common)), kDraws, 4);
    const double variance = 0.6 * 0.6 / 12.0 * (4.0 + 12.0 * common);
    CHECK(deviation_of(four) == Approx(std::sqrt(variance)).epsilon(0.006));
    CHECK(mean_of(four) == Approx(0.4).margin(5.0 * std::sqrt(variance / kDraws)));
  }
}

TEST_CASE("A cause that only makes larger is nothing in half of the draws, and its moments are those drawn") {
  const SizeCause out = cause(Spread::normal, 0.0, 1.4);
  const auto draws = draw_row(row_of_alike(1, out), kDraws, 5);
  CHECK(draws.front() == 0.0);
  check_share(draws, 0.0, 0.5);
  check_share(draws, 1.4, 0.95);
  for (const SizeCause& c : {out, cause(Spread::normal, 0.3, 0.9), cause(Spread::uniform, 0.1, 0.7),
                             cause(Spread::triangular, 0.2, 0.9), cause(Spread::triangular, 0.0, 1.0)}) {
    const auto drawn = draw_row(row_of_alike(1, c), kDraws, 6);
    const Moments m = moments_of(c);
    CHECK(mean_of(drawn) == Approx(m.mean_mm).margin(5.0 * std::sqrt(m.variance_mm2 / kDraws)));
    CHECK(deviation_of(drawn) == Approx(std::sqrt(m.variance_mm2)).epsilon(0.008));
  }
}

TEST_CASE("A row of all kinds of causes is what numpy draws") {
  const Table causes("row_causes.tsv",
                     {"row", "stand", "key", "spread", "middle", "under", "over", "common", "order", "tall"});
  std::map<std::string, std::vector<SizeBudget>> rows;
  for (const auto& r : causes.rows()) {
    std::vector<SizeBudget>& row = rows[r.text("row")];
    row.resize(std::max(row.size(), static_cast<std::size_t>(r.integer("stand")) + 1));
    const std::string& spread = r.text("spread");
    SizeBudget& stand = row[static_cast<std::size_t>(r.integer("stand"))];
    stand.tall_mm = r.number("tall");
    stand.causes.push_back({r.text("key"),
                            spread == "normal"    ? Spread::normal
                            : spread == "uniform" ? Spread::uniform
                                                  : Spread::triangular,
                            r.number("middle"),
                            r.number("under"),
                            r.number("over"),
                            r.number("common"),
                            r.text("order"),
                            {}});
  }
  REQUIRE(rows.size() == 4);
  const Table wanted("row_numpy.tsv", {"row", "figure", "value", "tolerance", "source", "mark"});
  REQUIRE(wanted.size() == 24);
  std::map<std::string, std::vector<double>> drawn;
  for (const auto& [name, row] : rows)
    drawn[name] = draw_row(row, kDraws, kRowSeed);
  for (const auto& r : wanted.rows()) {
    INFO(r.shown());
    const std::vector<double>& draws = drawn.at(r.text("row"));
    const std::string& figure = r.text("figure");
    const double got = figure == "mean"        ? mean_of(draws)
                       : figure == "deviation" ? deviation_of(draws)
                                               : quantile_of(draws, std::stod(figure.substr(9)));
    CAPTURE(got);
    CHECK(std::abs(got - r.number("value")) <= r.number("tolerance"));
  }
}

TEST_CASE(
    "Same seed, same row, bit for bit; equal boxes may change places; all lengths doubled double the row") {
  std::vector<SizeBudget> row = row_of_alike(3, cause(Spread::normal, 0.2, 0.4, 0.5));
  row[0].causes.push_back({"coating", Spread::uniform, 0.16, 0.06, 0.1, 0.8, "powder", {}});
  row[2].causes.push_back({"rack", Spread::normal, 0.0, 1.0, 1.0, 0.0, "", {}});
  for (SizeBudget& b : row)
    b.tall_mm = 512.0;
  const auto once = draw_row(row, 2000, 7);
  CHECK(once == draw_row(row, 2000, 7));
  CHECK(once != draw_row(row, 2000, 8));
  std::vector<SizeBudget> alike = row_of_alike(3, cause(Spread::normal, 0.2, 0.4, 0.5));
  const auto before = draw_row(alike, 2000, 7);
  std::swap(alike[0], alike[2]);
  CHECK(before == draw_row(alike, 2000, 7));
  for (SizeBudget& b : row) {
    b.tall_mm *= 2.0;
    for (SizeCause& c : b.causes) {
      c.middle_mm *= 2.0;
      c.under_mm *= 2.0;
      c.over_mm *= 2.0;
    }
  }
  std::vector<double> doubled;
  for (const double d : once)
    doubled.push_back(2.0 * d);
  CHECK(draw_row(row, 2000, 7) == doubled);
}

TEST_CASE("Racked boxes touch where they stand out: hand figures of a row 600 high") {
  const std::vector<double> tall(3, 600.0);
  const auto room = [&](double a, double b, double c) {
    return opening::contacts_mm({a / 600.0, b / 600.0, c / 600.0}, tall);
  };
  CHECK(room(0, 0, 0) == 0.0);
  CHECK(room(2, 2, 2) == Approx(2.0));    // all one way: only the side of the opening sees it
  CHECK(room(-2, -2, -2) == Approx(2.0)); // the other way: at the left side
  CHECK(room(-1, 0, 2) == Approx(3.0));   // nests: 1 on the left, 2 on the right
  CHECK(room(2, 0, -1) == Approx(3.0));   // jams: 2 and 1 between them
  CHECK(room(2, -1, 0) == Approx(3.0));
  CHECK(room(-1, 2, 0) == Approx(3.0)); // 1 at the left, 2 between the last two
  CHECK(room(2, -1, 2) == Approx(5.0)); // 3 between the first two, 2 at the right
  // A low neighbour is touched at its own height.
  CHECK(opening::contacts_mm({2.0 / 600.0, 0.0}, {600.0, 300.0}) == Approx(1.0));
}
