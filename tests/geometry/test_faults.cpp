#include "boxes.h"
#include "support/table.h"

#include <functional>
#include <map>

using namespace tacksquare;
using namespace tacksquare::test;

namespace {

Face& face(Case& c, const std::string& id) {
  return c.box.faces[face_of(c, id)];
}

void move(Case& c, const std::string& id, Vec3 by) {
  face(c, id).placement.origin = face(c, id).placement.origin + by;
}

std::size_t add_loose_plate(Case& c, const std::string& id, Vec3 at) {
  return add_face(c, id, {at, at + Vec3{100, 0, 0}, at + Vec3{100, 100, 0}, at + Vec3{0, 100, 0}});
}

Case bare() {
  Case c;
  c.job.sheets.push_back(sheet("mild-steel", 2.0));
  c.box.id = std::string("b");
  return c;
}

using Change = std::function<Case()>;

Case changed(Case c, const std::function<void(Case&)>& change) {
  change(c);
  return c;
}

// Each fault by its name in the table.
const std::map<std::string, Change>& faults() {
  static const std::map<std::string, Change> all{
      {"two points",
       [] {
         return changed(ballast_float(), [](Case& c) {
           face(c, "T").outline.resize(2);
           face(c, "T").setback_mm.resize(2);
         });
       }},
      {"same point twice",
       [] {
         return changed(ballast_float(), [](Case& c) { face(c, "T").outline[2] = face(c, "T").outline[0]; });
       }},
      {"crosses itself",
       [] {
         return changed(ballast_float(),
                        [](Case& c) { std::swap(face(c, "T").outline[1], face(c, "T").outline[2]); });
       }},
      {"clockwise",
       [] {
         return changed(ballast_float(), [](Case& c) {
           auto& o = face(c, "T").outline;
           o = std::vector<Vec2>(o.rbegin(), o.rend());
         });
       }},
      {"cut-out outside",
       [] {
         return changed(ballast_float(), [](Case& c) {
           face(c, "L").cutouts = {{{300, 100}, {500, 100}, {500, 200}}};
         });
       }},
      {"cut-outs overlap",
       [] {
         return changed(ballast_float(), [](Case& c) {
           face(c, "L").cutouts = {{{100, 100}, {200, 100}, {200, 200}},
                                   {{150, 100}, {250, 100}, {200, 200}}};
         });
       }},
      {"cut-out crosses itself",
       [] {
         return changed(ballast_float(), [](Case& c) {
           face(c, "L").cutouts = {{{100, 100}, {200, 200}, {200, 100}, {100, 200}}};
         });
       }},
      {"axes not square",
       [] {
         return changed(ballast_float(), [](Case& c) { face(c, "T").placement.v = unit({0.1, 1, 0}); });
       }},
      {"axis not unit",
       [] { return changed(ballast_float(), [](Case& c) {
              face(c, "T").placement.v = {0, 2, 0};
            }); }},
      {"setback too large",
       [] { return changed(ballast_float(), [](Case& c) {
              face(c, "T").setback_mm = {200, 0, 200, 0};
            }); }},
      {"lid too high", [] { return changed(ballast_float(), [](Case& c) {
                              move(c, "T", {0, 0, 12.4});
                            }); }},
      {"short common line",
       [] {
         return changed(ballast_float(), [](Case& c) {
           c.box.seams.resize(1);
           c.box.faces.resize(4);
           c.box.parts.resize(4);
           c.box.vents.clear();
           move(c, "L", {0, 0, 294});
           for (const std::size_t p : {1u, 3u})
             c.box.parts[p].loose = true;
         });
       }},
      {"crossing at a point",
       [] {
         return changed(ballast_float(), [](Case& c) {
           face(c, "L").placement.u = unit({0, -1, 0.3});
           face(c, "L").placement.v = unit({0, 0.3, 1});
         });
       }},
      {"butt at an angle",
       [] { return changed(ballast_float(), [](Case& c) { c.box.seams[0].joint = JointKind::butt; }); }},
      {"corner in one plane",
       [] {
         return changed(tray(),
                        [](Case& c) { c.box.seams[seam_of(c, "L-lip", "B-lip")].joint = JointKind::corner; });
       }},
      {"lap at an angle",
       [] { return changed(ballast_float(), [](Case& c) { c.box.seams[0].joint = JointKind::lap; }); }},
      {"seam to itself",
       [] {
         return changed(ballast_float(), [](Case& c) { c.box.seams[0].face_b = c.box.seams[0].face_a; });
       }},
      {"seam twice",
       [] {
         return changed(ballast_float(), [](Case& c) {
           Seam again = c.box.seams[0];
           again.id = std::string("again");
           c.box.seams.push_back(again);
         });
       }},
      {"bend apart", [] { return changed(locker(), [](Case& c) {
                            move(c, "T", {0, 0, 3});
                          }); }},
      {"bend loop",
       [] {
         return changed(locker(), [](Case& c) {
           c.box.parts[0].bends.push_back({face_of(c, "T"), face_of(c, "L"), mm(2), {}});
         });
       }},
      {"bend left out",
       [] {
         return changed(locker(), [](Case& c) { c.box.parts[0].bends.erase(c.box.parts[0].bends.begin()); });
       }},
      {"part untied",
       [] { return changed(ballast_float(), [](Case& c) {
              add_loose_plate(c, "X", {900, 0, 0});
            }); }},
      {"seam on a loose part",
       [] {
         return changed(ballast_float(), [](Case& c) {
           c.box.parts[c.box.faces[face_of(c, "T")].part].loose = true;
           c.box.seams.resize(9);
         });
       }},
      {"no vent", [] { return changed(ballast_float(), [](Case& c) { c.box.vents.clear(); }); }},
      {"vent outside",
       [] { return changed(ballast_float(), [](Case& c) {
              c.box.vents[0].at = {2, 200};
            }); }},
      {"vent small",
       [] { return changed(ballast_float(), [](Case& c) { c.box.vents[0].diameter = mm(2); }); }},
      {"vent wide",
       [] {
         return changed(ballast_float(), [](Case& c) {
           c.box.vents[0].at = {200, 200};
           c.box.vents[0].diameter = mm(40);
         });
       }},
      {"vent near a seam",
       [] { return changed(ballast_float(), [](Case& c) {
              c.box.vents[0].at = {12, 200};
            }); }},
      {"two common lines",
       [] {
         return changed(ballast_float(), [](Case& c) {
           // A notch in the middle of the lid's left edge.
           Face& t = face(c, "T");
           auto& o = t.outline;
           o.insert(o.begin() + 4, {{o[3].x, 250}, {o[3].x + 30, 250}, {o[3].x + 30, 150}, {o[3].x, 150}});
           t.setback_mm.assign(o.size(), 0.0);
         });
       }},
      {"drawn inside out",
       [] {
         // A shelf and the plate behind it, each seen from where the other is.
         Case c = bare();
         const auto a = add_face(c, "A", {{0, 0, 0}, {40, 0, 0}, {40, 100, 0}, {0, 100, 0}});
         const auto e = add_face(c, "E", {{0, 0, 0}, {0, 100, 0}, {0, 100, 50}, {0, 0, 50}});
         add_seam(c, e, a);
         return c;
       }},
      {"drawn inside out, folded",
       [] {
         Case c = bare();
         const auto a = add_face(c, "A", {{0, 0, 0}, {40, 0, 0}, {40, 100, 0}, {0, 100, 0}});
         const auto up = add_face(c, "F", {{40, 0, 0}, {40, 0, 40}, {40, 100, 40}, {40, 100, 0}});
         c.box.faces[up].part = c.box.faces[a].part;
         c.box.parts.pop_back();
         c.box.parts[0].bends.push_back({a, up, mm(2), {}});
         const auto e = add_face(c, "E", {{0, 0, 0}, {0, 100, 0}, {0, 100, 50}, {0, 0, 50}});
         add_seam(c, e, a);
         return c;
       }},
      {"nothing to stand on",
       [] {
         // A cross of two plates, the second one in two halves.
         Case c = bare();
         const auto a = add_face(c, "A", {{0, 0, 0}, {80, 0, 0}, {80, 100, 0}, {0, 100, 0}});
         const auto up = add_face(c, "P", {{40, 0, 0}, {40, 100, 0}, {40, 100, 40}, {40, 0, 40}});
         const auto down = add_face(c, "Q", {{40, 0, -40}, {40, 100, -40}, {40, 100, 0}, {40, 0, 0}});
         add_seam(c, up, a, JointKind::tee);
         add_seam(c, down, a, JointKind::tee);
         return c;
       }},
      {"flat pattern overlaps",
       [] {
         return changed(tray(), [](Case& c) {
           // Two walls bent from the same edge of the base.
           Face twin = face(c, "L");
           twin.id = std::string("L2");
           twin.placement.origin = twin.placement.origin + Vec3{0.2, 0, 0};
           c.box.faces.push_back(twin);
           c.box.parts[twin.part].bends.push_back({face_of(c, "U"), c.box.faces.size() - 1, mm(2), {}});
         });
       }},
  };
  return all;
}

} // namespace

