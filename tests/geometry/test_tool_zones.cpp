// Room for torch and grinder, worked by hand. How the tools are held: common practice, no source.
#include "blocks.h"
#include "boxes.h"
#include "geometry/tool_zones.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

const ToolRoom room{16.0, kPi / 12.0, 80.0, 120.0, 70.0}; // 15 degrees

Solid torch(const Case& c, std::size_t seam, double from_mm, double to_mm) {
  return torch_zone(room, c.job, c.box, resolved(c), seam, from_mm, to_mm);
}
std::vector<Solid> grinder(const Case& c, std::size_t seam) {
  const BoxGeometry g = resolved(c);
  return grinder_zones(room, c.job, c.box, g, seam, 0.0, g.seams[seam].length_mm);
}

// Two level plates side by side, 3 and 2 mm thick, their seam along y at x = 100, 200 long; legs under both.
Case butt() {
  Case c;
  c.job.sheets = {sheet("mild-steel", 3.0), sheet("mild-steel", 2.0)};
  c.box.id = "plates";
  add_face(c, "A", {{0, 0, 0}, {100, 0, 0}, {100, 200, 0}, {0, 200, 0}});
  add_face(c, "B", {{100, 0, 0}, {300, 0, 0}, {300, 200, 0}, {100, 200, 0}});
  add_face(c, "L", {{0, 200, -100}, {0, 0, -100}, {0, 0, 0}, {0, 200, 0}});
  add_face(c, "R", {{300, 0, -100}, {300, 200, -100}, {300, 200, 0}, {300, 0, 0}});
  c.box.parts[1].sheet = 1;
  add_seam(c, 0, 1, JointKind::butt);
  add_seam(c, 0, 2);
  add_seam(c, 1, 3);
  return c;
}

Solid probe(Vec3 at) {
  Solid s;
  s.centre = at;
  return s;
}

} // namespace

TEST_CASE("the torch at a corner of the locker stands on the outer edge, on the bisector") {
  const Case c = locker();
  const std::size_t seam = seam_of(c, "T", "L");
  const Solid zone = torch(c, seam, 50.0, 150.0);
  const double h = std::sqrt(0.5), leans_out = 80.0 * 0.2588190; // sin 15 degrees
  // The outer edge runs along x = 0, z = 600; halfway up 80 mm from there at 45 degrees to the left.
  CHECK(near(zone.centre, {-40.0 * h, 100.0, 600.0 + 40.0 * h}));
  CHECK(near(zone.axes[2], {-h, 0, h}));
  CHECK(zone.half_mm[0] == Approx(50.0 + 16.0 + leans_out));
  CHECK(zone.half_mm[1] == Approx(16.0));
  CHECK(zone.half_mm[2] == Approx(40.0));
  // A clamp's screw on the top, 30 mm high: in the way 10 mm from the edge, not 60 mm from it.
  CHECK(overlap(zone, footprint({10, 100, 600}, {0, 0, 1}, {1, 0, 0}, 20.0, 30.0), 0.0));
  CHECK_FALSE(overlap(zone, footprint({60, 100, 600}, {0, 0, 1}, {1, 0, 0}, 20.0, 30.0), 0.0));
  // At the edge, but further along than the torch leans: 150 + 16 + 20.7 = 186.7.
  CHECK(overlap(zone, footprint({10, 196, 600}, {0, 0, 1}, {1, 0, 0}, 20.0, 30.0), 0.0));
  CHECK_FALSE(overlap(zone, footprint({10, 197, 600}, {0, 0, 1}, {1, 0, 0}, 20.0, 30.0), 0.0));
}

TEST_CASE("the torch for an inside weld stands in the inner corner") {
  Case c = locker();
  const std::size_t seam = seam_of(c, "T", "L");
  c.box.seams[seam].side = WeldSide::inside;
  const Solid zone = torch(c, seam, 50.0, 150.0);
  const double h = std::sqrt(0.5);
  CHECK(near(zone.centre, {2.0 + 40.0 * h, 100.0, 598.0 - 40.0 * h}));
  CHECK(grinder(c, seam).empty());
}

