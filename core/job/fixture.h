// What holds a box while it is tacked and welded: what the shop owns, how far its tools reach, and what goes
// where on the table. Stated in the job or in a file of its own, or made by the planner.
//
// A fixture's own frame has its origin in the datum corner of the box as it lies on the table: x along the
// long side (two stops) to the right, y away from that side (one stop at x = 0), z up from the metal that
// lies lowest. x = 0 and y = 0 are the outsides of the walls that reach furthest; lips may stand out beyond.
// It is right-handed: who stands at the long side has the datum corner left in front.
#pragma once

#include "base/diagnostic.h"
#include "base/units.h"
#include "base/vec.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace tacksquare {

enum class ItemKind {
  stop,         // on the table; the part is pushed against it, it cannot pull
  support,      // a pad on the table under the part; none stated: it lies on the table itself
  hold_down,    // presses the part onto the table or a support
  bar_clamp,    // from outside to outside across the box
  corner_clamp, // outside of a corner, on both faces
  square,       // inside of a corner, clamped to both faces
  former,       // a frame inside the rim, with a wedge
  spreader,     // a bar inside, from wall to wall
  backing_bar   // behind a seam: copper that carries heat away
};

// As the job file has it: "bar-clamp".
const std::string& item_word(ItemKind kind);
inline constexpr std::array kItemKinds = {ItemKind::stop,      ItemKind::support,      ItemKind::hold_down,
                                          ItemKind::bar_clamp, ItemKind::corner_clamp, ItemKind::square,
                                          ItemKind::former,    ItemKind::spreader,     ItemKind::backing_bar};

// From wall to wall or in a corner: it comes out again, before the first weld where
// FixturePiece::until_tacked.
bool holds_from_within(ItemKind kind);

// So many of one kind. What is left out takes the default of tables/practice.h.
struct OwnedItem {
  ItemKind kind = ItemKind::stop;
  int count = 1;
  std::optional<Length> opens;    // bar, corner clamp, hold-down: widest between its jaws
  std::optional<Length> length;   // square: of its arms; spreader: longest; backing bar
  std::optional<Length> shortest; // spreader
  std::optional<Length> foot;     // side of the square that it covers where it touches
  std::optional<Force> force;     // clamps: what it presses with at most
  Origin where;
};

// How far torch and grinder reach around the seam that they work on.
struct ToolReach {
  std::optional<Length> nozzle;      // diameter of the gas nozzle
  std::optional<Angle> torch_lean;   // along the seam, from square to it
  std::optional<Length> torch_reach; // of nozzle and neck: nothing may stand in it
  std::optional<Length> disc;        // diameter
  std::optional<Length> grinder;     // height of head and hand above the disc
  Origin where;
};

// Where it lies and is tacked.
struct ShopTable {
  Length width, depth; // along x and y of a fixture
  Origin where;
};

struct Shop {
  std::optional<ShopTable> table;
  ToolReach tools;
  std::vector<OwnedItem> owned; // empty: nothing is known of what it owns
  Origin where;
};

// One piece in its place. Points are in the fixture's frame, mm.
struct FixturePiece {
  std::string id; // "P1"
  ItemKind kind = ItemKind::stop;
  Vec3 at{};              // where it touches the metal's outside. Spreader: the inside of one wall. Square,
                          // corner clamp: on the corner's line
  std::optional<Vec3> to; // bar clamp, spreader: the other end
  Vec3 towards{};         // stop: unit, from it to the part, along x or y
  std::vector<std::string> faces;      // square, corner clamp: the two that meet in its corner
  std::string seam;                    // backing bar: behind it
  double from_mm = 0.0, to_mm = 0.0;   // backing bar: along the seam
  std::optional<Length> below;         // former: so far below the rim
  std::optional<Length> width, height; // former: outside sizes, as seen from the open side
  std::optional<Length> clip;          // former: cut off at its corners, so that seams are clear
  std::optional<Length> size;          // square: arm; corner clamp: arm; backing bar: its width
  std::optional<Force> force;          // clamps: pressed with
  bool until_tacked = false;           // former, square, spreader: comes out before the first weld
  Origin where;
};

struct Fixture {
  std::string name;
  std::size_t box = 0;   // index in Job::boxes
  std::string down;      // face that lies on the table, or "rim"
  std::string long_side; // face against the two stops
  std::vector<FixturePiece> pieces;
  Origin where;
};

} // namespace tacksquare
