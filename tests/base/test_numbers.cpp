// Numbers as text: rounded to what a gauge reads, never "-0", the same on every machine.
#include "support/catch.h"

#include "base/diagnostic.h"
#include "base/numbers.h"
#include "base/quantity.h"
#include "base/random.h"

#include <cmath>
#include <limits>

using namespace tacksquare;

TEST_CASE("fixed decimals without a minus before nothing") {
  CHECK(fixed(12.5, 2) == "12.50");
  CHECK(fixed(-0.0, 1) == "0.0");
  CHECK(fixed(-0.04, 1) == "0.0");
  CHECK(fixed(-0.06, 1) == "-0.1");
  CHECK(fixed(-0.4, 0) == "0");
  CHECK(fixed(1e22, 0) == "10000000000000000000000");
  CHECK(fixed(std::numeric_limits<double>::max(), 17).size() == 309 + 1 + 17);
  CHECK_THROWS_AS(fixed(std::nan(""), 1), InternalError);
}

TEST_CASE("rounding to a step: halves away from zero, also where the binary value lies a hair under") {
  CHECK(round_to(0.15, 0.1) == 0.2);
  CHECK(round_to(-0.15, 0.1) == -0.2);
  CHECK(round_to(398.83, 0.5) == 399.0);
  CHECK(round_to(715.6, 5.0) == 715.0);
  CHECK(rounded(398.83, 0.5) == "399.0");
  CHECK(rounded(0.349, 0.05) == "0.35");
  CHECK(rounded(386.0, 10.0) == "390");
  CHECK(rounded(-0.2, 0.5) == "0.0");
  CHECK_FALSE(std::signbit(round_to(-0.01, 0.1)));
  CHECK_THROWS_AS(round_to(1.0, 0.0), InternalError);
}

TEST_CASE("inch fractions are reduced and rounded to the nearest") {
  // 23 5/8 in is 600.075 mm; 1.6 mm is a hair over a sixteenth (1.5875 mm).
  CHECK(inch_fraction(mm(600.0), 8) == "23 5/8");
  CHECK(inch_fraction(mm(1.6), 16) == "1/16");
  CHECK(inch_fraction(mm(1.6), 64) == "1/16");
  CHECK(inch_fraction(mm(400.0), 16) == "15 3/4");
  CHECK(inch_fraction(mm(12.7), 64) == "1/2");
  CHECK(inch_fraction(mm(-15.875), 16) == "-5/8");
  CHECK(inch_fraction(mm(-600.075), 32) == "-23 5/8");
  CHECK(inch_fraction(mm(0.0), 16) == "0");
  CHECK(inch_fraction(mm(-0.1), 16) == "0");
  CHECK(inch_fraction(mm(25.3), 16) == "1");
  CHECK_THROWS_AS(inch_fraction(mm(1.0), 10), InternalError);
}

TEST_CASE("no rounding prints a minus before zero, and each stays within half its step") {
  const std::uint64_t seed = GENERATE(11u, 12u, 13u);
  INFO("seed " << seed);
  Random random(seed);
  for (int i = 0; i < 2000; ++i) {
    const double v = random.normal() * (i % 2 == 0 ? 0.05 : 500.0);
    for (const double step : {0.05, 0.1, 0.5, 1.0, 5.0}) {
      const std::string text = rounded(v, step);
      const double back = std::get<double>(parse_number(text));
      if (!(std::abs(back - v) <= step / 2.0 + 1e-9)) FAIL_CHECK(v << " to " << step << " gave " << text);
      if (text[0] == '-' && back == 0.0) FAIL_CHECK(v << " to " << step << " gave " << text);
    }
    for (const int denominator : {1, 2, 4, 8, 16, 32, 64}) {
      const std::string text = inch_fraction(mm(v), denominator) + " in";
      const auto back = parse_length(text);
      if (!std::holds_alternative<Length>(back)) {
        FAIL_CHECK(v << " gave " << text << ", which is not read");
      } else if (std::abs(in_mm(std::get<Length>(back)) - v) > 25.4 / denominator / 2.0 + 1e-9) {
        FAIL_CHECK(v << " in 1/" << denominator << " gave " << text);
      }
    }
    CHECK(std::get<double>(parse_number(shortest(v))) == v);
  }
  CHECK(shortest(-0.0) == "0");
  CHECK(shortest(0.1) == "0.1");
}
