#include "physics/shrinkage/predicting.h"

#include "formulas/panel.h"

#include <algorithm>

namespace tacksquare {

namespace shrinkage {

std::optional<Band> trapped_air_bulge(const Predicting& p) {
  if (!p.geometry.closed) return std::nullopt;
  std::optional<Band> most;
  double largest_mm2 = 0.0;
  for (const std::size_t f : p.geometry.closed->faces) {
    const std::vector<Vec2>& outline = p.box.faces[f].outline;
    Vec2 low = outline.front(), high = low;
    for (const Vec2 q : outline) {
      low = {std::min(low.x, q.x), std::min(low.y, q.y)};
      high = {std::max(high.x, q.x), std::max(high.y, q.y)};
    }
    const Vec2 size = high - low;
    if (size.x * size.y <= largest_mm2) continue;
    largest_mm2 = size.x * size.y;
    const Metal& metal = p.sheet_of(f).metal;
    most = formulas::bulge_between_mm(size.x, size.y, p.thickness_mm(f), metal.youngs_MPa, metal.poisson,
                                      formulas::trapped_air_mpa(p.work.ambient_C, kWarmer_K));
  }
  return most;
}

} // namespace shrinkage

Prediction predict(const Box& box, const Job& job, const BoxGeometry& geometry, const Work& work) {
  Prediction result;
  result.seams.resize(work.seams.size());
  const shrinkage::Predicting p{job, box, geometry, work, result.seams};
  for (std::size_t i = 0; i < work.seams.size(); ++i)
    result.seams[i] = shrinkage::seam_shrinkage(p, i);
  for (std::size_t i = 0; i < work.seams.size(); ++i)
    shrinkage::add_neighbours(p, i, result.seams[i]);
  result.measures = shrinkage::expect_measures(p);
  result.contributions = shrinkage::contributions_of(p, result.measures);
  result.trapped_air_bulge_mm = shrinkage::trapped_air_bulge(p);
  return result;
}

} // namespace tacksquare
