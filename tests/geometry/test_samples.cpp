#include "boxes.h"
#include "support/table.h"

#include <algorithm>
#include <cmath>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

std::map<std::string, double> quantities(const BoxGeometry& g) {
  std::map<std::string, double> q;
  double sum = 0.0, least = 1e9;
  for (const SeamLine& s : g.seams) {
    sum += s.length_mm;
    least = std::min(least, s.length_mm);
  }
  q["seams"] = static_cast<double>(g.seams.size());
  q["seam_length"] = sum;
  q["shortest_seam"] = least;
  q["mass"] = g.mass_kg;
  q["cog_x"] = g.centre_of_gravity.x;
  q["cog_y"] = g.centre_of_gravity.y;
  q["cog_z"] = g.centre_of_gravity.z;
  q["blanks"] = static_cast<double>(g.blanks.size());
  const auto largest = std::max_element(g.blanks.begin(), g.blanks.end(), [](const Blank& a, const Blank& b) {
    return a.area_mm2 < b.area_mm2;
  });
  q["blank_length"] = largest->length_mm;
  q["blank_width"] = largest->width_mm;
  q["blank_area"] = largest->area_mm2;
  q["rim_pieces"] = static_cast<double>(g.rim.size());
  q["attitudes"] = static_cast<double>(g.attitudes.size());
  q["volume"] = g.closed ? g.closed->volume_mm3 : 0.0;
  return q;
}

} // namespace

TEST_CASE("the four boxes agree with a calculation by hand") {
  const std::map<std::string, BoxGeometry> boxes{{"locker", resolved(locker())},
                                                 {"float", resolved(ballast_float())},
                                                 {"battery", resolved(battery_box())},
                                                 {"tray", resolved(tray())}};
  const Table table("geometry_samples.tsv", {"box", "quantity", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 46);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    CHECK(quantities(boxes.at(row.text("box"))).at(row.text("quantity")) ==
          Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("only a box whose welded faces close has a volume, and a loose lid closes nothing") {
  CHECK(resolved(ballast_float()).closed->faces.size() == 6);
  CHECK_FALSE(resolved(locker()).closed);
  CHECK_FALSE(resolved(battery_box()).closed);
  CHECK_FALSE(resolved(tray()).closed);
}

TEST_CASE("the outside of the welded parts is the stated size") {
  const BoxGeometry l = resolved(locker());
  CHECK(near(l.low, {0, 0, 0}));
  CHECK(near(l.high, {400, 300, 600}));
  const BoxGeometry b = resolved(battery_box()); // without the lid
  CHECK(near(b.low, {0, 0, 0}));
  CHECK(near(b.high, {450, 250, 280}));
  const BoxGeometry t = resolved(tray()); // lips of 25 mm from the outside of the wall, sheet included
  CHECK(near(t.low, {-22, -22, 0}));
  CHECK(near(t.high, {622, 422, 150}));
}

TEST_CASE(
    "0 mm of a seam is its end on the rim, and without one the lower, then the more forward, then the left") {
  const Case c = locker();
  for (const SeamLine& s : resolved(c).seams) {
    CHECK(s.start.y == Approx(0.0).margin(1e-9));
    CHECK(s.start_at_rim);
    CHECK_FALSE(s.end_at_rim);
  }
  const Case f = ballast_float();
  const BoxGeometry g = resolved(f);
  const SeamLine& upright = g.seams[seam_of(f, "B", "L")];
  CHECK(upright.start.z < upright.end.z);
  CHECK(upright.at_start.size() == 2);
  CHECK(upright.at_end.size() == 2);
  const SeamLine& level = g.seams[seam_of(f, "T", "R")];
  CHECK(level.start.y < level.end.y);
  const SeamLine& front = g.seams[seam_of(f, "T", "F")];
  CHECK(front.start.x < front.end.x);
}

TEST_CASE("the torch comes along the bisector of a corner, from inside the other way, square to a butt") {
  Case c = locker();
  const double half = std::sqrt(0.5);
  CHECK(near(resolved(c).seams[seam_of(c, "T", "L")].towards_welder, {-half, 0, half}));
  c.box.seams[seam_of(c, "T", "L")].side = WeldSide::inside;
  CHECK(near(resolved(c).seams[seam_of(c, "T", "L")].towards_welder, {half, 0, -half}));
  const Case t = tray();
  CHECK(near(resolved(t).seams[seam_of(t, "L-lip", "B-lip")].towards_welder, {0, 0, 1}));
  // A divider with its normal to the right is welded on its right: between the base and itself.
  CHECK(near(resolved(t).seams[seam_of(t, "D1", "U")].towards_welder, {half, 0, half}));
}

TEST_CASE("distances between seams are those of a box") {
  const Case c = ballast_float();
  const BoxGeometry g = resolved(c);
  const auto far = [&](const char* a, const char* b, const char* d, const char* e) {
    return g.seam_distance_mm[seam_of(c, a, b)][seam_of(c, d, e)];
  };
  CHECK(far("B", "L", "B", "R") == Approx(597.0));
  CHECK(far("B", "L", "F", "R") == Approx(std::hypot(597.0, 397.0)));
  CHECK(far("U", "B", "T", "L") == Approx(297.0));
  CHECK(far("U", "B", "B", "L") == Approx(0.0).margin(1e-9));
}

TEST_CASE("a locker on its back has all four seams upright, and goes downhill from the rim") {
  // Common practice, no source: "box lies on its back: all four seams stand upright".
  const BoxGeometry g = resolved(locker());
  std::vector<std::string> down;
  for (const Attitude& a : g.attitudes)
    down.push_back(a.down);
  CHECK(down == std::vector<std::string>{"B", "L", "R", "T", "U", "rim"});
  for (const SeamAccess& a : g.access[0]) {
    CHECK(a.reachable);
    CHECK(a.forward == WeldPosition::downhill);
    CHECK(a.backward == WeldPosition::uphill);
  }
  for (const SeamAccess& a : g.access[5])
    CHECK(a.forward == WeldPosition::uphill);
}

TEST_CASE(
    "a closed box needs two attitudes: on its base the uprights and the upper edges, turned over the rest") {
  // Common practice, no source: "roll it over once for the last four".
  const Case c = ballast_float();
  const BoxGeometry g = resolved(c);
  REQUIRE(g.attitudes.size() == 6);
  const std::size_t on_top = 4, on_base = 5;
  REQUIRE(g.attitudes[on_top].down == "T");
  REQUIRE(g.attitudes[on_base].down == "U");
  for (std::size_t s = 0; s < 12; ++s) {
    const bool base_edge = c.box.faces[c.box.seams[s].face_a].id == "U";
    CHECK(g.access[on_base][s].reachable == !base_edge);
    CHECK((g.access[on_base][s].reachable || g.access[on_top][s].reachable));
  }
}

TEST_CASE("inside seams are out of reach while the way in lies on the table") {
  Case c = locker();
  for (Seam& s : c.box.seams)
    s.side = WeldSide::inside;
  const BoxGeometry g = resolved(c);
  for (std::size_t a = 0; a < g.attitudes.size(); ++a)
    for (const SeamAccess& access : g.access[a])
      CHECK(access.reachable == (g.attitudes[a].down != "rim"));
  Case f = ballast_float();
  f.box.last_face = std::string("T");
  for (Seam& s : f.box.seams)
    s.side = WeldSide::inside;
  const BoxGeometry h = resolved(f);
  for (std::size_t a = 0; a < h.attitudes.size(); ++a)
    CHECK(h.access[a][0].reachable == (h.attitudes[a].down != "T"));
}
