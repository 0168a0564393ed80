// What the finished box is expected to measure, and what is put back into its blanks.
#pragma once

#include "planning/planner/box_case.h"

#include <string>
#include <vector>

namespace tacksquare {

// A deformed box for viewers (VTK's XML file of an unstructured grid).
struct ShapeFile {
  std::string box; // id
  std::string vtk;
};

// Fills BoxCase::expected, put_back_mm and elastic: by the elastic model of the tacked box; by the closed
// forms alone when it is to be quick, or when the model failed numerically, which is a caution. Faults as
// elastic::make_box_model. shapes: where not null, the welded box is added.
void expect_box(BoxCase& box, bool quick, std::vector<ShapeFile>* shapes, Diagnostics& out);

// What a size along one of the box's axes is larger by in the blanks.
double put_back_along(const BoxCase& box, const Measure& size);

} // namespace tacksquare
