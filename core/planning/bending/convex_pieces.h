// Convex pieces of a plane outline.
#pragma once

#include "base/vec.h"

#include <vector>

namespace tacksquare {

// The outline itself where it is convex, else strips with two parallel sides each, cut square to its first
// edge at its corners. Precondition: counter-clockwise, does not cross itself.
std::vector<std::vector<Vec2>> convex_pieces(const std::vector<Vec2>& outline);

} // namespace tacksquare
