#include "physics/elastic/moved.h"

#include "base/diagnostic.h"

#include <Eigen/Dense>

namespace tacksquare::elastic {

namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

Vector3d of(Vec3 v) {
  return {v.x, v.y, v.z};
}

Matrix3d axes(const Placement& frame) {
  Matrix3d m;
  m << of(frame.u), of(frame.v), of(frame.normal());
  return m;
}

// u + w x r, displacement and turn of the whole.
struct Motion {
  Vector3d shift, turn;
};

template <class Visit> void each_node(const Plates& plates, const Shape& shape, Visit visit) {
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    if (!plates.has(f)) continue;
    const Matrix3d frame = axes(plates.frame(f));
    const std::vector<Vec2>& nodes = plates.plate(f).mesh().nodes;
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      const Index first = static_cast<Index>(i) * shell::kNodeFreedoms;
      visit(f, first, frame, of(plates.frame(f).at(nodes[i])), frame * shape[f].segment<3>(first));
    }
  }
}

Matrix3d crossed(const Vector3d& r) { // crossed(r) w = w x r
  Matrix3d m;
  m << 0.0, r.z(), -r.y(), -r.z(), 0.0, r.x(), r.y(), -r.x(), 0.0;
  return m;
}

Motion common_motion(const Plates& plates, const Shape& shape) {
  Eigen::Matrix<double, 6, 6> normal = Eigen::Matrix<double, 6, 6>::Zero();
  Eigen::Matrix<double, 6, 1> right = Eigen::Matrix<double, 6, 1>::Zero();
  each_node(plates, shape, [&](std::size_t, Index, const Matrix3d&, const Vector3d& r, const Vector3d& u) {
    Eigen::Matrix<double, 3, 6> row;
    row << Matrix3d::Identity(), crossed(r);
    normal += row.transpose() * row;
    right += row.transpose() * u;
  });
  const Eigen::Matrix<double, 6, 1> x = normal.ldlt().solve(right);
  if (!x.allFinite()) throw NumericalFailure("the shape of the box has no finite figures");
  return {x.head<3>(), x.tail<3>()};
}

} // namespace

Shape settled(const Plates& plates, Shape shape) {
  const Motion whole = common_motion(plates, shape);
  Shape made = shape;
  each_node(plates, shape,
            [&](std::size_t f, Index first, const Matrix3d& frame, const Vector3d& r, const Vector3d& u) {
              made[f].segment<3>(first) = frame.transpose() * (u - whole.shift - crossed(r) * whole.turn);
              made[f].segment<3>(first + 3) -= frame.transpose() * whole.turn;
            });
  return made;
}

std::vector<MovedLine> moved_edges(const Box& box, const Plates& plates, const Shape& shape) {
  std::vector<MovedLine> lines;
  for (std::size_t f = 0; f < box.faces.size(); ++f) {
    if (!plates.has(f)) continue;
    const Placement& frame = plates.frame(f);
    const shell::PlateMesh& mesh = plates.plate(f).mesh();
    const Face& face = box.faces[f];
    for (std::size_t i = 0; i < face.outline.size(); ++i) {
      const Vec2 a = frame.local(face.placement.at(face.outline[i]));
      const Vec2 b = frame.local(face.placement.at(face.outline[(i + 1) % face.outline.size()]));
      const double length = norm(b - a);
      MovedLine line;
      line.face = f;
      for (const shell::ChainNode& n : shell::nodes_along(mesh, a, b)) {
        if (n.at_mm < -1e-6 || n.at_mm > length + 1e-6) continue;
        const Eigen::Vector3d u = shape[f].segment<3>(static_cast<Index>(n.node) * shell::kNodeFreedoms);
        line.at.push_back(frame.at(mesh.nodes[n.node]));
        line.moved.push_back(frame.u * u(0) + frame.v * u(1) + frame.normal() * u(2));
      }
      if (line.at.size() > 1) lines.push_back(std::move(line));
    }
  }
  return lines;
}

} // namespace tacksquare::elastic
