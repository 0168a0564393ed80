// Boxes of the pilot station and plainer ones, built in the tests by the short forms or by hand.
#pragma once

#include "geometry/box_geometry.h"
#include "job/forms.h"
#include "support/catch.h"

#include <fmt/format.h>
#include <string>
#include <vector>

namespace tacksquare::test {

struct Case {
  Job job;
  Box box;
};

inline Sheet sheet(const std::string& metal, double t_mm) {
  Sheet s;
  s.id = metal;
  s.metal = *find_metal(metal);
  s.thickness = mm(t_mm);
  return s;
}

// 600 x 400 x 300 folded from one 2 mm blank, open in front.
inline Case locker() {
  Case c;
  c.job.sheets = {sheet("mild-steel", 2.0)};
  c.box.id = "locker";
  OpenBoxForm form;
  form.width = mm(400);
  form.depth = mm(300);
  form.height = mm(600);
  form.inside_radius = mm(2);
  Diagnostics out;
  expand(form, c.job.sheets, c.box, out);
  REQUIRE(out.items().empty());
  return c;
}

// 600 x 400 x 300 closed, six panels of 3 mm; a vent of 8 mm in the lid.
inline Case ballast_float() {
  Case c;
  c.job.sheets = {sheet("mild-steel", 3.0)};
  c.box.id = "float";
  ClosedBoxForm form;
  form.width = mm(600);
  form.depth = mm(400);
  form.height = mm(300);
  Diagnostics out;
  expand(form, c.job.sheets, c.box, out);
  REQUIRE(out.items().empty());
  Vent vent;
  for (std::size_t f = 0; f < c.box.faces.size(); ++f)
    if (c.box.faces[f].id == "T") vent.face = f;
  vent.at = {60, 60};
  vent.diameter = mm(8);
  c.box.vents = {vent};
  return c;
}

// 500 x 300 x 250, five panels of 2.5 mm open at the top, and a loose lid of 2 mm.
inline Case battery_box() {
  Case c;
  c.job.sheets = {sheet("mild-steel", 2.5), sheet("mild-steel", 2.0)};
  c.box.id = "battery";
  OpenBoxForm form;
  form.width = mm(500);
  form.depth = mm(300);
  form.height = mm(250);
  form.open_side = std::string("T");
  form.construction = Construction::panels;
  LidForm lid;
  lid.sheet = 1;
  lid.overhang = mm(5);
  Diagnostics out;
  expand(form, c.job.sheets, c.box, out);
  expand(lid, c.job.sheets, c.box, out);
  REQUIRE(out.items().empty());
  return c;
}

// 500 x 350 x 120 aluminium 2 mm, folded, lips of 20 mm out, one divider of 80 mm in the middle of the width.
inline Case tray() {
  Case c;
  c.job.sheets = {sheet("5052", 2.0)};
  c.box.id = "tray";
  OpenBoxForm form;
  form.width = mm(500);
  form.depth = mm(350);
  form.height = mm(120);
  form.open_side = std::string("T");
  form.inside_radius = mm(2);
  FlangeForm flange;
  flange.width = mm(20);
  flange.inside_radius = mm(2);
  DividerForm divider;
  divider.at = mm(250);
  divider.height = mm(80);
  divider.seam.weld = WeldKind::fillet;
  divider.seam.side = WeldSide::inside;
  Diagnostics out;
  expand(form, c.job.sheets, c.box, out);
  expand(flange, c.job.sheets, c.box, out);
  expand(divider, c.job.sheets, c.box, out);
  REQUIRE(out.items().empty());
  return c;
}

// A part of its own with one flat face, its outline stated in space, counter-clockwise seen from outside. The
// first edge gives the direction of the face's x.
inline std::size_t add_face(Case& c, const std::string& id, const std::vector<Vec3>& corners) {
  Face face;
  face.id = id;
  face.part = c.box.parts.size();
  Vec3 n;
  for (std::size_t i = 0; i < corners.size(); ++i)
    n = n + cross(corners[i], corners[(i + 1) % corners.size()]);
  n = unit(n);
  face.placement.origin = corners[0];
  face.placement.u = unit(corners[1] - corners[0]);
  face.placement.v = cross(n, face.placement.u);
  for (const Vec3 p : corners)
    face.outline.push_back(face.placement.local(p));
  face.setback_mm.assign(corners.size(), 0.0);
  c.box.parts.push_back({id, 0, false, {}, {}});
  c.box.faces.push_back(face);
  return c.box.faces.size() - 1;
}

inline void add_seam(Case& c, std::size_t a, std::size_t b, JointKind joint = JointKind::corner) {
  Seam seam;
  seam.id = fmt::format("S{}", c.box.seams.size() + 1);
  seam.face_a = a;
  seam.face_b = b;
  seam.joint = joint;
  c.box.seams.push_back(seam);
}

inline BoxGeometry resolved(const Case& c) {
  Diagnostics out;
  BoxGeometry g = resolve_geometry(c.job, c.box, out);
  for (const Diagnostic& d : out.items())
    UNSCOPED_INFO(d.code << ": " << d.message);
  REQUIRE(out.items().empty());
  return g;
}

inline std::size_t face_of(const Case& c, const std::string& id) {
  for (std::size_t f = 0; f < c.box.faces.size(); ++f)
    if (c.box.faces[f].id == id) return f;
  FAIL("no face " << id);
  return 0;
}

inline std::size_t seam_of(const Case& c, const std::string& a, const std::string& b) {
  const std::size_t fa = face_of(c, a), fb = face_of(c, b);
  for (std::size_t s = 0; s < c.box.seams.size(); ++s) {
    const Seam& seam = c.box.seams[s];
    if ((seam.face_a == fa && seam.face_b == fb) || (seam.face_a == fb && seam.face_b == fa)) return s;
  }
  FAIL("no seam " << a << "-" << b);
  return 0;
}

inline bool near(Vec3 a, Vec3 b, double slack_mm = 1e-6) {
  return norm(a - b) <= slack_mm;
}

} // namespace tacksquare::test
