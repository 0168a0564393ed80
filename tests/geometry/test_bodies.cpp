#include "boxes.h"
#include "support/table.h"

#include <cmath>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

double degrees(double rad) {
  return rad * 180.0 / kPi;
}

Case empty(double t_mm) {
  Case c;
  c.job.sheets = {sheet("mild-steel", t_mm)};
  c.box.id = "body";
  return c;
}

// Walls of n corners, lower ring to upper ring, both counter-clockwise from above, and a base; a lid if
// wanted.
Case prism(const std::vector<Vec3>& low, const std::vector<Vec3>& high, bool lid, double lid_gap_mm = 0.0) {
  Case c = empty(2.0);
  const std::size_t n = low.size();
  const std::size_t base = add_face(c, "U", std::vector<Vec3>(low.rbegin(), low.rend()));
  for (std::size_t i = 0; i < n; ++i)
    add_face(c, fmt::format("W{}", i + 1), {low[i], low[(i + 1) % n], high[(i + 1) % n], high[i]});
  for (std::size_t i = 0; i < n; ++i)
    add_seam(c, 1 + i, 1 + (i + 1) % n);
  for (std::size_t i = 0; i < n; ++i)
    add_seam(c, base, 1 + i);
  if (lid) {
    std::vector<Vec3> up = high;
    for (Vec3& p : up)
      p.z += lid_gap_mm;
    const std::size_t top = add_face(c, "T", up);
    for (std::size_t i = 0; i < n; ++i)
      add_seam(c, top, 1 + i);
    Vent vent;
    vent.face = top;
    vent.at = c.box.faces[top].placement.local((up[0] + up[n / 2]) * 0.5);
    vent.diameter = mm(8);
    c.box.vents = {vent};
  }
  return c;
}

std::vector<Vec3> ring_of(int n, double radius, double z, double turn = 0.0) {
  std::vector<Vec3> ring;
  for (int i = 0; i < n; ++i) {
    const double a = turn + 2.0 * kPi * i / n;
    ring.push_back({radius * std::cos(a), radius * std::sin(a), z});
  }
  return ring;
}

Case hexagon(bool lid) {
  return prism(ring_of(6, 200, 0), ring_of(6, 200, 150), lid);
}
Case hopper(bool lid, double gap = 0.0) {
  const double r = std::sqrt(0.5), turn = kPi / 4.0;
  return prism(ring_of(4, 200 * r, 0, turn), ring_of(4, 400 * r, 300, turn), lid, gap);
}

// Base 300 wide and two lips of 50, 1 m long.
SeamSection tray_section() {
  Case c = empty(2.0);
  const std::size_t base = add_face(c, "U", {{0, 0, 0}, {0, 1000, 0}, {300, 1000, 0}, {300, 0, 0}});
  const std::size_t left = add_face(c, "L", {{0, 1000, 0}, {0, 0, 0}, {0, 0, 50}, {0, 1000, 50}});
  const std::size_t right = add_face(c, "R", {{300, 0, 0}, {300, 1000, 0}, {300, 1000, 50}, {300, 0, 50}});
  add_seam(c, base, left);
  add_seam(c, base, right);
  return resolved(c).sections[0];
}

std::map<std::string, double> quantities(const std::string& body) {
  std::map<std::string, double> q;
  if (body == "tray-section") {
    const SeamSection s = tray_section();
    q["area"] = s.area_mm2;
    q["centroid"] = s.centroid.z;
    q["I"] = s.Iuu_mm4; // u lies in the base, so v is the height
    q["e"] = 50.0 - s.centroid.z;
  } else if (body == "tube") {
    const double h = 98.5;
    Case c = empty(3.0);
    const std::vector<Vec2> corner{{-h, -h}, {h, -h}, {h, h}, {-h, h}};
    for (std::size_t i = 0; i < 4; ++i) {
      const Vec2 a = corner[i], b = corner[(i + 1) % 4];
      add_face(c, fmt::format("W{}", i), {{a.x, a.y, 0}, {b.x, b.y, 0}, {b.x, b.y, 1000}, {a.x, a.y, 1000}});
    }
    for (std::size_t i = 0; i < 4; ++i)
      add_seam(c, i, (i + 1) % 4);
    const SeamSection s = resolved(c).sections[0];
    q["area"] = s.area_mm2;
    q["I"] = s.Iuu_mm4;
    q["I_other"] = s.Ivv_mm4;
  } else if (body == "hexagon") {
    const BoxGeometry g = resolved(hexagon(true));
    q["base_area"] = g.faces[0].area_mm2;
    q["upright_angle"] = degrees(g.seams[0].dihedral_rad);
    q["base_angle"] = degrees(g.seams[6].dihedral_rad);
    q["volume"] = g.closed.value().volume_mm3;
  } else if (body == "hopper") {
    const BoxGeometry g = resolved(hopper(true));
    q["wall_area"] = g.faces[1].area_mm2;
    q["corner_length"] = g.seams[0].length_mm;
    q["corner_angle"] = degrees(g.seams[0].dihedral_rad);
    q["foot_angle"] = degrees(g.seams[4].dihedral_rad);
    q["volume"] = g.closed.value().volume_mm3;
  }
  return q;
}

