// Parts stated by their faces, and holes.
#include "job/file/ranges.h"
#include "job/file/read_parts.h"
#include "job/file/words.h"
#include "job/forms.h"
#include "job/panels.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

struct Ring {
  std::vector<Vec2> points;
  std::vector<double> setback_mm; // of the edge that starts at the point
};

// <point> children. setbacks: they may carry one.
Ring read_ring(const Element& parent, bool setbacks) {
  Ring ring;
  for (Element& e : parent.children("point")) {
    e.require("x", "0 mm");
    e.require("y", "0 mm");
    const auto x = e.quantity("x", parse_length, ranges::point);
    const auto y = e.quantity("y", parse_length, ranges::point);
    std::optional<Length> setback;
    if (setbacks) setback = e.quantity("setback", parse_length, ranges::setback);
    e.allow({});
    e.finish();
    ring.points.push_back({in_mm(x.value_or(mm(0))), in_mm(y.value_or(mm(0)))});
    ring.setback_mm.push_back(in_mm(setback.value_or(mm(0))));
  }
  if (ring.points.size() < 3)
    parent.out().error(
        "outline-open", parent.where(),
        parent.tag() + " has " + std::to_string(ring.points.size()) + " points and encloses nothing",
        "state at least three <point x=\"0 mm\" y=\"0 mm\"/>; the last joins the first by itself");
  return ring;
}

void turn_counter_clockwise(Ring& ring) {
  if (signed_area_mm2(ring.points) >= 0.0) return;
  std::reverse(ring.points.begin(), ring.points.end());
  // Edge i now runs from the old point n-1-i to n-2-i: the old edge n-2-i.
  std::reverse(ring.setback_mm.begin(), ring.setback_mm.end());
  std::rotate(ring.setback_mm.begin(), ring.setback_mm.begin() + 1, ring.setback_mm.end());
}

std::optional<Vec3> read_direction(Element& e, std::string_view name, std::string_view example) {
  e.require(name, example);
  const auto parts = e.list(name, 3, parse_number, ranges::direction);
  if (!parts) return {};
  const Vec3 v{(*parts)[0], (*parts)[1], (*parts)[2]};
  const double length = norm(v);
  if (length < 1e-9) {
    e.out().error("direction-zero", e.where(name), std::string(name) + " has no direction",
                  "for example \"1, 0, 0\"");
    return {};
  }
  return std::abs(length - 1.0) < 1e-12 ? v : unit(v); // what we wrote ourselves stays as it is
}

void read_placement(Element& e, Placement& placement) {
  e.require("origin", "0 mm, 0 mm, 0 mm");
  const auto origin = e.list("origin", 3, parse_length, ranges::place);
  const auto along = read_direction(e, "along", "1, 0, 0");
  const auto up = read_direction(e, "up", "0, 0, 1");
  if (!origin || !along || !up) return;
  placement.origin = {in_mm((*origin)[0]), in_mm((*origin)[1]), in_mm((*origin)[2])};
  placement.u = *along;
  placement.v = *up;
  const double off = dot(*along, *up);
  if (std::abs(off) > 1e-6)
    e.out().error("axes-not-square", e.where("up"), "along and up do not stand square to each other",
                  "along is the direction of x in the face, up the direction of y");
  else if (std::abs(off) > 1e-12)
    placement.v = unit(*up - *along * off);
}

void read_face(Element e, std::size_t part, Ids& ids, Box& box) {
  Face face;
  face.where = e.where();
  face.part = part;
  face.id = e.id();
  const auto drawn = e.text("drawn-on");
  if (drawn && *drawn != "middle")
    e.out().error("word-unknown", e.where("drawn-on"), quoted(*drawn) + " is not known for \"drawn-on\"",
                  "faces are drawn on the middle surface of the sheet: \"middle\"");
  read_placement(e, face.placement);
  Ring ring = read_ring(e, true);
  turn_counter_clockwise(ring);
  face.outline = std::move(ring.points);
  face.setback_mm = std::move(ring.setback_mm);
  read_cutouts(e, box, &face, true);
  e.allow({"point", "hole", "cut-out"});
  e.finish();
  if (face.id.empty() || !ids.add(face.id, box.faces.size(), e.where("id"), e.out())) return;
  box.faces.push_back(std::move(face));
}

