// Short forms of boxes, expanded to parts, faces, bends and seams.
//
// Frame of every form: the left-front-under corner of the outside is the origin, +x to the right (width),
// +y to the back (depth), +z up (height). Face letters: F front, B back, L left, R right, U under, T top.
// Faces lie on the middle surface of the sheet and meet on its sharp corner lines.
#pragma once

#include "job/job.h"

namespace tacksquare {

struct OpenBoxForm {
  Length width, depth, height;
  bool sizes_are_inside = false;
  std::string open_side = "F"; // "F": stands like a locker; "T": like a tray
  Construction construction = Construction::folded;
  std::size_t sheet = 0;
  Length inside_radius;        // folded
  CornerStyle corner = CornerStyle::half_open;
  Seam seam;                   // weld, side, finish, procedure, stitch of every seam; id and faces are set here
  std::string seam_prefix = "S";
  Origin where;
};

struct ClosedBoxForm {
  Length width, depth, height;
  bool sizes_are_inside = false;
  std::size_t sheet = 0;
  CornerStyle corner = CornerStyle::half_open;
  std::string last_face = "T"; // closed last, from outside only
  Seam seam;
  std::string seam_prefix = "S";
  Origin where;
};

// A wall inside an open box, from wall to wall: T seams on the under (or back) and on two walls.
struct DividerForm {
  std::string id = "D1";
  char across = 'w';     // 'w': stands across the width (its normal along x); 'd': across the depth
  Length at;             // of its middle, from the left (or front) outside
  Length height;         // from the inside of the closed side opposite to the opening
  std::size_t sheet = 0;
  Seam seam;             // usually stitch fillets, inside, left
  Origin where;
};

// Lips all round the rim, bent out or in from the walls of a folded box, mitred: a butt seam at each corner.
struct FlangeForm {
  Length width;          // outside
  bool outward = true;
  Length inside_radius;
  Seam seam;
  Origin where;
};

// Each adds to the box; the expansion keeps the form's origin. Faults (a size smaller than the sheet is thick, a
// divider outside the box, flanges on a box of panels) go to the diagnostics.
void expand(const OpenBoxForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const ClosedBoxForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const DividerForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const FlangeForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);

} // namespace tacksquare
