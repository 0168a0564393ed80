// A flat pattern as it lies on the cutter, for the sheet: what is cut, the bends with their names, the
// sizes and what is etched.
#include "sheet/draw.h"
#include "sheet/flat_sizes.h"
#include "sheet/plain_text.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

constexpr double kWide_mm = 118.0, kHigh_mm = 105.0; // of the pattern on paper, at most
constexpr double kLeft_mm = 20.0, kRight_mm = 14.0, kTop_mm = 4.0, kUnder_mm = 10.0;
constexpr double kSize_mm = 2.4;      // type of the sizes
constexpr double kLeastMark_mm = 2.2; // type of what is etched, when drawn this small

class FlatDrawer {
 public:
  FlatDrawer(const Composer& compose, const FlatPattern& pattern)
      : compose_(compose), pattern_(pattern), placer_(drawing_) {}

  Drawing draw() {
    scale_ =
        std::min(kWide_mm / std::max(pattern_.length_mm, 1.0), kHigh_mm / std::max(pattern_.width_mm, 1.0));
    drawing_.width_mm = kLeft_mm + pattern_.length_mm * scale_ + kRight_mm;
    drawing_.height_mm = kTop_mm + pattern_.width_mm * scale_ + kUnder_mm;
    drawing_.title = compose_.line("draw.flat", {word("part", pattern_.part), word("size", size())});
    drawing_.told = compose_.line("draw.flat.told", {word("part", pattern_.part)});
    ring(pattern_.outline);
    for (const auto& hole : pattern_.holes)
      ring(hole);
    for (const FlatBend& bend : pattern_.bends)
      line({paper(bend.start), paper(bend.end)}, Stroke::hidden);
    for (const FlatMark& mark : pattern_.marks)
      if (mark.height_mm <= 0.0)
        line({paper(mark.from), paper(mark.to)}, mark.kind == "tack-tick" ? Stroke::tack : Stroke::dimension);
    sizes();
    for (const FlatBend& bend : pattern_.bends)
      bend_name(bend);
    for (const char* kind : {"face-letter", "seam-number"})
      for (const FlatMark& mark : pattern_.marks)
        if (mark.kind == kind) etched(mark);
    crop(drawing_);
    return std::move(drawing_);
  }

 private:
  Vec2 paper(Vec2 p) const { return {kLeft_mm + p.x * scale_, kTop_mm + (pattern_.width_mm - p.y) * scale_}; }
  void line(std::vector<Vec2> points, Stroke stroke) {
    for (std::size_t i = 1; i < points.size(); ++i)
      placer_.avoid(points[i - 1], points[i]);
    drawing_.lines.push_back({std::move(points), stroke, false, false});
  }
  void ring(const std::vector<Vec2>& points) {
    std::vector<Vec2> drawn;
    for (const Vec2 point : points)
      drawn.push_back(paper(point));
    drawn.push_back(drawn.front());
    line(std::move(drawn), Stroke::outline);
  }

  void sizes() {
    const auto said = [&](double mm) { return compose_.bare(ArgKind::fine_mm, mm); };
    for (const SizePlace& size : flat_sizes(pattern_, kSize_mm / scale_, said)) {
      const Vec2 at = paper(size.at), knee = paper(size.knee), label = paper(size.label);
      const Vec2 foot = size.below ? label - Vec2{0.0, 0.7 * kSize_mm} : label + Vec2{0.3 * kSize_mm, 0.0};
      line({at, knee, foot}, Stroke::dimension);
      placer_.place({label, size.text, size.below ? Anchor::middle : Anchor::end, kSize_mm, false}, false);
    }
  }

  // Beside the bend's line, a third of the way on: the letters stand at the middle.
  void bend_name(const FlatBend& bend) {
    const Vec2 a = paper(bend.start), b = paper(bend.end), d = b - a;
    if (norm(d) <= 0.0) return;
    const Vec2 across = Vec2{-d.y, d.x} * (1.0 / norm(d));
    const std::string name =
        compose_.line("map.pair", {word("a", cleaned(bend.face_a)), word("b", cleaned(bend.face_b))});
    const DrawnLabel label{{}, name, Anchor::middle, kSize_mm, true};
    const double off =
        0.8 + 0.5 * (std::abs(across.x) * text_width_mm(label) + std::abs(across.y) * kSize_mm);
    std::vector<Vec2> spots;
    for (const double share : {0.33, 0.67, 0.5, 0.2, 0.8})
      for (const double side : {off, -off})
        spots.push_back(a + d * share + across * side);
    placer_.place_if_free(label, spots);
  }

  void etched(const FlatMark& mark) {
    const bool letter = mark.kind == "face-letter";
    const double high = letter ? std::clamp(mark.height_mm * scale_, kLeastMark_mm, 6.0) : kLeastMark_mm;
    const DrawnLabel label{paper(mark.from), cleaned(mark.text), Anchor::middle, high, letter};
    placer_.place(label, false);
  }

  std::string size() const {
    return compose_.bare(ArgKind::fine_mm, pattern_.length_mm) + compose_.word("draw.by") +
           compose_.quantity(ArgKind::fine_mm, pattern_.width_mm);
  }

  const Composer& compose_;
  const FlatPattern& pattern_;
  Drawing drawing_;
  LabelPlacer placer_;
  double scale_ = 1.0;
};

} // namespace

Drawing draw_flat(const Composer& compose, const FlatPattern& pattern) {
  return FlatDrawer(compose, pattern).draw();
}

} // namespace tacksquare
