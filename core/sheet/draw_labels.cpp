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
  // A line is a row of small squares: good enough for type of 2 to 3 mm.
  const double length = norm(b - a);
  const int parts = std::max(1, static_cast<int>(std::ceil(length)));
  for (int i = 0; i <= parts; ++i) {
    const Vec2 at = a + (b - a) * (static_cast<double>(i) / parts);
    taken_.push_back({at.x - 0.3, at.y - 0.3, at.x + 0.3, at.y + 0.3});
  }
}

bool LabelPlacer::is_free(const Area& area) const {
  if (area.x0 < 0.0 || area.y0 < 0.0 || area.x1 > drawing_.width_mm || area.y1 > drawing_.height_mm)
    return false;
  return std::none_of(taken_.begin(), taken_.end(), [&](const Area& other) {
    return area.x0 < other.x1 && other.x0 < area.x1 && area.y0 < other.y1 && other.y0 < area.y1;
  });
}

LabelPlacer::Area LabelPlacer::area_of(const DrawnLabel& label, Vec2 at) {
  const double width = text_width_mm(label);
  const double left = label.anchor == Anchor::start ? at.x
                      : label.anchor == Anchor::end ? at.x - width
                                                    : at.x - width / 2;
  const double half = label.size_mm * 0.5 + kClearance_mm;
  return {left - kClearance_mm, at.y - half, left + width + kClearance_mm, at.y + half};
}

void LabelPlacer::place_if_free(DrawnLabel label, const std::vector<Vec2>& spots) {
  for (const Vec2 at : spots) {
    const Area area = area_of(label, at);
    if (!is_free(area)) continue;
    taken_.push_back(area);
    label.at = at;
    drawing_.labels.push_back(std::move(label));
    return;
  }
}

void LabelPlacer::place(DrawnLabel label, bool leader) {
  if (label.text.empty()) return;
  constexpr std::array<Vec2, 8> kDirections{Vec2{0, -1}, {0, 1},   {1, 0}, {-1, 0},
                                            {1, -1},     {-1, -1}, {1, 1}, {-1, 1}};
  const Vec2 wanted = label.at;
  Vec2 best = wanted;
  bool found = is_free(area_of(label, wanted));
  for (int ring = 1; ring <= 24 && !found; ++ring) {
    for (const Vec2 direction : kDirections) {
      const Vec2 at = wanted + direction * (static_cast<double>(ring) * label.size_mm * 0.5);
      if (!is_free(area_of(label, at))) continue;
      best = at;
      found = true;
      break;
    }
  }
  label.at = best;
  taken_.push_back(area_of(label, best));
  if (leader && norm(best - wanted) > 2.0 * label.size_mm) {
    // The leader ends at the edge of the text, not in it.
    const Area area = area_of(label, best);
    const Vec2 end{std::clamp(wanted.x, area.x0, area.x1), std::clamp(wanted.y, area.y0, area.y1)};
    drawing_.lines.push_back({{wanted, end}, Stroke::dimension, false, false});
  }
  drawing_.labels.push_back(std::move(label));
}

} // namespace tacksquare
