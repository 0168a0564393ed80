// The job's boxes at the sizes that they are aimed at: as stated, or as the opening wants them.
#pragma once

#include "job/job.h"
#include "opening/first_off.h"
#include "opening/row_fit.h"

#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

struct Aimed {
  Job job; // boxes at their target sizes
  std::optional<RowFit> row;
  std::vector<FirstOff> first_off;
};

// What welding does to each box by the elastic model; as Job::boxes, nothing where it was not asked.
using WeldEffects = std::vector<std::optional<WeldEffect>>;

// Faults as resolve_geometry, make_work and fit_row tell them; without an opening none is looked for here.
Aimed aim_at_opening(const Job& job, const WeldEffects& effects, Diagnostics& out);

// Widths are held to what the row wants instead of the job's own limits.
void hold_to_row(const StandFit& stand, Work& work);

} // namespace tacksquare
