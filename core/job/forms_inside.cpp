// What is added to an open box: dividers, a flanged rim, a loose lid.
#include "base/numbers.h"
#include "job/forms.h"
#include "job/forms_box.h"

#include <algorithm>

namespace tacksquare {

namespace {

using namespace forms;

const std::string kSeamPrefix = "S";

bool needs_open_box(const Box& box, const std::string& what, Origin where, Diagnostics& out) {
  if (box.form == BoxForm::open_box && !box.parts.empty()) return false;
  out.error("form-needs-open-box", where, what + " needs an open box",
            "add <open-box>, or state its faces with <part>");
  return true;
}

double sheet_of_face_mm(const Box& box, const std::vector<Sheet>& sheets, std::size_t face) {
  return in_mm(sheets[box.parts[box.faces[face].part].sheet].thickness);
}

bool id_taken(const Box& box, const std::string& id, Origin where, Diagnostics& out) {
  for (const Face& face : box.faces) {
    if (face.id != id) continue;
    out.error("id-twice", where, "a face \"" + id + "\" is there already", "choose another id",
              Note{"the first one", face.where});
    return true;
  }
  return false;
}

// Where a divider stands: its frame, the sides beyond its four edges ('-' a free edge), and what it divides.
struct Stand {
  Placement placement;
  std::array<char, 4> edges{};
  double size_mm = 0.0; // of the box in the divided direction
  Vec2 extent;          // of the box in the divider's plane
};

Stand stand_of(char across, bool open_top, double at, const Shell& s) {
  if (across == 'd') return {{{s.w, at, 0}, {-1, 0, 0}, {0, 0, 1}}, {'U', 'L', '-', 'R'}, s.d, {s.w, s.h}};
  if (across == 'h') return {{{0, 0, at}, {1, 0, 0}, {0, 1, 0}}, {'-', 'R', 'B', 'L'}, s.h, {s.w, s.d}};
  if (open_top) return {{{at, 0, 0}, {0, 1, 0}, {0, 0, 1}}, {'U', 'B', '-', 'F'}, s.w, {s.d, s.h}};
  return {{{at, 0, 0}, {0, 1, 0}, {0, 0, 1}}, {'U', 'B', 'T', '-'}, s.w, {s.d, s.h}};
}

// The base first, then the walls in the order of the edges.
std::vector<std::size_t> seamed_edges(const Stand& stand, char base) {
  std::vector<std::size_t> edges;
  for (std::size_t e = 0; e < 4; ++e)
    if (stand.edges[e] == base) edges.push_back(e);
  for (std::size_t e = 0; e < 4; ++e)
    if (stand.edges[e] != base && stand.edges[e] != '-') edges.push_back(e);
  return edges;
}

// A divider is a part of one face of the same id that stands on another by a T seam.
bool is_divider(const Box& box, std::size_t face) {
  if (box.parts[box.faces[face].part].id != box.faces[face].id) return false;
  return std::any_of(box.seams.begin(), box.seams.end(),
                     [&](const Seam& s) { return s.joint == JointKind::tee && s.face_a == face; });
}

bool crosses_other(const DividerForm& form, const Placement& placement, const Box& box, Diagnostics& out) {
  for (std::size_t i = 0; i < box.faces.size(); ++i) {
    const Face& other = box.faces[i];
    const bool parallel = std::abs(dot(other.placement.normal(), placement.normal())) > 0.5;
    if (parallel || !is_divider(box, i)) continue;
    out.error("divider-crosses", form.where, "dividers \"" + form.id + "\" and \"" + other.id + "\" cross",
              "state one of them as two pieces with <part> and <seam>", Note{"the other one", other.where});
    return true;
  }
  return false;
}

} // namespace

void expand(const DividerForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out) {
  if (needs_open_box(box, "a divider", form.where, out) || id_taken(box, form.id, form.where, out)) return;
  const bool open_top = box.open_side == "T";
  if (form.across == (open_top ? 'h' : 'd')) {
    out.error(
        "divider-across", form.where,
        open_top
            ? "a divider across the height does not reach the under side of a box that is open at the top"
            : "a divider across the depth does not reach the back of a box that is open in front",
        open_top ? "across=\"width\" or across=\"depth\"" : "across=\"width\" or across=\"height\"");
    return;
  }
  const Shell shell = shell_of(box, sheets);
  const double own_t = in_mm(sheets[form.sheet].thickness), at = in_mm(form.at), tall = in_mm(form.height);
  const Stand stand = stand_of(form.across, open_top, at, shell);
  const double least = shell.t + own_t / 2.0, most = stand.size_mm - least;
  if (at < least || at > most) {
    out.error("divider-outside", form.where,
              "divider \"" + form.id + "\" at " + shortest(at) + " mm lies outside the box",
              "its middle can stand from " + shortest(least) + " mm to " + shortest(most) + " mm");
    return;
  }
  const double room = (open_top ? shell.h : shell.d) - shell.t;
  if (tall > room) {
    out.error("divider-tall", form.where,
              "divider \"" + form.id + "\" of " + shortest(tall) + " mm is taller than the inside, " +
                  shortest(room) + " mm",
              "its height counts from the inside of the side opposite to the opening");
    return;
  }
  if (crosses_other(form, stand.placement, box, out)) return;

  Face face;
  face.id = form.id;
  face.part = box.parts.size();
  face.where = form.where;
  face.placement = stand.placement;
  face.setback_mm.assign(4, 0.0);
  const double m = shell.t / 2.0;
  double x0 = m, y0 = m, x1 = stand.extent.x - m, y1 = stand.extent.y - m;
  if (stand.edges[2] == '-') y1 = shell.t + tall;
  if (stand.edges[3] == '-') x0 = stand.extent.x - shell.t - tall;
  if (stand.edges[0] == '-') y0 = stand.extent.y - shell.t - tall;
  face.outline = rectangle(x0, y0, x1, y1);

  const std::size_t number = box.faces.size();
  const char base = opposite(box.open_side[0]);
  box.parts.push_back({form.id, form.sheet, false, {}, form.where});
  box.faces.push_back(std::move(face));
  for (const std::size_t edge : seamed_edges(stand, base)) {
    Seam seam = form.seam;
    seam.id = next_seam_id(box, kSeamPrefix);
    seam.face_a = number;
    seam.face_b = face_index(box, std::string(1, stand.edges[edge]));
    seam.joint = JointKind::tee;
    seam.over.reset();
    seam.where = form.where;
    box.faces[number].setback_mm[edge] = sheet_of_face_mm(box, sheets, seam.face_b) / 2.0;
    box.seams.push_back(std::move(seam));
  }
}

void expand(const FlangeForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out) {
  if (needs_open_box(box, "a flange", form.where, out)) return;
  if (box.construction != Construction::folded) {
    out.error("flange-on-panels", form.where,
              "a flange is bent from the walls, and this box is made of panels",
              "made=\"folded\", or state the lips with <part>");
    return;
  }
  const Shell shell = shell_of(box, sheets);
  const char open = box.open_side[0];
  const Vec2 size = side_size(open, shell);
  const double m = shell.t / 2.0, wide = in_mm(form.width), radius = in_mm(form.inside_radius);
  if (wide < radius + 2.0 * shell.t) {
    out.error("flange-narrow", form.where,
              "a flange of " + shortest(wide) + " mm leaves no flat beside its bend",
              "at least " + shortest(radius + 2.0 * shell.t) + " mm: inside radius and two thicknesses");
    return;
  }
  if (!form.outward && 2.0 * wide >= std::min(size.x, size.y)) {
    out.error("flange-wide", form.where, "inward flanges of " + shortest(wide) + " mm meet in the opening",
              "less than " + shortest(std::min(size.x, size.y) / 2.0) + " mm");
    return;
  }

  const std::vector<Vec2> corners = rectangle(m, m, size.x - m, size.y - m);
  const double edge = form.outward ? shell.t - wide : wide; // of the lip's free edge, from the outside
  const std::vector<Vec2> tips = rectangle(edge, edge, size.x - edge, size.y - edge);
  const std::size_t first_lip = box.faces.size();
  for (std::size_t k = 0; k < 4; ++k) {
    const char letter = side(open).neighbours[k];
    const std::size_t wall = face_index(box, std::string(1, letter)), next = (k + 1) % 4;
    // The wall now ends at the lip's middle surface.
    Face& face = box.faces[wall];
    const std::size_t rim = edge_towards(letter, open);
    for (const std::size_t v : {rim, (rim + 1) % 4}) {
      Vec2& p = face.outline[v];
      if (rim == 0) p.y = m;
      if (rim == 1) p.x = side_size(letter, shell).x - m;
      if (rim == 2) p.y = side_size(letter, shell).y - m;
      if (rim == 3) p.x = m;
    }
    Face lip;
    lip.id = std::string(1, letter) + "-lip";
    lip.part = face.part;
    lip.where = form.where;
    lip.placement = side_placement(open, shell);
    lip.setback_mm.assign(4, 0.0);
    if (form.outward)
      lip.outline = {tips[k], tips[next], corners[next], corners[k]};
    else
      lip.outline = {corners[k], corners[next], tips[next], tips[k]};
    box.parts[lip.part].bends.push_back({wall, box.faces.size(), form.inside_radius, form.where});
    box.faces.push_back(std::move(lip));
  }
  for (const std::size_t corner : {3u, 2u, 1u, 0u}) {
    Seam seam = form.seam;
    seam.id = next_seam_id(box, kSeamPrefix);
    seam.face_a = first_lip + corner;
    seam.face_b = first_lip + (corner + 3) % 4;
    seam.joint = JointKind::butt;
    seam.over.reset();
    seam.where = form.where;
    box.seams.push_back(std::move(seam));
  }
}

void expand(const LidForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out) {
  if (needs_open_box(box, "a lid", form.where, out) || id_taken(box, form.id, form.where, out)) return;
  const Shell shell = shell_of(box, sheets);
  const char open = box.open_side[0];
  const Vec2 size = side_size(open, shell);
  double out_mm = in_mm(form.overhang);
  for (const Face& face : box.faces) {
    if (face.placement == side_placement(open, shell)) // lips lie in the opening's plane
      for (const Vec2 p : face.outline)
        out_mm = std::max(out_mm, in_mm(form.overhang) - p.x);
  }
  Face face;
  face.id = form.id;
  face.part = box.parts.size();
  face.where = form.where;
  face.outline = rectangle(-out_mm, -out_mm, size.x + out_mm, size.y + out_mm);
  face.setback_mm.assign(4, 0.0);
  face.placement = side_placement(open, shell);
  face.placement.origin = face.placement.origin +
                          face.placement.normal() * ((shell.t + in_mm(sheets[form.sheet].thickness)) / 2.0);
  box.parts.push_back({form.id, form.sheet, true, {}, form.where});
  box.faces.push_back(std::move(face));
}

} // namespace tacksquare
