#include "formulas/chance.h"

#include "base/diagnostic.h"
#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

Band limits(const Arguments& a) {
  return clopper_pearson(static_cast<std::uint64_t>(a[0]), static_cast<std::uint64_t>(a[1]), a[2]);
}

} // namespace

TEST_CASE("Chances give the figures of their sources") {
  check_rows("formulas_chance.tsv", 31,
             {{"low", [](const Arguments& a) { return limits(a).low; }},
              {"high", [](const Arguments& a) { return limits(a).high; }},
              {"beta", [](const Arguments& a) { return beta_regularized(a[0], a[1], a[2]); }},
              {"quantile", [](const Arguments& a) { return beta_quantile(a[0], a[1], a[2]); }}});
}

TEST_CASE("The limits of a chance hold it between them, come nearer with more draws, and mirror") {
  for (const std::uint64_t k : {0u, 1u, 3u, 10u, 19u, 20u}) {
    const Band few = clopper_pearson(k, 20, 0.9), many = clopper_pearson(100 * k, 2000, 0.9),
               turned = clopper_pearson(20 - k, 20, 0.9);
    CHECK((few.low <= few.value && few.value <= few.high));
    CHECK(many.high - many.low < few.high - few.low);
    CHECK(turned.low == Approx(1.0 - few.high).margin(1e-12));
  }
}

TEST_CASE("The incomplete beta function keeps I_x(a, b) = 1 - I_(1 - x)(b, a), and its quantile inverts it") {
  for (const double a : {0.5, 1.0, 7.0, 300.0})
    for (const double b : {0.5, 2.0, 90.0})
      for (const double x : {0.02, 0.3, 0.5, 0.77}) {
        CHECK(beta_regularized(a, b, x) == Approx(1.0 - beta_regularized(b, a, 1.0 - x)).margin(1e-12));
        const double p = beta_regularized(a, b, x);
        if (p > 1e-9 && p < 1.0 - 1e-9) CHECK(beta_quantile(a, b, p) == Approx(x).epsilon(1e-6));
      }
}

TEST_CASE("Impossible counts are a bug of ours") {
  CHECK_THROWS_AS(clopper_pearson(1, 0, 0.9), InternalError);
  CHECK_THROWS_AS(clopper_pearson(3, 2, 0.9), InternalError);
  CHECK_THROWS_AS(clopper_pearson(1, 2, 1.0), InternalError);
  CHECK_THROWS_AS(beta_regularized(0.0, 1.0, 0.5), InternalError);
}
