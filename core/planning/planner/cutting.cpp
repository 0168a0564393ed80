#include "planning/planner/cutting.h"

#include "opening/row_fit.h"
#include "planning/bending/find_bend_order.h"

namespace tacksquare {
namespace {

// What the first box says that the blanks of the next are to be larger by. Of a row the width is corrected in
// what it aims at.
Vec3 correction_mm(const FirstOff* first, bool of_row) {
  Vec3 by;
  if (!first || first->release != Release::correct) return by;
  for (const SizeFound& size : first->sizes)
    if (size.axis != 'x' || !of_row)
      (size.axis == 'x' ? by.x : size.axis == 'y' ? by.y : by.z) += size.correction_mm;
  return by;
}

} // namespace

Cutting cutting_of(const BoxCase& box, const FirstOff* first, Diagnostics& out) {
  const Box larger = enlarged(box.box, box.put_back_mm + correction_mm(first, box.stand != nullptr));
  Diagnostics again; // the same cautions as of the box itself
  const BoxGeometry geometry = resolve_geometry(box.job, larger, again);
  TackPlaces tacks;
  for (const Tack& tack : box.tacks)
    tacks.push_back({box.work.seams[tack.seam].id, tack.at_mm});
  Cutting cutting;
  cutting.patterns = flat_patterns(box.job, larger, geometry, tacks, out);
  if (!box.job.brake || out.has_errors()) return cutting;
  for (const FlatPattern& pattern : cutting.patterns) {
    if (pattern.bends.size() > kMostBends)
      out.caution("bends-many", box.box.where,
                  "part " + pattern.part + " of box " + box.box.id + " has more than " +
                      std::to_string(kMostBends) + " bends: no order is looked for",
                  "make it of two parts");
    else if (!pattern.bends.empty())
      cutting.bend_orders.push_back(find_bend_order(*box.job.brake, pattern));
  }
  return cutting;
}

} // namespace tacksquare
