// Folded parts built by hand, and patterns of any.
#pragma once

#include "boxes.h"
#include "geometry/flat_pattern.h"

namespace tacksquare::test {

inline std::vector<FlatPattern> patterns_of(const Case& c, const TackPlaces& tacks = {}) {
  Diagnostics out;
  const BoxGeometry g = resolve_geometry(c.job, c.box, out);
  std::vector<FlatPattern> made = flat_patterns(c.job, c.box, g, tacks, out);
  for (const Diagnostic& d : out.items())
    UNSCOPED_INFO(d.code << ": " << d.message);
  REQUIRE_FALSE(out.has_errors());
  REQUIRE(made.size() == c.box.parts.size());
  return made;
}

// Faces in space with sharp corners become one part, bent where stated.
inline Case bent(double t_mm, double r_mm,
                 const std::vector<std::pair<std::string, std::vector<Vec3>>>& faces,
                 const std::vector<std::pair<std::size_t, std::size_t>>& bends) {
  Case c;
  c.job.sheets.push_back(sheet("mild-steel", t_mm));
  for (const auto& [id, corners] : faces)
    add_face(c, id, corners);
  c.box.parts.resize(1);
  for (Face& face : c.box.faces)
    face.part = 0;
  for (const auto& [a, b] : bends)
    c.box.parts[0].bends.push_back({a, b, mm(r_mm), {}});
  return c;
}

// Outside 50 + 80 + 50, 40 long, 2 mm: on middle surfaces 49, 78, 49. Open to the top, seen from outside.
inline Case u_part(double r_mm = 2.56) {
  return bent(2.0, r_mm,
              {{"M", {{0, 40, 0}, {78, 40, 0}, {78, 0, 0}, {0, 0, 0}}},
               {"L", {{0, 40, 0}, {0, 0, 0}, {0, 0, 49}, {0, 40, 49}}},
               {"R", {{78, 0, 0}, {78, 40, 0}, {78, 40, 49}, {78, 0, 49}}}},
              {{0, 1}, {0, 2}});
}

} // namespace tacksquare::test
