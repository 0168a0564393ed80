// What of an opening is free for upright boxes, by hand figures.
#include "opening/rows.h"

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

HardOpening even_alcove() {
  HardOpening opening = alcove(1200);
  opening.heights[1] = lengths({600});
  return opening;
}

} // namespace

TEST_CASE("The narrowest of nine widths governs, and its place is told") {
  HardOpening opening;
  opening.widths = {lengths({1203, 1202, 1204}), lengths({1202.5, 1201.6, 1203}),
                    lengths({1204, 1204, 1201.9})};
  const ClearSpace clear = clear_space(opening, 600);
  CHECK(clear.width.mm == Approx(1201.6));
  CHECK(clear.width.at == "middle-middle");
  CHECK_FALSE(clear.height.has_value());
  opening.widths[2][2] = mm(1201.5);
  CHECK(clear_space(opening, 600).width.at == "under-back");
  opening.widths[0] = lengths({1200, 1204});
  CHECK(clear_space(opening, 600).width.at == "top-front");
  opening.heights[2] = lengths({602});
  opening.depths[0] = lengths({350, 349, 351});
  CHECK(clear_space(opening, 600).height->at == "right");
  CHECK(clear_space(opening, 600).depth->at == "left-middle");
}

TEST_CASE("A racked opening of constant width loses its lean over the height of the tallest box") {
  HardOpening opening = even_alcove();
  opening.plumb_left = mm(6);   // its top stands in
  opening.plumb_right = mm(-6); // its top stands away
  CHECK(clear_space(opening, 600).width.lost_to_plumb_mm == Approx(6.0));
  CHECK(clear_space(opening, 400).width.lost_to_plumb_mm == Approx(4.0));
  CHECK(clear_space(opening, 400).width.mm == Approx(1196.0));
  CHECK(clear_space(opening, 0).width.lost_to_plumb_mm == Approx(6.0));
  std::swap(opening.plumb_left, opening.plumb_right); // racked to the left
  CHECK(clear_space(opening, 400).width.lost_to_plumb_mm == Approx(4.0));
  opening.plumb_right.reset(); // one side and the widths tell the other
  CHECK(clear_space(opening, 400).width.lost_to_plumb_mm == Approx(4.0));
}

TEST_CASE("A side that leans in is in the widths already: it takes nothing twice") {
  HardOpening opening = even_alcove();
  opening.widths = {lengths({1197}), lengths({1198.5}), lengths({1200})};
  opening.plumb_left = mm(3);
  opening.plumb_right = mm(0);
  const ClearSpace clear = clear_space(opening, 600);
  CHECK(clear.width.mm == Approx(1197.0));
  CHECK(clear.width.lost_to_plumb_mm == Approx(0.0).margin(1e-9));
}

TEST_CASE("Widths and plumb that contradict each other: the smaller space counts") {
  HardOpening opening = even_alcove(); // the same width everywhere, and both sides lean in
  opening.plumb_left = opening.plumb_right = mm(2);
  CHECK(clear_space(opening, 600).width.mm == Approx(1198.0));
}

TEST_CASE("Boxes stand square to the floor: a slope under plumb sides takes as much as a lean") {
  HardOpening opening = even_alcove();
  opening.floor_rise = mm(2); // 1 in 600 to the right
  CHECK(clear_space(opening, 600).width.lost_to_plumb_mm == Approx(1.0));
  CHECK(clear_space(opening, 300).width.lost_to_plumb_mm == Approx(0.5));
  opening.plumb_left = mm(0);
  opening.plumb_right = mm(0);
  CHECK(clear_space(opening, 600).width.lost_to_plumb_mm == Approx(1.0));
  // Sides that lean to the left by just that slope are square to the floor.
  opening.plumb_left = mm(-1);
  opening.plumb_right = mm(1);
  CHECK(clear_space(opening, 600).width.lost_to_plumb_mm == Approx(0.0).margin(1e-9));
}

TEST_CASE("Without plumb the diagonals tell how the opening is racked") {
  HardOpening opening = even_alcove();
  // 0.01 rad over 1200 x 600: 2 x 1200 x 600 x 0.01/1341.64 = 10.733 of difference, 6 mm over 600.
  opening.diagonal_up_right = mm(1341.64 + 5.3666);
  opening.diagonal_up_left = mm(1341.64 - 5.3666);
  CHECK(clear_space(opening, 600).width.lost_to_plumb_mm == Approx(6.0).epsilon(1e-3));
  std::swap(opening.diagonal_up_right, opening.diagonal_up_left);
  CHECK(clear_space(opening, 300).width.lost_to_plumb_mm == Approx(3.0).epsilon(1e-3));
}

TEST_CASE("Obstacles take their side, the farthest of each, and none above the tallest box") {
  HardOpening opening = even_alcove();
  opening.depths[1] = lengths({350});
  opening.obstacles = {{"rivet heads", OpeningSide::left, mm(3), mm(100), mm(200), {}},
                       {"weld bead", OpeningSide::left, mm(2), {}, {}, {}},
                       {"hinge", OpeningSide::right, mm(9), mm(450), {}, {}},
                       {"door", OpeningSide::right, mm(1), {}, {}, {}},
                       {"sill", OpeningSide::floor, mm(5), {}, {}, {}},
                       {"pipe", OpeningSide::back, mm(40), mm(0), mm(80), {}}};
  const ClearSpace low = clear_space(opening, 400);
  CHECK(low.width.mm == Approx(1200 - 3 - 1));
  CHECK(low.width.lost_to_obstacles_mm == Approx(4.0));
  CHECK(low.width.obstacles == std::vector<std::string>{"rivet heads", "door"});
  CHECK(low.height->mm == Approx(595.0));
  CHECK(low.depth->mm == Approx(310.0));
  CHECK(clear_space(opening, 500).width.mm == Approx(1200 - 3 - 9));
  CHECK(clear_space(opening, 0).width.obstacles == std::vector<std::string>{"rivet heads", "hinge"});
}
