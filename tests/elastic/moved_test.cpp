// The deformed box as it is drawn: rigid motion taken out, edges whole.
#include "elastic/made_box.h"
#include "physics/elastic/moved.h"
#include "support/catch.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;
using namespace tacksquare::elastic;

namespace {

// Moved and turned as a whole, mm and rad.
Shape carried(const Plates& plates, Vec3 shift, Vec3 turn) {
  Shape shape(plates.faces());
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    if (!plates.has(f)) continue;
    const Placement& frame = plates.frame(f);
    const auto& nodes = plates.plate(f).mesh().nodes;
    shape[f] = Eigen::VectorXd::Zero(static_cast<Index>(plates.plate(f).freedoms()));
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      const Vec3 u = shift + cross(turn, frame.at(nodes[i]));
      const Index first = static_cast<Index>(i) * shell::kNodeFreedoms;
      const Vec3 axes[] = {frame.u, frame.v, frame.normal()};
      for (Index k = 0; k < 3; ++k) {
        shape[f](first + k) = dot(u, axes[k]);
        shape[f](first + 3 + k) = dot(turn, axes[k]);
      }
    }
  }
  return shape;
}

double largest(const Shape& shape) {
  double most = 0.0;
  for (const Eigen::VectorXd& face : shape)
    if (face.size() > 0) most = std::max(most, face.cwiseAbs().maxCoeff());
  return most;
}

} // namespace

TEST_CASE("a box that was only carried about has not changed its shape") {
  const StatedBox b = stated_box("open");
  ModelOptions options;
  const BoxModel model = made_box(b, options);
  const Shape shape = carried(*model.plates, {3.0, -2.0, 5.0}, {0.001, 0.002, -0.003});
  CHECK(largest(shape) > 1.0);
  CHECK(largest(settled(*model.plates, shape)) < 1e-9);
}

TEST_CASE("every edge of every face is drawn, from corner to corner") {
  const StatedBox b = stated_box("open");
  ModelOptions options;
  const BoxModel model = made_box(b, options);
  const Shape shape = carried(*model.plates, {1.0, 2.0, 3.0}, {});
  const std::vector<MovedLine> lines = moved_edges(b.box, *model.plates, shape);
  std::size_t edges = 0;
  for (const Face& face : b.box.faces)
    edges += face.outline.size();
  REQUIRE(lines.size() == edges);
  std::size_t line = 0;
  for (std::size_t f = 0; f < b.box.faces.size(); ++f) {
    const Face& face = b.box.faces[f];
    for (std::size_t i = 0; i < face.outline.size(); ++i, ++line) {
      CHECK(lines[line].face == f);
      CHECK(norm(lines[line].at.front() - face.placement.at(face.outline[i])) < 1e-6);
      CHECK(norm(lines[line].at.back() - face.placement.at(face.outline[(i + 1) % face.outline.size()])) <
            1e-6);
      for (const Vec3 moved : lines[line].moved)
        CHECK(norm(moved - Vec3{1.0, 2.0, 3.0}) < 1e-9);
    }
  }
}
