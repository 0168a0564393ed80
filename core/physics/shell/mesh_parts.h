// The two ways to cut a plate into elements, and what they share. Lengths in mm.
#pragma once

#include "physics/shell/mesh.h"

#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace tacksquare::shell {

// Points and lines nearer than this are one: far above rounding, far below what a shear cuts.
inline constexpr double kOne_mm = 1e-7;
// More are a mistake in the size.
inline constexpr std::size_t kMostNodes = 200'000;

double ring_area_mm2(const std::vector<Vec2>& ring);
// Cut-outs taken off.
double shape_area_mm2(const PlateShape& shape);
// What an element should measure there.
double size_at_mm(const PlateShape& shape, double size_mm, Vec2 at);
// The smallest size that the shape asks for.
double least_size_mm(const PlateShape& shape, double size_mm);

// Quadrilaterals; nothing when the shape is not one for them: four corners between 30 and 150 degrees,
// opposite sides no further apart in length than 1 to 4, more corners only in the straight of a side, no
// cut-outs, each line along the net, and no strip thinner than 0.5 mm.
std::optional<PlateMesh> mapped_mesh(const PlateShape& shape, double size_mm);

// Triangles on any shape.
PlateMesh triangle_mesh(const PlateShape& shape, double size_mm);

// Sides of all rings and lines as pieces that meet only at their ends; a piece that two of them share is
// there once. Pieces no longer than their size, between one meeting point and the next equal parts of it.
struct PlateGraph {
  std::vector<Vec2> points;
  std::set<std::pair<std::size_t, std::size_t>> pieces; // smaller index first
};
PlateGraph plate_graph(const PlateShape& shape, double size_mm);

// Points of a lattice of even-sided triangles, set along the longest side, that cover the outline (and some
// of what is about it) and keep clear of all pieces. Refinement that starts from them gives cells whose least
// angle is 54 degrees at the mean; without them it is 46, with a quarter more cells.
std::vector<Vec2> lattice(const PlateShape& shape, const PlateGraph& graph, double size_mm);

} // namespace tacksquare::shell
