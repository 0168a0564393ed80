// Rays and points against the metal of boxes, worked by hand: what the samples' outside sizes say.
#include "base/random.h"
#include "blocks.h"
#include "boxes.h"
#include "geometry/metal.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

BoxMetal metal_in(const Case& c) {
  return metal_of(c.job, c.box, resolved(c));
}

// "U outside 20 to 22, T inside 618 to 620"; rounded to 0.001 mm.
std::string told(const Case& c, const std::vector<MetalHit>& list) {
  const std::string words[] = {"outside", "inside", "edge", "within"};
  const auto rounded = [](double mm) { return std::round(mm * 1000.0) / 1000.0; };
  std::string text;
  for (const MetalHit& h : list)
    text += fmt::format("{}{} {} {} to {}", text.empty() ? "" : ", ", c.box.faces[h.face].id,
                        words[static_cast<std::size_t>(h.entry)], rounded(h.enters_mm), rounded(h.leaves_mm));
  return text;
}
std::string told(const Case& c, Vec3 from, Vec3 direction, double reach_mm) {
  return told(c, hits(metal_in(c), from, unit(direction), reach_mm));
}

std::vector<Vec2> square_hole(const Face& face, Vec3 middle, double side_mm) {
  const Vec2 m = face.placement.local(middle);
  const double h = 0.5 * side_mm;
  return {m + Vec2{-h, -h}, m + Vec2{h, -h}, m + Vec2{h, h}, m + Vec2{-h, h}};
}

} // namespace

TEST_CASE("a ray meets the walls of the gear locker where its outside sizes say") {
  // 400 wide, 300 deep, 600 high outside, 2 mm walls, open in front.
  const Case c = locker();
  CHECK(told(c, {200, 150, -20}, {0, 0, 1}, 1000) == "U outside 20 to 22, T inside 618 to 620");
  CHECK(told(c, {200, 150, 620}, {0, 0, -1}, 100) == "T outside 20 to 22");
  CHECK(told(c, {-20, 150, 300}, {1, 0, 0}, 1000) == "L outside 20 to 22, R inside 418 to 420");
  CHECK(told(c, {200, -20, 300}, {0, 1, 0}, 1000) == "B inside 318 to 320"); // through the open front
  CHECK(told(c, {200, 150, -20}, {0, 0, 1}, 19.5).empty());                  // out of reach
  CHECK(told(c, {200, 150, -20}, {0, 0, -1}, 1000).empty());                 // behind
  CHECK(told(c, {450, 150, -20}, {0, 0, 1}, 1000).empty());                  // beside
  CHECK(told(c, {200, 150, 1.5}, {0, 0, 1}, 100) == "U within 0 to 0.5");
  CHECK(told(c, {200, 150, -20}, {0, 0, 1}, 21) == "U outside 20 to 21");
  // At 45 degrees a wall of 2 mm is 2.828 mm long.
  CHECK(told(c, {190, 150, -10}, {1, 0, 1}, 50) == "U outside 14.142 to 16.971");
  // Into the free edge of the left wall, at the rim: 300 deep, the back's outer half missing at its bend.
  CHECK(told(c, {0.5, -20, 300}, {0, 1, 0}, 1000) == "L edge 20 to 319");
}

TEST_CASE("a ray goes through a cut-out and a vent, and meets their edges aslant") {
  Case c = locker();
  Face& under = c.box.faces[face_of(c, "U")];
  under.cutouts.push_back(square_hole(under, {200, 150, 0}, 40.0));
  Vent vent;
  vent.face = face_of(c, "U");
  vent.at = under.placement.local({100, 150, 0});
  vent.diameter = mm(10);
  c.box.vents.push_back(vent);
  const BoxMetal metal = metal_in(c);
  const auto up = [&](double x) { return told(c, hits(metal, {x, 150, -20}, {0, 0, 1}, 100)); };
  CHECK(up(200).empty());
  CHECK(up(219.9).empty());
  CHECK(up(220.1) == "U outside 20 to 22");
  CHECK(up(104.9).empty());
  CHECK(up(105.1) == "U outside 20 to 22");
  // From the hole into its edge at x = 220, 1 mm below the inside: sqrt(2) later it has climbed out.
  const double h = std::sqrt(0.5);
  CHECK(told(c, hits(metal, {219, 150, 0}, {h, 0, h}, 100)) == "U edge 1.414 to 2.828");
  CHECK(told(c, hits(metal, {104, 150, 0}, {h, 0, h}, 100)) == "U edge 1.414 to 2.828");
  // Along the middle of the sheet: from left to right through both holes.
  CHECK(told(c, hits(metal, {50, 150, 1}, {1, 0, 0}, 250)) ==
        "U within 0 to 45, U edge 55 to 130, U edge 170 to 250");
  CHECK_FALSE(metal_at(metal, {100, 150, 1}, 4.9));
  CHECK(metal_at(metal, {100, 150, 1}, 5.1) == face_of(c, "U"));
}

