// The flat part as it lies in front of the brake: cut line, faces, and each bend with its number in the
// order.
#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <limits>

namespace tacksquare {

namespace {

constexpr double kWide_mm = 120.0, kHigh_mm = 92.0, kMargin_mm = 4.0;

class BendDrawer {
 public:
  BendDrawer(const Composer& compose, const FlatPattern& pattern, const BendOrder& order)
      : compose_(compose), pattern_(pattern), order_(order), placer_(drawing_) {}

  Drawing draw() {
    drawing_.title = compose_.line("draw.bends", {word("part", pattern_.part)});
    drawing_.told = compose_.line("draw.bends.told", {word("part", pattern_.part)});
    scale_ = std::min((kWide_mm - 2 * kMargin_mm) / std::max(pattern_.length_mm, 1.0),
                      (kHigh_mm - 2 * kMargin_mm) / std::max(pattern_.width_mm, 1.0));
    drawing_.width_mm = pattern_.length_mm * scale_ + 2 * kMargin_mm;
    drawing_.height_mm = pattern_.width_mm * scale_ + 2 * kMargin_mm;
    ring(pattern_.outline);
    for (const auto& hole : pattern_.holes)
      ring(hole);
    for (const FlatBend& bend : pattern_.bends) {
      drawing_.lines.push_back({{paper(bend.start), paper(bend.end)}, Stroke::hidden, false, false});
      placer_.avoid(paper(bend.start), paper(bend.end));
    }
    for (std::size_t i = 0; i < order_.steps.size(); ++i) {
      if (order_.steps[i].bend < pattern_.bends.size()) number(i, pattern_.bends[order_.steps[i].bend]);
      for (const std::size_t bend : order_.steps[i].with)
        if (bend < pattern_.bends.size()) number(i, pattern_.bends[bend]);
    }
    for (const FlatFace& face : pattern_.faces)
      if (!face.flat.empty())
        placer_.place(
            {middle_of(face.flat), cleaned(face.id), Anchor::middle, face.id.size() > 1 ? 2.8 : 5.0, false},
            false);
    return std::move(drawing_);
  }

 private:
  Vec2 paper(Vec2 p) const {
    return {kMargin_mm + p.x * scale_, kMargin_mm + (pattern_.width_mm - p.y) * scale_};
  }
  void ring(const std::vector<Vec2>& points) {
    DrawnLine line{{}, Stroke::outline, true, false};
    for (const Vec2 point : points)
      line.points.push_back(paper(point));
    for (std::size_t i = 0; i < line.points.size(); ++i)
      placer_.avoid(line.points[i], line.points[(i + 1) % line.points.size()]);
    drawing_.lines.push_back(std::move(line));
  }
  // On its line, in a white field.
  void number(std::size_t place, const FlatBend& bend) {
    constexpr double kSize_mm = 6.0, kHalf_mm = 4.0;
    const Vec2 at = (paper(bend.start) + paper(bend.end)) * 0.5;
    drawing_.lines.push_back({{at + Vec2{-kHalf_mm, -kHalf_mm}, at + Vec2{kHalf_mm, -kHalf_mm},
                               at + Vec2{kHalf_mm, kHalf_mm}, at + Vec2{-kHalf_mm, kHalf_mm}},
                              Stroke::bar_open,
                              true,
                              false});
    placer_.avoid(at + Vec2{-kHalf_mm, 0}, at + Vec2{kHalf_mm, 0});
    placer_.avoid(at + Vec2{0, -kHalf_mm}, at + Vec2{0, kHalf_mm});
    drawing_.labels.push_back({at, std::to_string(place + 1), Anchor::middle, kSize_mm, true});
  }
  Vec2 middle_of(const std::vector<Vec2>& points) const {
    Vec2 low{std::numeric_limits<double>::max(), std::numeric_limits<double>::max()}, high = low * -1.0;
    for (const Vec2 point : points) {
      const Vec2 at = paper(point);
      low = {std::min(low.x, at.x), std::min(low.y, at.y)};
      high = {std::max(high.x, at.x), std::max(high.y, at.y)};
    }
    return (low + high) * 0.5;
  }

  const Composer& compose_;
  const FlatPattern& pattern_;
  const BendOrder& order_;
  Drawing drawing_;
  LabelPlacer placer_;
  double scale_ = 1.0;
};

} // namespace

Drawing draw_bends(const Composer& compose, const FlatPattern& pattern, const BendOrder& order) {
  return BendDrawer(compose, pattern, order).draw();
}

} // namespace tacksquare
