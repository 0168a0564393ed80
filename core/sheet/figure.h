// Drawings as lines and labels in mm on paper, drawn once; writers turn them into SVG and, later, other
// forms.
#pragma once

#include "base/vec.h"

#include <string>
#include <vector>

namespace tacksquare {

enum class Stroke {
  outline,     // an edge of the metal
  hidden,      // the same, behind metal
  seam,        // weld here
  seam_hidden, // the same, behind metal
  tack,        // a tick across the seam
  run,         // from start to stop
  dimension,   // thin: sizes, leaders, axes
  bar,         // a filled bar of a chart
  bar_open     // a bar with an outline only
};
enum class Anchor { start, middle, end };

struct DrawnLine {
  std::vector<Vec2> points; // +y down
  Stroke stroke = Stroke::outline;
  bool closed = false;
  bool arrow = false; // at the last point
  bool operator==(const DrawnLine&) const = default;
};

struct DrawnLabel {
  Vec2 at; // the middle of the text's height
  std::string text;
  Anchor anchor = Anchor::middle;
  double size_mm = 2.8; // height of the type
  bool strong = false;
  bool operator==(const DrawnLabel&) const = default;
};

struct Drawing {
  std::string title;
  std::string told; // the drawing in words, for who cannot see it
  double width_mm = 0.0, height_mm = 0.0;
  std::vector<DrawnLine> lines;
  std::vector<DrawnLabel> labels;
  bool operator==(const Drawing&) const = default;
};

} // namespace tacksquare
