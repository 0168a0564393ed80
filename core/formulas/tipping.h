// A box that is swung upright on its lower back edge. docs/theory.md, "Tipping". mm, rad.
#pragma once

#include <optional>

namespace tacksquare::formulas {

// Height that a box of height h and depth d takes up when it leans by a: h cos a + d sin a [derived].
double tipped_height_mm(double h_mm, double d_mm, double lean_rad);
// The most of it on the way from that lean to upright: from beyond tan a = d/h on the diagonal sqrt(h^2 +
// d^2).
double tip_sweep_mm(double h_mm, double d_mm, double from_rad);
// The largest lean below the one of the diagonal that a clear height leaves: swung up from there it passes.
// Nothing: not even upright. Over the diagonal: a right angle.
std::optional<double> tip_lean_rad(double h_mm, double d_mm, double clear_mm);

} // namespace tacksquare::formulas
