// The elements' matrices do not know where x points, which corner is the first, or the unit of length.
#include "physics/shell/elements.h"
#include "support/catch.h"

#include <array>
#include <cmath>
#include <vector>

using namespace tacksquare;

namespace {

const shell::PlateProperties kPlate{210000.0, 0.3, 2.5};
const shell::MembraneForce kForce(-3.0, 1.0, 2.0);

const std::vector<shell::Quad> kQuads{{Vec2{0, 0}, Vec2{20, 0}, Vec2{20, 15}, Vec2{0, 15}},
                                      {Vec2{3, -2}, Vec2{31, 4}, Vec2{19, 17}, Vec2{-6, 9}}};
const std::vector<shell::Triangle> kTriangles{{Vec2{0, 0}, Vec2{20, 0}, Vec2{0, 15}},
                                              {Vec2{3, -2}, Vec2{31, 4}, Vec2{12, 14}}};

// All that is computed for one element, whichever it is.
struct Matrices {
  Eigen::MatrixXd stiffness, geometric, force, load;
};
Matrices matrices(const shell::Quad& at, const shell::PlateProperties& plate,
                  const shell::MembraneForce& force) {
  return {shell::quad_stiffness(at, plate), shell::quad_geometric(at, force),
          shell::quad_membrane_force(at, plate), shell::quad_strain_load(at, plate)};
}
Matrices matrices(const shell::Triangle& at, const shell::PlateProperties& plate,
                  const shell::MembraneForce& force) {
  return {shell::triangle_stiffness(at, plate), shell::triangle_geometric(at, force),
          shell::triangle_membrane_force(at, plate), shell::triangle_strain_load(at, plate)};
}

void check_same(const Eigen::MatrixXd& got, const Eigen::MatrixXd& expected) {
  REQUIRE(expected.cwiseAbs().maxCoeff() > 0.0);
  CHECK((got - expected).cwiseAbs().maxCoeff() < 1e-12 * expected.cwiseAbs().maxCoeff());
}

// Checks the matrices of the moved element against the first one's, where the moved freedoms are `turn` times
// the first ones and the moved strains (ex, ey, gxy) `strain` times; forces go by the inverse transpose.
void check_moved(const Matrices& moved, const Matrices& first, const Eigen::MatrixXd& turn,
                 const Eigen::Matrix3d& strain) {
  const Eigen::Matrix3d force = strain.inverse().transpose();
  check_same(moved.stiffness, turn * first.stiffness * turn.transpose());
  check_same(moved.geometric, turn * first.geometric * turn.transpose());
  check_same(moved.force, force * first.force * turn.transpose());
  check_same(moved.load, turn * first.load * strain.inverse());
}

template <std::size_t corners>
Eigen::MatrixXd each_node(const std::array<std::array<double, 6>, 6>& of_node) {
  const auto size = static_cast<Eigen::Index>(6 * corners);
  Eigen::MatrixXd turn = Eigen::MatrixXd::Zero(size, size);
  for (std::size_t node = 0; node < corners; ++node)
    for (std::size_t row = 0; row < 6; ++row)
      for (std::size_t column = 0; column < 6; ++column)
        turn(static_cast<Eigen::Index>(6 * node + row), static_cast<Eigen::Index>(6 * node + column)) =
            of_node[row][column];
  return turn;
}

// new corner i is the old corner from[i].
template <std::size_t corners> Eigen::MatrixXd renumbered(const std::array<std::size_t, corners>& from) {
  const auto size = static_cast<Eigen::Index>(6 * corners);
  Eigen::MatrixXd turn = Eigen::MatrixXd::Zero(size, size);
  for (std::size_t node = 0; node < corners; ++node)
    turn.block<6, 6>(static_cast<Eigen::Index>(6 * node), static_cast<Eigen::Index>(6 * from[node]))
        .setIdentity();
  return turn;
}

template <std::size_t corners> void check_turning(const std::array<Vec2, corners>& at) {
  for (const double angle : {0.3, 1.5707963267948966, 2.5, -1.1}) {
    const double c = std::cos(angle), s = std::sin(angle);
    std::array<Vec2, corners> moved{};
    for (std::size_t i = 0; i < corners; ++i)
      moved[i] = Vec2{7.0 + c * at[i].x - s * at[i].y, -5.0 + s * at[i].x + c * at[i].y};
    Eigen::Matrix3d strain;
    strain << c * c, s * s, -c * s, s * s, c * c, c * s, 2.0 * c * s, -2.0 * c * s, c * c - s * s;
    const shell::MembraneForce force = strain.inverse().transpose() * kForce;
    check_moved(matrices(moved, kPlate, force), matrices(at, kPlate, kForce),
                each_node<corners>({{{c, -s, 0, 0, 0, 0},
                                     {s, c, 0, 0, 0, 0},
                                     {0, 0, 1, 0, 0, 0},
                                     {0, 0, 0, c, -s, 0},
                                     {0, 0, 0, s, c, 0},
                                     {0, 0, 0, 0, 0, 1}}}),
                strain);
  }
}

// x to -x: displacements are mirrored, rotations (axial vectors) the other way; the corners run backwards.
template <std::size_t corners> void check_mirror(const std::array<Vec2, corners>& at) {
  std::array<Vec2, corners> moved{};
  std::array<std::size_t, corners> from{};
  for (std::size_t i = 0; i < corners; ++i) {
    from[i] = corners - 1 - i;
    moved[i] = Vec2{-at[from[i]].x, at[from[i]].y};
  }
  const Eigen::Matrix3d strain = Eigen::Vector3d(1.0, 1.0, -1.0).asDiagonal();
  const auto turned = each_node<corners>({{{-1, 0, 0, 0, 0, 0},
                                           {0, 1, 0, 0, 0, 0},
                                           {0, 0, 1, 0, 0, 0},
                                           {0, 0, 0, 1, 0, 0},
                                           {0, 0, 0, 0, -1, 0},
                                           {0, 0, 0, 0, 0, -1}}});
  check_moved(matrices(moved, kPlate, strain * kForce), matrices(at, kPlate, kForce),
              renumbered<corners>(from) * turned, strain);
}

// The plate seen from below: x stays, y and the normal turn about.
template <std::size_t corners> void check_underside(const std::array<Vec2, corners>& at) {
  std::array<Vec2, corners> moved{};
  std::array<std::size_t, corners> from{};
  for (std::size_t i = 0; i < corners; ++i) {
    from[i] = corners - 1 - i;
    moved[i] = Vec2{at[from[i]].x, -at[from[i]].y};
  }
  const Eigen::Matrix3d strain = Eigen::Vector3d(1.0, 1.0, -1.0).asDiagonal();
  const auto turned = each_node<corners>({{{1, 0, 0, 0, 0, 0},
                                           {0, -1, 0, 0, 0, 0},
                                           {0, 0, -1, 0, 0, 0},
                                           {0, 0, 0, 1, 0, 0},
                                           {0, 0, 0, 0, -1, 0},
                                           {0, 0, 0, 0, 0, -1}}});
  check_moved(matrices(moved, kPlate, strain * kForce), matrices(at, kPlate, kForce),
              renumbered<corners>(from) * turned, strain);
}

template <std::size_t corners> void check_numbering(const std::array<Vec2, corners>& at) {
  for (std::size_t first = 1; first < corners; ++first) {
    std::array<Vec2, corners> moved{};
    std::array<std::size_t, corners> from{};
    for (std::size_t i = 0; i < corners; ++i) {
      from[i] = (first + i) % corners;
      moved[i] = at[from[i]];
    }
    check_moved(matrices(moved, kPlate, kForce), matrices(at, kPlate, kForce), renumbered<corners>(from),
                Eigen::Matrix3d::Identity());
  }
}

// All lengths by s: forces of a displacement by s, moments by s^2, moments of a rotation by s^3. Of a given
// membrane force the work on displacements stays, and a length comes in with each rotation. Recovered forces
// and loads: the force of a displacement stays, that of a rotation goes by s; loads by s^2, moments by s^3.
template <std::size_t corners> void check_scaling(const std::array<Vec2, corners>& at) {
  for (const double s : {0.125, 3.0, 1000.0}) {
    std::array<Vec2, corners> scaled{};
    for (std::size_t i = 0; i < corners; ++i)
      scaled[i] = at[i] * s;
    const Matrices first = matrices(at, kPlate, kForce);
    const Matrices large = matrices(scaled, {kPlate.E_mpa, kPlate.nu, kPlate.t_mm * s}, kForce);
    const Eigen::MatrixXd lengths = each_node<corners>({{{1, 0, 0, 0, 0, 0},
                                                         {0, 1, 0, 0, 0, 0},
                                                         {0, 0, 1, 0, 0, 0},
                                                         {0, 0, 0, s, 0, 0},
                                                         {0, 0, 0, 0, s, 0},
                                                         {0, 0, 0, 0, 0, s}}});
    // Back to the first size, so that no entry hides behind another's unit.
    const Eigen::MatrixXd back = lengths.inverse();
    check_same(back * large.stiffness * back / s, first.stiffness);
    check_same(back * large.geometric * back, first.geometric);
    check_same(large.force * back, first.force);
    check_same(back * large.load / (s * s), first.load);
  }
}

template <class Element> void check_all(const std::vector<Element>& elements) {
  for (const Element& element : elements) {
    check_turning(element);
    check_mirror(element);
    check_underside(element);
    check_numbering(element);
    check_scaling(element);
  }
}

} // namespace

