// The press brake that bends the parts: what the order of bends is held against.
#pragma once

#include "base/diagnostic.h"
#include "base/units.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

// What the brake itself takes up in a bend, measured on a strip: wins over the formula.
struct Deduction {
  std::size_t sheet = 0; // index in Job::sheets
  Angle bend;            // turned through
  Length radius;         // inside, as it comes out of this die
  Length deduction;      // two legs to the outer vertex less the flat length
  Origin where;
};

// Sections square to the bend. The punch comes down from the ram, its tip over the middle of the die.
struct Brake {
  std::string name;
  // Punch: a wedge of the tip angle up to its thickness, then a straight body, on both sides of the tip half
  // of it each. A gooseneck is set back on its front: from neck_from over the tip on by neck_in.
  Angle punch_angle;
  Length punch_height; // tip to ram
  Length punch_thickness;
  Length neck_from, neck_in; // zero: straight
  Length ram_thickness;      // above the punch, over the whole length of the machine
  // Die: a V in a block that stands on the bed.
  Length die_opening, die_width, die_height;
  Length bed_thickness;           // below the die
  Length gauge_least, gauge_most; // middle of the bend to the stops of the back gauge
  Length shortest_punch;          // shortest length that the punch sections make up; zero: any
  std::vector<Deduction> deductions;
  Origin where;
};

// A deduction belongs to a bend of its sheet within 0.5 deg and 0.1 mm of inside radius [common practice].
bool belongs_to(const Deduction& deduction, std::size_t sheet, double angle_rad, double radius_mm);
// Of those that belong to a bend the nearest; null where none does.
const Deduction* nearest_deduction(const Brake& brake, std::size_t sheet, double angle_rad, double radius_mm);

} // namespace tacksquare
