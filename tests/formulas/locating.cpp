#include "formulas/locating.h"

#include "base/diagnostic.h"
#include "base/random.h"
#include "formulas/rows.h"

#include <Eigen/Dense>

using namespace tacksquare;
using namespace tacksquare::formulas;
using tacksquare::test::Arguments;
using tacksquare::test::check_rows;

namespace {

std::array<Locator, 6> three_two_one(const Arguments& a) {
  const Vec3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};
  return {{{{a[0], a[1], 0}, z},
           {{a[2], a[3], 0}, z},
           {{a[4], a[5], 0}, z},
           {{a[6], 0, 0}, y},
           {{a[7], 0, 0}, y},
           {{0, a[8], 0}, x}}};
}

std::vector<Locator> listed(const std::array<Locator, 6>& six) {
  return {six.begin(), six.end()};
}

Eigen::MatrixXd matrix_of(const std::vector<Locator>& locators) {
  Eigen::MatrixXd j(static_cast<Eigen::Index>(locators.size()), 6);
  for (std::size_t i = 0; i < locators.size(); ++i) {
    const Vec3 n = locators[i].towards, turn = cross(locators[i].at, n);
    j.row(static_cast<Eigen::Index>(i)) << n.x, n.y, n.z, turn.x, turn.y, turn.z;
  }
  return j;
}

Vec3 random_point(Random& random) {
  return {random.uniform(0, 600), random.uniform(0, 400), random.uniform(0, 300)};
}
Vec3 random_direction(Random& random) {
  return unit({random.normal(), random.normal(), random.normal()});
}

} // namespace

TEST_CASE("Locating gives the figures of hand statics") {
  check_rows("formulas_locating.tsv", 11,
             {{"determinant",
               [](const Arguments& a) { return std::abs(locating_determinant_mm3(three_two_one(a))); }},
              {"rank", [](const Arguments& a) { return locating_rank(listed(three_two_one(a))); }},
              {"turn",
               [](const Arguments& a) {
                 return locating_error(three_two_one(a), a[9], {}, {0, 0, 1}).turn_rad;
               }},
              {"shift", [](const Arguments& a) {
                 return locating_error(three_two_one(a), a[9], {{a[10], a[11], a[12]}}, {0, 0, 1}).shift_mm;
               }}});
}

TEST_CASE("Determinant and rank of any contacts are those of Eigen's decompositions") {
  Random random(20270412);
  for (int trial = 0; trial < 200; ++trial) {
    std::array<Locator, 6> six;
    for (Locator& l : six)
      l = {random_point(random), random_direction(random)};
    const Eigen::MatrixXd j = matrix_of(listed(six));
    CAPTURE(trial);
    CHECK(locating_determinant_mm3(six) == Approx(j.determinant()).epsilon(1e-8).margin(1e-3));
    // The same direction in a plane: three freedoms at most.
    std::vector<Locator> flat = listed(six);
    for (Locator& l : flat) {
      l.at.z = 0.0;
      l.towards = {0, 0, 1};
    }
    CHECK(locating_rank(flat) == Eigen::FullPivLU<Eigen::MatrixXd>(matrix_of(flat)).rank());
    CHECK(locating_rank(flat) == 3);
    CHECK(locates_again(flat) == std::vector<std::size_t>{3, 4, 5});
  }
}

TEST_CASE("A stop opposite another, and a third in a row, fix nothing new") {
  std::vector<Locator> stops = listed(three_two_one({50, 50, 550, 50, 300, 350, 100, 500, 200}));
  stops.push_back({{600, 200, 0}, {-1, 0, 0}});
  stops.push_back({{300, 0, 0}, {0, 1, 0}});
  CHECK(locating_rank(stops) == 6);
  CHECK(locates_again(stops) == std::vector<std::size_t>{6, 7});
}

TEST_CASE("The worst error is that of some errors of the places, and none gives more") {
  Random random(7);
  const auto six = three_two_one({50, 50, 550, 50, 300, 350, 100, 500, 200});
  const Eigen::FullPivLU<Eigen::MatrixXd> solver(matrix_of(listed(six)));
  const Vec3 corner{600, 400, 300};
  const double worst = locating_error(six, 0.2, {corner}, {0, 0, 1}).shift_mm;
  double most = 0.0;
  for (int trial = 0; trial < 4000; ++trial) {
    Eigen::VectorXd e(6);
    for (Eigen::Index i = 0; i < 6; ++i)
      e(i) = random.uniform01() < 0.5 ? -0.2 : 0.2;
    const Eigen::VectorXd q = solver.solve(e);
    const Vec3 moved = Vec3{q(0), q(1), q(2)} + cross(Vec3{q(3), q(4), q(5)}, corner);
    most = std::max(most, norm(moved));
  }
  CHECK(most == Approx(worst).epsilon(1e-9));
}

TEST_CASE("A layout that does not locate has no error") {
  const auto line = three_two_one({50, 50, 300, 50, 550, 50, 100, 500, 200});
  CHECK_THROWS_AS(locating_error(line, 0.1, {{0, 0, 0}}, {0, 0, 1}), InternalError);
}
