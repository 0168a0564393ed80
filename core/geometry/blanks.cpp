#include "geometry/parts_of_resolve.h"
#include "geometry/unfold.h"

#include <algorithm>

namespace tacksquare {
namespace {

Blank blank_of(std::size_t part, const std::vector<Panel>& panels, const UnfoldedPart& unfolded) {
  Blank blank;
  blank.part = part;
  if (unfolded.faces.empty()) return blank;
  Vec2 low = unfolded.laid.front().at(panels[unfolded.faces.front()].cut.outline.front()), high = low;
  for (std::size_t i = 0; i < unfolded.faces.size(); ++i) {
    const Shape& cut = panels[unfolded.faces[i]].cut;
    blank.area_mm2 += area(cut);
    for (const Vec2 p : unfolded.laid[i].ring(cut.outline)) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
  }
  for (const LaidBend& bend : unfolded.bends)
    blank.area_mm2 += (bend.take.flat_mm - 2.0 * bend.take.tangent_mm) * bend.length_mm;
  blank.length_mm = std::max(high.x - low.x, high.y - low.y);
  blank.width_mm = std::min(high.x - low.x, high.y - low.y);
  const Panel& any = panels[unfolded.faces.front()];
  blank.mass_kg = blank.area_mm2 * any.t_mm * any.sheet->metal.density_kg_m3 * 1e-9;
  return blank;
}

} // namespace

std::vector<Blank> blanks(const Job& job, const Box& box, const std::vector<Panel>& panels,
                          const std::vector<BendMeeting>& bends, Diagnostics& out) {
  const std::vector<UnfoldedPart> unfolded = unfold(job, box, panels, bends, out);
  std::vector<Blank> all;
  for (std::size_t p = 0; p < unfolded.size(); ++p)
    all.push_back(blank_of(p, panels, unfolded[p]));
  return all;
}

} // namespace tacksquare