// Moves a box in space: x -> origin + columns; or mirrors it left to right first.
Case moved(Case c, const Placement& to) {
  const Vec3 w = to.normal();
  const auto turn = [&](Vec3 d) { return to.u * d.x + to.v * d.y + w * d.z; };
  for (Face& f : c.box.faces)
    f.placement = {to.origin + turn(f.placement.origin), turn(f.placement.u), turn(f.placement.v)};
  return c;
}

Case mirrored(Case c) {
  const auto flip = [](Vec3 d) { return Vec3{-d.x, d.y, d.z}; };
  const auto turn_round = [](std::vector<Vec2>& ring) {
    for (Vec2& p : ring)
      p.x = -p.x;
    ring = std::vector<Vec2>(ring.rbegin(), ring.rend());
  };
  for (Face& f : c.box.faces) {
    f.placement = {flip(f.placement.origin), -flip(f.placement.u), flip(f.placement.v)};
    turn_round(f.outline);
    for (auto& hole : f.cutouts)
      turn_round(hole);
    const std::vector<double> was = f.setback_mm;
    const std::size_t n = was.size();
    for (std::size_t k = 0; k < n; ++k)
      f.setback_mm[k] = was[(2 * n - 2 - k) % n];
  }
  for (Vent& v : c.box.vents)
    v.at.x = -v.at.x;
  return c;
}

void check_same(const BoxGeometry& a, const BoxGeometry& b) {
  REQUIRE(a.seams.size() == b.seams.size());
  CHECK(b.mass_kg == Approx(a.mass_kg));
  CHECK(b.closed.has_value() == a.closed.has_value());
  if (a.closed && b.closed) CHECK(b.closed->volume_mm3 == Approx(a.closed->volume_mm3));
  CHECK(b.rim.size() == a.rim.size());
  CHECK(b.attitudes.size() == a.attitudes.size());
  for (std::size_t p = 0; p < a.blanks.size(); ++p) {
    CHECK(b.blanks[p].length_mm == Approx(a.blanks[p].length_mm));
    CHECK(b.blanks[p].width_mm == Approx(a.blanks[p].width_mm));
    CHECK(b.blanks[p].area_mm2 == Approx(a.blanks[p].area_mm2));
  }
  for (std::size_t s = 0; s < a.seams.size(); ++s) {
    CHECK(b.seams[s].length_mm == Approx(a.seams[s].length_mm));
    CHECK(b.seams[s].dihedral_rad == Approx(a.seams[s].dihedral_rad).margin(1e-9));
    CHECK(b.sections[s].area_mm2 == Approx(a.sections[s].area_mm2));
    CHECK(b.sections[s].Iuu_mm4 == Approx(a.sections[s].Iuu_mm4));
    CHECK(b.sections[s].Ivv_mm4 == Approx(a.sections[s].Ivv_mm4));
    CHECK(b.sections[s].eu_mm == Approx(a.sections[s].eu_mm).margin(1e-6));
    CHECK(std::abs(b.sections[s].ev_mm) == Approx(std::abs(a.sections[s].ev_mm)).margin(1e-6));
    for (std::size_t o = 0; o < a.seams.size(); ++o)
      CHECK(b.seam_distance_mm[s][o] == Approx(a.seam_distance_mm[s][o]).margin(1e-6));
    CHECK(dot(b.seams[s].into_a, b.seams[s].towards_welder) ==
          Approx(dot(a.seams[s].into_a, a.seams[s].towards_welder)).margin(1e-9));
  }
}

} // namespace

TEST_CASE("sections, areas, angles and volumes of known bodies") {
  const Table table("geometry_bodies.tsv", {"body", "quantity", "value", "tolerance", "source", "mark"});
  REQUIRE(table.size() == 16);
  for (const auto& row : table.rows()) {
    INFO(row.shown());
    CHECK(quantities(row.text("body")).at(row.text("quantity")) ==
          Approx(row.number("value")).margin(row.number("tolerance")).epsilon(0));
  }
}

