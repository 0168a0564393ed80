// Whether points of contact fix a rigid part, and how far it moves when they are not where they should be.
// docs/theory.md, "Locating". mm, rad.
//
// Each contact gives a row [n, p x n] of the locator matrix J: n its direction, p its place. Moved by a small
// q = (shift, turn) the part leaves the contacts by J q. Asada and By, Kinematic analysis of workpart
// fixturing for flexible assembly, IEEE J. Robotics and Automation 1(2), 1985 [from memory].
#pragma once

#include "base/vec.h"

#include <array>
#include <cstddef>
#include <vector>

namespace tacksquare::formulas {

struct Locator {
  Vec3 at;
  Vec3 towards; // unit, from the locator to the part
};

// 0..6. Contacts that differ from dependent ones by less than a thousandth of their reach count as dependent.
int locating_rank(const std::vector<Locator>& locators);

// Taken in turn, those that fix nothing that the ones before leave free.
std::vector<std::size_t> locates_again(const std::vector<Locator>& locators);

// Three supports, two stops square to them and one stop square to both: twice the area of the supports'
// triangle times the spacing of the two stops, but for its sign.
double locating_determinant_mm3(const std::array<Locator, 6>& six);

// Every contact off by up to `error` either way: most that any of the points moves, and most that the part
// turns about `axis` (unit). Precondition: rank 6; else InternalError.
struct LocatingError {
  double shift_mm = 0.0, turn_rad = 0.0;
};
LocatingError locating_error(const std::array<Locator, 6>& six, double error_mm,
                             const std::vector<Vec3>& points, Vec3 axis);

} // namespace tacksquare::formulas
