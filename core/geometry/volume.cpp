#include "geometry/parts_of_resolve.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace tacksquare {
namespace {

constexpr double kLeastVent_mm = 5.0, kMostVent_mm = 12.0; // 6 to 8 is usual; common practice
constexpr double kVentClear_mm = 10.0;                     // from the edge of a vent to a seam
constexpr double kClosing = 0.02; // a closed skin's area vectors add up to less than this share of its area

// Keeps the faces whose every edge is held by another kept face: an open box loses its walls one by one.
std::vector<std::size_t> faces_without_free_edge(const Box& box, const std::vector<Panel>& panels,
                                                 const std::vector<BendMeeting>& bends,
                                                 const std::vector<SeamMeeting>& seams) {
  std::vector<bool> kept(panels.size());
  for (std::size_t f = 0; f < panels.size(); ++f)
    kept[f] = panels[f].welded();
  for (bool changed = true; changed;) {
    changed = false;
    std::vector<BendMeeting> held_bends;
    std::vector<SeamMeeting> held = seams;
    for (const BendMeeting& m : bends) {
      const Bend& b = box.parts[m.part].bends[m.bend];
      if (kept[b.face_a] && kept[b.face_b]) held_bends.push_back(m);
    }
    for (std::size_t s = 0; s < held.size(); ++s)
      if (!kept[box.seams[s].face_a] || !kept[box.seams[s].face_b]) held[s] = {};
    for (const FreeEdge& e : free_edges(box, panels, held_bends, held)) {
      if (kept[e.face]) changed = true;
      kept[e.face] = false;
    }
  }
  std::vector<std::size_t> faces;
  for (std::size_t f = 0; f < panels.size(); ++f)
    if (kept[f]) faces.push_back(f);
  return faces;
}

// Divergence theorem over the faces; nothing when they do not close.
std::optional<ClosedVolume> enclosed(const std::vector<Panel>& panels,
                                     const std::vector<std::size_t>& faces) {
  if (faces.size() < 4) return std::nullopt;
  Vec3 sum, home = panels[faces.front()].ring.front();
  double skin = 0.0, volume = 0.0;
  for (const std::size_t f : faces) {
    const Panel& p = panels[f];
    if (!p.shape.holes.empty()) return std::nullopt; // the air gets out
    const double mm2 = area(p.shape);
    sum = sum + p.normal * mm2;
    skin += mm2;
    volume += mm2 * dot(p.normal, p.ring.front() - home) / 3.0;
  }
  if (norm(sum) > kClosing * skin || volume <= 0.0) return std::nullopt;
  return ClosedVolume{volume, faces};
}

} // namespace

std::optional<ClosedVolume> closed_volume(const Box& box, const std::vector<Panel>& panels,
                                          const std::vector<BendMeeting>& bends,
                                          const std::vector<SeamMeeting>& seams) {
  const std::vector<std::size_t> faces = faces_without_free_edge(box, panels, bends, seams);
  // A divider stands on other faces and is no part of the skin; a let-in panel is.
  std::vector<std::size_t> skin;
  for (const std::size_t f : faces) {
    const bool stands = std::any_of(box.seams.begin(), box.seams.end(), [&](const Seam& s) {
      return s.joint == JointKind::tee && s.face_a == f;
    });
    if (!stands) skin.push_back(f);
  }
  if (auto volume = enclosed(panels, skin)) return volume;
  return enclosed(panels, faces);
}

void check_vents(const Box& box, const std::vector<Panel>& panels, const BoxGeometry& geometry,
                 Diagnostics& out) {
  for (const Vent& vent : box.vents) {
    const Panel& p = panels[vent.face];
    const double radius = 0.5 * in_mm(vent.diameter);
    if (distance_to(p.cut, vent.at) > 0.0 || distance_to_edges(p.cut, vent.at) < radius) {
      out.error("vent-outside", vent.where,
                fmt::format("the vent of {:.1f} mm does not lie inside face {}", 2.0 * radius, p.face->id),
                "place it at least its radius inside the edges and clear of the cut-outs");
      continue;
    }
    const bool small = 2.0 * radius < kLeastVent_mm;
    if (small || (vent.plugged_last && 2.0 * radius > kMostVent_mm))
      out.caution("vent-size", vent.where,
                  fmt::format("the vent of {:.1f} mm in face {} is {}", 2.0 * radius, p.face->id,
                              small ? "small: spatter closes it" : "wide: no dab closes it"),
                  "state a diameter of 6 to 8 mm");
    const Vec3 at = p.face->placement.at(vent.at);
    for (std::size_t s = 0; s < geometry.seams.size(); ++s) {
      const double clear = distance({geometry.seams[s].start, geometry.seams[s].end}, at) - radius;
      if (clear < kVentClear_mm)
        out.caution(
            "vent-near-seam", vent.where,
            fmt::format("the vent in face {} is {:.1f} mm from seam {}", p.face->id, std::max(clear, 0.0),
                        box.seams[s].id),
            fmt::format("keep it {:.0f} mm clear, so that the seam does not close it", kVentClear_mm));
    }
  }
  if (!geometry.closed) return;
  const auto& skin = geometry.closed->faces;
  const bool vented = std::any_of(box.vents.begin(), box.vents.end(), [&](const Vent& v) {
    return std::find(skin.begin(), skin.end(), v.face) != skin.end();
  });
  if (!vented)
    out.error("vent-missing", box.where,
              fmt::format("box {} encloses {:.1f} litres and has no vent", box.id,
                          geometry.closed->volume_mm3 * 1e-6),
              "state a vent of 6 to 8 mm in one of its faces: it stays open while welding and cooling and is "
              "plugged last");
}

} // namespace tacksquare
