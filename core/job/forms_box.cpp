#include "job/forms_box.h"

#include <algorithm>

namespace tacksquare::forms {

namespace {

constexpr std::array<Side, 6> kSides = {{{'F', {'U', 'R', 'T', 'L'}},
                                         {'B', {'U', 'L', 'T', 'R'}},
                                         {'L', {'U', 'F', 'T', 'B'}},
                                         {'R', {'U', 'B', 'T', 'F'}},
                                         {'U', {'B', 'R', 'F', 'L'}},
                                         {'T', {'F', 'R', 'B', 'L'}}}};

int rank(char letter) {
  if (letter == 'T' || letter == 'U') return 2;
  return letter == 'F' || letter == 'B' ? 1 : 0;
}

// Higher covers lower.
int cover(char letter, const CornerRule& rule) {
  const auto stated = std::find(rule.over.begin(), rule.over.end(), std::string(1, letter));
  if (stated != rule.over.end()) return 100 - static_cast<int>(stated - rule.over.begin());
  return rule.last_face == std::string(1, letter) ? 3 : rank(letter);
}

} // namespace

const Side& side(char letter) {
  for (const Side& s : kSides)
    if (s.letter == letter) return s;
  throw InternalError(std::string("no side ") + letter);
}

char opposite(char letter) {
  constexpr std::string_view from = "FBLRUT", to = "BFRLTU";
  return to[from.find(letter)];
}

Placement side_placement(char letter, const Shell& s) {
  const double m = s.t / 2.0;
  switch (letter) {
  case 'F':
    return {{0, m, 0}, {1, 0, 0}, {0, 0, 1}};
  case 'B':
    return {{s.w, s.d - m, 0}, {-1, 0, 0}, {0, 0, 1}};
  case 'L':
    return {{m, s.d, 0}, {0, -1, 0}, {0, 0, 1}};
  case 'R':
    return {{s.w - m, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  case 'U':
    return {{0, s.d, m}, {1, 0, 0}, {0, -1, 0}};
  case 'T':
    return {{0, 0, s.h - m}, {1, 0, 0}, {0, 1, 0}};
  default:
    throw InternalError(std::string("no side ") + letter);
  }
}

Vec2 side_size(char letter, const Shell& s) {
  if (letter == 'T' || letter == 'U') return {s.w, s.d};
  return {letter == 'L' || letter == 'R' ? s.d : s.w, s.h};
}

std::vector<Vec2> rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

Face side_face(char letter, const Shell& shell, const std::string& open_side) {
  const Vec2 size = side_size(letter, shell);
  std::array<double, 4> inset{};
  for (std::size_t e = 0; e < 4; ++e)
    inset[e] = std::string(1, side(letter).neighbours[e]) == open_side ? 0.0 : shell.t / 2.0;
  Face face;
  face.id = letter;
  face.outline = rectangle(inset[3], inset[0], size.x - inset[1], size.y - inset[2]);
  face.setback_mm.assign(4, 0.0);
  face.placement = side_placement(letter, shell);
  return face;
}

std::size_t edge_towards(char letter, char neighbour) {
  const auto& all = side(letter).neighbours;
  const auto found = std::find(all.begin(), all.end(), neighbour);
  if (found == all.end())
    throw InternalError(std::string("opposite sides do not meet: ") + letter + neighbour);
  return static_cast<std::size_t>(found - all.begin());
}

std::size_t face_index(const Box& box, const std::string& id) {
  for (std::size_t i = 0; i < box.faces.size(); ++i)
    if (box.faces[i].id == id) return i;
  throw InternalError("no face " + id);
}

std::string next_seam_id(const Box& box, const std::string& prefix) {
  for (std::size_t number = box.seams.size() + 1;; ++number) {
    std::string id = prefix + std::to_string(number);
    if (std::none_of(box.seams.begin(), box.seams.end(), [&](const Seam& s) { return s.id == id; }))
      return id;
  }
}

void add_corner_seam(Box& box, char a, char b, double t_mm, const CornerRule& rule, const Seam& like,
                     const std::string& prefix, Origin where) {
  Seam seam = like;
  seam.id = next_seam_id(box, prefix);
  seam.face_a = face_index(box, std::string(1, a));
  seam.face_b = face_index(box, std::string(1, b));
  seam.joint = JointKind::corner;
  seam.corner = rule.style;
  seam.where = where;

  const bool a_over = cover(a, rule) > cover(b, rule);
  double& over = a_over ? box.faces[seam.face_a].setback_mm[edge_towards(a, b)]
                        : box.faces[seam.face_b].setback_mm[edge_towards(b, a)];
  double& under = a_over ? box.faces[seam.face_b].setback_mm[edge_towards(b, a)]
                         : box.faces[seam.face_a].setback_mm[edge_towards(a, b)];
  under = t_mm / 2.0;
  switch (rule.style) {
  case CornerStyle::open:
    over = t_mm / 2.0;
    break;
  case CornerStyle::half_open:
    over = 0.0;
    break;
  case CornerStyle::lapped:
    over = -t_mm / 2.0;
    break;
  }
  if (rule.style != CornerStyle::open) seam.over = a_over ? seam.face_a : seam.face_b;
  box.seams.push_back(std::move(seam));
}

Shell shell_of(const Box& box, const std::vector<Sheet>& sheets) {
  if (!box.width || !box.depth || !box.height || box.parts.empty())
    throw InternalError("a box without sizes");
  return {in_mm(*box.width), in_mm(*box.depth), in_mm(*box.height),
          in_mm(sheets[box.parts[0].sheet].thickness)};
}

} // namespace tacksquare::forms