TEST_CASE("the grinder at a corner of the locker lies on both faces and beyond their edge") {
  Case c = locker();
  const std::size_t seam = seam_of(c, "T", "L");
  const SeamLine line = resolved(c).seams[seam];
  REQUIRE(near(line.start, {1, 0, 599}));
  REQUIRE(near(line.end, {1, 299, 599}));
  const std::vector<Solid> zones = grinder(c, seam);
  REQUIRE(zones.size() == 2);
  const bool top_first = c.box.seams[seam].face_a == face_of(c, "T");
  CHECK(bounds(zones[top_first ? 0 : 1]) == "-40 -60 600 to 80 359 670");
  CHECK(bounds(zones[top_first ? 1 : 0]) == "-70 -60 520 to 0 359 640");
  c.box.seams[seam].finish = Finish::left;
  CHECK(grinder(c, seam).empty());
}

TEST_CASE("at a butt both tools stand square to the plates, on the thicker one's surface") {
  const Case c = butt();
  CHECK(bounds(torch(c, 0, 0.0, 200.0)) == "84 -36.706 1.5 to 116 236.706 81.5");
  const std::vector<Solid> zones = grinder(c, 0);
  REQUIRE(zones.size() == 1);
  CHECK(bounds(zones[0]) == "20 -60 1.5 to 180 260 71.5");
}

TEST_CASE("the zones of corners that are not square touch the outside surfaces") {
  // Two plates of 2 and 3 mm whose outward normals are 60 degrees apart, the seam along y.
  Case c;
  c.job.sheets = {sheet("mild-steel", 2.0), sheet("mild-steel", 3.0)};
  c.box.id = "roof";
  const double down = 100.0 * std::sqrt(0.75);
  add_face(c, "A", {{0, 0, 0}, {0, 200, 0}, {-100, 200, 0}, {-100, 0, 0}});
  add_face(c, "B", {{0, 0, 0}, {50, 0, -down}, {50, 200, -down}, {0, 200, 0}});
  c.box.parts[1].sheet = 1;
  add_seam(c, 0, 1);
  const std::vector<Solid> zones = grinder(c, 0);
  REQUIRE(zones.size() == 2);
  // The outer edge: z = 1 on A, 1.5 from B's middle: x sin 60 + z cos 60 = 1.5.
  const Vec3 edge{1.0 / std::sqrt(0.75), 100.0, 1.0};
  for (const Solid& zone : zones) {
    const double beyond = zone.half_mm[1] + dot(edge - zone.centre, zone.axes[1]);
    CHECK(beyond == Approx(40.0));
    CHECK(dot(edge - zone.centre, zone.axes[2]) == Approx(-35.0));
    CHECK(zone.half_mm[1] == Approx(60.0));
  }
  CHECK(near(zones[1].axes[2], {std::sqrt(0.75), 0, 0.5}));
  const Solid t = torch(c, 0, 0.0, 200.0); // leaves A at 1 / cos 30, B at 1.5 / cos 30
  CHECK(depth(t, probe(t.centre - t.axes[2] * 40.0)) == Approx(0.0).margin(1e-9));
  CHECK(norm(t.centre - t.axes[2] * 40.0 - Vec3{0, 100, 0}) == Approx(1.5 / std::sqrt(0.75)));
}

TEST_CASE("no disc lies in a corner that is hollow outside, nor at a T") {
  // A step, 200 long: outside is above it and to its right.
  Case c;
  c.job.sheets = {sheet("mild-steel", 2.0)};
  c.box.id = "step";
  add_face(c, "tread", {{0, 0, 0}, {100, 0, 0}, {100, 200, 0}, {0, 200, 0}});
  add_face(c, "riser", {{0, 0, 0}, {0, 200, 0}, {0, 200, 100}, {0, 0, 100}});
  add_face(c, "upper", {{-100, 0, 100}, {0, 0, 100}, {0, 200, 100}, {-100, 200, 100}});
  add_face(c, "front", {{100, 0, -100}, {100, 200, -100}, {100, 200, 0}, {100, 0, 0}});
  add_face(c, "under", {{-100, 0, -100}, {-100, 200, -100}, {100, 200, -100}, {100, 0, -100}});
  for (const std::size_t other : {1U, 3U})
    add_seam(c, 0, other);
  add_seam(c, 1, 2);
  add_seam(c, 3, 4);
  CHECK(grinder(c, 1).size() == 2);
  CHECK(grinder(c, 0).empty());
  Case t = tray();
  const std::size_t seam = seam_of(t, "D1", "U");
  t.box.seams[seam].finish = Finish::flush;
  CHECK(grinder(t, seam).empty());
}
