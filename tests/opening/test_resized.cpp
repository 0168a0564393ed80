// A box made to another size is the box that its form makes of that size.
#include "opening/rows.h"

#include <cmath>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

void check_same(const Box& a, const Box& b) {
  CHECK(in_mm(*a.width) == Approx(in_mm(*b.width)));
  REQUIRE(a.faces.size() == b.faces.size());
  for (std::size_t f = 0; f < a.faces.size(); ++f) {
    INFO("face " << a.faces[f].id);
    CHECK(norm(a.faces[f].placement.origin - b.faces[f].placement.origin) < 1e-9);
    CHECK(a.faces[f].placement.u == b.faces[f].placement.u);
    CHECK(a.faces[f].setback_mm == b.faces[f].setback_mm);
    REQUIRE(a.faces[f].outline.size() == b.faces[f].outline.size());
    for (std::size_t i = 0; i < a.faces[f].outline.size(); ++i)
      CHECK(norm(a.faces[f].outline[i] - b.faces[f].outline[i]) < 1e-9);
    CHECK(a.faces[f].cutouts == b.faces[f].cutouts);
  }
}

Box tray(double w, double d, double h, char open) {
  Diagnostics out;
  const std::vector<Sheet> sheets = {sheet_of("mild-steel", 2.0)};
  Box box;
  OpenBoxForm form;
  form.width = mm(w);
  form.depth = mm(d);
  form.height = mm(h);
  form.open_side = open;
  form.inside_radius = mm(2);
  expand(form, sheets, box, out);
  FlangeForm lips;
  lips.width = mm(15);
  lips.outward = false;
  lips.inside_radius = mm(2);
  expand(lips, sheets, box, out);
  DividerForm divider;
  divider.at = mm(260);
  divider.height = mm(80);
  divider.seam.weld = WeldKind::fillet;
  divider.seam.side = WeldSide::inside;
  divider.seam.finish = Finish::left;
  if (open == 'T') expand(divider, sheets, box, out);
  LidForm lid;
  expand(lid, sheets, box, out);
  for (Face& face : box.faces)
    if (face.id == "L" || face.id == "B") face.cutouts.push_back(round_hole({60, 70}, mm(20)));
  REQUIRE_FALSE(out.has_errors());
  return box;
}

} // namespace

TEST_CASE("Made smaller, a locker is the locker of that size, holes and lips where they were measured from") {
  const Box made = resized(tray(400, 300, 600, 'F'), 396.5, 301.0, 600.0);
  check_same(made, tray(396.5, 301.0, 600.0, 'F'));
}

TEST_CASE("A tray keeps its divider where it is measured from, and its lid grows with it") {
  const Box made = resized(tray(400, 300, 150, 'T'), 398.7, 300.0, 148.0);
  check_same(made, tray(398.7, 300.0, 148.0, 'T'));
}

TEST_CASE("There and back is the same box; the geometry of the new size is sound and as large as asked for") {
  Case c = locker();
  const Box before = c.box();
  c.box() = resized(before, 397.3, 299.0, 601.5);
  c.make();
  CHECK(c.geometry.high.x - c.geometry.low.x == Approx(397.3));
  CHECK(c.geometry.high.y - c.geometry.low.y == Approx(299.0));
  CHECK(c.geometry.high.z - c.geometry.low.z == Approx(601.5));
  check_same(enlarged(enlarged(before, {2.0, -3.0, 0.5}), {-2.0, 3.0, -0.5}), before);
  Box unsized = before;
  unsized.width.reset();
  CHECK_THROWS_AS(resized(unsized, 400, 300, 600), InternalError);
  CHECK_FALSE(enlarged(unsized, {1, 0, 0}).width.has_value());
}

TEST_CASE("A sloped face goes along with the sides that it joins") {
  // A hip from a low left side to a high right side, its lower edge at x 0, its upper at x 400.
  Box box;
  box.parts.resize(1);
  Face hip;
  hip.id = "H";
  hip.placement.origin = {0, 0, 100};
  hip.placement.u = unit(Vec3{400, 0, 300});
  hip.placement.v = {0, 1, 0};
  hip.outline = {{0, 0}, {500, 0}, {500, 200}, {0, 200}};
  box.faces.push_back(hip);
  const Face wider = enlarged(box, {20, 0, 0}).faces[0];
  CHECK(norm(wider.placement.at(wider.outline[2]) - Vec3{420, 200, 400}) < 1e-9);
  CHECK(norm(wider.placement.at(wider.outline[3]) - Vec3{0, 200, 100}) < 1e-9);
  CHECK(norm(wider.placement.u) == Approx(1.0));
  CHECK(wider.outline[1].x == Approx(std::hypot(420.0, 300.0)));
}