TEST_CASE("a point belongs to the face whose metal holds it") {
  const Case c = locker();
  const BoxMetal metal = metal_in(c);
  CHECK(metal_at(metal, {200, 150, 1}, 0.0) == face_of(c, "U"));
  CHECK(metal_at(metal, {200, 150, 599}, 0.0) == face_of(c, "T"));
  CHECK_FALSE(metal_at(metal, {200, 150, 2.5}, 0.4));
  CHECK(metal_at(metal, {200, 150, 2.5}, 0.6) == face_of(c, "U"));
  CHECK_FALSE(metal_at(metal, {200, 150, 300}, 10.0));
  // 3 in front of the rim and 4 above the inside: 5 from the metal.
  CHECK_FALSE(metal_at(metal, {200, -3, 6}, 4.99));
  CHECK(metal_at(metal, {200, -3, 6}, 5.01) == face_of(c, "U"));
  // In a corner the nearer one; as near, the earlier one.
  CHECK(metal_at(metal, {5, 150, 4}, 5.0) == face_of(c, "U"));
  CHECK(metal_at(metal, {4, 150, 5}, 5.0) == face_of(c, "L"));
  CHECK(metal_at(metal, {4, 150, 4}, 5.0) == std::min(face_of(c, "U"), face_of(c, "L")));
}

TEST_CASE("a loose lid is no metal") {
  Case c = battery_box();
  const BoxMetal metal = metal_in(c);
  std::size_t loose = 0;
  for (const Face& face : c.box.faces)
    loose += c.box.parts[face.part].loose ? 1 : 0;
  REQUIRE(loose > 0);
  CHECK(metal.plates.size() == c.box.faces.size() - loose);
  for (const Plate& plate : metal.plates)
    CHECK_FALSE(c.box.parts[c.box.faces[plate.face].part].loose);
}

TEST_CASE("what a ray meets does not depend on how the box stands in space") {
  const std::uint64_t seed = 11;
  INFO("seed " << seed);
  Random random(seed);
  Case c;
  c.job.sheets = {sheet("mild-steel", 2.0)};
  c.box.id = "tilted";
  const std::size_t under = add_face(c, "U", {{0, 0, 0}, {0, 200, 0}, {300, 200, 0}, {300, 0, 0}});
  const std::size_t left = add_face(c, "L", {{0, 200, 0}, {0, 0, 0}, {0, 0, 120}, {0, 200, 80}});
  const std::size_t right = add_face(c, "R", {{300, 0, 0}, {300, 200, 0}, {300, 200, 80}, {300, 0, 120}});
  add_seam(c, under, left);
  add_seam(c, under, right);
  const BoxMetal metal = metal_in(c);

  const Vec3 u = any_direction(random), v = unit(cross(u, any_direction(random)));
  const Placement moved{{700, -300, 50}, u, v};
  const auto turned = [&](Vec3 p) { return moved.u * p.x + moved.v * p.y + moved.normal() * p.z; };
  Case there = c;
  for (Face& face : there.box.faces)
    face.placement = {moved.origin + turned(face.placement.origin), turned(face.placement.u),
                      turned(face.placement.v)};
  const BoxMetal metal_there = metal_in(there);
  std::size_t met = 0;
  for (int ray = 0; ray < 400; ++ray) {
    const Vec3 from{random.uniform(-50, 350), random.uniform(-50, 250), random.uniform(-50, 150)};
    const Vec3 direction = any_direction(random);
    const std::string here = told(c, hits(metal, from, direction, 600));
    CHECK(told(c, hits(metal_there, moved.origin + turned(from), turned(direction), 600)) == here);
    met += here.empty() ? 0 : 1;
  }
  CHECK(met > 60);
}

TEST_CASE("a ray is in metal just where its points are") {
  const std::uint64_t seed = 5;
  INFO("seed " << seed);
  Random random(seed);
  Case c = locker();
  Face& back = c.box.faces[face_of(c, "B")];
  back.cutouts.push_back(square_hole(back, {200, 299, 300}, 150.0));
  const BoxMetal metal = metal_in(c);
  int in = 0;
  for (int ray = 0; ray < 300; ++ray) {
    const Vec3 from{random.uniform(-50, 450), random.uniform(-50, 350), random.uniform(-50, 650)};
    const Vec3 direction = any_direction(random);
    const std::vector<MetalHit> list = hits(metal, from, direction, 700);
    for (int i = 0; i < 200; ++i) {
      const double at = random.uniform(0, 700);
      double from_border = 1.0;
      bool inside = false;
      for (const MetalHit& h : list) {
        from_border = std::min({from_border, std::abs(h.enters_mm - at), std::abs(h.leaves_mm - at)});
        inside = inside || (at > h.enters_mm && at < h.leaves_mm);
      }
      if (from_border < 1e-6) continue;
      CHECK(metal_at(metal, from + direction * at, 0.0).has_value() == inside);
      in += inside ? 1 : 0;
    }
  }
  CHECK(in > 100);
}
