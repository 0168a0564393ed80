#include "sheet/draw.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kWidthOfSign = 0.6; // of the type's height, digits and capitals of a sans serif
constexpr double kClearance_mm = 0.4;

} // namespace

double text_width_mm(const DrawnLabel& label) {
  return static_cast<double>(columns_of(label.text)) * label.size_mm *
         (label.strong ? kWidthOfSign * 1.1 : kWidthOfSign);
}

void LabelPlacer::avoid(Vec2 a, Vec2 b) {
  constexpr double kHalf_mm = 0.3;
  if (a.x == b.x || a.y == b.y) {
    taken_.push_back({std::min(a.x, b.x) - kHalf_mm, std::min(a.y, b.y) - kHalf_mm,
                      std::max(a.x, b.x) + kHalf_mm, std::max(a.y, b.y) + kHalf_mm});
    return;
  }
  // A slanting line is a row of small squares: good enough for type of 2 to 3 mm.
  const double length = norm(b - a);
  const int parts = std::max(1, static_cast<int>(std::ceil(length)));
  for (int i = 0; i <= parts; ++i) {
    const Vec2 at = a + (b - a) * (static_cast<double>(i) / parts);
    taken_.push_back({at.x - kHalf_mm, at.y - kHalf_mm, at.x + kHalf_mm, at.y + kHalf_mm});
  }
}

LabelArea label_area(const DrawnLabel& label, Vec2 at) {
  const double width = text_width_mm(label);
  const double left = label.anchor == Anchor::start ? at.x
                      : label.anchor == Anchor::end ? at.x - width
                                                    : at.x - width / 2;
  const double half = label.size_mm * 0.5 + kClearance_mm;
  return {left - kClearance_mm, at.y - half, left + width + kClearance_mm, at.y + half};
}

bool LabelPlacer::is_free(const LabelArea& area) const {
  if (area.x0 < 0.0 || area.y0 < 0.0 || area.x1 > drawing_.width_mm || area.y1 > drawing_.height_mm)
    return false;
  return std::none_of(taken_.begin(), taken_.end(), [&](const LabelArea& other) {
    return area.x0 < other.x1 && other.x0 < area.x1 && area.y0 < other.y1 && other.y0 < area.y1;
  });
}

void LabelPlacer::place_if_free(DrawnLabel label, const std::vector<Vec2>& spots) {
  for (const Vec2 at : spots) {
    const LabelArea area = label_area(label, at);
    if (!is_free(area)) continue;
    taken_.push_back(area);
    label.at = at;
    drawing_.labels.push_back(std::move(label));
    return;
  }
}

void LabelPlacer::place_for(DrawnLabel label, Vec2 named) {
  const Vec2 wanted = label.at;
  const std::size_t before = drawing_.labels.size();
  place(std::move(label), false);
  if (drawing_.labels.size() == before) return;
  const DrawnLabel& placed = drawing_.labels.back();
  if (norm(placed.at - wanted) <= placed.size_mm) return;
  const LabelArea area = label_area(placed, placed.at);
  const Vec2 end{std::clamp(named.x, area.x0, area.x1), std::clamp(named.y, area.y0, area.y1)};
  drawing_.lines.push_back({{named, end}, Stroke::dimension, false, false});
}

void LabelPlacer::place(DrawnLabel label, bool leader) {
  if (label.text.empty()) return;
  constexpr std::array<Vec2, 8> kDirections{Vec2{0, -1}, {0, 1},   {1, 0}, {-1, 0},
                                            {1, -1},     {-1, -1}, {1, 1}, {-1, 1}};
  const Vec2 wanted = label.at;
  Vec2 best = wanted;
  bool found = is_free(label_area(label, wanted));
  for (int ring = 1; ring <= 24 && !found; ++ring) {
    for (const Vec2 direction : kDirections) {
      const Vec2 at = wanted + direction * (static_cast<double>(ring) * label.size_mm * 0.5);
      if (!is_free(label_area(label, at))) continue;
      best = at;
      found = true;
      break;
    }
  }
  label.at = best;
  taken_.push_back(label_area(label, best));
  if (leader && norm(best - wanted) > 2.0 * label.size_mm) {
    // The leader ends at the edge of the text, not in it.
    const LabelArea area = label_area(label, best);
    const Vec2 end{std::clamp(wanted.x, area.x0, area.x1), std::clamp(wanted.y, area.y0, area.y1)};
    drawing_.lines.push_back({{wanted, end}, Stroke::dimension, false, false});
  }
  drawing_.labels.push_back(std::move(label));
}

void crop(Drawing& drawing) {
  constexpr double kEdge_mm = 0.8; // half a thick line and a little
  constexpr double kWidestFont = 1.18;
  Vec2 low{drawing.width_mm, drawing.height_mm}, high{};
  const auto see = [&](double x0, double y0, double x1, double y1) {
    low = {std::min(low.x, x0), std::min(low.y, y0)};
    high = {std::max(high.x, x1), std::max(high.y, y1)};
  };
  for (const DrawnLine& line : drawing.lines)
    for (const Vec2 p : line.points)
      see(p.x - kEdge_mm, p.y - kEdge_mm, p.x + kEdge_mm, p.y + kEdge_mm);
  for (const DrawnLabel& label : drawing.labels) {
    DrawnLabel widest = label; // in the widest font that a machine may have for it
    widest.size_mm *= kWidestFont;
    const LabelArea area = label_area(widest, label.at), tall = label_area(label, label.at);
    see(area.x0, tall.y0, area.x1, tall.y1);
  }
  if (low.x >= high.x || low.y >= high.y) return;
  for (DrawnLine& line : drawing.lines)
    for (Vec2& p : line.points)
      p = p - low;
  for (DrawnLabel& label : drawing.labels)
    label.at = label.at - low;
  drawing.width_mm = high.x - low.x;
  drawing.height_mm = high.y - low.y;
}

} // namespace tacksquare
