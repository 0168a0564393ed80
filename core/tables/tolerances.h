// General tolerances for welded constructions, ISO 13920:1996 (a 2023 edition exists).
#pragma once

#include "base/band.h"
#include "base/units.h"

#include <optional>
#include <string>
#include <string_view>

namespace tacksquare {

enum class LinearClass { A, B, C, D };   // lengths and angles
enum class FlatnessClass { E, F, G, H }; // straightness, flatness, parallelism

std::string class_name(LinearClass c);   // "B"
std::string class_name(FlatnessClass c); // "F"
std::optional<LinearClass> parse_linear_class(std::string_view text);
std::optional<FlatnessClass> parse_flatness_class(std::string_view text);

// Plus or minus; nothing under 2 mm.
std::optional<Length> linear_tolerance(LinearClass c, Length nominal);

// Plus or minus, by the SHORTER leg: as an angle, and as the standard's rounded tangent, mm per m.
Angle angular_tolerance(LinearClass c, Length shorter_leg);
double angular_tolerance_mm_per_m(LinearClass c, Length shorter_leg);

// In total, by the LONGER side; nothing up to 30 mm.
std::optional<Length> flatness_tolerance(FlatnessClass c, Length longer_side);

const Source& tolerance_source();

} // namespace tacksquare