TEST_CASE("turning and moving a box changes no length, mass, angle or section") {
  const Placement somewhere{{1234, -567, 89}, unit({3, 1, 2}), unit(cross({0.2, -1, 0.7}, {3, 1, 2}))};
  REQUIRE(std::abs(dot(somewhere.u, somewhere.v)) < 1e-12);
  for (const Case& c : {locker(), ballast_float(), battery_box(), tray(), hexagon(false), hopper(true)}) {
    INFO(c.box.id << " with " << c.box.faces.size() << " faces");
    check_same(resolved(c), resolved(moved(c, somewhere)));
  }
}

TEST_CASE("mirroring a box mirrors what is found") {
  for (const Case& c : {locker(), ballast_float(), battery_box(), tray(), hopper(false)}) {
    INFO(c.box.id << " with " << c.box.faces.size() << " faces");
    const BoxGeometry a = resolved(c), b = resolved(mirrored(c));
    check_same(a, b);
    CHECK(b.centre_of_gravity.x == Approx(-a.centre_of_gravity.x).margin(1e-9));
    CHECK(b.low.x == Approx(-a.high.x).margin(1e-9));
  }
}

TEST_CASE("a lid that lies a little off still closes the volume, a lid with a hole does not") {
  CHECK(resolved(hopper(true, 1.5)).closed);
  Case c = hopper(true);
  Face& lid = c.box.faces.back();
  const Vec2 at = c.box.vents[0].at;
  lid.cutouts = {{at + Vec2{-20, -20}, at + Vec2{20, -20}, at + Vec2{20, 20}, at + Vec2{-20, 20}}};
  c.box.vents.clear();
  CHECK_FALSE(resolved(c).closed);
}

TEST_CASE("a divider in a closed box is no part of its skin") {
  Case c = hopper(true);
  const std::size_t divider = add_face(c, "D", {{0, -100, 0}, {0, 100, 0}, {0, 150, 150}, {0, -150, 150}});
  add_seam(c, divider, 0, JointKind::tee);
  const BoxGeometry g = resolved(c);
  CHECK(g.closed.value().faces.size() == 6);
  CHECK(g.closed.value().volume_mm3 == Approx(28e6));
  CHECK(g.seams.back().length_mm == Approx(200.0));
}

TEST_CASE("a roof welded on its ridge is flat, its feet from below are overhead and out of reach") {
  // ISO 6947 bands, from memory: PA within 30 deg of straight up; under -22.5 deg overhead.
  const double h = 200.0 * std::sqrt(0.75);
  Case c = empty(2.0); // a three-sided tube, lying on one side
  add_face(c, "U", {{100, 0, 0}, {-100, 0, 0}, {-100, 500, 0}, {100, 500, 0}});
  add_face(c, "L", {{-100, 500, 0}, {-100, 0, 0}, {0, 0, h}, {0, 500, h}});
  add_face(c, "R", {{100, 0, 0}, {100, 500, 0}, {0, 500, h}, {0, 0, h}});
  add_seam(c, 1, 2);
  add_seam(c, 0, 1);
  add_seam(c, 0, 2);
  const BoxGeometry g = resolved(c);
  for (std::size_t a = 0; a < g.attitudes.size(); ++a) {
    if (g.attitudes[a].down != "U") continue;
    CHECK(g.access[a][0].reachable);
    CHECK(g.access[a][0].forward == WeldPosition::flat);
    for (const std::size_t s : {1u, 2u}) {
      CHECK_FALSE(g.access[a][s].reachable);
      CHECK(g.access[a][s].forward == WeldPosition::overhead);
    }
    return;
  }
  FAIL("the roof does not lie on U");
}

TEST_CASE("two laps of the same two sheets take their edges in turn") {
  Case c = empty(2.0);
  add_face(c, "A", {{0, 0, 0}, {300, 0, 0}, {300, 200, 0}, {0, 200, 0}});
  add_face(c, "P", {{50, 50, 2}, {250, 50, 2}, {250, 150, 2}, {50, 150, 2}}); // a patch
  for (int i = 0; i < 4; ++i)
    add_seam(c, 1, 0, JointKind::lap);
  const BoxGeometry g = resolved(c);
  CHECK(g.seams[0].length_mm == Approx(200.0));
  CHECK(g.seams[1].length_mm == Approx(200.0));
  CHECK(g.seams[2].length_mm == Approx(100.0));
  CHECK(g.seams[3].length_mm == Approx(100.0));
  CHECK(near(g.seams[0].towards_welder, {0, 0, 1}));
  CHECK(near(g.seams[0].into_b, -g.seams[0].into_a));
}

