#include "physics/elastic/stress.h"

#include "base/diagnostic.h"
#include "physics/shell/cells.h"

#include <algorithm>
#include <utility>

namespace tacksquare::elastic {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using shell::kNodeFreedoms;

// Forces in the plane of the nodes that a reading loads.
VectorXd nodal(const shell::Plate& plate, const shell::Reading& reading) {
  VectorXd load = VectorXd::Zero(static_cast<Index>(plate.freedoms()));
  for (const shell::Reading::Term& t : reading.terms)
    load(static_cast<Index>(t.freedom)) += t.factor;
  return load;
}

Vec2 in_plane(const VectorXd& load, std::size_t node) {
  const auto at = static_cast<Index>(node) * kNodeFreedoms;
  return {load(at), load(at + 1)};
}

// All nodes from the first to the last that is loaded in the plane; they lie on a line.
std::vector<std::size_t> loaded_line(const shell::PlateMesh& mesh, const VectorXd& load) {
  // A place that lies on a node but for rounding loads its neighbours, too. A line that ends f of an element
  // past a node loads the next by f^2, and its strip by f: what is left out here is lost in add_free_strain's
  // residual.
  constexpr double kNoise = 1e-13;
  double most = 0.0;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    most = std::max(most, norm(in_plane(load, n)));
  std::vector<std::size_t> loaded;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (norm(in_plane(load, n)) > kNoise * most) loaded.push_back(n);
  if (loaded.size() < 2) throw InternalError("a load along a line that loads no line");
  const auto farthest = [&](Vec2 from) {
    return *std::max_element(loaded.begin(), loaded.end(), [&](std::size_t a, std::size_t b) {
      return norm(mesh.nodes[a] - from) < norm(mesh.nodes[b] - from) - 1e-9;
    });
  };
  const Vec2 a = mesh.nodes[farthest(mesh.nodes[loaded.front()])], b = mesh.nodes[farthest(a)];
  std::vector<std::size_t> line;
  for (const shell::ChainNode& c : shell::nodes_along(mesh, a, b)) {
    const double along = dot(mesh.nodes[c.node] - a, b - a) / dot(b - a, b - a);
    if (along > -1e-9 && along < 1.0 + 1e-9) line.push_back(c.node);
  }
  if (line.size() < 2) throw InternalError("a load along a line that no elements follow");
  return line;
}

// What a joint's cells read along their line on one of its faces.
VectorXd along_joint(const BoxModel& model, const Joint& joint, std::size_t face) {
  const shell::Plate& plate = model.plates->plate(face);
  VectorXd sum = VectorXd::Zero(static_cast<Index>(plate.freedoms()));
  for (int cell = 0; cell < cells_of(joint); ++cell)
    for (const auto& [of, reading] :
         model.readings[static_cast<std::size_t>(joint.readings[static_cast<std::size_t>(4 * cell)])])
      if (of == face) sum += nodal(plate, reading);
  return sum;
}

// The strains that a strip's load (LineReader::strip) stands for, element by element. Each edge of its line
// gives the elements beside it one strain across, found again by least squares.
void add_free_strain(const shell::Plate& plate, const std::vector<std::size_t>& line, const VectorXd& load,
                     double factor, MatrixXd& strain) {
  const shell::PlateMesh& mesh = plate.mesh();
  const Vec2 way = mesh.nodes[line.back()] - mesh.nodes[line.front()], t = way * (1.0 / norm(way));
  const Eigen::Vector3d shrunk(-t.y * t.y, -t.x * t.x, 2.0 * t.x * t.y);
  const auto edges = static_cast<Index>(line.size()) - 1;
  MatrixXd loads = MatrixXd::Zero(load.size(), edges);
  std::vector<std::pair<Index, std::size_t>> beside; // edge, element
  for (Index e = 0; e < edges; ++e)
    for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
      const shell::Cell& cell = mesh.cells[c];
      if (!shell::has_node(cell, line[static_cast<std::size_t>(e)]) ||
          !shell::has_node(cell, line[static_cast<std::size_t>(e) + 1]))
        continue;
      beside.emplace_back(e, c);
      const VectorXd own = shell::strain_load(mesh, cell, plate.properties()) * shrunk;
      for (std::size_t i = 0; i < cell.corners; ++i)
        loads.col(e).segment<kNodeFreedoms>(static_cast<Index>(cell.node[i]) * kNodeFreedoms) +=
            own.segment<kNodeFreedoms>(static_cast<Index>(i) * kNodeFreedoms);
    }
  const VectorXd share = (loads.transpose() * loads).ldlt().solve(loads.transpose() * load);
  if ((loads * share - load).norm() > 1e-6 * load.norm())
    throw InternalError("the shrinkage of a strip does not follow its line");
  for (const auto& [e, c] : beside)
    strain.col(static_cast<Index>(c)) += factor * share(e) * shrunk;
}

} // namespace

