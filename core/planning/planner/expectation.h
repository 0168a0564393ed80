// What the finished box is expected to measure, and what is put back into its blanks.
#pragma once

#include "planning/planner/box_case.h"

#include <memory>
#include <string>
#include <vector>

namespace tacksquare {

// A deformed box for viewers (VTK's XML file of an unstructured grid).
struct ShapeFile {
  std::string box; // id
  std::string vtk;
};

// A box as the elastic model reckons it; see elastic_case.h.
struct ReckonedBox;

// Nothing when the box has no tacks, more of them than the model can take, or when it failed numerically: the
// last two are cautions. Faults as elastic::make_box_model.
std::shared_ptr<const ReckonedBox> reckon_box(const BoxCase& box, Diagnostics& out);

// It stands for this box, too: the same tacks and runs at the same places, to what a saw takes.
bool stands_for(const ReckonedBox& reckoned, const BoxCase& box);

// What the welds do to sizes, for the row.
WeldEffect weld_effect(const ReckonedBox& reckoned, const BoxCase& box);

// Fills BoxCase::expected, put_back_mm and elastic: by what was reckoned, by the closed forms alone where
// nothing was. shapes: where not null, the welded box is added.
void expect_box(BoxCase& box, const ReckonedBox* reckoned, std::vector<ShapeFile>* shapes);

// What a size along one of the box's axes is larger by in the blanks.
double put_back_along(const BoxCase& box, const Measure& size);

} // namespace tacksquare