TEST_CASE("an outside and an inside weld of a corner are two seams on one line") {
  Case c = ballast_float();
  Seam inside = c.box.seams[0];
  inside.id = std::string("I1");
  inside.side = WeldSide::inside;
  c.box.seams.push_back(inside);
  const BoxGeometry g = resolved(c);
  const SeamLine &a = g.seams.front(), &b = g.seams.back();
  CHECK(near(a.start, b.start));
  CHECK(near(a.end, b.end));
  CHECK(near(a.towards_welder, -b.towards_welder));
  CHECK(a.other_side == g.seams.size() - 1);
  CHECK(b.other_side == 0u);
  CHECK(a.leads);
  CHECK_FALSE(b.leads);
  CHECK_FALSE(g.seams[1].other_side);
}

TEST_CASE("two welds of one T lie on both sides of the web, the outside one where its normal points") {
  for (const bool stated_outside : {false, true}) {
    Case c = empty(2.0);
    add_face(c, "A", {{0, 0, 0}, {300, 0, 0}, {300, 200, 0}, {0, 200, 0}});
    const std::size_t web =
        add_face(c, "W", {{150, 0, 0}, {150, 200, 0}, {150, 200, 80}, {150, 0, 80}}); // normal along +x
    add_seam(c, web, 0, JointKind::tee);
    add_seam(c, web, 0, JointKind::tee);
    c.box.seams[0].side = c.box.seams[1].side = WeldSide::inside;
    if (stated_outside) c.box.seams[1].side = WeldSide::outside;
    const BoxGeometry g = resolved(c);
    const std::size_t first = stated_outside ? 1 : 0;
    const double h = std::sqrt(0.5); // half-way between web and base
    CHECK(near(g.seams[first].towards_welder, {h, 0, h}));
    CHECK(near(g.seams[1 - first].towards_welder, {-h, 0, h}));
    CHECK(g.seams[0].other_side == 1u);
    CHECK(g.seams[first].leads);
  }
}

TEST_CASE("faces that meet along two lines: one weld goes to the longer line, its other side, too") {
  Case c = empty(2.0);
  add_face(c, "A", {{0, 0, 0}, {300, 0, 0}, {300, 200, 0}, {0, 200, 0}});
  add_face(c, "B",
           {{0, 0, 0},
            {0, 0, -100},
            {300, 0, -100},
            {300, 0, 0},
            {200, 0, 0},
            {200, 0, -20},
            {150, 0, -20},
            {150, 0, 0}}); // a notch from 150 to 200
  add_seam(c, 0, 1);
  add_seam(c, 0, 1);
  add_seam(c, 0, 1);
  c.box.seams[2].side = WeldSide::inside;
  const BoxGeometry g = resolved(c);
  CHECK(g.seams[0].length_mm == Approx(150.0));
  CHECK(g.seams[1].length_mm == Approx(100.0));
  CHECK(g.seams[2].length_mm == Approx(150.0));
  CHECK(g.seams[0].other_side == 2u);
  CHECK_FALSE(g.seams[1].other_side);
}

TEST_CASE("walls with wide bends do not lie on each other at the corner: there the relief is cut") {
  // At a corner both walls reach the sharp line, so their outlines share the square of what the bend takes
  // off: 0.43 r a side for sharp lines on middle surfaces. Only flat metal counts.
  for (const double radius_mm : {2.0, 12.0, 30.0}) {
    Case c = locker();
    for (Bend& bend : c.box.parts[0].bends)
      bend.inside_radius = mm(radius_mm);
    CHECK(resolved(c).blanks[0].length_mm > 1000.0);
  }
  Case open = ballast_float(); // left open for a fitting, a vent may be wide
  open.box.vents[0].at = {200, 200};
  open.box.vents[0].diameter = mm(40);
  open.box.vents[0].plugged_last = false;
  Diagnostics out;
  resolve_geometry(open.job, open.box, out);
  CHECK(out.items().empty());
}

TEST_CASE("pieces of one straight edge are one seam") {
  Case c = empty(2.0);
  add_face(c, "A", {{0, 0, 0}, {120, 0, 0}, {300, 0, 0}, {300, 200, 0}, {0, 200, 0}});
  add_face(c, "B", {{0, 0, 0}, {0, 0, -100}, {300, 0, -100}, {300, 0, 0}});
  add_seam(c, 0, 1);
  CHECK(resolved(c).seams[0].length_mm == Approx(300.0));
}
