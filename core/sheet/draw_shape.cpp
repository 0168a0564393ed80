// How the welds pull the box: every edge as drawn, dashed, and as it moves, many times larger.
#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tacksquare {

namespace {

constexpr double kPaper_mm = 88.0, kMargin_mm = 10.0;
constexpr double kDrawnMost = 0.08; // of the box's diagonal: the largest movement as it is drawn

// Rounded down to 1, 2 or 5 times a power of ten; at least 1.
double round_times(double wanted) {
  double times = 1.0;
  for (double ten = 1.0; ten <= wanted; ten *= 10.0)
    for (const double factor : {1.0, 2.0, 5.0})
      if (ten * factor <= wanted) times = ten * factor;
  return times;
}

struct Furthest {
  Vec3 at, moved;
};

Furthest furthest_of(const ElasticPlan& elastic) {
  Furthest found;
  for (const MovedEdge& edge : elastic.shape)
    for (std::size_t i = 0; i < edge.at.size(); ++i)
      if (norm(edge.moved[i]) > norm(found.moved)) found = {edge.at[i], edge.moved[i]};
  return found;
}

} // namespace

std::optional<Drawing> draw_shape(const Composer& compose, const BoxPlan& box) {
  if (!box.elastic || box.elastic->shape.empty()) return std::nullopt;
  const Furthest furthest = furthest_of(*box.elastic);
  const double most = norm(furthest.moved);
  if (!(most > 0.0)) return std::nullopt;
  const double times = round_times(kDrawnMost * norm(box.high - box.low) / most);

  constexpr double kFar = std::numeric_limits<double>::max();
  Vec2 low{kFar, kFar}, high{-kFar, -kFar};
  const auto each = [&](auto visit) {
    for (const MovedEdge& edge : box.elastic->shape) {
      std::vector<Vec2> drawn, moved;
      for (std::size_t i = 0; i < edge.at.size(); ++i) {
        drawn.push_back(oblique(edge.at[i]));
        moved.push_back(oblique(edge.at[i] + edge.moved[i] * times));
      }
      visit(drawn, moved);
    }
  };
  each([&](const std::vector<Vec2>& drawn, const std::vector<Vec2>& moved) {
    for (const auto* line : {&drawn, &moved})
      for (const Vec2 p : *line) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
      }
  });
  const double scale = (kPaper_mm - 2.0 * kMargin_mm) / std::max({high.x - low.x, high.y - low.y, 1.0});
  const auto paper = [&](Vec2 p) { return (p - low) * scale + Vec2{kMargin_mm, kMargin_mm}; };

  Drawing out;
  const std::vector<Arg> told = {number("times", ArgKind::ratio, times),
                                 number("most", ArgKind::fine_mm, most)};
  out.title = compose.line("draw.shape", told);
  out.told = compose.line("draw.shape.told", told);
  out.width_mm = kPaper_mm;
  out.height_mm = (high.y - low.y) * scale + 2.0 * kMargin_mm;
  each([&](std::vector<Vec2> drawn, std::vector<Vec2> moved) {
    for (auto* line : {&drawn, &moved})
      for (Vec2& p : *line)
        p = paper(p);
    out.lines.push_back({std::move(drawn), Stroke::hidden, false, false});
    out.lines.push_back({std::move(moved), Stroke::outline, false, false});
  });
  LabelPlacer placer(out);
  placer.place({paper(oblique(furthest.at + furthest.moved * times)),
                compose.quantity(ArgKind::fine_mm, most), Anchor::start, 3.0, true});
  crop(out);
  return out;
}

} // namespace tacksquare