void read_bend(Element e, std::size_t part, const Ids& faces, bool sure, Box& box) {
  Bend bend;
  bend.where = e.where();
  e.require("faces", "U F");
  const auto names = e.words("faces");
  e.require("inside-radius", "2 mm");
  const auto radius = e.quantity("inside-radius", parse_length, ranges::radius);
  e.allow({});
  e.finish();
  if (e.has("faces") && names.size() != 2)
    e.out().error("two-faces", e.where("faces"), "a bend joins two faces", "for example faces=\"U F\"");
  if (!sure || names.size() != 2 || !radius) return;
  const auto a = faces.find(names[0], e.out()), b = faces.find(names[1], e.out());
  if (!a || !b) return;
  if (*a == *b || box.faces[*a].part != part || box.faces[*b].part != part) {
    e.out().error("bend-parts", e.where("faces"),
                  *a == *b ? "a bend joins two different faces" : "a bend joins faces of its own part",
                  "faces of two parts are joined by a <seam>");
    return;
  }
  bend.face_a = *a;
  bend.face_b = *b;
  bend.inside_radius = *radius;
  box.parts[part].bends.push_back(bend);
}

} // namespace

void read_own_parts(const Element& box_element, const Known& known, const Job& job, Box& box) {
  const auto elements = box_element.children("part");
  Ids faces("face"), parts("part");
  for (std::size_t i = 0; i < box.faces.size(); ++i)
    faces.add(box.faces[i].id, i, box.faces[i].where, box_element.out());
  for (std::size_t i = 0; i < box.parts.size(); ++i)
    parts.add(box.parts[i].id, i, box.parts[i].where, box_element.out());

  const std::size_t before = box_element.reading().errors(), first = box.parts.size();
  for (Element e : elements) {
    Part part;
    part.where = e.where();
    part.id = e.id();
    part.sheet = read_sheet_ref(e, known, job).value_or(0);
    part.loose = e.yes_or_no("loose").value_or(false);
    const std::size_t number = box.parts.size();
    const auto own_faces = e.children("face");
    if (own_faces.empty())
      e.out().error("part-empty", e.where(), "part " + quoted(part.id) + " has no faces", "add <face>");
    if (!part.id.empty()) parts.add(part.id, number, e.where("id"), e.out());
    box.parts.push_back(part);
    for (const Element& face : own_faces)
      read_face(face, number, faces, box);
    e.allow({"face", "bend"});
    e.finish();
  }
  const bool sure = box_element.reading().errors() == before;
  for (std::size_t i = 0; i < elements.size(); ++i)
    for (const Element& bend : elements[i].children("bend"))
      read_bend(bend, first + i, faces, sure, box);
}

void read_cutouts(const Element& parent, Box& box, Face* face, bool sure) {
  Ids ids("face");
  if (!face)
    for (std::size_t i = 0; i < box.faces.size(); ++i)
      ids.add(box.faces[i].id, i, box.faces[i].where, parent.out());
  const auto target = [&](Element& e) -> Face* {
    if (face) return face;
    e.require("face", "F");
    const auto said = e.text("face");
    if (!said || !sure) return nullptr;
    const auto index = ids.find(Word{*said, e.where("face")}, e.out());
    return index ? &box.faces[*index] : nullptr;
  };
  for (Element& e : parent.children("hole")) {
    Face* into = target(e);
    e.require("at", "50 mm, 50 mm");
    e.require("diameter", "20 mm");
    const auto at = e.list("at", 2, parse_length, ranges::place);
    const auto diameter = e.quantity("diameter", parse_length, ranges::hole);
    e.allow({});
    e.finish();
    if (into && at && diameter)
      into->cutouts.push_back(round_hole({in_mm((*at)[0]), in_mm((*at)[1])}, *diameter));
  }
  for (Element& e : parent.children("cut-out")) {
    Face* into = target(e);
    Ring ring = read_ring(e, false);
    turn_counter_clockwise(ring);
    e.allow({"point"});
    e.finish();
    if (into) into->cutouts.push_back(std::move(ring.points));
  }
}

} // namespace tacksquare
