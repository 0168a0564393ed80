// What the welded box carries in itself: membrane forces of its faces, and the tension of its seams.
#pragma once

#include "physics/elastic/whole_box.h"

#include <vector>

namespace tacksquare::elastic {

// By face and element of its mesh; the elastic part of the strain alone.
using MembraneForces = std::vector<std::vector<shell::MembraneForce>>;

// In a shape whose loads on readings were `loads`: what a T or lap shrinks across (Shrunk::across_load) is a
// strain of the base that is free of stress.
MembraneForces membrane_forces(const BoxModel& model, const Shape& shape, const Eigen::VectorXd& loads);

// Weld metal that pulls along a line of nodes of a face.
struct SeamString {
  std::size_t face = 0;
  std::vector<std::size_t> nodes;
  std::vector<double> tension_N; // from each node to the next
};

// The tension behind loads along lines: force_N times the reading pushes the nodes of each of its faces
// together, and the weld metal between them is pulled as much. The reading's load lies on one straight line
// of nodes a face.
std::vector<SeamString> seam_strings(const BoxModel& model, Index reading, double force_N);
// Of all welds that `loads` make shrink.
std::vector<SeamString> seam_strings(const BoxModel& model, const Eigen::VectorXd& loads);

} // namespace tacksquare::elastic
