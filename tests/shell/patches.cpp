// What every sound element must hold exactly, whatever its shape: constant strain and curvature, and six
// rigid motions.
#include "shell/assembly.h"
#include "support/catch.h"
#include "support/table.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const shell::PlateProperties kPlate{1e6, 0.25, 1.0};
const std::vector<Freedom> kSix{U, V, W, RX, RY, RZ};

// Displacements linear in the plane, w quadratic.
struct Field {
  double ux = 0.0, uy = 0.0, vx = 0.0, vy = 0.0;    // derivatives of u and v
  double wxx = 0.0, wyy = 0.0, wxy = 0.0, wx = 0.0; // curvatures, a slope
  std::array<double, 6> at(Vec3 p) const {
    return {ux * p.x + uy * p.y,
            vx * p.x + vy * p.y,
            wx * p.x + 0.5 * (wxx * p.x * p.x + wyy * p.y * p.y) + wxy * p.x * p.y,
            wyy * p.y + wxy * p.x,
            -(wx + wxx * p.x + wxy * p.y),
            0.5 * (vx - uy)};
  }
};

bool on_rim(Vec3 p, double a_mm, double b_mm) {
  return p.x < 1e-6 || p.y < 1e-6 || p.x > a_mm - 1e-6 || p.y > b_mm - 1e-6;
}

// Solves the mesh with the field on its rim, and gives the largest departure inside, as a share of the
// largest value.
double departure(const Mesh& mesh, double a_mm, double b_mm, const Field& field) {
  Model model(mesh, kPlate);
  for (const std::size_t node : mesh.where([&](Vec3 p) { return on_rim(p, a_mm, b_mm); }))
    for (const Freedom f : kSix)
      model.hold(node, f, field.at(mesh.nodes[node])[f]);
  const Freedoms moved = model.solve();
  std::array<double, 2> worst{}, largest{}; // of translations and of rotations
  std::size_t inside = 0;
  for (std::size_t node = 0; node < mesh.nodes.size(); ++node) {
    if (!on_rim(mesh.nodes[node], a_mm, b_mm)) ++inside;
    for (const Freedom f : kSix) {
      const std::size_t sort = f < RX ? 0 : 1;
      const double expected = field.at(mesh.nodes[node])[f];
      worst[sort] = std::max(worst[sort], std::abs(moved(model.freedom(node, f)) - expected));
      largest[sort] = std::max(largest[sort], std::abs(expected));
    }
  }
  REQUIRE(inside > 0);
  REQUIRE(largest[0] > 0.0);
  // A field of pure strain has no rotation to compare with: take the one of its size.
  const double rotation = std::max(largest[1], largest[0] / a_mm);
  return std::max(worst[0] / largest[0], worst[1] / rotation);
}

std::vector<Field> constant_fields() {
  std::vector<Field> all(8);
  all[0].ux = all[1].vy = all[2].uy = all[3].vx = 1e-3;
  all[4].wxx = all[5].wyy = all[6].wxy = 1e-5;
  all[7] = {1e-3, 0.5e-3, -2e-3, 0.3e-3, 1e-5, -2e-5, 0.7e-5, 1e-3};
  return all;
}

// Elements of every angle and aspect ratio: 5 by 4 cells of 300 by 200 mm, the nodes inside thrown about.
Mesh distorted(Kind kind) {
  return grid(kind, 5, 4, [](double x, double y) {
    const double inside = std::sin(3.14159265 * x) * std::sin(3.14159265 * y) > 1e-6 ? 1.0 : 0.0;
    return Vec3{300.0 * x + inside * 17.0 * std::sin(31.0 * x + 57.0 * y),
                200.0 * y + inside * 15.0 * std::cos(43.0 * x - 29.0 * y), 0.0};
  });
}

} // namespace

TEST_CASE("constant strain and curvature pass the patch of MacNeal and Harder and a distorted net") {
  for (const Kind kind : kKinds)
    for (const Field& field : constant_fields()) {
      CHECK(departure(patch(kind), 240.0, 120.0, field) < 1e-10);
      CHECK(departure(distorted(kind), 300.0, 200.0, field) < 1e-10);
    }
}

