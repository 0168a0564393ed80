// What could be changed about a box, and what each change does to the chance that every limit holds.
#pragma once

#include "planning/planner/box_case.h"

#include <vector>

namespace tacksquare {

// Each change by itself, by the coarse elastic model and one set of draws (Judging::draws(), of one seed), so
// that only the change differs; what gains most first, ties as listed here:
//   pitch, tack-length  tacks at half the pitch; half as long again
//   fixture             the best way to hold it that was weighed and is not the planned one, and holding it
//   fixture-none        by nothing: as weigh_fixture found them, both chances from there
//   runs, back-step     runs of half the length; back-step on or off
//   heat                a fifth less heat: shrinkage across, its force and the angle all times 0.8. In
//                       formulas/shrinkage.h across and force are in proportion to heat, but for a section
//                       held at yield; the angle is up to q/t^2 = 6.27 J/mm3 only, beyond it grows as heat
//                       falls. So the figure stands for less shrinkage of every kind, as of coupon values.
//   side                corner and butt seams from the other side; none of a closed box or one that is
//                       welded on both sides
//   bends               half of what they come in off, middle and scatter
//   thicker             each sheet the next of kStock_mm, middle surfaces where they are; settings as the job
//                       states them, else of that thickness
// The rest of the job is planned as it would be: steps, directions of runs and, where the fixture had to go
// with the change, that. Orders of seams and tacks, and what of the fixture was left out, stay.
// Left out is what changes nothing, makes a fault, puts a seam out of reach or fails; of boxes with very many
// springs what needs a model of its own. Before the fixture is weighed: no fixture's levers.
std::vector<Lever> levers_of(const BoxCase& box);

} // namespace tacksquare
