// Flat patterns as files for whoever cuts, 1:1 in mm, the outside of the box up (geometry/flat_pattern.h).
// Layers: CUT the outline and the holes, round ones as circles; BEND the middles of the bent zones, dashed;
// ETCH what is marked. Coordinates to 0.1 micrometre; the same bytes on every machine.
#pragma once

#include "geometry/flat_pattern.h"

#include <string>

namespace tacksquare {

// SVG: the layers as groups with these ids, the lower left corner of the pattern left and below; sizes,
// places and names of the bends in a group SIZES of their own, for people and not for the cutter.
std::string write_flat_svg(const FlatPattern& pattern);

// DXF R12 (AC1009), ASCII: closed POLYLINEs, CIRCLEs, LINEs and TEXTs, the pattern's lower left corner at 0,
// 0. Its origin, sheet and size stand in comments at its head.
std::string write_flat_dxf(const FlatPattern& pattern);

} // namespace tacksquare
