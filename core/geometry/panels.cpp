#include "geometry/scene.h"

#include <cmath>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kAxisSlack = 1e-4;

void check_axes(const Face& face, Panel& panel, Diagnostics& out) {
  const Placement& p = face.placement;
  const double nu = norm(p.u), nv = norm(p.v);
  const bool finite = std::isfinite(nu) && std::isfinite(nv) && std::isfinite(norm(p.origin));
  if (finite && std::abs(nu - 1.0) < kAxisSlack && std::abs(nv - 1.0) < kAxisSlack) {
    if (std::abs(dot(p.u, p.v)) < kAxisSlack) return;
    out.error("face-axes", face.where,
              fmt::format("the two axes of face {} are {:.2f} degrees apart", face.id,
                          in_deg(rad(std::acos(dot(p.u, p.v))))),
              "place the face with two axes at right angles");
  } else {
    out.error("face-axes", face.where, fmt::format("an axis of face {} has no length of 1", face.id),
              "give the directions of the face's axes as unit vectors");
  }
  panel.sound = false;
}

void check_outline(const Face& face, Panel& panel, Diagnostics& out) {
  const std::string fault = ring_fault(face.outline);
  if (!fault.empty()) {
    out.error("outline", face.where, fmt::format("the outline of face {} {}", face.id, fault),
              "list each corner once, in order round the face");
    panel.sound = false;
  } else if (signed_area(face.outline) < 0.0) {
    out.error("outline-turn", face.where,
              fmt::format("the outline of face {} runs clockwise as seen from outside", face.id),
              "list its points the other way round, or turn the face's placement over");
    panel.sound = false;
  }
}

void check_cutouts(const Face& face, Panel& panel, Diagnostics& out) {
  const std::size_t n = face.cutouts.size();
  std::vector<bool> sound(n, true);
  for (std::size_t i = 0; i < n; ++i) {
    const std::string fault = ring_fault(face.cutouts[i]);
    if (!fault.empty()) {
      out.error("cutout", face.where, fmt::format("cut-out {} of face {} {}", i + 1, face.id, fault),
                "list each corner once, in order round the cut-out");
      sound[i] = false;
    } else if (panel.sound && !lies_within(face.cutouts[i], face.outline)) {
      out.error("cutout-outside", face.where,
                fmt::format("cut-out {} of face {} does not lie inside the outline", i + 1, face.id),
                "move it inside, or draw it as part of the outline");
      sound[i] = false;
    }
    for (std::size_t j = 0; j < i; ++j)
      if (sound[i] && sound[j] && overlap(face.cutouts[i], face.cutouts[j])) {
        out.error("cutouts-overlap", face.where,
                  fmt::format("cut-outs {} and {} of face {} overlap", j + 1, i + 1, face.id),
                  "join them into one cut-out or move them apart");
        sound[i] = false;
      }
    if (!sound[i]) panel.sound = false;
  }
}

// Where a face is bent nothing is cut: a setback there has no meaning.
std::vector<double> setbacks(const std::vector<Panel>& panels, std::size_t index) {
  const Panel& panel = panels[index];
  std::vector<double> moved = panel.face->setback_mm;
  for (const Bend& bend : panel.part->bends) {
    if (bend.face_a != index && bend.face_b != index) continue;
    const Panel& other = panels[bend.face_a == index ? bend.face_b : bend.face_a];
    if (other.ring.empty()) continue;
    for (std::size_t i = 0; i < panel.ring.size(); ++i)
      for (std::size_t j = 0; j < other.ring.size(); ++j)
        if (common_part(panel.edge(i), other.edge(j), kMeetSlack_mm)) moved[i] = 0.0;
  }
  return moved;
}

void cut(Panel& panel, Diagnostics& out) {
  panel.cut = {edges_moved(panel.shape.outline, panel.inset_mm), panel.shape.holes};
  const bool sound = ring_fault(panel.cut.outline).empty() && signed_area(panel.cut.outline) > 0.0;
  bool holes_in = sound;
  for (const Ring& hole : panel.cut.holes)
    holes_in = holes_in && lies_within(hole, panel.cut.outline);
  if (!holes_in) {
    out.error("setback", panel.face->where,
              fmt::format("the setbacks of face {} leave no sound shape to cut", panel.face->id),
              "make the setbacks smaller or the face larger");
    panel.sound = false;
    return;
  }
  for (const Vec2 p : panel.cut.outline)
    panel.cut_ring.push_back(panel.face->placement.at(p));
}

} // namespace

Vec3 Panel::inward(std::size_t i) const {
  const Segment e = edge(i);
  return unit(cross(normal, e.end - e.start));
}

std::vector<Panel> make_panels(const Job& job, const Box& box, Diagnostics& out) {
  std::vector<Panel> panels;
  for (const Face& face : box.faces) {
    if (face.part >= box.parts.size() || face.setback_mm.size() != face.outline.size())
      throw InternalError("face " + face.id + ": no part, or not one setback for each edge");
    Panel panel;
    panel.face = &face;
    panel.part = &box.parts[face.part];
    panel.sheet = &job.sheets.at(panel.part->sheet);
    panel.t_mm = in_mm(panel.sheet->thickness);
    check_axes(face, panel, out);
    check_outline(face, panel, out);
    check_cutouts(face, panel, out);
    if (panel.sound) {
      panel.shape = {face.outline, face.cutouts};
      panel.normal = unit(face.placement.normal());
      for (const Vec2 p : face.outline)
        panel.ring.push_back(face.placement.at(p));
    }
    panels.push_back(std::move(panel));
  }
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (!panels[i].sound) continue;
    panels[i].inset_mm = setbacks(panels, i);
    cut(panels[i], out);
  }
  return panels;
}

} // namespace tacksquare
