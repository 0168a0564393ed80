// Sizes along the lower and the left edge of a flat pattern, for its drawings. Used by the files that draw
// it.
#pragma once

#include "geometry/flat_pattern.h"

#include <functional>
#include <string>
#include <vector>

namespace tacksquare {

// A place measured from the lower left corner: a leader of three points from the pattern to the label.
struct SizePlace {
  Vec2 at, knee, label; // pattern's frame, +y up; label: the middle of the text's height
  bool below = true; // under the pattern, text in the middle over the label; else left of it, text ends there
  std::string text;
};

// Moved as little as keeps them `apart` from each other, in order: labels of places in rising order.
void spread_apart(std::vector<double>& at, double apart);

// Both corners and each bend line that lies square to an edge, each place once; labels spread so that texts
// of text_mm height do not cover each other. said: the size as it is to be written.
std::vector<SizePlace> flat_sizes(const FlatPattern& pattern, double text_mm,
                                  const std::function<std::string(double)>& said);

} // namespace tacksquare
