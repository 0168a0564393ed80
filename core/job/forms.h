// Short forms of boxes, expanded to parts, faces, bends and seams.
//
// Frame of every form: the left-front-under corner of the outside is the origin, +x to the right (width),
// +y to the back (depth), +z up (height). Face letters: F front, B back, L left, R right, U under, T top.
// Faces lie on the middle surface of the sheet and meet on its sharp corner lines; a free rim lies on the
// outside size. Local x and y of a face are measured from the outside corner of the box that is left-under
// for one who looks at the face from outside (at T from above and at U from below with the front edge nearer,
// resp. farther).
//
// Who covers whom in half-open and lapped corners: the last face of a closed box over all, T and U over F, B,
// L and R, F and B over L and R. Faces named in `over` come before all of these, the earlier over the later.
// Seams are numbered clockwise for one who looks into the opening (a closed box: from above), upper left
// first: the corners of the walls, then the seams of the base, then those of the last side.
#pragma once

#include "job/job.h"

namespace tacksquare {

struct OpenBoxForm {
  Length width, depth, height;
  bool sizes_are_inside = false;
  std::string open_side = "F"; // "F": stands like a locker; "T": like a tray
  Construction construction = Construction::folded;
  std::size_t sheet = 0;
  Length inside_radius; // folded
  CornerStyle corner = CornerStyle::half_open;
  std::vector<std::string> over; // faces that cover their neighbours' edges, before the rule below
  Seam seam; // weld, side, finish, procedure, stitch of every seam; id and faces are set here
  std::string seam_prefix = "S";
  Origin where, radius_where;
};

struct ClosedBoxForm {
  Length width, depth, height;
  bool sizes_are_inside = false;
  std::size_t sheet = 0;
  CornerStyle corner = CornerStyle::half_open;
  std::vector<std::string> over;
  std::string last_face = "T"; // closed last, from outside only
  Seam seam;
  std::string seam_prefix = "S";
  Origin where;
};

// A wall inside an open box, from wall to wall: T seams on the under (or back) and on two walls.
struct DividerForm {
  std::string id = "D1";
  char across = 'w'; // 'w': divides the width (its normal along x); 'd': the depth, in an open top;
                     // 'h': the height, in an open front: a shelf
  Length at;         // of its middle, from the left (front, under) outside
  Length height;     // from the inside of the closed side opposite to the opening
  std::size_t sheet = 0;
  Seam seam; // usually stitch fillets, inside, left
  Origin where;
};

// Lips all round the rim, bent out or in from the walls of a folded box, mitred: a butt seam at each corner.
// The outside size of the box up to the rim includes the lip's thickness; outward lips stand out beyond its
// sides.
struct FlangeForm {
  Length width; // from the outer vertex of the bend to the edge, as DIN 6935 measures a leg
  bool outward = true;
  Length inside_radius;
  Seam seam;
  Origin where;
};

// A loose flat lid on the rim: as large as the rim outside (outward lips included) plus the overhang all
// round.
struct LidForm {
  std::string id = "lid"; // of its part and face
  std::size_t sheet = 0;
  Length overhang;
  Origin where;
};

// Each adds to the box; the expansion keeps the form's origin. Faults (a size smaller than the sheet is
// thick, a divider outside the box, flanges on a box of panels) go to the diagnostics, and the box stays as
// it was. Order of calls: the box, its flange, dividers, a lid.
void expand(const OpenBoxForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const ClosedBoxForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const DividerForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const FlangeForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);
void expand(const LidForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out);

// A round hole as a polygon of 32 sides with the area of the circle.
std::vector<Vec2> round_hole(Vec2 centre, Length diameter);

} // namespace tacksquare
