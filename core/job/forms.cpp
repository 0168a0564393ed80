#include "job/forms.h"

#include "base/numbers.h"
#include "job/forms_box.h"

#include <algorithm>
#include <cmath>

namespace tacksquare {

namespace {

using namespace forms;

bool thick_for_box(const Shell& s, Origin where, Diagnostics& out) {
  const double least = std::min({s.w, s.d, s.h});
  if (3.0 * s.t <= least) return false;
  out.error("sheet-thick", where,
            "the sheet of " + shortest(s.t) + " mm is thicker than a third of the box, " + shortest(least) +
                " mm",
            "check the unit of the thickness and of the sizes");
  return true;
}

void add_panels(Box& box, const std::string& letters, std::size_t sheet, const Shell& shell,
                const std::string& open_side, Origin where) {
  for (const char letter : letters) {
    Face face = side_face(letter, shell, open_side);
    face.part = box.parts.size();
    face.where = where;
    box.faces.push_back(std::move(face));
    box.parts.push_back({std::string(1, letter), sheet, false, {}, where});
  }
}

void add_folded(Box& box, const std::string& letters, char base, const OpenBoxForm& form,
                const Shell& shell) {
  Part part{"body", form.sheet, false, {}, form.where};
  const std::size_t number = box.parts.size(), first = box.faces.size();
  for (const char letter : letters) {
    Face face = side_face(letter, shell, form.open_side);
    face.part = number;
    face.where = form.where;
    box.faces.push_back(std::move(face));
  }
  const std::size_t base_face = first + letters.find(base);
  for (std::size_t i = 0; i < letters.size(); ++i)
    if (letters[i] != base) part.bends.push_back({base_face, first + i, form.inside_radius, form.where});
  box.parts.push_back(std::move(part));
}

// The four walls as one sees them who looks into the opening: upper, right, under, left.
std::string walls_round(char open_side) {
  const auto& n = side(open_side).neighbours;
  return {n[2], n[1], n[0], n[3]};
}

void set_sizes(Box& box, BoxForm form, const Shell& s) {
  box.form = form;
  box.width = mm(s.w);
  box.depth = mm(s.d);
  box.height = mm(s.h);
}

} // namespace

void expand(const OpenBoxForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out) {
  const char open = form.open_side == "T" ? 'T' : 'F';
  const double t = in_mm(sheets[form.sheet].thickness);
  Shell shell{in_mm(form.width), in_mm(form.depth), in_mm(form.height), t};
  if (form.sizes_are_inside) {
    shell.w += 2.0 * t;
    shell.d += open == 'F' ? t : 2.0 * t;
    shell.h += open == 'T' ? t : 2.0 * t;
  }
  if (thick_for_box(shell, form.where, out)) return;
  const bool folded = form.construction == Construction::folded;
  if (folded && 2.0 * (in_mm(form.inside_radius) + t) >= std::min({shell.w, shell.d, shell.h})) {
    out.error("bend-large", form.radius_where.known() ? form.radius_where : form.where,
              "bends of " + shortest(in_mm(form.inside_radius)) + " mm inside radius do not fit into the box",
              "check the unit of inside-radius");
    return;
  }

  const char base = opposite(open);
  const std::string walls = walls_round(open);
  const std::string letters = walls + base;
  box.construction = form.construction;
  box.open_side = open;
  set_sizes(box, BoxForm::open_box, shell);
  if (folded)
    add_folded(box, letters, base, form, shell);
  else
    add_panels(box, letters, form.sheet, shell, box.open_side, form.where);

  const CornerRule rule{form.corner, form.over, {}};
  const auto seam = [&](char a, char b) {
    add_corner_seam(box, a, b, t, rule, form.seam, form.seam_prefix, form.where);
  };
  seam(walls[0], walls[3]);
  seam(walls[0], walls[1]);
  seam(walls[2], walls[1]);
  seam(walls[2], walls[3]);
  if (folded) return;
  for (const char wall : walls)
    seam(base, wall);
}

void expand(const ClosedBoxForm& form, const std::vector<Sheet>& sheets, Box& box, Diagnostics& out) {
  const double t = in_mm(sheets[form.sheet].thickness);
  const double added = form.sizes_are_inside ? 2.0 * t : 0.0;
  const Shell shell{in_mm(form.width) + added, in_mm(form.depth) + added, in_mm(form.height) + added, t};
  if (thick_for_box(shell, form.where, out)) return;

  box.construction = Construction::panels;
  box.open_side.clear();
  box.last_face = form.last_face;
  set_sizes(box, BoxForm::closed_box, shell);
  const std::string walls = walls_round('T');
  add_panels(box, walls + "UT", form.sheet, shell, {}, form.where);

  const CornerRule rule{form.corner, form.over, form.last_face};
  const auto seam = [&](char a, char b) {
    add_corner_seam(box, a, b, t, rule, form.seam, form.seam_prefix, form.where);
  };
  seam(walls[0], walls[3]);
  seam(walls[0], walls[1]);
  seam(walls[2], walls[1]);
  seam(walls[2], walls[3]);
  for (const char base : {'U', 'T'})
    for (const char wall : walls)
      seam(base, wall);
}

std::vector<Vec2> round_hole(Vec2 centre, Length diameter) {
  constexpr int kSides = 32;
  // cos and sin of 1/32 turn by halving a right angle three times: square roots are the same on every
  // machine.
  double c = 0.0, s = 1.0;
  for (int halving = 0; halving < 3; ++halving) {
    s = std::sqrt((1.0 - c) / 2.0);
    c = std::sqrt((1.0 + c) / 2.0);
  }
  const double radius = in_mm(diameter) / 2.0 * std::sqrt(2.0 * kPi / (kSides * s));
  std::vector<Vec2> ring;
  Vec2 arm{radius, 0.0};
  for (int i = 0; i < kSides; ++i) {
    ring.push_back(centre + arm);
    arm = {arm.x * c - arm.y * s, arm.x * s + arm.y * c};
  }
  return ring;
}

} // namespace tacksquare
