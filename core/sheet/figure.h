// Drawings as lines and labels in mm on paper, drawn once; writers turn them into SVG and, later, other forms.
#pragma once

#include "base/vec.h"

#include <string>
#include <vector>

namespace tacksquare {

enum class Stroke { outline, hidden, seam, tack, run, dimension, vent };
enum class Anchor { start, middle, end };

struct DrawnLine {
  std::vector<Vec2> points; // +y down
  Stroke stroke = Stroke::outline;
  bool closed = false;
  bool arrow = false;       // at the last point
};

struct DrawnLabel {
  Vec2 at;
  std::string text;
  Anchor anchor = Anchor::middle;
  bool strong = false;
};

struct Drawing {
  std::string title;
  double width_mm = 0.0, height_mm = 0.0;
  std::vector<DrawnLine> lines;
  std::vector<DrawnLabel> labels;
};

} // namespace tacksquare
