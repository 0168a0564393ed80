#include "formulas/squareness.h"

#include "base/units.h"
#include "formulas/rows.h"

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

double radians(double degree) {
  return degree * kPi / 180.0;
}
Diagonals diagonals(const Arguments& a) {
  return parallelogram_diagonals(a[0], a[1], radians(a[2]));
}

} // namespace

TEST_CASE("Squareness formulas give the figures of their sources") {
  check_rows(
      "formulas_squareness.tsv", 14,
      {{"longer", [](const Arguments& a) { return diagonals(a).longer; }},
       {"shorter", [](const Arguments& a) { return diagonals(a).shorter; }},
       {"difference", [](const Arguments& a) { return diagonals(a).difference(); }},
       {"linear", [](const Arguments& a) { return diagonal_difference_mm(a[0], a[1], radians(a[2])); }},
       {"angle",
        [](const Arguments& a) { return angle_from_difference_rad(a[0], a[1], a[2]).value * 180.0 / kPi; }},
       {"trapezoid_diagonal", [](const Arguments& a) { return trapezoid_of(a[0], a[1], a[2]).diagonal; }},
       {"trapezoid_off",
        [](const Arguments& a) { return trapezoid_of(a[0], a[1], a[2]).corner_off_rad * 180.0 / kPi; }},
       {"lean", [](const Arguments& a) { return wall_lean_mm(a[0], radians(a[1])); }}});
}

TEST_CASE("d1^2 - d2^2 = 4 a b sin d, and either sense of lean reads the same") {
  const Diagonals d = parallelogram_diagonals(600, 400, 0.03);
  CHECK(d.longer * d.longer - d.shorter * d.shorter == Approx(4.0 * 600 * 400 * std::sin(0.03)));
  CHECK(parallelogram_diagonals(600, 400, -0.03).longer == Approx(d.longer));
}

TEST_CASE("The small-angle form and its inverse agree, and the inverse is flagged beyond 5 degrees") {
  for (const double off : {0.001, 0.02, 0.08})
    CHECK(angle_from_difference_rad(600, 400, diagonal_difference_mm(600, 400, off)).value == Approx(off));
  CHECK(angle_from_difference_rad(600, 400, 20.0).in_range());
  CHECK_FALSE(angle_from_difference_rad(600, 400, 80.0).in_range());
}

TEST_CASE("Both diagonals of a trapezoid are equal, measured corner to corner") {
  const double first = std::hypot(595.0, 400.0); // from (0,0) to (595,400)
  const double second = std::hypot(600.0 - 5.0, 400.0);
  CHECK(first == Approx(second));
  CHECK(trapezoid_of(600, 590, 400).diagonal == Approx(first));
}

TEST_CASE("Rock sees twist only: neither height nor tilt of the table") {
  CHECK(rock_mm(0, 0, 0, 1.2) == Approx(1.2));
  CHECK(rock_mm(3, 3, 3, 3) == Approx(0.0));
  CHECK(rock_mm(0, 2, 5, 3) == Approx(0.0).margin(1e-12)); // plane 0, +2 along x, +3 along y
}