TEST_CASE("bad geometry is told with what to do, each text once") {
  const Table table("geometry_faults.tsv", {"case", "severity", "code", "message", "remedy"});
  CHECK(table.size() == faults().size());
  for (const auto& row : table.rows()) {
    INFO(row.text("case"));
    const Case c = faults().at(row.text("case"))();
    Diagnostics out;
    resolve_geometry(c.job, c.box, out);
    REQUIRE_FALSE(out.items().empty());
    const Diagnostic& d = out.items().front();
    CHECK((d.severity == Severity::error ? "error" : "caution") == row.text("severity"));
    CHECK(d.code == row.text("code"));
    CHECK(d.message == row.text("message"));
    CHECK(d.remedy == row.text("remedy"));
  }
}

TEST_CASE("all faults of a box come in one run, each with its place") {
  Case c = ballast_float();
  for (std::size_t f = 0; f < c.box.faces.size(); ++f)
    c.box.faces[f].where.offset = 100 + f;
  for (std::size_t s = 0; s < c.box.seams.size(); ++s)
    c.box.seams[s].where.offset = 200 + s;
  std::swap(face(c, "U").outline[1], face(c, "U").outline[2]);
  move(c, "T", {0, 0, 20});
  Diagnostics out;
  resolve_geometry(c.job, c.box, out);
  std::vector<std::size_t> places;
  for (const Diagnostic& d : out.items())
    places.push_back(d.where.offset);
  // The crossing outline, and the four seams of the lid; none of the seams on the face that is unsound.
  CHECK(places == std::vector<std::size_t>{100 + face_of(c, "U"), 208, 209, 210, 211});
}

TEST_CASE("middle surfaces may lie apart by half of both thicknesses and 0.5 mm") {
  for (const double gap : {3.4, 3.6}) {
    Case c = ballast_float(); // 3 mm sheet: 3.5 mm
    move(c, "T", {0, 0, gap});
    Diagnostics out;
    resolve_geometry(c.job, c.box, out);
    CHECK(out.has_errors() == (gap > 3.5));
  }
}
