// The six sides of a box in the frame of the short forms: shared by the forms, not for others.
#pragma once

#include "job/job.h"

#include <array>
#include <string>
#include <vector>

namespace tacksquare::forms {

// Outside sizes and the sheet of the sides, mm.
struct Shell {
  double w = 0.0, d = 0.0, h = 0.0, t = 0.0;
};

// One side, its edges in the order of its outline: under, right, upper, left edge as seen from outside.
struct Side {
  char letter;
  std::array<char, 4> neighbours; // the side beyond each edge
};

const Side& side(char letter);
char opposite(char letter);
Placement side_placement(char letter, const Shell& shell);
// Local size of the outside of the box behind this side, mm.
Vec2 side_size(char letter, const Shell& shell);

// The corners of a rectangle, counter-clockwise, in the order of the edges that start there.
std::vector<Vec2> rectangle(double x0, double y0, double x1, double y1);

// The side's outline: on the middle surface towards sides that are there, on the outside towards the open
// side.
Face side_face(char letter, const Shell& shell, const std::string& open_side);

std::size_t edge_towards(char letter, char neighbour);

// Index of a face of the box by its id; InternalError when it is not there.
std::size_t face_index(const Box& box, const std::string& id);

// The next free seam id of the box: prefix and number.
std::string next_seam_id(const Box& box, const std::string& prefix);

// Adds a corner seam between two sides: sets who covers whom, and the setbacks of both edges.
struct CornerRule {
  CornerStyle style = CornerStyle::half_open;
  std::vector<std::string> over; // stated first
  std::string last_face;         // empty: none
};
void add_corner_seam(Box& box, char a, char b, double t_mm, const CornerRule& rule, const Seam& like,
                     const std::string& prefix, Origin where);

// The shell of a box that an open-box form made.
Shell shell_of(const Box& box, const std::vector<Sheet>& sheets);

} // namespace tacksquare::forms
