#include "planning/planner/case_of.h"

#include "planning/planner/aimed.h"
#include "planning/planner/fixing.h"
#include "planning/tacks/tack_plan.h"

namespace tacksquare {
namespace {

// What is inside a closed box is welded before anything else: nobody gets in there later.
void put_inside_first(Work& work) {
  for (const std::size_t inside : work.inside_first)
    for (std::size_t other = 0; other < work.seams.size(); ++other)
      if (!work.seams[other].inside) work.before.push_back({inside, other});
}

} // namespace

std::optional<BoxCase> case_of(const Job& job, std::size_t index, const std::optional<RowFit>& row,
                               Diagnostics& faults) {
  const Box& box = job.boxes[index];
  BoxGeometry geometry = resolve_geometry(job, box, faults);
  if (faults.has_errors()) return std::nullopt;
  Work work = make_work(job, box, geometry, faults);
  if (faults.has_errors()) return std::nullopt;
  const StandFit* stand = stand_of(row, box.id);
  if (stand) hold_to_row(*stand, work);
  put_inside_first(work);
  std::vector<Tack> tacks = plan_tacks(box, geometry, work);
  WeldOrder order = order_welds(job, box, geometry, work);
  work.runs = order.directed;
  Prediction prediction = predict(box, job, geometry, work);
  std::optional<double> room_mm;
  if (stand) room_mm = stand->largest_mm - stand->target_mm;
  std::vector<ReceivingLimit> limits = receiving_limits(job, box, geometry, work, room_mm);
  std::vector<PartReading> readings = judge_parts(job, index, geometry, work, room_mm);
  BoxCase made{job,
               box,
               std::move(geometry),
               std::move(work),
               std::move(tacks),
               std::move(order),
               std::move(prediction),
               std::move(limits),
               std::move(readings),
               row ? &*row : nullptr,
               stand};
  made.fixing = fix(made, faults);
  if (!made.fixing) return std::nullopt;
  return made;
}

} // namespace tacksquare
