// Walls on a base so thick that their feet do not give.
#pragma once

#include "elastic/stated_box.h"

namespace tacksquare::test {

// A wall `tall` x `deep` that stands on a bend along y = 0, out of the base towards -y; with `opposite`
// another on the base's other edge, at y = 200.
StatedBox wall(double tall, double deep, double t, double e, double nu, bool opposite = false);

// A figure of one point's displacement; its index.
std::size_t point(StatedBox& b, Vec3 at, Vec3 direction);

} // namespace tacksquare::test
