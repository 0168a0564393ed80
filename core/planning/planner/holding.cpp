#include "planning/planner/holding.h"

#include "tables/practice.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {
namespace {

struct Arm {
  Vec3 into, out; // in the wall, away from the corner; out of the box
  double reach_mm = 0.0;
};

// Two walls that meet, and where a piece sits in that corner.
struct Corner {
  Vec3 at;
  Arm a, b;
};

Vec3 direction_of(const BoxCase& box) {
  if (box.geometry.opening) return box.geometry.opening->outward;
  for (const Face& face : box.box.faces)
    if (box.work.last_face && face.id == *box.work.last_face) return face.placement.normal();
  return {};
}

Arm arm_of(const BoxCase& box, std::size_t face, Vec3 start, Vec3 along) {
  const Face& wall = box.box.faces[face];
  Arm arm;
  arm.out = wall.placement.normal();
  const Vec3 square = unit(cross(along, arm.out));
  for (const Vec3 p : box.geometry.faces[face].ring) {
    const double reach = dot(p - start, square);
    if (std::abs(reach) <= std::abs(arm.reach_mm)) continue;
    arm.reach_mm = reach;
  }
  arm.into = arm.reach_mm < 0.0 ? square * -1.0 : square;
  arm.reach_mm = std::abs(arm.reach_mm);
  return arm;
}

// A corner line at `at_mm` from its start.
Corner corner_of(const BoxCase& box, std::size_t face_a, std::size_t face_b, Vec3 start, Vec3 end,
                 double at_mm) {
  const Vec3 along = unit(end - start);
  return {start + along * at_mm, arm_of(box, face_a, start, along), arm_of(box, face_b, start, along)};
}

bool welded(const BoxCase& box, std::size_t face) {
  return !box.box.parts[box.box.faces[face].part].loose;
}

// Corners of walls that run up to the open side, a little below it.
std::vector<Corner> rim_corners(const BoxCase& box) {
  constexpr double kUpright = 0.8, kLying = 0.5;
  const Vec3 up = direction_of(box);
  std::vector<Corner> corners;
  const auto add = [&](std::size_t a, std::size_t b, Vec3 start, Vec3 end) {
    const auto wall = [&](std::size_t f) {
      return welded(box, f) && std::abs(dot(box.box.faces[f].placement.normal(), up)) < kLying;
    };
    const double length = norm(end - start);
    if (!wall(a) || !wall(b) || std::abs(dot(end - start, up)) < kUpright * length) return;
    const double below = std::min(in_mm(holding_practice().below_rim), 0.5 * length);
    const bool rising = dot(end - start, up) > 0.0;
    corners.push_back(corner_of(box, a, b, start, end, rising ? length - below : below));
  };
  for (std::size_t s = 0; s < box.box.seams.size(); ++s)
    if (box.box.seams[s].joint == JointKind::corner && box.geometry.seams[s].leads)
      add(box.box.seams[s].face_a, box.box.seams[s].face_b, box.geometry.seams[s].start,
          box.geometry.seams[s].end);
  for (const BendLine& line : box.geometry.bends) {
    const Bend& bend = box.box.parts[line.part].bends[line.bend];
    add(bend.face_a, bend.face_b, line.start, line.end);
  }
  return corners;
}

// Of a form of its own: the middle of each corner seam.
std::vector<Corner> seam_corners(const BoxCase& box) {
  std::vector<Corner> corners;
  for (std::size_t s = 0; s < box.box.seams.size(); ++s) {
    const Seam& seam = box.box.seams[s];
    const SeamLine& line = box.geometry.seams[s];
    if (seam.joint == JointKind::corner && line.leads && welded(box, seam.face_a) && welded(box, seam.face_b))
      corners.push_back(corner_of(box, seam.face_a, seam.face_b, line.start, line.end, 0.5 * line.length_mm));
  }
  return corners;
}

// Where an arm is clamped: first as near to the corner as it can be, then farther out.
double near_mm(const Arm& arm) {
  return std::min(in_mm(holding_practice().clear), 0.2 * arm.reach_mm);
}
double far_mm(const Arm& arm) {
  return std::min(in_mm(holding_practice().reach), 0.5 * arm.reach_mm);
}

HoldingPiece square_in(const Corner& corner, std::size_t number) {
  HoldingPiece piece;
  piece.id = "square-" + std::to_string(number);
  piece.stiffness_N_mm = holding_practice().stiffness_N_mm;
  piece.untrue_mm = in_mm(holding_practice().square_untrue);
  for (const Arm* arm : {&corner.a, &corner.b})
    for (const double along : {near_mm(*arm), far_mm(*arm)}) {
      piece.at.push_back(corner.at + arm->into * along);
      piece.out.push_back(arm->out);
      piece.off.push_back(arm == &corner.b ? along / far_mm(*arm) : 0.0);
    }
  return piece;
}

// Untrue is racked: its diagonals differ by 1 mm.
void rack(HoldingPiece& former, Vec3 up) {
  Vec3 centre;
  for (const Vec3 p : former.at)
    centre = centre + p * (1.0 / static_cast<double>(former.at.size()));
  const Vec3 e1 = former.out.front(), e2 = unit(cross(up, e1));
  double wide = 0.0, tall = 0.0;
  for (const Vec3 p : former.at) {
    wide = std::max(wide, std::abs(dot(p - centre, e1)));
    tall = std::max(tall, std::abs(dot(p - centre, e2)));
  }
  const double width = 2.0 * wide, height = 2.0 * tall;
  const double shear = std::hypot(width, height) / (2.0 * width * height);
  for (std::size_t i = 0; i < former.at.size(); ++i) {
    const Vec3 from = former.at[i] - centre;
    const Vec3 moved = (e1 * dot(from, e2) + e2 * dot(from, e1)) * (0.5 * shear);
    former.off.push_back(dot(moved, former.out[i]));
  }
}

HoldingPiece former_in(const std::vector<Corner>& corners, Vec3 up) {
  HoldingPiece former;
  former.id = "former";
  former.stiffness_N_mm = holding_practice().stiffness_N_mm;
  former.untrue_mm = in_mm(holding_practice().former_untrue);
  for (const Corner& corner : corners)
    for (const Arm* arm : {&corner.a, &corner.b}) {
      former.at.push_back(corner.at + arm->into * near_mm(*arm));
      former.out.push_back(arm->out);
    }
  rack(former, up);
  return former;
}

} // namespace

std::vector<HoldingPiece> holding_pieces(const BoxCase& box) {
  const Hold hold = box.hold();
  if (hold == Hold::counted_squares && !box.work.last_face) return {};
  const std::vector<Corner> corners = hold == Hold::blocks ? seam_corners(box) : rim_corners(box);
  constexpr std::size_t kFormerCorners = 4;
  if (hold == Hold::former)
    return corners.size() == kFormerCorners ? std::vector<HoldingPiece>{former_in(corners, direction_of(box))}
                                            : std::vector<HoldingPiece>{};
  std::vector<HoldingPiece> squares;
  for (const Corner& corner : corners)
    squares.push_back(square_in(corner, squares.size() + 1));
  return squares;
}

double squares_wanted(const BoxCase& box) {
  constexpr std::size_t kUsual = 4;
  const std::size_t corners = holding_pieces(box).size();
  return static_cast<double>(corners > 0 ? corners : kUsual);
}

std::vector<std::string> ids_of(const std::vector<HoldingPiece>& pieces) {
  std::vector<std::string> ids;
  for (const HoldingPiece& piece : pieces)
    ids.push_back(piece.id);
  return ids;
}

} // namespace tacksquare
