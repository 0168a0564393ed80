// The deformed box for viewers: VTK's XML file of an unstructured grid (.vtu), ASCII.
#pragma once

#include "physics/elastic/whole_box.h"

#include <string>

namespace tacksquare::elastic {

struct VtkOptions {
  double scale = 1.0; // of all displacements
  double step_mm =
      0.0001; // all numbers are multiples of it, so that bytes do not depend on the machine; 0.0001 to 1
};

// Points in the box frame, not deformed; point data `displacement` (mm, times the scale); cell data `face`,
// index in Box::faces. Nodes of different faces stay apart. Throws NumericalFailure when a displacement is
// not finite.
std::string write_vtk(const Plates& plates, const Shape& shape, const VtkOptions& options);

} // namespace tacksquare::elastic
