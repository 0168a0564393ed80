#include "planning/planner/aimed.h"

#include "geometry/box_geometry.h"
#include "physics/shrinkage/expected.h"
#include "work/work.h"

#include <deque>

namespace tacksquare {
namespace {

// A box as it is stated, before anything is aimed at.
struct Looked {
  BoxGeometry geometry;
  Work work;
  Prediction prediction;
};

std::optional<Looked> look_at(const Job& job, const Box& box, Diagnostics& out) {
  Diagnostics faults;
  std::optional<Looked> looked;
  BoxGeometry geometry = resolve_geometry(job, box, faults);
  if (!faults.has_errors()) {
    Work work = make_work(job, box, geometry, faults);
    if (!faults.has_errors()) {
      Prediction prediction = predict(box, job, geometry, work);
      looked = {std::move(geometry), std::move(work), std::move(prediction)};
    }
  }
  // Cautions are told of the boxes as aimed.
  if (faults.has_errors()) out.append(faults);
  return looked;
}

} // namespace

void hold_to_row(const StandFit& stand, Work& work) {
  for (Measure& measure : work.measures) {
    if (measure.kind != MeasureKind::width || !measure.id.starts_with("width-")) continue;
    measure.over_mm = std::max(0.0, stand.largest_mm - measure.nominal_mm);
    measure.under_mm = std::max(0.0, measure.nominal_mm - stand.smallest_mm);
    measure.limit_source = {"the row in its opening", Mark::derived};
  }
}

Aimed aim_at_opening(const Job& job, const WeldEffects& effects, Diagnostics& out) {
  Aimed aimed{job, {}, {}};
  if (!job.opening && job.measured.empty()) return aimed;
  std::deque<Looked> looked;
  std::vector<BoxKnown> known;
  for (const Box& box : job.boxes) {
    std::optional<Looked> one = look_at(job, box, out);
    if (!one) continue;
    looked.push_back(std::move(*one));
    const std::optional<WeldEffect>& effect = effects.at(static_cast<std::size_t>(&box - job.boxes.data()));
    known.push_back({&box, &looked.back().geometry, &looked.back().work, &looked.back().prediction,
                     effect ? &*effect : nullptr});
  }
  if (known.size() < job.boxes.size()) return aimed;
  if (job.opening) aimed.row = fit_row(job, known, out);
  if (out.has_errors()) return aimed;
  aimed.first_off = judge_first_off(job, known, aimed.row);
  if (aimed.row) tell_chances(*job.opening, *aimed.row, out);
  for (std::size_t i = 0; i < job.boxes.size(); ++i)
    if (const StandFit* stand = stand_of(aimed.row, job.boxes[i].id))
      aimed.job.boxes[i] = enlarged(job.boxes[i], {stand->target_mm - stand->nominal_mm, 0.0, 0.0});
  return aimed;
}

} // namespace tacksquare
