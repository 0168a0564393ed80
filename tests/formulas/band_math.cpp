#include "formulas/band_math.h"

#include "base/diagnostic.h"
#include "base/random.h"
#include "support/catch.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::formulas;

TEST_CASE("+/-25 % is a 90 % interval from 0.75 to 1.25 times the median, of negative figures too") {
  CHECK(band_around(8.0, 0.25) == Band{8.0, 6.0, 10.0});
  CHECK(band_around(-8.0, 0.25) == Band{-8.0, -10.0, -6.0});
}

TEST_CASE("Independent contributions add by root-sum-square, each side by itself; one cause adds straight") {
  const Band a{10.0, 7.0, 14.0}, b{20.0, 16.0, 23.0};
  const Band free = sum_independent({a, b}), bound = sum_same_cause({a, b});
  CHECK(free.value == 30.0);
  CHECK(free.low == Approx(30.0 - 5.0));  // 3, 4
  CHECK(free.high == Approx(30.0 + 5.0)); // 4, 3
  CHECK(bound == Band{30.0, 23.0, 37.0});
  CHECK(sum_independent({}) == exactly(0.0));
  CHECK(sum_same_cause({}) == exactly(0.0));
}

TEST_CASE("A shared factor cancels between opposite seams, their own scatter does not") {
  const Band both = sum_with_shared_factor({10.0, -10.0}, 0.25, 0.15);
  CHECK(both.value == 0.0);
  CHECK(both.high == Approx(std::sqrt(2.0) * 1.5));
  const Band same = sum_with_shared_factor({10.0, 10.0}, 0.25, 0.0);
  CHECK(same == band_around(20.0, 0.25));
}

TEST_CASE("A product of factors stays positive, and one factor is itself") {
  const Band half{1.0, 0.5, 1.5};
  const Band p = product({band_around(3.0, 0.25), half, half});
  CHECK(p.low > 0.0);
  CHECK(p.value == Approx(3.0));
  const Band one = product({Band{4.0, 3.0, 6.0}});
  CHECK(one.low == Approx(3.0));
  CHECK(one.high == Approx(6.0));
  CHECK(product({}) == exactly(1.0));
  CHECK_THROWS_AS(product({Band{1.0, 0.0, 2.0}}), InternalError);
  CHECK_THROWS_AS(product({Band{1.0, 1.5, 2.0}}), InternalError);
}

TEST_CASE("Scaling by a negative number swaps the limits; shifting moves all three") {
  CHECK(scaled(Band{2.0, 1.0, 4.0}, -1.0) == Band{-2.0, -4.0, -1.0});
  CHECK(scaled(Band{2.0, 1.0, 4.0}, 0.5) == Band{1.0, 0.5, 2.0});
  CHECK(shifted(Band{2.0, 1.0, 4.0}, 10.0) == Band{12.0, 11.0, 14.0});
  CHECK(larger(Band{2.0, 1.0, 4.0}, Band{3.0, 0.0, 3.5}) == Band{3.0, 1.0, 4.0});
  CHECK(smaller(Band{2.0, 1.0, 4.0}, Band{3.0, 0.0, 3.5}) == Band{2.0, 0.0, 3.5});
}

TEST_CASE("Drawn numbers fall below the joined limits 5 % and 95 % of the time, seed 20240601") {
  // Normal contributions for the sum, lognormal factors for the product: the cases in which the rules are
  // exact.
  const double z = 1.6448536269514722; // 95 % quantile of the standard normal
  Random random(20240601);
  const int draws = 40000;
  int sum_below = 0, sum_above = 0, product_below = 0, product_above = 0;
  const Band sum = sum_independent({band_plus_minus(10.0, 3.0), band_plus_minus(-4.0, 2.0)});
  const Band factors = product({Band{2.0, 1.0, 4.0}, Band{3.0, 2.0, 4.5}});
  for (int i = 0; i < draws; ++i) {
    const double u = random.normal() / z, v = random.normal() / z;
    const double s = 10.0 + 3.0 * u - 4.0 + 2.0 * v;
    const double p = 2.0 * std::pow(2.0, u) * 3.0 * std::pow(1.5, v);
    sum_below += s < sum.low;
    sum_above += s > sum.high;
    product_below += p < factors.low;
    product_above += p > factors.high;
  }
  for (const int outside : {sum_below, sum_above, product_below, product_above})
    CHECK(outside == Approx(0.05 * draws).margin(0.005 * draws));
}