TEST_CASE("the patch of MacNeal and Harder has their stresses and moments") {
  const Table table("shell_patch.tsv", {"quantity", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 5);
  // Their fields, at a thickness of 1 mm: u = 1e-3 (x + y/2), v = 1e-3 (y + x/2), w = 1e-3 (x^2 + x y +
  // y^2)/2.
  Field field;
  field.ux = field.vy = 1e-3;
  field.uy = field.vx = 0.5e-3;
  Field bent;
  bent.wxx = bent.wyy = 1e-3;
  bent.wxy = 0.5e-3;
  for (const Kind kind : kKinds) {
    const Mesh mesh = patch(kind);
    Model stretched(mesh, kPlate), curved(mesh, kPlate);
    for (std::size_t node = 0; node < 4; ++node)
      for (const Freedom f : kSix) {
        stretched.hold(node, f, field.at(mesh.nodes[node])[f]);
        curved.hold(node, f, bent.at(mesh.nodes[node])[f]);
      }
    const Freedoms moved = stretched.solve(), deflected = curved.solve();
    const double work = 0.5 * deflected.dot(curved.stiffness() * deflected) / (240.0 * 120.0);
    for (const Table::Row& row : table.rows()) {
      INFO(row.shown());
      const double value = row.number("value"), tolerance = row.number("tolerance") * std::abs(value);
      if (row.text("quantity") == "work") {
        CHECK(work == Approx(value).epsilon(0).margin(tolerance));
        continue;
      }
      for (std::size_t element = 0; element < mesh.elements.size(); ++element) {
        const Eigen::Matrix3d stress = stretched.membrane_force(element, moved) / kPlate.t_mm;
        const std::string& quantity = row.text("quantity");
        REQUIRE((quantity == "sx" || quantity == "sy" || quantity == "sxy" || quantity == "syx"));
        const double got = stress(quantity[1] == 'x' ? 0 : 1, quantity.back() == 'x' ? 0 : 1);
        CHECK(got == Approx(value).epsilon(0).margin(tolerance));
      }
    }
  }
}

TEST_CASE("an element has six motions without work and no seventh, however distorted") {
  // Lengths about 1, so that all entries of the matrix are alike.
  const shell::PlateProperties thick{1.0, 0.3, 1.0};
  const auto check_modes = [](const Eigen::MatrixXd& K) {
    const Eigen::VectorXd values = Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(K).eigenvalues();
    const double largest = values(values.size() - 1);
    CHECK(std::max(std::abs(values(0)), std::abs(values(5))) < 1e-13 * largest);
    CHECK(values(6) > 1e-9 * largest); // the short sides below make the largest so large
    CHECK((K - K.transpose()).cwiseAbs().maxCoeff() <= 1e-15 * largest);
  };
  const std::vector<shell::Quad> quads{
      {Vec2{0, 0}, Vec2{1, 0}, Vec2{1, 1}, Vec2{0, 1}},         // square
      {Vec2{0, 0}, Vec2{2, 0}, Vec2{2, 0.5}, Vec2{0, 0.5}},     // rectangle
      {Vec2{0, 0}, Vec2{1, 0}, Vec2{1.8, 0.6}, Vec2{0.8, 0.6}}, // parallelogram
      {Vec2{0, 0}, Vec2{2, 0}, Vec2{1.2, 1}, Vec2{0.6, 1}},     // trapezium
      {Vec2{0, 0}, Vec2{3, 0.1}, Vec2{1.2, 1}, Vec2{-0.5, 0.4}},
      {Vec2{0, 0}, Vec2{1, 0}, Vec2{0.52, 0.52}, Vec2{0, 1}}, // nearly a triangle
      {Vec2{0, 0}, Vec2{1, 0}, Vec2{1, 0.02}, Vec2{0, 1}}};   // a side nearly gone
  for (const shell::Quad& quad : quads)
    check_modes(shell::quad_stiffness(quad, thick));
  const std::vector<shell::Triangle> triangles{{Vec2{0, 0}, Vec2{1, 0}, Vec2{0, 1}},
                                               {Vec2{0, 0}, Vec2{1, 0}, Vec2{0.5, 0.8660254}},
                                               {Vec2{0, 0}, Vec2{3, 0.1}, Vec2{1.2, 1}},
                                               {Vec2{0, 0}, Vec2{1, 0}, Vec2{0.4, 0.1}},
                                               {Vec2{0, 0}, Vec2{1, 0}, Vec2{1.4, 0.2}}};
  for (const shell::Triangle& triangle : triangles)
    check_modes(shell::triangle_stiffness(triangle, thick));
}

TEST_CASE("rigid motions need no force") {
  for (const Kind kind : kKinds) {
    const Mesh mesh = distorted(kind);
    const Model model(mesh, kPlate);
    const double largest = Eigen::MatrixXd(model.stiffness()).cwiseAbs().maxCoeff();
    const std::array<Vec3, 3> axes{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
    for (std::size_t motion = 0; motion < 6; ++motion) {
      const Vec3 by = motion < 3 ? axes[motion] : Vec3{}, about = motion < 3 ? Vec3{} : axes[motion - 3];
      Freedoms moved(model.stiffness().rows());
      for (std::size_t node = 0; node < mesh.nodes.size(); ++node) {
        const Vec3 shift = by + cross(about, mesh.nodes[node]);
        moved.segment<6>(model.freedom(node, U)) << shift.x, shift.y, shift.z, about.x, about.y, about.z;
      }
      CHECK((model.stiffness() * moved).cwiseAbs().maxCoeff() <
            1e-12 * largest * moved.cwiseAbs().maxCoeff());
    }
  }
}

TEST_CASE("a plate without supports takes on a free strain exactly, and no force is left in it") {
  const double E = kPlate.E_mpa, nu = kPlate.nu;
  Eigen::Matrix3d D;
  D << 1.0, nu, 0.0, nu, 1.0, 0.0, 0.0, 0.0, 0.5 * (1.0 - nu);
  D *= E * kPlate.t_mm / (1.0 - nu * nu);
  for (const Kind kind : kKinds)
    for (const Eigen::Vector3d& free :
         {Eigen::Vector3d(-1e-3, 0.0, 0.0), Eigen::Vector3d(0.0, 2e-3, 0.0), Eigen::Vector3d(0.0, 0.0, 1e-3),
          Eigen::Vector3d(1e-3, -3e-3, 2e-3)}) {
      const Mesh mesh = distorted(kind);
      Model model(mesh, kPlate);
      model.strain(free);
      model.hold(0, U);
      model.hold(0, V);
      model.hold(0, W);
      model.hold(0, RX);
      model.hold(0, RY);
      model.hold(mesh.at({300.0, 0.0, 0.0}), V);
      const Freedoms moved = model.solve();
      // v of the first side is held, so all the shear is in u.
      Field field;
      field.ux = free(0);
      field.uy = free(2);
      field.vy = free(1);
      const double size = free.cwiseAbs().maxCoeff() * 300.0;
      for (std::size_t node = 0; node < mesh.nodes.size(); ++node)
        for (const Freedom f : kSix)
          CHECK(std::abs(moved(model.freedom(node, f)) - field.at(mesh.nodes[node])[f]) < 1e-10 * size);
      Eigen::Matrix3d shrunk = Eigen::Matrix3d::Zero();
      const Eigen::Vector3d force = D * free;
      shrunk.topLeftCorner<2, 2>() << force(0), force(2), force(2), force(1);
      for (std::size_t element = 0; element < mesh.elements.size(); ++element)
        CHECK((model.membrane_force(element, moved) - shrunk).cwiseAbs().maxCoeff() <
              1e-10 * shrunk.cwiseAbs().maxCoeff());
    }
}
