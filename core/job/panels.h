// Faces as what a bench sees in them: the one that a part is bent up from, panels that are alike.
#pragma once

#include "job/job.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace tacksquare {

// Of a ring of corners, mm2, counter-clockwise positive.
double signed_area_mm2(const std::vector<Vec2>& ring);

// The largest face of each part, cut-outs taken off, of like ones the first: its others are bent up from it.
// As Box::parts; nothing for a part without faces.
std::vector<std::optional<std::size_t>> base_faces(const Box& box);

// Flat panels of the box that look opposite ways and are of one size: laid on each other their edges meet.
bool opposite_panels(const Box& box, std::size_t face_a, std::size_t face_b);

} // namespace tacksquare