MembraneForces membrane_forces(const BoxModel& model, const Shape& shape, const VectorXd& loads) {
  const Plates& plates = *model.plates;
  std::vector<MatrixXd> free_strain(plates.faces());
  for (std::size_t f = 0; f < plates.faces(); ++f)
    if (plates.has(f))
      free_strain[f] = MatrixXd::Zero(3, static_cast<Index>(plates.plate(f).mesh().cells.size()));
  for (const std::vector<Joint>* joints : {&model.tacks, &model.welds})
    for (const Joint& joint : *joints) {
      if (joint.shrunk.across_load < 0 || loads(joint.shrunk.across_load) == 0.0) continue;
      for (const auto& [face, reading] : model.readings[static_cast<std::size_t>(joint.shrunk.across_load)]) {
        const shell::Plate& plate = plates.plate(face);
        add_free_strain(plate, loaded_line(plate.mesh(), along_joint(model, joint, face)),
                        nodal(plate, reading), loads(joint.shrunk.across_load), free_strain[face]);
      }
    }
  MembraneForces made(plates.faces());
  for (std::size_t f = 0; f < plates.faces(); ++f) {
    if (!plates.has(f)) continue;
    const shell::Plate& plate = plates.plate(f);
    const shell::PlateProperties& p = plate.properties();
    const Eigen::Matrix3d stiffness = shell::plane_stress(p) * p.t_mm; // N/mm
    for (std::size_t c = 0; c < plate.mesh().cells.size(); ++c) {
      const shell::Cell& cell = plate.mesh().cells[c];
      VectorXd u(static_cast<Index>(cell.corners) * kNodeFreedoms);
      for (std::size_t i = 0; i < cell.corners; ++i)
        u.segment<kNodeFreedoms>(static_cast<Index>(i) * kNodeFreedoms) =
            shape[f].segment<kNodeFreedoms>(static_cast<Index>(cell.node[i]) * kNodeFreedoms);
      const shell::MembraneForce whole = shell::membrane_force(plate.mesh(), cell, p) * u;
      made[f].push_back(whole - stiffness * free_strain[f].col(static_cast<Index>(c)));
    }
  }
  return made;
}

std::vector<SeamString> seam_strings(const BoxModel& model, Index reading, double force_N) {
  std::vector<SeamString> made;
  for (const auto& [face, of_face] : model.readings[static_cast<std::size_t>(reading)]) {
    const shell::Plate& plate = model.plates->plate(face);
    const VectorXd load = nodal(plate, of_face);
    SeamString string{face, loaded_line(plate.mesh(), load), {}};
    const auto& nodes = plate.mesh().nodes;
    const Vec2 way = nodes[string.nodes.back()] - nodes[string.nodes.front()];
    const Vec2 t = way * (1.0 / norm(way));
    double pushed = 0.0; // what pushes forward so far is what the string must pull back
    for (std::size_t i = 0; i + 1 < string.nodes.size(); ++i) {
      pushed += dot(in_plane(load, string.nodes[i]), t);
      string.tension_N.push_back(force_N * pushed);
    }
    made.push_back(std::move(string));
  }
  return made;
}

std::vector<SeamString> seam_strings(const BoxModel& model, const VectorXd& loads) {
  std::vector<SeamString> made;
  for (const Joint& weld : model.welds)
    if (loads(weld.along_load) != 0.0)
      for (SeamString& s : seam_strings(model, weld.along_load, loads(weld.along_load)))
        made.push_back(std::move(s));
  return made;
}

} // namespace tacksquare::elastic