TEST_CASE("turning, mirroring, renumbering and scaling an element turns, mirrors, renumbers and scales its "
          "matrices") {
  check_all(kQuads);
  check_all(kTriangles);
}

TEST_CASE(
    "stiffness goes with E, bending with the third power of the thickness, the membrane with the first") {
  const Eigen::MatrixXd thin = shell::quad_stiffness(kQuads[1], kPlate);
  const Eigen::MatrixXd thick =
      shell::quad_stiffness(kQuads[1], {2.0 * kPlate.E_mpa, kPlate.nu, 3.0 * kPlate.t_mm});
  const Eigen::MatrixXd small = shell::triangle_stiffness(kTriangles[1], kPlate);
  const Eigen::MatrixXd great =
      shell::triangle_stiffness(kTriangles[1], {2.0 * kPlate.E_mpa, kPlate.nu, 3.0 * kPlate.t_mm});
  const auto check = [](const Eigen::MatrixXd& one, const Eigen::MatrixXd& other) {
    for (Eigen::Index row = 0; row < one.rows(); ++row)
      for (Eigen::Index column = 0; column < one.cols(); ++column) {
        const bool bends = row % 6 >= 2 && row % 6 <= 4, in_plane = column % 6 < 2 || column % 6 == 5;
        if (bends == in_plane) {
          CHECK(one(row, column) == 0.0); // they do not mix in a flat plate
        } else {
          const double factor = bends ? 54.0 : 6.0;
          CHECK(other(row, column) ==
                Approx(factor * one(row, column)).epsilon(1e-12).margin(1e-12 * other.cwiseAbs().maxCoeff()));
        }
      }
  };
  check(thin, thick);
  check(small, great);
}

TEST_CASE("a plate tilted under a membrane force takes the work of its slopes exactly") {
  // w = a x + b y: half of u' K u is A (Nx a^2 + 2 Nxy a b + Ny b^2)/2 [derived].
  const double a = 0.02, b = -0.03;
  const double per_area = kForce(0) * a * a + 2.0 * kForce(2) * a * b + kForce(1) * b * b;
  const auto check = [&](const auto& at, const Eigen::MatrixXd& K) {
    Eigen::VectorXd tilted = Eigen::VectorXd::Zero(K.rows());
    double area = 0.0;
    for (std::size_t i = 0; i < at.size(); ++i) {
      area += 0.5 * cross(at[i], at[(i + 1) % at.size()]);
      tilted.segment<3>(static_cast<Eigen::Index>(6 * i + 2)) << a * at[i].x + b * at[i].y, b, -a;
    }
    CHECK(tilted.dot(K * tilted) == Approx(area * per_area).epsilon(1e-12));
  };
  for (const shell::Quad& quad : kQuads)
    check(quad, shell::quad_geometric(quad, kForce));
  for (const shell::Triangle& triangle : kTriangles)
    check(triangle, shell::triangle_geometric(triangle, kForce));
}
